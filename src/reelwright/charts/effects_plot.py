"""The specification of the chart of effects. Imported late: the plotting library takes a second."""

from typing import Any

import altair as alt

from reelwright.charts.effects import ROW_PX, EffectBar
from reelwright.charts.plot_parts import TEXT_PX, house_spec, rows
from reelwright.core.quantities.marks import MINUS, NARROW_SPACE
from reelwright.style import COPPER, FONT_FAMILY, GRAPHITE, INK

_LONGEST_NAME_PX = 260


def effects_spec(bars: tuple[EffectBar, ...], *, unit: str, width_px: int) -> dict[str, Any]:
    """Return the chart as a Vega-Lite specification: bars from zero, whiskers of one error."""
    errors = [bar.error or 0.0 for bar in bars]
    data = rows(
        name=[bar.name for bar in bars],
        change=[bar.change for bar in bars],
        low=[bar.change - error for bar, error in zip(bars, errors, strict=True)],
        high=[bar.change + error for bar, error in zip(bars, errors, strict=True)],
        zero=[0.0] * len(bars),
        kind=["out" if bar.stands_out else "noise" for bar in bars],
    )
    most = 1.08 * max(abs(bar.change) + error for bar, error in zip(bars, errors, strict=True))

    def x(field: str) -> alt.X:
        return alt.X(
            f"{field}:Q",
            scale=alt.Scale(domain=[-most or -1.0, most or 1.0], nice=False),
            axis=alt.Axis(
                title=None,
                domain=False,
                tickCount=5,
                labelExpr=f"replace(format(datum.value, '~r'), '−', '{MINUS}')"
                f" + '{NARROW_SPACE}{unit}'",
            ),
        )

    y = alt.Y(
        "name:N",
        sort=None,
        axis=alt.Axis(
            title=None,
            ticks=False,
            domain=False,
            labelFont=FONT_FAMILY,
            labelFontSize=TEXT_PX,
            labelColor=INK,
            labelLimit=_LONGEST_NAME_PX,
        ),
    )
    layers = [
        # What stands out is dark and broad, the rest a thin line: not told by colour alone.
        alt.Chart(data)
        .transform_filter("datum.kind === 'out'")
        .mark_bar(color=COPPER, height=14)
        .encode(x=x("change"), y=y),
        alt.Chart(data)
        .transform_filter("datum.kind !== 'out'")
        .mark_bar(color=GRAPHITE, height=5)
        .encode(x=x("change"), y=y),
        alt.Chart(data).mark_rule(color=INK, strokeWidth=1.4).encode(x=x("low"), x2="high:Q", y=y),
        alt.Chart(rows(zero=[0.0])).mark_rule(color=INK, strokeWidth=1.4).encode(x=x("zero")),
    ]
    return house_spec(layers, width_px=width_px, height_px=ROW_PX * len(bars))
