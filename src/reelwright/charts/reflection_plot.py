"""The specification of the reflection chart. Imported late: the plotting library takes a second."""

from typing import Any, Literal

import altair as alt
import numpy as np

from reelwright.charts.plot_parts import house_spec, label, rows
from reelwright.charts.reflection import ReflectionCurve, ReflectionRow, end_label
from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.style import COPPER, GRAPHITE, INK, SEMIBOLD


def reflection_spec(
    curve: ReflectionCurve,
    *,
    near: ReflectionRow,
    far: ReflectionRow,
    width_px: int,
    height_px: int,
) -> dict[str, Any]:
    """Return the chart as a Vega-Lite specification."""
    shown = curve.distance_m <= 1.08 * curve.length_m
    distance = curve.distance_m[shown]
    seen, own = curve.seen_ohm[shown], curve.own_ohm[shown]
    along = distance >= 0
    values = np.concatenate([seen, own[along]])
    low, high = float(values.min()), float(values.max())
    room = max(1.0, 0.25 * (high - low))
    x = alt.X(
        "distance_m:Q",
        scale=alt.Scale(domain=[float(distance[0]), float(distance[-1])], nice=False),
        axis=alt.Axis(
            title=None,
            grid=False,
            domain=False,
            tickCount=7,
            labelExpr=f"format(datum.value, '~f') + '{NARROW_SPACE}m'",
        ),
    )
    y = alt.Y(
        "ohm:Q",
        scale=alt.Scale(domain=[low - room / 2, high + room], nice=False),
        axis=alt.Axis(
            title=None,
            ticks=False,
            domain=False,
            tickCount=5,
            labelExpr=f"format(datum.value, '~f') + '{NARROW_SPACE}Ω'",
        ),
    )
    inside = along & (distance <= curve.length_m)
    middle = 0.5 * curve.length_m
    at_middle = float(np.interp(middle, distance, own))
    layers = [
        alt.Chart(rows(distance_m=distance, ohm=seen))
        .mark_line(color=COPPER, strokeWidth=2)
        .encode(x=x, y=y),
        alt.Chart(rows(distance_m=distance[inside], ohm=own[inside]))
        .mark_line(color=INK, strokeWidth=1.6, strokeDash=[2, 8])
        .encode(x=x, y=y),
        label(
            rows(
                distance_m=[middle],
                ohm=[at_middle],
                told=["dotted: the cable's own slope, from its loss"],
            ),
            x=x,
            y=y,
            align="center",
            color=GRAPHITE,
            dy=30,
        ),
    ]
    sides: tuple[tuple[ReflectionRow, Literal["left", "right"], int], ...] = (
        (near, "left", 8),
        (far, "right", -8),
    )
    for row, align, dx in sides:
        data = rows(distance_m=[row.distance_m], ohm=[row.seen_ohm], told=[end_label(row)])
        layers += [
            alt.Chart(data)
            .mark_point(shape="circle", filled=True, size=60, color=INK, opacity=1)
            .encode(x=x, y=y),
            label(data, x=x, y=y, align=align, color=INK, dx=dx, dy=-12, fontWeight=SEMIBOLD),
        ]
    return house_spec(layers, width_px=width_px, height_px=height_px)
