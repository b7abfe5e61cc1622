"""The day at the benches: stations as rows, batches as blocks, couriers as upright lines.

To scale in time, left to right. Black and white safe: a batch is an outlined block with its set-up
inside, a change-over is hatched, a late batch carries a heavy edge and the word.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_between, require_text
from reelwright.drawings.canvas import Canvas
from reelwright.drawings.text_size import text_width
from reelwright.style import BOLD, COPPER, GRAPHITE, HAIRLINE, INK, SEMIBOLD, SHEET

MINUTES_A_DAY = 24 * 60

_TOP_PX, _BOTTOM_PX, _EDGE_PX = 34.0, 8.0, 8.0
_LINE_PX = 15.0
_TEXT_PX, _SMALL_PX = 12.0, 11.0

_Scale = Callable[[float], float]


@dataclass(frozen=True, kw_only=True)
class _Heights:
    """Of a row, of its blocks, of the room above a block, and of the text in it."""

    row: float
    block: float
    above: float
    text: float


_FULL = _Heights(row=50.0, block=24.0, above=12.0, text=_TEXT_PX)
_COMPACT = _Heights(row=19.0, block=14.0, above=2.5, text=10.5)


@dataclass(frozen=True, kw_only=True)
class DayBlock:
    """One batch at one station. Times in minutes after midnight.

    The change-over before it lies in ``change_over_start_min`` to ``start_min`` (equal: none).
    ``label`` (a set-up, or the batch's number in a table beside) stands inside, ``note`` (orders,
    pieces) behind it where both fit.
    """

    change_over_start_min: float
    start_min: float
    finish_min: float
    label: str
    note: str
    late: bool

    def __post_init__(self) -> None:
        require_text(self, "label")
        require_between(self, "change_over_start_min", low=0, high=self.start_min)
        require_between(self, "start_min", low=0, high=self.finish_min)
        require_between(self, "finish_min", low=0, high=MINUTES_A_DAY)


@dataclass(frozen=True, kw_only=True)
class DayRow:
    """One station with its batches; ``who`` stands under its name and may be empty."""

    station: str
    who: str
    blocks: tuple[DayBlock, ...]

    def __post_init__(self) -> None:
        require_text(self, "station")


@dataclass(frozen=True, kw_only=True)
class DayMark:
    """A moment that rules the day, such as a courier; in minutes after midnight."""

    minute: float
    label: str

    def __post_init__(self) -> None:
        require_between(self, "minute", low=0, high=MINUTES_A_DAY)
        require_text(self, "label")


@dataclass(frozen=True, kw_only=True)
class Day:
    """The rows from top to bottom and the marks, drawn from ``begin_min`` to ``end_min``."""

    title: str
    begin_min: float
    end_min: float
    rows: tuple[DayRow, ...]
    marks: tuple[DayMark, ...]

    def __post_init__(self) -> None:
        require_text(self, "title")
        require_between(self, "begin_min", low=0, high=MINUTES_A_DAY)
        require_between(self, "end_min", low=0, high=MINUTES_A_DAY)
        moments = [mark.minute for mark in self.marks]
        for row in self.rows:
            for block in row.blocks:
                moments += [block.change_over_start_min, block.finish_min]
        if self.end_min <= self.begin_min or any(
            not self.begin_min <= moment <= self.end_min for moment in moments
        ):
            raise BadValue(
                owner="Day",
                field="end_min",
                value=(self.begin_min, self.end_min),
                accepted="a span of time that holds every block and mark",
            )


def clock_text(minute: float) -> str:
    """Minutes after midnight as "14:10"."""
    whole = round(minute)
    return f"{whole // 60:02d}:{whole % 60:02d}"


def draw_day(day: Day, *, width_px: float = 960.0, compact: bool = False) -> str:
    """The day as SVG text, ``width_px`` wide.

    ``compact`` halves the rows: nobody's name, and a label only where it has room in its block.
    """
    heights = _COMPACT if compact else _FULL
    names_px = 16 + max(
        (
            max(
                text_width(row.station, size=_TEXT_PX + 1, weight=SEMIBOLD),
                0.0 if compact else text_width(row.who, size=_SMALL_PX),
            )
            for row in day.rows
        ),
        default=60.0,
    )
    scale = (width_px - names_px - _EDGE_PX) / (day.end_min - day.begin_min)

    def at(minute: float) -> float:
        return names_px + (minute - day.begin_min) * scale

    bottom = _TOP_PX + heights.row * len(day.rows)
    canvas = Canvas(title=day.title, description=_told(day), unit="")
    _hours(canvas, day, at, bottom)
    for place, row in enumerate(day.rows):
        top = _TOP_PX + heights.row * place
        canvas.line((0, top), (width_px, top), stroke=HAIRLINE, width=1)
        middle = top + heights.row / 2
        who = "" if compact else row.who
        name_y = middle - 2 if who else middle + 4
        name_size = heights.text + 1
        canvas.text(row.station, x=0, y=name_y, size=name_size, weight=SEMIBOLD)
        if who:
            canvas.text(who, x=0, y=middle + 12, size=_SMALL_PX, fill=GRAPHITE)
        _row(canvas, row, at, top + heights.above, heights, limit=width_px, outside=not compact)
    canvas.line((0, bottom), (width_px, bottom), stroke=INK, width=1)
    n_lines = _marks(canvas, day, at, bottom, width_px)
    return canvas.svg(width=width_px, height=bottom + _BOTTOM_PX + _LINE_PX * n_lines)


def _hours(canvas: Canvas, day: Day, at: _Scale, bottom: float) -> None:
    first = math.ceil(day.begin_min / 60)
    # Every hour of a day shift, every second one of a longer day: a dozen labels at most.
    step = 1 if day.end_min - day.begin_min <= 12 * 60 else 2
    for hour in range(first, int(day.end_min) // 60 + 1, step):
        x = at(hour * 60)
        canvas.line((x, _TOP_PX - 6), (x, bottom), stroke=HAIRLINE, width=1)
        told = clock_text(hour * 60)
        half = text_width(told, size=_SMALL_PX) / 2
        left = min(x - half, at(day.end_min) + _EDGE_PX - 2 * half)
        canvas.text(told, x=left, y=_TOP_PX - 12, size=_SMALL_PX, fill=GRAPHITE)


def _row(
    canvas: Canvas,
    row: DayRow,
    at: _Scale,
    top: float,
    heights: _Heights,
    *,
    limit: float,
    outside: bool,
) -> None:
    # How far names are written already: below the blocks, and above them.
    below, above = 0.0, 0.0
    for block in sorted(row.blocks, key=lambda block: block.start_min):
        _block(canvas, block, at, top, heights.block)
        left = at(block.start_min)
        label = f"{block.label}, late" if block.late else block.label
        if _named_inside(canvas, block, label, at, top + heights.block / 2, size=heights.text):
            continue
        if not outside:
            continue
        # Too narrow: the name stands under its block, over it where a neighbour's name is there
        # already; where both are taken, the table beside the drawing names the batch.
        wide = text_width(label, size=_SMALL_PX - 1, weight=SEMIBOLD)
        x = min(max((left + at(block.finish_min) - wide) / 2, 0.0), limit - wide)
        if x >= below:
            y, below = top + heights.block + 10, x + wide + 4
        elif x >= above:
            y, above = top - 3, x + wide + 4
        else:
            continue
        canvas.text(label, x=x, y=y, size=_SMALL_PX - 1, weight=SEMIBOLD)


def _named_inside(
    canvas: Canvas, block: DayBlock, label: str, at: _Scale, middle: float, *, size: float
) -> bool:
    start, finish = at(block.start_min), at(block.finish_min)
    wide = text_width(label, size=size, weight=BOLD)
    baseline = middle + 0.36 * size
    if wide + 4 > finish - start:
        return False
    roomy = wide + 8 <= finish - start
    x = start + 4 if roomy else (start + finish - wide) / 2
    canvas.text(label, x=x, y=baseline, size=size, weight=BOLD)
    note_x = x + wide + 6
    if block.note and note_x + text_width(block.note, size=size - 2) + 4 <= finish:
        canvas.text(block.note, x=note_x, y=baseline, size=size - 2, fill=GRAPHITE)
    return True


def _block(canvas: Canvas, block: DayBlock, at: _Scale, top: float, height: float) -> None:
    left, start, finish = at(block.change_over_start_min), at(block.start_min), at(block.finish_min)
    canvas.rect(x=left, y=top, width=finish - left, height=height, fill=SHEET)
    if start > left:
        canvas.hatch(
            x=left,
            y=top,
            width=start - left,
            height=height,
            angle_deg=135,
            spacing=4,
            stroke=GRAPHITE,
            line_width=0.9,
        )
    canvas.rect(x=start, y=top, width=finish - start, height=height, fill=HAIRLINE, opacity=0.4)
    canvas.rect(
        x=start,
        y=top,
        width=finish - start,
        height=height,
        stroke=INK,
        stroke_width=2.4 if block.late else 1,
    )


def _marks(canvas: Canvas, day: Day, at: _Scale, bottom: float, width_px: float) -> int:
    """Draw the marks; return how many lines their labels take."""
    lines_end: list[float] = []
    for mark in sorted(day.marks, key=lambda mark: mark.minute):
        x = at(mark.minute)
        label = f"{clock_text(mark.minute)} {mark.label}"
        wide = text_width(label, size=_SMALL_PX, weight=SEMIBOLD)
        left = min(max(x - wide / 2, 0.0), width_px - wide)
        line = next((k for k, end in enumerate(lines_end) if left >= end), len(lines_end))
        if line == len(lines_end):
            lines_end.append(0.0)
        lines_end[line] = left + wide + 8
        canvas.line((x, _TOP_PX - 6), (x, bottom + 5), stroke=COPPER, width=1.8, dashes="6 3")
        canvas.text(
            label,
            x=left,
            y=bottom + 17 + _LINE_PX * line,
            size=_SMALL_PX,
            weight=SEMIBOLD,
            fill=COPPER,
        )
    return len(lines_end)


def _told(day: Day) -> str:
    lines = []
    for row in day.rows:
        batches = "; ".join(
            f"{block.label} {clock_text(block.start_min)} to {clock_text(block.finish_min)}"
            + (", late" if block.late else "")
            for block in row.blocks
        )
        lines.append(f"{row.station}: {batches or 'nothing'}.")
    lines += [f"{mark.label} at {clock_text(mark.minute)}." for mark in day.marks]
    return " ".join(lines)
