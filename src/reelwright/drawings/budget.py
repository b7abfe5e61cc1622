"""What each part of a run uses up of what the signal allows: one bar, stacked to the limit."""

from collections.abc import Sequence
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_not_negative, require_positive, require_text
from reelwright.core.quantities.show import show_in
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
    SHEET,
)

_TEXT_PX = 14.0
_BAR_PX = 34.0
_LEFT_PX = 8.0
_ROW_PX = 24.0
# Copper for the cable, which uses up the most; every further part lighter, with the ink that reads.
_LOOKS = ((COPPER, SHEET), ("#C98A64", INK), ("#E2BFA6", INK), (COPPER_TINT, INK))


@dataclass(frozen=True, kw_only=True)
class BudgetPart:
    """What one thing on the way uses up, in the budget's unit."""

    name: str
    used: float

    def __post_init__(self) -> None:
        require_text(self, "name")
        require_not_negative(self, "used")


@dataclass(frozen=True, kw_only=True)
class BudgetView:
    """The parts in the order of the run, and the limit they are held against."""

    title: str
    parts: tuple[BudgetPart, ...]
    limit: float
    unit: str
    decimals: int = 1

    def __post_init__(self) -> None:
        require_text(self, "title", "unit")
        require_positive(self, "limit")
        if not self.parts:
            raise BadValue(owner="BudgetView", field="parts", value=(), accepted="one or more")

    @property
    def used(self) -> float:
        """All parts together."""
        return sum(part.used for part in self.parts)

    @property
    def spare(self) -> float:
        """What is left to the limit; negative where it is exceeded."""
        return self.limit - self.used


def budget_table(view: BudgetView) -> tuple[tuple[str, str], ...]:
    """Return the drawing's table twin: each part, the sum, the limit, what is to spare."""
    rows = [(part.name, _told(view, part.used)) for part in view.parts]
    rows.append(("used", _told(view, view.used)))
    rows.append(("limit", _told(view, view.limit)))
    rows.append(("to spare" if view.spare >= 0 else "over the limit", _told(view, abs(view.spare))))
    return tuple(rows)


def draw_budget(view: BudgetView, *, width_px: float = 680.0) -> str:
    """Return the bar as SVG text with a list of its parts beneath."""
    canvas = Canvas(
        title=view.title,
        description="; ".join(f"{name} {value}" for name, value in budget_table(view)) + ".",
        unit="",
    )
    top = 30.0
    per_unit = (width_px - 2 * _LEFT_PX) / max(view.limit, view.used)
    limit_x = _LEFT_PX + view.limit * per_unit
    end_x = _draw_stack(canvas, view, top=top, per_unit=per_unit)
    if view.spare > 0:
        canvas.rect(
            x=end_x, y=top, width=limit_x - end_x, height=_BAR_PX, fill=GOOD_TINT, stroke=GOOD
        )
        _inside(
            canvas,
            f"{_told(view, view.spare)} to spare",
            x1=end_x,
            x2=limit_x,
            top=top,
            ink=GOOD,
        )
    elif view.spare < 0:
        canvas.rect(x=limit_x, y=top - 4, width=end_x - limit_x, height=_BAR_PX + 8, fill=BAD_TINT)
        canvas.hatch(
            x=limit_x,
            y=top - 4,
            width=end_x - limit_x,
            height=_BAR_PX + 8,
            angle_deg=-50,
            spacing=6,
            stroke=BAD,
            line_width=1,
        )
        canvas.rect(
            x=limit_x,
            y=top - 4,
            width=end_x - limit_x,
            height=_BAR_PX + 8,
            stroke=BAD,
            stroke_width=1.2,
        )
    canvas.line((limit_x, top - 8), (limit_x, top + _BAR_PX + 8), width=2)
    told = f"limit {_told(view, view.limit)}"
    if view.spare < 0:
        told += f", over by {_told(view, -view.spare)}"
    half = text_width(told, size=_TEXT_PX, weight=SEMIBOLD) / 2
    x = min(max(limit_x, _LEFT_PX + half), width_px - _LEFT_PX - half)
    canvas.text(
        told,
        x=x,
        y=top - 14,
        size=_TEXT_PX,
        weight=SEMIBOLD,
        fill=INK if view.spare >= 0 else BAD,
        anchor="middle",
    )
    bottom = _draw_list(canvas, view, top=top + _BAR_PX + 12, width_px=width_px)
    return canvas.svg(width=width_px, height=bottom + 8)


def _draw_stack(canvas: Canvas, view: BudgetView, *, top: float, per_unit: float) -> float:
    x = _LEFT_PX
    limit_x = _LEFT_PX + view.limit * per_unit
    for place, part in enumerate(view.parts):
        fill, ink = _LOOKS[min(place, len(_LOOKS) - 1)]
        width = part.used * per_unit
        canvas.rect(
            x=x, y=top, width=width, height=_BAR_PX, fill=fill, stroke=SHEET, stroke_width=1
        )
        # What lies beyond the limit is hatched over: the figure stays in front of it.
        _inside(canvas, _told(view, part.used), x1=x, x2=min(x + width, limit_x), top=top, ink=ink)
        x += width
    return x


def _inside(canvas: Canvas, told: str, *, x1: float, x2: float, top: float, ink: str) -> None:
    if text_width(told, size=_TEXT_PX, weight=SEMIBOLD) + 8 <= x2 - x1:
        canvas.text(
            told,
            x=(x1 + x2) / 2,
            y=top + _BAR_PX / 2 + 5,
            size=_TEXT_PX,
            weight=SEMIBOLD,
            fill=ink,
            anchor="middle",
        )


def _draw_list(canvas: Canvas, view: BudgetView, *, top: float, width_px: float) -> float:
    row = top
    named: Sequence[BudgetPart] = view.parts
    for place, part in enumerate(named):
        row += _ROW_PX
        fill, _ = _LOOKS[min(place, len(_LOOKS) - 1)]
        canvas.rect(
            x=_LEFT_PX,
            y=row - 11,
            width=12,
            height=12,
            fill=fill,
            stroke=GRAPHITE,
            stroke_width=0.6,
        )
        canvas.text(part.name, x=_LEFT_PX + 20, y=row, size=_TEXT_PX)
        canvas.text(
            _told(view, part.used), x=width_px - _LEFT_PX, y=row, size=_TEXT_PX, anchor="end"
        )
        canvas.line((_LEFT_PX, row + 7), (width_px - _LEFT_PX, row + 7), stroke=HAIRLINE, width=1)
    return row + 7


def _told(view: BudgetView, value: float) -> str:
    return show_in(value, view.unit, decimals=view.decimals)
