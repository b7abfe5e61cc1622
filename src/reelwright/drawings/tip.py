"""Where the tip of a pin lands: its window, the spread over it, and who brings the spread."""

import itertools
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_finite, require_text
from reelwright.core.quantities.show import show_dimension, show_fine, show_percent
from reelwright.drawings.canvas import Canvas
from reelwright.drawings.text_size import text_width
from reelwright.style import (
    BAD,
    BAD_TINT,
    COPPER,
    COPPER_TINT,
    GOOD,
    GOOD_TINT,
    GRAPHITE,
    HAIRLINE,
    INK,
    SEMIBOLD,
)

_TEXT = 14.0
_LEFT = 12.0
_TOP = 30.0
_HILL = 120.0
_ROW = 26.0
_BAR = 14.0


@dataclass(frozen=True, kw_only=True)
class TipPart:
    """One contributor: its tolerance, its part of the spread [1] and who keeps it."""

    name: str
    tolerance_m: float
    spread_share: float
    keeper: str


@dataclass(frozen=True, kw_only=True)
class TipView:
    """What is drawn, in metres in front of the reference plane; parts ranked, the largest first.

    ``shares`` are those of equal steps from ``shares_from_m`` to ``shares_to_m``.
    """

    title: str
    least_m: float
    most_m: float
    mean_m: float
    worst_least_m: float
    worst_most_m: float
    shares_from_m: float
    shares_to_m: float
    shares: tuple[float, ...]
    parts: tuple[TipPart, ...]

    def __post_init__(self) -> None:
        require_text(self, "title")
        require_finite(
            self, "least_m", "most_m", "mean_m", "worst_least_m", "worst_most_m",
            "shares_from_m", "shares_to_m",
        )  # fmt: skip
        if self.least_m >= self.most_m or self.shares_from_m >= self.shares_to_m:
            raise BadValue(
                owner="TipView", field="least_m", value=self.least_m, accepted="less than the most"
            )
        if not self.parts or not any(self.shares):
            raise BadValue(owner="TipView", field="parts", value=self.parts, accepted="one or more")


@dataclass(frozen=True, kw_only=True)
class TipRow:
    """One row of the drawing's table twin."""

    name: str
    tolerance: str
    share: str
    keeper: str


def tip_table(view: TipView) -> tuple[TipRow, ...]:
    """Return the contributors as the bars rank them."""
    return tuple(
        TipRow(
            name=part.name,
            tolerance=f"± {show_fine(part.tolerance_m)}",
            share=show_percent(part.spread_share, decimals=0),
            keeper=part.keeper,
        )
        for part in view.parts
    )


def draw_tip(view: TipView, *, width_px: float = 680.0) -> str:
    """Return the window with the spread over it, and below it a bar for each part, as SVG text."""
    canvas = Canvas(
        title=view.title,
        description=(
            f"Window {show_dimension(view.least_m)} to {show_dimension(view.most_m)}, mean "
            f"{show_dimension(view.mean_m)}, at the worst {show_dimension(view.worst_least_m)} to "
            f"{show_dimension(view.worst_most_m)}. Spread: "
            + "; ".join(f"{row.name} {row.share}" for row in tip_table(view))
            + "."
        ),
        unit="",
    )
    scale = _Scale(view, width_px)
    base = _TOP + _HILL
    _draw_window(canvas, view, scale, base=base)
    _draw_spread(canvas, view, scale, base=base)
    _draw_marks(canvas, view, scale, base=base, width_px=width_px)
    bottom = _draw_parts(canvas, view, top=base + 76, width_px=width_px)
    return canvas.svg(width=width_px, height=bottom + 6)


class _Scale:
    """From metres to pixels: everything drawn lies inside, with a little room at both ends."""

    def __init__(self, view: TipView, width_px: float) -> None:
        self._low = min(view.least_m, view.worst_least_m)
        high = max(view.most_m, view.worst_most_m)
        room = 0.06 * (high - self._low)
        self._low -= room
        self._per_m = (width_px - 2 * _LEFT) / (high + room - self._low)
        self._most = width_px - _LEFT

    def x(self, place_m: float) -> float:
        return min(max(_LEFT + (place_m - self._low) * self._per_m, _LEFT), self._most)


def _draw_window(canvas: Canvas, view: TipView, scale: _Scale, *, base: float) -> None:
    left, right = scale.x(view.least_m), scale.x(view.most_m)
    canvas.rect(x=left, y=_TOP, width=right - left, height=_HILL, fill=GOOD_TINT)
    for x in (left, right):
        canvas.line((x, _TOP - 6), (x, base + 8), stroke=GOOD, width=1.6)


def _draw_spread(canvas: Canvas, view: TipView, scale: _Scale, *, base: float) -> None:
    step_m = (view.shares_to_m - view.shares_from_m) / len(view.shares)
    tallest = max(view.shares)
    points = [
        (view.shares_from_m + (place + 0.5) * step_m, share / tallest)
        for place, share in enumerate(view.shares)
    ]

    def hill(low_m: float, high_m: float) -> list[tuple[float, float]]:
        """The outline between two places, cut off exactly at both."""
        inside = [(at, tall) for at, tall in points if low_m < at < high_m]
        ends = [(edge, _height(points, edge)) for edge in (low_m, high_m)]
        return [
            (scale.x(at), base - 0.94 * _HILL * tall) for at, tall in (ends[0], *inside, ends[1])
        ]

    edges = (view.shares_from_m, view.least_m, view.most_m, view.shares_to_m)
    for place, fill in enumerate((BAD_TINT, COPPER_TINT, BAD_TINT)):
        low_m = max(edges[place], view.shares_from_m)
        high_m = min(edges[place + 1], view.shares_to_m)
        if low_m < high_m:
            outline = hill(low_m, high_m)
            feet = [(outline[-1][0], base), (outline[0][0], base)]
            canvas.polygon([*outline, *feet], fill=fill)
            stroke = COPPER if fill == COPPER_TINT else BAD
            canvas.polyline(outline, stroke=stroke, width=2.0 if stroke == COPPER else 2.6)
    canvas.line((_LEFT, base), (scale.x(1e9), base), width=1.2)


def _height(points: list[tuple[float, float]], at_m: float) -> float:
    """The outline's height between two of its points; nothing beyond its ends."""
    for (one, low), (other, high) in itertools.pairwise(points):
        if one <= at_m <= other:
            return low + (high - low) * (at_m - one) / (other - one)
    return 0.0


def _draw_marks(
    canvas: Canvas, view: TipView, scale: _Scale, *, base: float, width_px: float
) -> None:
    mean = scale.x(view.mean_m)
    canvas.line((mean, _TOP), (mean, base), width=1.4, dashes="5 4")
    told = f"mean {show_dimension(view.mean_m)}"
    half = text_width(told, size=_TEXT, weight=SEMIBOLD) / 2
    at = min(max(mean, _LEFT + half), width_px - _LEFT - half)
    canvas.text(told, x=at, y=_TOP - 10, size=_TEXT, weight=SEMIBOLD, anchor="middle")
    left, right = scale.x(view.least_m), scale.x(view.most_m)
    least, most = show_dimension(view.least_m), show_dimension(view.most_m)
    room = right - left
    if room >= text_width(least + most, size=_TEXT) + 24:
        canvas.text(least, x=left, y=base + 24, size=_TEXT, fill=GOOD, anchor="middle")
        canvas.text(most, x=right, y=base + 24, size=_TEXT, fill=GOOD, anchor="middle")
    else:
        canvas.text(least, x=left - 4, y=base + 24, size=_TEXT, fill=GOOD, anchor="end")
        canvas.text(most, x=right + 4, y=base + 24, size=_TEXT, fill=GOOD)
    worst = (scale.x(view.worst_least_m), scale.x(view.worst_most_m))
    canvas.dimension(x1=worst[0], x2=worst[1], y=base + 40, text="", size=_TEXT, stroke=1.0)
    canvas.text(
        f"at the worst {show_dimension(view.worst_least_m)} to {show_dimension(view.worst_most_m)}",
        x=min(max((worst[0] + worst[1]) / 2, _LEFT + 110), width_px - _LEFT - 110),
        y=base + 58,
        size=_TEXT,
        fill=GRAPHITE,
        anchor="middle",
    )


def _draw_parts(canvas: Canvas, view: TipView, *, top: float, width_px: float) -> float:
    rows = tip_table(view)
    names = max(text_width(row.name, size=_TEXT) for row in rows)
    start, end = _LEFT + names + 14, width_px - _LEFT - 48
    most = max(part.spread_share for part in view.parts)
    for place, (part, row) in enumerate(zip(view.parts, rows, strict=True)):
        y = top + place * _ROW
        if place:
            canvas.line((_LEFT, y), (width_px - _LEFT, y), stroke=HAIRLINE, width=1)
        canvas.text(row.name, x=_LEFT, y=y + 18, size=_TEXT)
        length = max(1.0, (end - start) * part.spread_share / most)
        canvas.rect(
            x=start,
            y=y + (_ROW - _BAR) / 2,
            width=length,
            height=_BAR,
            fill=COPPER if place == 0 else COPPER_TINT,
            stroke=COPPER,
            stroke_width=1,
        )
        canvas.text(row.share, x=width_px - _LEFT, y=y + 18, size=_TEXT, fill=INK, anchor="end")
    return top + len(rows) * _ROW
