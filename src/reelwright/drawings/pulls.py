"""Pulls on one line of force: each pull a point, by how it gave way, against the least pull asked.

What lies under the limit is tinted; the mean of all and their tolerance bound stand beneath; where
the bare wire is known, what it can hold at most is a pale band.
"""

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_given, require_positive, require_text
from reelwright.core.quantities.show import show_in, show_number, show_plain
from reelwright.core.quantities.words import counted
from reelwright.drawings.canvas import Canvas
from reelwright.drawings.text_size import text_width
from reelwright.style import (
    BAD,
    BAD_TINT,
    COPPER,
    GOOD,
    GRAPHITE,
    HAIRLINE,
    INK,
    PLASTIC,
    REGULAR,
    SEMIBOLD,
    SHEET,
)

_TEXT_PX = 14.0
_EDGE_PX = 10.0
_RADIUS_PX = 4.0
_STACK_PX = 9.0
_HEAD_PX = 46.0
_LABEL_PX = 22.0


@dataclass(frozen=True, kw_only=True)
class PullRow:
    """Pulls that gave way alike, in N; ``held``: they were stopped, so each is a least value."""

    name: str
    forces_n: tuple[float, ...]
    held: bool

    def __post_init__(self) -> None:
        require_text(self, "name")
        if not self.forces_n or not all(math.isfinite(f) and f > 0 for f in self.forces_n):
            raise BadValue(
                owner="PullRow",
                field="forces_n",
                value=self.forces_n,
                accepted="one pull or more, each above zero",
            )


@dataclass(frozen=True, kw_only=True)
class PullsView:
    """What is drawn: ``limit_n`` [N] as asked; mean and tolerance bound [N] where there are any.

    ``wire_low_n`` to ``wire_high_n`` [N] is what the bare wire holds, both None where not known.
    """

    title: str
    rows: tuple[PullRow, ...]
    limit_n: float
    mean_n: float | None
    bound_n: float | None
    wire_low_n: float | None
    wire_high_n: float | None

    def __post_init__(self) -> None:
        require_text(self, "title")
        require_positive(self, "limit_n")
        require_given(self, "mean_n", "wire_low_n", "wire_high_n")
        if not self.rows:
            raise BadValue(owner="PullsView", field="rows", value=(), accepted="one or more")

    @property
    def ends_n(self) -> tuple[float, float]:
        """The least and the greatest force of the axis: all that is drawn, and some room."""
        drawn = [force for row in self.rows for force in row.forces_n]
        drawn += [
            force
            for force in (self.limit_n, self.mean_n, self.bound_n, self.wire_low_n)
            if force is not None
        ]
        low, high = min(drawn), max(drawn)
        room = max(0.06 * (high - low), 1.0)
        return max(0.0, low - room), high + room


def pulls_table(view: PullsView) -> tuple[tuple[str, str, str, str, str], ...]:
    """Return the drawing's table twin: way of giving way, how many, lowest, mean, highest."""
    return tuple(
        (
            row.name,
            str(len(row.forces_n)),
            _told(min(row.forces_n)),
            _told(sum(row.forces_n) / len(row.forces_n)),
            _told(max(row.forces_n)),
        )
        for row in view.rows
    )


def draw_pulls(view: PullsView, *, width_px: float = 680.0) -> str:
    """Return the strip of pulls as SVG text."""
    canvas = Canvas(title=view.title, description=_description(view), unit="")
    low_n, high_n = view.ends_n

    def x(force_n: float) -> float:
        share = (force_n - low_n) / (high_n - low_n)
        return _EDGE_PX + share * (width_px - 2 * _EDGE_PX)

    stacks = [_stacked(map(x, row.forces_n)) for row in view.rows]
    heights = [_LABEL_PX + 14 + _STACK_PX * max(place for _, place in stack) for stack in stacks]
    bottom = _HEAD_PX + sum(heights) + 10
    limit_x = x(view.limit_n)
    if limit_x > _EDGE_PX:
        canvas.rect(
            x=_EDGE_PX,
            y=_HEAD_PX,
            width=limit_x - _EDGE_PX,
            height=bottom - _HEAD_PX,
            fill=BAD_TINT,
        )
    _draw_wire(canvas, view, x_of=x, bottom=bottom, right=width_px - _EDGE_PX)
    top = _HEAD_PX
    for row, stack, height in zip(view.rows, stacks, heights, strict=True):
        base = top + height - 2
        _name(canvas, f"{row.name} ({len(row.forces_n)})", limit_x, top + 16, width_px)
        for at, place in stack:
            _draw_pull(canvas, at, base - _RADIUS_PX - place * _STACK_PX, held=row.held)
        canvas.line((_EDGE_PX, base + 4), (width_px - _EDGE_PX, base + 4), stroke=HAIRLINE, width=1)
        top += height
    canvas.line((limit_x, _HEAD_PX - 6), (limit_x, bottom), width=2)
    _label(
        canvas,
        f"at least {show_plain(view.limit_n, 'N')}",
        limit_x,
        16.0,
        width_px,
        weight=SEMIBOLD,
    )
    bottom = _draw_axis(canvas, low_n, high_n, x_of=x, top=bottom, width_px=width_px)
    bottom = _draw_summary(canvas, view, x_of=x, top=bottom, width_px=width_px)
    return canvas.svg(width=width_px, height=bottom)


def _told(force_n: float) -> str:
    return show_in(force_n, "N", decimals=1)


def _description(view: PullsView) -> str:
    told = [
        f"{counted(int(count), 'pull')}, {name}: {low} to {high}, mean {mean}"
        for name, count, low, mean, high in pulls_table(view)
    ]
    told.append(f"asked for: at least {show_plain(view.limit_n, 'N')}")
    if view.bound_n is not None:
        told.append(f"tolerance bound of all: {_told(view.bound_n)}")
    return "; ".join(told) + "."


def _stacked(places: Iterable[float]) -> list[tuple[float, int]]:
    """Return each point with the level at which it touches none below, from the left."""
    levels: list[float] = []
    found = []
    for at in sorted(places):
        level = next(
            (n for n, last in enumerate(levels) if at - last >= 2 * _RADIUS_PX + 1), len(levels)
        )
        if level == len(levels):
            levels.append(at)
        levels[level] = at
        found.append((at, level))
    return found


def _draw_pull(canvas: Canvas, x: float, y: float, *, held: bool) -> None:
    """A dot where an end gave way; a ring with an arrow where the pull was stopped."""
    if not held:
        canvas.circle((x, y), _RADIUS_PX, fill=COPPER, stroke=SHEET, stroke_width=1)
        return
    canvas.circle((x, y), _RADIUS_PX - 0.5, fill=SHEET, stroke=COPPER, stroke_width=1.5)
    tip = x + 3 * _RADIUS_PX
    canvas.line((x + _RADIUS_PX, y), (tip, y), stroke=COPPER, width=1.5)
    canvas.polygon([(tip + 3, y), (tip - 2, y - 2.5), (tip - 2, y + 2.5)], fill=COPPER)


def _draw_wire(
    canvas: Canvas, view: PullsView, *, x_of: Callable[[float], float], bottom: float, right: float
) -> None:
    if view.wire_low_n is None or view.wire_high_n is None:
        return
    left, end = x_of(view.wire_low_n), min(x_of(view.wire_high_n), right)
    canvas.rect(
        x=left, y=_HEAD_PX, width=max(end - left, 1), height=bottom - _HEAD_PX, fill=PLASTIC
    )
    canvas.line((left, _HEAD_PX), (left, bottom), stroke=GRAPHITE, width=1, dashes="4 3")
    told = (
        f"bare wire holds {show_in(view.wire_low_n, 'N', decimals=0)} to "
        f"{show_in(view.wire_high_n, 'N', decimals=0)}"
    )
    _label(canvas, told, left, 36.0, right + _EDGE_PX, fill=GRAPHITE)


def _name(canvas: Canvas, told: str, limit_x: float, y: float, width_px: float) -> None:
    """Write a row's name clear of the limit's line: behind it, or before it where that is full."""
    width = text_width(told, size=_TEXT_PX, weight=REGULAR)
    behind = limit_x + 8 + width <= width_px - _EDGE_PX
    fits_before = _EDGE_PX + 6 + width + 8 <= limit_x
    if fits_before and not (behind and limit_x < width_px / 3):
        canvas.text(told, x=_EDGE_PX + 6, y=y, size=_TEXT_PX)
    else:
        canvas.text(told, x=max(limit_x, _EDGE_PX) + 8, y=y, size=_TEXT_PX)


def _label(
    canvas: Canvas,
    told: str,
    x: float,
    y: float,
    width_px: float,
    *,
    weight: int = REGULAR,
    fill: str = INK,
) -> None:
    """Write a line centred at x, drawn in where it would leave the sheet."""
    half = text_width(told, size=_TEXT_PX, weight=weight) / 2
    at = min(max(x, _EDGE_PX + half), width_px - _EDGE_PX - half)
    canvas.text(told, x=at, y=y, size=_TEXT_PX, weight=weight, fill=fill, anchor="middle")


def _draw_axis(
    canvas: Canvas,
    low_n: float,
    high_n: float,
    *,
    x_of: Callable[[float], float],
    top: float,
    width_px: float,
) -> float:
    canvas.line((_EDGE_PX, top), (width_px - _EDGE_PX, top), stroke=GRAPHITE, width=1)
    step = _step(high_n - low_n)
    tick = math.ceil(low_n / step) * step
    while tick <= high_n:
        canvas.line((x_of(tick), top), (x_of(tick), top + 5), stroke=GRAPHITE, width=1)
        decimals = max(0, -math.floor(math.log10(step)))
        told = show_number(tick, decimals=decimals)
        if tick + step > high_n:
            told = show_in(tick, "N", decimals=decimals)
        _label(canvas, told, x_of(tick), top + 20, width_px, fill=GRAPHITE)
        tick += step
    return top + 26


def _step(span: float) -> float:
    """Return a round step that makes five to ten ticks of a span."""
    size = 10.0 ** math.floor(math.log10(span / 5))
    return next(size * times for times in (1, 2, 5, 10) if span / (size * times) <= 8)


def _draw_summary(
    canvas: Canvas,
    view: PullsView,
    *,
    x_of: Callable[[float], float],
    top: float,
    width_px: float,
) -> float:
    """Draw the mean of all and their bound beneath the axis, joined by a line."""
    if view.mean_n is None:
        return top + 6
    y = top + 14
    mean_x = x_of(view.mean_n)
    if view.bound_n is None:
        canvas.line((mean_x, y - 7), (mean_x, y + 7), width=2)
        _label(canvas, f"mean {_told(view.mean_n)}", mean_x, y + 24, width_px)
        return y + 34
    good = view.bound_n >= view.limit_n
    colour, bound_x = (GOOD if good else BAD), x_of(max(view.bound_n, view.ends_n[0]))
    canvas.line((bound_x, y), (mean_x, y), stroke=colour, width=2)
    canvas.line((mean_x, y - 7), (mean_x, y + 7), width=2)
    canvas.line((bound_x, y - 9), (bound_x, y + 9), stroke=colour, width=3)
    bound_told, mean_told = f"bound {_told(view.bound_n)}", f"mean {_told(view.mean_n)}"
    halves = [
        text_width(told, size=_TEXT_PX, weight=weight) / 2
        for told, weight in ((bound_told, SEMIBOLD), (mean_told, REGULAR))
    ]
    apart = mean_x - bound_x >= sum(halves) + 12
    _label(canvas, bound_told, bound_x, y + 26, width_px, weight=SEMIBOLD, fill=colour)
    _label(canvas, mean_told, mean_x, y + (26 if apart else 46), width_px)
    return y + (36 if apart else 56)
