"""The specification of the loss chart. Imported late: the plotting library takes a second."""

from typing import Any

import altair as alt
import numpy as np

from reelwright.charts.loss import LossCurve, LossRow, residual_label
from reelwright.charts.plot_parts import from_zero, house_spec, known_points, label, rows
from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.show import show_db
from reelwright.core.quantities.show_scaled import show_megahertz
from reelwright.style import BAD, COPPER, GRAPHITE, INK, SEMIBOLD

_DECADES_HZ = (1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10)


def loss_spec(
    curve: LossCurve, *, decides: LossRow, width_px: int, height_px: int
) -> dict[str, Any]:
    """Return the chart as a Vega-Lite specification."""
    low_hz, high_hz = float(curve.frequency_hz[0]), float(curve.frequency_hz[-1])
    top = 1.12 * max(float(curve.high_db.max()), curve.limit_db or 0.0)
    x = alt.X(
        "hz:Q",
        scale=alt.Scale(type="log", domain=[low_hz, high_hz], nice=False),
        axis=alt.Axis(
            title=None,
            grid=False,
            domain=False,
            values=[each for each in _DECADES_HZ if low_hz <= each <= high_hz],
            labelExpr=(
                f"datum.value >= 1e9 ? format(datum.value / 1e9, '~f') + '{NARROW_SPACE}GHz' : "
                f"datum.value >= 1e6 ? format(datum.value / 1e6, '~f') + '{NARROW_SPACE}MHz' : "
                f"format(datum.value / 1e3, '~f') + '{NARROW_SPACE}kHz'"
            ),
        ),
    )

    def y(field: str) -> alt.Y:
        return from_zero(field, top=top, unit="dB", ticks=5)

    sure = curve.frequency_hz <= curve.carried_on_from_hz
    # The first point beyond belongs to both, so that no gap is drawn.
    beyond = ~sure
    beyond[np.flatnonzero(sure)[-1:]] = True
    layers = [
        alt.Chart(rows(hz=curve.frequency_hz, low=curve.low_db, high=curve.high_db))
        .mark_area(color=COPPER, opacity=0.18)
        .encode(x=x, y=y("low"), y2="high:Q"),
        alt.Chart(rows(hz=curve.frequency_hz[sure], db=curve.loss_db[sure]))
        .mark_line(color=COPPER, strokeWidth=2.5)
        .encode(x=x, y=y("db")),
    ]
    if beyond.sum() > 1:
        layers.append(
            alt.Chart(rows(hz=curve.frequency_hz[beyond], db=curve.loss_db[beyond]))
            .mark_line(color=COPPER, strokeWidth=2.5, strokeDash=[6, 4])
            .encode(x=x, y=y("db"))
        )
    layers += _decides(curve, decides, x, y)
    layers += _stated(curve, x, y)
    return house_spec(layers, width_px=width_px, height_px=height_px)


def _stated(curve: LossCurve, x: alt.X, y: Any) -> list[alt.Chart]:
    if not curve.stated:
        return []
    data = rows(
        hz=[each.frequency_hz for each in curve.stated],
        db=[each.loss_db for each in curve.stated],
        told=[f"fit {residual_label(each.residual)}" for each in curve.stated],
    )
    points = known_points(data, x=x, y=y("db"))
    return [points, label(data, x=x, y=y("db"), align="right", color=GRAPHITE, dx=-10, dy=-10)]


def _decides(curve: LossCurve, decides: LossRow, x: alt.X, y: Any) -> list[alt.Chart]:
    limit = curve.limit_db
    data = rows(
        hz=[decides.frequency_hz],
        db=[decides.loss_db],
        foot=[0.0],
        told=[f"{show_db(decides.loss_db)} at {show_megahertz(decides.frequency_hz)}"],
    )
    layers = [
        alt.Chart(data)
        .mark_rule(color=INK, strokeWidth=1.4)
        .encode(x=x, y=y("db"), y2="foot:Q"),
        label(
            rows(hz=[decides.frequency_hz], db=[0.0], told=[
                f"{show_db(decides.loss_db)} at {show_megahertz(decides.frequency_hz)}"
            ]),
            x=x,
            y=y("db"),
            align="right",
            color=INK,
            dx=-8,
            dy=-12,
            fontWeight=SEMIBOLD,
        ),
    ]  # fmt: skip
    if limit is not None:
        # Told at the left, where no stated loss ever lies as high.
        lowest_hz = float(curve.frequency_hz[0])
        mark = rows(
            hz=[lowest_hz],
            end_hz=[decides.frequency_hz],
            db=[limit],
            told=[f"limit {show_db(limit)}"],
        )
        layers += [
            alt.Chart(mark)
            .mark_rule(color=BAD, strokeWidth=1.6)
            .encode(x=x, x2="end_hz:Q", y=y("db")),
            label(mark, x=x, y=y("db"), align="left", color=BAD, dy=-12, fontWeight=SEMIBOLD),
        ]
    return layers
