"""One reel as a bar to scale: the free end left, the pieces in the order they are cut.

Names stand inside, lengths below; a piece too short for its name is numbered and listed under the
bar, so that no two labels ever touch.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_count, require_not_negative, require_text
from reelwright.core.quantities.show import show_number, with_unit
from reelwright.drawings.canvas import Canvas
from reelwright.drawings.text_size import text_width
from reelwright.style import (
    BAD,
    BAD_TINT,
    GRAPHITE,
    INK,
    SEMIBOLD,
    SHEET,
    JacketColour,
    contrast,
    jacket_colour,
)

_TEXT_PX = 14.0
_BAR_TOP_PX, _BAR_PX = 30.0, 34.0
_LEFT_PX = 20.0
_PAD_PX = 6.0
_LEGEND_STEP_PX = 22.0


@dataclass(frozen=True, kw_only=True)
class ReelCut:
    """One piece in cutting order; ``done`` once it is cut.

    ``short`` stands on a bar without key where the name has no room; empty: its place in the order.
    """

    name: str
    length_mm: int
    done: bool = False
    short: str = ""

    def __post_init__(self) -> None:
        require_text(self, "name")
        require_count(self, "length_mm", at_least=1)


@dataclass(frozen=True, kw_only=True)
class ReelFlaw:
    """A stretch that is skipped."""

    length_mm: int
    name: str

    def __post_init__(self) -> None:
        require_count(self, "length_mm", at_least=1)
        require_text(self, "name")


@dataclass(frozen=True, kw_only=True)
class ReelGap:
    """A stretch left on the reel between pieces, in front of a flaw: a remnant of its own."""

    length_mm: int
    note: str
    keep: bool = True

    def __post_init__(self) -> None:
        require_count(self, "length_mm", at_least=1)


@dataclass(frozen=True, kw_only=True)
class ReelView:
    """One reel as a plan leaves it, from the free end inwards.

    ``items`` are pieces and flaws in their order along the cable; what follows the last of them is
    the remnant, ``remnant_note`` says what it is good for. ``standard_uncertainty_mm`` is that of
    the length on the reel: it lies at the inner end. ``in_rack``: a reel as it lies there, with
    nothing decided about its stretches yet.
    """

    reel: str
    title: str
    jacket: str
    items: tuple[ReelCut | ReelFlaw | ReelGap, ...]
    remnant_mm: int
    remnant_note: str
    standard_uncertainty_mm: float
    remnant_kept: bool = True
    in_rack: bool = False

    def __post_init__(self) -> None:
        require_text(self, "reel", "title")
        require_count(self, "remnant_mm")
        require_not_negative(self, "standard_uncertainty_mm")
        if not self.items and self.remnant_mm == 0:
            raise BadValue(owner="ReelView", field="items", value=(), accepted="something to draw")

    @property
    def length_mm(self) -> int:
        """The whole of it, remnant included."""
        return sum(item.length_mm for item in self.items) + self.remnant_mm

    @property
    def colour(self) -> JacketColour:
        """The jacket's colour."""
        return jacket_colour(self.jacket)


@dataclass(frozen=True, kw_only=True)
class _Box:
    item: ReelCut | ReelFlaw | ReelGap
    x: float
    width: float
    cut_number: int


def draw_reel(
    view: ReelView, *, width_px: float = 1120.0, longest_mm: int = 0, key: bool = True
) -> str:
    """Return the bar as SVG text, ``width_px`` wide, its height as its labels need.

    A millimetre of cable is the same width everywhere on the bar. ``longest_mm``: the length that
    would fill the width, so that several bars share one scale, and one bar shrinks as it is cut.
    ``key`` off leaves out the list of numbered pieces, where a table beside names them alike.
    """
    canvas = Canvas(title=view.title, description=_describe(view), unit="")
    known = view.standard_uncertainty_mm == 0
    spread = "" if known else with_unit(f"±{_metres(view.standard_uncertainty_mm)}", "m")
    fade_px = 0.0 if known else 26.0
    bar_px = width_px - _LEFT_PX - fade_px - text_width(spread, size=_TEXT_PX) - 2 * _PAD_PX
    per_mm = bar_px / max(view.length_mm, longest_mm)
    boxes = _place(view.items, per_mm)
    _free_end(canvas)
    numbered = [box for box in boxes if isinstance(box.item, ReelCut) and not _name_fits(box)]
    for box in boxes:
        label = _label(box, fits=box not in numbered, key=key)
        _draw_item(canvas, box, view.colour, label=label, in_rack=view.in_rack)
    remnant_x = _LEFT_PX + (view.length_mm - view.remnant_mm) * per_mm
    right = _LEFT_PX + view.length_mm * per_mm
    if view.remnant_mm > 0:
        _draw_remnant(
            canvas,
            x=remnant_x,
            width=right - remnant_x,
            length_mm=view.remnant_mm,
            colour=view.colour,
            word="" if view.in_rack else "keep " if view.remnant_kept else "scrap ",
        )
    if not known:
        _fade(canvas, x=right, width=fade_px, colour=view.colour, pale=view.remnant_mm > 0)
        canvas.text(
            spread,
            x=right + fade_px + _PAD_PX,
            y=_BAR_TOP_PX + _BAR_PX / 2 + 5,
            size=_TEXT_PX,
            fill=GRAPHITE,
        )
    _flaw_names(canvas, boxes, limit=width_px)
    bottom = _lengths_below(canvas, view, boxes, remnant_x=remnant_x, right=right, limit=width_px)
    if key:
        bottom = _legend(canvas, numbered, top=bottom, width_px=width_px)
    return canvas.svg(width=width_px, height=bottom + 8)


def reel_table(view: ReelView) -> tuple[tuple[str, str, str], ...]:
    """Return the drawing's table twin: what, its length, where it begins (m from the free end)."""
    rows, at_mm = [], 0
    for item in view.items:
        what = "cable" if view.in_rack and isinstance(item, ReelGap) else _called(item)
        rows.append((what, _metres(item.length_mm), _metres(at_mm)))
        at_mm += item.length_mm
    if view.remnant_mm > 0:
        name = "cable" if view.in_rack else "remnant" if view.remnant_kept else "scrap"
        told = f"{name}{', ' + view.remnant_note if view.remnant_note else ''}"
        rows.append((told, _metres(view.remnant_mm), _metres(at_mm)))
    return tuple(rows)


def _called(item: ReelCut | ReelFlaw | ReelGap) -> str:
    match item:
        case ReelCut():
            return item.name
        case ReelFlaw():
            return f"{item.name}, skip"
        case ReelGap():
            name = "remnant" if item.keep else "scrap"
            return f"{name}{', ' + item.note if item.note else ''}"


def _describe(view: ReelView) -> str:
    told = "; ".join(f"{what} {with_unit(length, 'm')}" for what, length, _ in reel_table(view))
    return (
        f"Jacket {view.colour.name}. From the free end: {told}. "
        f"Length on the reel known to ±{with_unit(_metres(view.standard_uncertainty_mm), 'm')}."
    )


def _metres(length_mm: float) -> str:
    return show_number(length_mm / 1000, decimals=2)


def _place(items: Sequence[ReelCut | ReelFlaw | ReelGap], per_mm: float) -> list[_Box]:
    boxes, at_mm, cuts = [], 0, 0
    for item in items:
        cuts += isinstance(item, ReelCut)
        boxes.append(
            _Box(
                item=item,
                x=_LEFT_PX + at_mm * per_mm,
                width=item.length_mm * per_mm,
                cut_number=cuts,
            )
        )
        at_mm += item.length_mm
    return boxes


def _free_end(canvas: Canvas) -> None:
    canvas.text("free end", x=_LEFT_PX, y=_BAR_TOP_PX - 12, size=_TEXT_PX, fill=GRAPHITE)
    canvas.line(
        (_LEFT_PX - 3, _BAR_TOP_PX - 7), (_LEFT_PX - 3, _BAR_TOP_PX + _BAR_PX + 7), width=2.5
    )


def _name_fits(box: _Box) -> bool:
    assert isinstance(box.item, ReelCut)
    needed = text_width(box.item.name, size=_TEXT_PX, weight=SEMIBOLD) + 2 * _PAD_PX
    return needed <= box.width


def _label(box: _Box, *, fits: bool, key: bool) -> str:
    if not isinstance(box.item, ReelCut):
        return ""
    if fits:
        return box.item.name
    return str(box.cut_number) if key or not box.item.short else box.item.short


def _draw_item(
    canvas: Canvas, box: _Box, colour: JacketColour, *, label: str, in_rack: bool
) -> None:
    match box.item:
        case ReelCut():
            _draw_piece(canvas, box, colour, label=label)
        case ReelGap():
            _draw_remnant(
                canvas,
                x=box.x,
                width=box.width,
                length_mm=box.item.length_mm,
                colour=colour,
                word="" if in_rack else "keep " if box.item.keep else "scrap ",
            )
        case ReelFlaw():
            x, width = box.x, max(box.width, 2.0)
            top, height = _BAR_TOP_PX - 6, _BAR_PX + 12
            canvas.rect(x=x, y=top, width=width, height=height, fill=BAD_TINT)
            canvas.hatch(
                x=x,
                y=top,
                width=width,
                height=height,
                angle_deg=-50,
                spacing=5,
                stroke=BAD,
                line_width=1.3,
            )
            canvas.rect(x=x, y=top, width=width, height=height, stroke=BAD, stroke_width=1.2)


def _draw_piece(canvas: Canvas, box: _Box, colour: JacketColour, *, label: str) -> None:
    assert isinstance(box.item, ReelCut)
    done = box.item.done
    canvas.rect(
        x=box.x,
        y=_BAR_TOP_PX,
        width=box.width,
        height=_BAR_PX,
        fill=SHEET if done else colour.fill,
    )
    if not done:
        # Fine lines along the lower edge only: they tell the colour in black and white and leave
        # the name alone.
        for angle in colour.stripes:
            canvas.hatch(
                x=box.x,
                y=_BAR_TOP_PX + _BAR_PX - 7,
                width=box.width,
                height=7,
                angle_deg=angle,
                spacing=3.5,
                stroke=colour.ink,
                line_width=0.6,
                opacity=0.6,
            )
    canvas.rect(
        x=box.x,
        y=_BAR_TOP_PX,
        width=box.width,
        height=_BAR_PX,
        stroke=GRAPHITE if done else colour.edge,
        stroke_width=1,
    )
    seam = GRAPHITE if done or contrast(colour.fill, SHEET) < 3 else SHEET
    for x in (box.x, box.x + box.width):
        canvas.line((x, _BAR_TOP_PX), (x, _BAR_TOP_PX + _BAR_PX), stroke=seam, width=1.6)
    if text_width(label, size=_TEXT_PX, weight=SEMIBOLD) + 2 <= box.width:
        canvas.text(
            label,
            x=box.x + box.width / 2,
            y=_BAR_TOP_PX + _BAR_PX / 2 + 3,
            size=_TEXT_PX,
            weight=SEMIBOLD,
            fill=INK if done else colour.ink,
            anchor="middle",
        )


def _draw_remnant(
    canvas: Canvas, *, x: float, width: float, length_mm: int, colour: JacketColour, word: str
) -> None:
    canvas.rect(
        x=x,
        y=_BAR_TOP_PX,
        width=width,
        height=_BAR_PX,
        fill=SHEET if word == "scrap " else colour.pale,
        stroke=colour.edge,
        stroke_width=1,
    )
    for label in (f"{word}{_metres(length_mm)}", _metres(length_mm)):
        if text_width(label, size=_TEXT_PX) + _PAD_PX <= width:
            canvas.text(
                label,
                x=x + width / 2,
                y=_BAR_TOP_PX + _BAR_PX / 2 + 5,
                size=_TEXT_PX,
                anchor="middle",
            )
            return


def _fade(canvas: Canvas, *, x: float, width: float, colour: JacketColour, pale: bool) -> None:
    """Draw the inner end fading out: layers on each other, since a gradient would need an id."""
    canvas.rect(x=x, y=_BAR_TOP_PX, width=width, height=_BAR_PX, fill=SHEET)
    layers = 13
    base = colour.edge if pale else colour.fill
    for layer in range(layers):
        canvas.rect(
            x=x,
            y=_BAR_TOP_PX,
            width=width * (layer + 1) / layers,
            height=_BAR_PX,
            fill=base,
            opacity=0.055,
        )


def _flaw_names(canvas: Canvas, boxes: Sequence[_Box], *, limit: float) -> None:
    """Write each flaw's name above it, moved right where the one before, or an edge, is near."""
    least = _LEFT_PX + text_width("free end", size=_TEXT_PX) + 2 * _PAD_PX
    for box in boxes:
        if not isinstance(box.item, ReelFlaw):
            continue
        told = f"{box.item.name}, skip {_metres(box.item.length_mm)}"
        width = text_width(told, size=_TEXT_PX)
        middle = box.x + box.width / 2
        x = min(max(least, middle - width / 2), limit - width)
        if x < least:
            continue  # two flaws nearer than their names: both are in the table beside
        canvas.text(told, x=x, y=_BAR_TOP_PX - 12, size=_TEXT_PX, fill=BAD)
        least = x + width + 2 * _PAD_PX


def _lengths_below(
    canvas: Canvas,
    view: ReelView,
    boxes: Sequence[_Box],
    *,
    remnant_x: float,
    right: float,
    limit: float,
) -> float:
    row = _BAR_TOP_PX + _BAR_PX + 20
    used = _LEFT_PX
    for box in boxes:
        if isinstance(box.item, ReelFlaw):
            continue
        told = _metres(box.item.length_mm)
        if isinstance(box.item, ReelGap):
            told = box.item.note
        elif box.item.done:
            told += " ✓"
        width = text_width(told, size=_TEXT_PX)
        if told and width + 4 <= box.width:
            middle = box.x + box.width / 2
            canvas.text(told, x=middle, y=row, size=_TEXT_PX, fill=GRAPHITE, anchor="middle")
            used = middle + width / 2 + _PAD_PX
    if view.remnant_mm > 0 and view.remnant_note:
        width = text_width(view.remnant_note, size=_TEXT_PX)
        x = min((remnant_x + right - width) / 2, limit - width)
        if x < used:
            row += 20
        canvas.text(view.remnant_note, x=max(x, 0), y=row, size=_TEXT_PX, fill=GRAPHITE)
    return row


def _legend(canvas: Canvas, numbered: Sequence[_Box], *, top: float, width_px: float) -> float:
    """List the pieces whose names had no room, row after row."""
    x, row = _LEFT_PX, top + _LEGEND_STEP_PX
    if not numbered:
        return top
    for box in numbered:
        assert isinstance(box.item, ReelCut)
        told = f"{box.cut_number}  {box.item.name} {_metres(box.item.length_mm)}"
        width = text_width(told, size=_TEXT_PX)
        if x + width > width_px:
            x, row = _LEFT_PX, row + _LEGEND_STEP_PX
        canvas.text(str(box.cut_number), x=x, y=row, size=_TEXT_PX, weight=SEMIBOLD, fill=INK)
        canvas.text(
            f"{box.item.name} {_metres(box.item.length_mm)}",
            x=x + text_width(f"{box.cut_number}  ", size=_TEXT_PX, weight=SEMIBOLD),
            y=row,
            size=_TEXT_PX,
            fill=GRAPHITE,
        )
        x += width + 3 * _PAD_PX
    return row
