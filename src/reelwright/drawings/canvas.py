"""A sheet to draw on: collects plain SVG elements and writes them out.

Only presentation attributes, no style, no script, no id: a strict content-security policy blocks
nothing, several drawings fit on one page without disturbing each other, and the typesetter of the
papers draws the same.
"""

import math
from collections.abc import Sequence
from typing import Literal
from xml.sax.saxutils import escape, quoteattr

from reelwright.style import FONT_FAMILY, GRAPHITE, INK, REGULAR

Anchor = Literal["start", "middle", "end"]
Point = tuple[float, float]


def number(value: float) -> str:
    """Return a coordinate with at most three decimals and no needless zeros."""
    told = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if told == "-0" else told


class Canvas:
    """Elements in drawing order. Lengths are in the drawing's own unit, which ``unit`` names:
    ``""`` for pixels of a page, ``"mm"`` for millimetres of paper."""

    def __init__(self, *, title: str, description: str, unit: Literal["", "mm"]) -> None:
        self._title, self._description, self._unit = title, description, unit
        self._elements: list[str] = []

    def _add(self, tag: str, **attributes: str | float | None) -> None:
        told = "".join(
            f" {name.replace('_', '-')}={quoteattr(v if isinstance(v, str) else number(v))}"
            for name, v in attributes.items()
            if v is not None
        )
        self._elements.append(f"<{tag}{told}/>")

    def rect(
        self,
        *,
        x: float,
        y: float,
        width: float,
        height: float,
        fill: str = "none",
        stroke: str | None = None,
        stroke_width: float | None = None,
        opacity: float | None = None,
    ) -> None:
        """Draw a rectangle with its upper left corner at x, y."""
        self._add(
            "rect",
            x=x,
            y=y,
            width=width,
            height=height,
            fill=fill,
            stroke=stroke,
            stroke_width=stroke_width,
            fill_opacity=opacity,
        )

    def line(
        self,
        start: Point,
        end: Point,
        *,
        stroke: str = INK,
        width: float,
        dashes: str | None = None,
        opacity: float | None = None,
    ) -> None:
        """Draw one straight line."""
        self._add(
            "line",
            x1=start[0],
            y1=start[1],
            x2=end[0],
            y2=end[1],
            stroke=stroke,
            stroke_width=width,
            stroke_dasharray=dashes,
            stroke_opacity=opacity,
        )

    def polygon(
        self,
        points: Sequence[Point],
        *,
        fill: str,
        stroke: str | None = None,
        stroke_width: float | None = None,
    ) -> None:
        """Draw a closed shape."""
        told = " ".join(f"{number(x)},{number(y)}" for x, y in points)
        self._add("polygon", points=told, fill=fill, stroke=stroke, stroke_width=stroke_width)

    def polyline(
        self, points: Sequence[Point], *, stroke: str, width: float, dashes: str | None = None
    ) -> None:
        """Draw an open line through the points."""
        told = " ".join(f"{number(x)},{number(y)}" for x, y in points)
        self._add(
            "polyline",
            points=told,
            fill="none",
            stroke=stroke,
            stroke_width=width,
            stroke_dasharray=dashes,
        )

    def circle(
        self,
        centre: Point,
        radius: float,
        *,
        fill: str,
        stroke: str | None = None,
        stroke_width: float | None = None,
    ) -> None:
        """Draw a full circle."""
        self._add(
            "circle",
            cx=centre[0],
            cy=centre[1],
            r=radius,
            fill=fill,
            stroke=stroke,
            stroke_width=stroke_width,
        )

    def text(
        self,
        text: str,
        *,
        x: float,
        y: float,
        size: float,
        weight: int = REGULAR,
        fill: str = INK,
        anchor: Anchor = "start",
    ) -> None:
        """Write one line with its baseline at y."""
        self._elements.append(
            f'<text x="{number(x)}" y="{number(y)}" font-family="{FONT_FAMILY}" '
            f'font-size="{number(size)}" font-weight="{weight}" fill="{fill}" '
            f'text-anchor="{anchor}">{escape(text)}</text>'
        )

    def hatch(
        self,
        *,
        x: float,
        y: float,
        width: float,
        height: float,
        angle_deg: int,
        spacing: float,
        stroke: str,
        line_width: float,
        opacity: float | None = None,
    ) -> None:
        """Fill a rectangle with parallel lines, each ended at its edges.

        Lines instead of a pattern: a pattern needs an id, and ids of two drawings on a page clash.
        All in one path: a sheet of braids would else hold thousands of elements.
        ``angle_deg`` turns clockwise from level, as y runs down.
        """
        angle = math.radians(angle_deg)
        along, across = (math.cos(angle), math.sin(angle)), (-math.sin(angle), math.cos(angle))
        middle = (x + width / 2, y + height / 2)
        reach = math.hypot(width, height) / 2
        count = int(reach / spacing)
        told = []
        for step in range(-count, count + 1):
            foot = (
                middle[0] + across[0] * step * spacing,
                middle[1] + across[1] * step * spacing,
            )
            ends = _clip(foot, along, (x, y, x + width, y + height))
            if ends is not None:
                (x1, y1), (x2, y2) = ends
                told.append(f"M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}")
        if told:
            self._add(
                "path",
                d="".join(told),
                fill="none",
                stroke=stroke,
                stroke_width=line_width,
                stroke_opacity=opacity,
            )

    def dimension(
        self, *, x1: float, x2: float, y: float, text: str, size: float, stroke: float
    ) -> None:
        """Draw a level dimension line from x1 to x2 with arrow heads and its text above.

        Where the text does not fit between, the arrows point inwards from outside.
        """
        head, half = size * 0.62, size * 0.19
        inward = abs(x2 - x1) < 2.4 * head
        if inward:
            self.line((x1 - 2 * head, y), (x2 + 2 * head, y), width=stroke)
        else:
            self.line((x1, y), (x2, y), width=stroke)
        for x, way in ((x1, 1), (x2, -1)):
            tail = x - way * head if inward else x + way * head
            self.polygon([(x, y), (tail, y - half), (tail, y + half)], fill=INK)
        if text:
            self.text(text, x=(x1 + x2) / 2, y=y - size * 0.35, size=size, anchor="middle")

    def centre_line(self, start: Point, end: Point, *, width: float) -> None:
        """Draw a chain line, long and short, as an axis is drawn (ISO 128)."""
        dash = 12 * width
        self.line(
            start,
            end,
            stroke=GRAPHITE,
            width=width,
            dashes=" ".join(number(d) for d in (2 * dash, dash / 2, dash / 4, dash / 2)),
        )

    def svg(self, *, width: float, height: float, left: float = 0.0, top: float = 0.0) -> str:
        """Return the SVG text of the sheet."""
        box = " ".join(number(v) for v in (left, top, width, height))
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" '
            f'width="{number(width)}{self._unit}" height="{number(height)}{self._unit}" '
            f'role="img" aria-label={quoteattr(self._title)}>'
            f"<title>{escape(self._title)}</title><desc>{escape(self._description)}</desc>"
            f"{''.join(self._elements)}</svg>"
        )


def _clip(
    foot: Point, along: Point, box: tuple[float, float, float, float]
) -> tuple[Point, Point] | None:
    """Return the part of the line through ``foot`` that lies in the box, by its parameter range."""
    low, high = -math.inf, math.inf
    for axis in (0, 1):
        least, most = box[axis], box[axis + 2]
        if abs(along[axis]) < 1e-12:
            if not least <= foot[axis] <= most:
                return None
            continue
        one, other = (least - foot[axis]) / along[axis], (most - foot[axis]) / along[axis]
        low, high = max(low, min(one, other)), min(high, max(one, other))
    if high - low <= 1e-9:
        return None
    start = (foot[0] + low * along[0], foot[1] + low * along[1])
    return start, (foot[0] + high * along[0], foot[1] + high * along[1])
