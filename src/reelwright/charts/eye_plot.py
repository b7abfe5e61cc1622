"""The specification of the eye chart. Imported late: the plotting library takes a second."""

from typing import Any

import altair as alt
import numpy as np

from reelwright.charts.eye import EyeCurve, open_sentence
from reelwright.charts.plot_parts import house_spec, label, rows
from reelwright.core.quantities.marks import MINUS
from reelwright.style import COPPER, COPPER_TINT, GRAPHITE, HAIRLINE, INK, SEMIBOLD

_LEVEL = 1.3
# Room under the lowest trace for what the eye comes to.
_SENTENCE = 0.4


def eye_spec(curve: EyeCurve, *, traces: int, width_px: int, height_px: int) -> dict[str, Any]:
    """Return the chart as a Vega-Lite specification; ``traces`` bits are drawn of the sequence."""
    tallest = max(_LEVEL, float(np.abs(curve.level_ratio).max()))
    x = alt.X(
        "phase:Q",
        scale=alt.Scale(domain=[-0.5, 0.5], nice=False),
        axis=alt.Axis(
            title=None,
            grid=False,
            domain=False,
            values=[-0.4, 0, 0.4],
            labelExpr=(
                f"datum.value == 0 ? 'middle of the bit' : "
                f"replace(format(datum.value, '.1f'), '-', '{MINUS}')"
            ),
        ),
    )

    def y(field: str) -> alt.Y:
        return alt.Y(
            f"{field}:Q",
            scale=alt.Scale(domain=[-tallest - _SENTENCE, tallest], nice=False),
            axis=alt.Axis(
                title=None,
                ticks=False,
                domain=False,
                values=[-1, 0, 1],
                labelExpr=f"replace(format(datum.value, '~f'), '-', '{MINUS}')",
            ),
        )

    size = curve.level_ratio.shape[1]
    bits = np.unique(np.linspace(0, size - 1, min(traces, size)).astype(int))
    phases = np.concatenate([curve.phase_ratio, [0.5]])
    # The next phase of a bit is the first of the one after it.
    levels = np.vstack([curve.level_ratio, np.roll(curve.level_ratio[:1], -1, axis=1)])
    drawn = rows(
        bit=np.repeat(bits, phases.size),
        phase=np.tile(phases, bits.size),
        level=levels[:, bits].T.ravel().round(4),
    )
    layers = [
        alt.Chart(drawn)
        .mark_line(color=GRAPHITE, strokeWidth=0.6, opacity=0.55)
        .encode(x=x, y=y("level"), detail="bit:N"),
        alt.Chart(rows(phase=[-0.5], end=[0.5], level=[0.0]))
        .mark_rule(color=HAIRLINE, strokeWidth=1)
        .encode(x=x, x2="end:Q", y=y("level")),
    ]
    is_open = curve.opening_ratio > 0
    if is_open.any():
        opening = curve.opening_ratio[is_open]
        inside = rows(phase=curve.phase_ratio[is_open], level=opening, low=-opening)
        layers.append(
            alt.Chart(inside)
            .mark_area(color=COPPER_TINT, opacity=1)
            .encode(x=x, y=y("level"), y2="low:Q")
        )
        layers += [
            alt.Chart(inside).mark_line(color=COPPER, strokeWidth=2.5).encode(x=x, y=y(field))
            for field in ("level", "low")
        ]
    told = rows(phase=[0.0], level=[-tallest - _SENTENCE], told=[open_sentence(curve)])
    layers.append(
        label(told, x=x, y=y("level"), align="center", color=INK, dy=-10, fontWeight=SEMIBOLD)
    )
    return house_spec(layers, width_px=width_px, height_px=height_px)
