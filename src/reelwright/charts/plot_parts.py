"""What plots share: rows of data, the house's axes, labels that stand at what they name."""

from typing import Any, Literal

import altair as alt
import numpy as np

from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.style import FONT_FAMILY, GRAPHITE, HAIRLINE, INK, SHEET

TEXT_PX = 14


def rows(**columns: Any) -> alt.InlineData:
    """Return columns of one length as the rows of a plot."""
    names = list(columns)
    lists = [v.tolist() if isinstance(v, np.ndarray) else v for v in columns.values()]
    return alt.InlineData(
        values=[dict(zip(names, row, strict=True)) for row in zip(*lists, strict=True)]
    )


def from_zero(field: str, *, top: float, unit: str, ticks: int) -> alt.Y:
    """Return the upright axis of a figure that begins at nothing and ends at ``top``."""
    return alt.Y(
        f"{field}:Q",
        scale=alt.Scale(domain=[0, top], nice=False),
        axis=alt.Axis(
            title=None,
            ticks=False,
            domain=False,
            tickCount=ticks,
            labelExpr=f"format(datum.value, '~f') + '{NARROW_SPACE}{unit}'",
        ),
    )


def house_spec(layers: list[alt.Chart], *, width_px: int, height_px: int) -> dict[str, Any]:
    """Return the layers as one specification in the house's type and hairlines."""
    chart = (
        alt.layer(*layers)
        .properties(width=width_px, height=height_px, background=SHEET, padding=8)
        .configure(font=FONT_FAMILY)
        .configure_view(stroke=None)
        .configure_axis(
            labelFont=FONT_FAMILY,
            labelFontSize=TEXT_PX,
            labelColor=GRAPHITE,
            gridColor=HAIRLINE,
            tickColor=GRAPHITE,
            labelPadding=8,
        )
    )
    spec: dict[str, Any] = chart.to_dict()
    return spec


def label(
    data: alt.InlineData,
    *,
    x: alt.X,
    y: alt.Y,
    align: Literal["left", "center", "right"],
    color: str,
    dx: int = 0,
    dy: int = 0,
    **look: Any,
) -> alt.Chart:
    """Return the texts of the column ``told`` at their places."""
    chart: alt.Chart = (
        alt.Chart(data)
        .mark_text(
            font=FONT_FAMILY,
            fontSize=TEXT_PX,
            align=align,
            baseline="middle",
            dx=dx,
            dy=dy,
            color=color,
            **look,
        )
        .encode(x=x, y=y, text="told:N")
    )
    return chart


def known_points(data: alt.InlineData, *, x: alt.X, y: alt.Y) -> alt.Chart:
    """Return what is stated or measured as open rings, one a row."""
    chart: alt.Chart = (
        alt.Chart(data)
        .mark_point(
            shape="circle",
            filled=True,
            size=70,
            color=SHEET,
            stroke=INK,
            strokeWidth=1.8,
            opacity=1,
        )
        .encode(x=x, y=y)
    )
    return chart
