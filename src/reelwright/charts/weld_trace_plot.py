"""The specification of a weld trace's chart. Imported late: the plotting library takes a second."""

from typing import Any

import altair as alt

from reelwright.charts.plot_parts import from_zero, house_spec, label, rows
from reelwright.charts.weld_trace import Band, TraceDrawn
from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.show import show_digits, with_unit
from reelwright.style import COPPER, GRAPHITE, INK, SEMIBOLD


def weld_trace_spec(
    drawn: TraceDrawn, band: Band | None, *, width_px: int, height_px: int
) -> dict[str, Any]:
    """Return the chart as a Vega-Lite specification: the band under the curve of this weld."""
    times = [at for at, _ in drawn.curve]
    powers = [power for _, power in drawn.curve]
    last = max([*times[-1:], *(band.time_s[-1:] if band else ())])
    top = 1.15 * max([*powers, *(band.high_w if band else ())])

    x = alt.X(
        "time:Q",
        scale=alt.Scale(domain=[0, last], nice=False),
        axis=alt.Axis(
            title=None,
            grid=False,
            domain=False,
            tickCount=6,
            labelExpr=f"format(datum.value, '~f') + '{NARROW_SPACE}s'",
        ),
    )

    def y(field: str) -> alt.Y:
        return from_zero(field, top=top, unit="W", ticks=4)

    layers: list[alt.Chart] = []
    if band is not None:
        layers.append(
            alt.Chart(rows(time=band.time_s, low=band.low_w, high=band.high_w))
            .mark_area(color=COPPER, opacity=0.18)
            .encode(x=x, y=y("low"), y2="high:Q")
        )
        middle = len(band.time_s) // 2
        layers.append(
            label(
                rows(time=[band.time_s[middle]], high=[band.high_w[middle]], told=["good welds"]),
                x=x,
                y=y("high"),
                align="center",
                color=GRAPHITE,
                dy=-14,
            )
        )
    layers.append(
        alt.Chart(rows(time=times, power=powers))
        .mark_line(color=COPPER, strokeWidth=2.5)
        .encode(x=x, y=y("power"))
    )
    at, peak = max(drawn.curve, key=lambda each: each[1])
    peaked = rows(time=[at], power=[peak], told=[with_unit(show_digits(peak), "W")])
    layers += [
        alt.Chart(peaked)
        .mark_point(filled=True, size=50, color=INK, opacity=1)
        .encode(x=x, y=y("power")),
        label(peaked, x=x, y=y("power"), align="center", color=INK, dy=-14, fontWeight=SEMIBOLD),
    ]
    return house_spec(layers, width_px=width_px, height_px=height_px)
