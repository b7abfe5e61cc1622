"""Dimension lines of an end: lengths with tolerance in a chain, cut positions from the end."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from reelwright.drawings.canvas import Canvas
from reelwright.drawings.text_size import text_width
from reelwright.style import COPPER, GRAPHITE, INK, REGULAR, SEMIBOLD

FINE_MM, THICK_MM = 0.13, 0.25
"""Line widths of a drawing, ISO 128's ratio of one to two."""


@dataclass(frozen=True, kw_only=True)
class Stretch:
    """One stripped length: from and to in mm from the cable's end, as drawn and as told.

    ``spread_mm``: half width of where its far side may lie, in mm, 0 where it is nowhere fixed.
    ``told`` is the figure with its tolerance; ``position`` the cut position at its far side, empty
    where it is nowhere fixed.
    """

    start_mm: float
    end_mm: float
    spread_mm: float
    letter: str
    name: str
    told: str
    position: str


def fits_inline(stretches: Sequence[Stretch], *, scale: float, size: float) -> bool:
    """Return whether every figure has room between its own extension lines."""
    return all(
        text_width(s.told, size=size) + 0.8 * size <= (s.end_mm - s.start_mm) * scale
        and text_width(s.position, size=size) + 0.8 * size <= (s.end_mm - s.start_mm) * scale
        for s in stretches
    )


def draw_bands(
    canvas: Canvas,
    stretches: Sequence[Stretch],
    *,
    x_of: Callable[[float], float],
    tops: Callable[[float], float],
    axis: float,
) -> None:
    """Tint where each cut may lie within its tolerance, over the whole height that stands there."""
    for stretch in stretches:
        left, right = (x_of(stretch.end_mm + side * stretch.spread_mm) for side in (-1, 1))
        half = tops(stretch.end_mm) - axis
        if right > left:
            canvas.rect(
                x=left,
                y=axis - half,
                width=right - left,
                height=2 * half,
                fill=COPPER,
                opacity=0.35,
            )


def draw_inline(
    canvas: Canvas,
    stretches: Sequence[Stretch],
    *,
    x_of: Callable[[float], float],
    tops: Callable[[float], float],
    below: float,
    size: float,
) -> float:
    """Draw chain and positions under the body; return the lowest y used."""
    chain, foot = below + 2.1 * size, below + 3.1 * size
    for at_mm, label in _positions(stretches):
        x = x_of(at_mm)
        canvas.line((x, tops(at_mm) + 0.3 * size), (x, foot), width=FINE_MM, stroke=GRAPHITE)
        canvas.text(label, x=x, y=foot + size, size=size, fill=GRAPHITE, anchor="middle")
    for stretch in stretches:
        canvas.dimension(
            x1=x_of(stretch.start_mm),
            x2=x_of(stretch.end_mm),
            y=chain,
            text=stretch.told,
            size=size,
            stroke=FINE_MM,
        )
    return foot + 1.35 * size


def _positions(stretches: Sequence[Stretch]) -> list[tuple[float, str]]:
    told = [(stretches[0].start_mm, "0")]
    return told + [(s.end_mm, s.position) for s in stretches]


def draw_lettered(
    canvas: Canvas,
    stretches: Sequence[Stretch],
    *,
    x_of: Callable[[float], float],
    tops: Callable[[float], float],
    below: float,
    size: float,
    scale: float,
) -> float:
    """Draw the chain with letters only, on leaders beneath where they have no room above it."""
    chain = below + 1.9 * size
    for at_mm, _ in _positions(stretches):
        canvas.line(
            (x_of(at_mm), tops(at_mm) + 0.3 * size),
            (x_of(at_mm), chain + 0.5 * size),
            width=FINE_MM,
            stroke=GRAPHITE,
        )
    letters = [
        Callout(x=(x_of(stretch.start_mm) + x_of(stretch.end_mm)) / 2, y=chain, text=stretch.letter)
        for stretch in stretches
    ]
    room = all(
        text_width(s.letter, size=size, weight=SEMIBOLD) + 0.3 * size
        <= (s.end_mm - s.start_mm) * scale
        for s in stretches
    )
    edges = _spread(letters, size=size, left=0.0, weight=SEMIBOLD, gap=0.4 * size)
    for stretch, letter, edge in zip(stretches, letters, edges, strict=True):
        canvas.dimension(
            x1=x_of(stretch.start_mm),
            x2=x_of(stretch.end_mm),
            y=chain,
            text="",
            size=size * 0.6,
            stroke=FINE_MM,
        )
        middle = edge + text_width(letter.text, size=size, weight=SEMIBOLD) / 2
        if not room:
            canvas.line(
                (letter.x, chain), (middle, chain + 1.1 * size), width=FINE_MM, stroke=GRAPHITE
            )
        canvas.text(
            letter.text,
            x=letter.x if room else middle,
            y=chain - 0.35 * size if room else chain + 1.9 * size,
            size=size,
            weight=SEMIBOLD,
            anchor="middle",
        )
    return chain + (0.8 if room else 2.2) * size


def key_width(stretches: Sequence[Stretch], *, size: float) -> float:
    """Return the width of the key that ``draw_key`` writes."""
    return sum(_columns(stretches, size=size))


def _columns(stretches: Sequence[Stretch], *, size: float) -> tuple[float, float, float, float]:
    gap = 1.1 * size
    return (
        1.4 * size,
        max(text_width(s.name, size=size) for s in stretches) + gap,
        max(
            text_width("length", size=size),
            *(text_width(s.told, size=size, weight=SEMIBOLD) for s in stretches),
        )
        + gap,
        max(
            text_width("cut at", size=size), *(text_width(s.position, size=size) for s in stretches)
        ),
    )


def draw_key(
    canvas: Canvas, stretches: Sequence[Stretch], *, x: float, y: float, size: float
) -> float:
    """Write letter, name, length and cut position in rows from y down; return the lowest y."""
    first, second, third, fourth = _columns(stretches, size=size)
    told_at, position_at = (
        x + first + second + third - 1.1 * size,
        x + first + second + third + fourth,
    )
    row = y + size
    canvas.text("length", x=told_at, y=row, size=size, fill=GRAPHITE, anchor="end")
    canvas.text("cut at", x=position_at, y=row, size=size, fill=GRAPHITE, anchor="end")
    for stretch in stretches:
        row += 1.6 * size
        canvas.line(
            (x, row - 1.15 * size), (position_at, row - 1.15 * size), width=FINE_MM, stroke=GRAPHITE
        )
        canvas.text(stretch.letter, x=x, y=row, size=size, weight=SEMIBOLD)
        canvas.text(stretch.name, x=x + first, y=row, size=size)
        canvas.text(
            stretch.told, x=told_at, y=row, size=size, weight=SEMIBOLD, anchor="end", fill=INK
        )
        canvas.text(stretch.position, x=position_at, y=row, size=size, anchor="end", fill=GRAPHITE)
    return row + 0.4 * size


@dataclass(frozen=True, kw_only=True)
class Callout:
    """A name for the part that the point ``x``, ``y`` lies in."""

    x: float
    y: float
    text: str


def draw_callouts(
    canvas: Canvas, callouts: Sequence[Callout], *, baseline: float, size: float, left: float
) -> None:
    """Write the names in one row, moved apart where they would touch, each with its leader."""
    edge = left
    for callout, where in zip(callouts, _spread(callouts, size=size, left=edge), strict=True):
        width = text_width(callout.text, size=size)
        canvas.line(
            (where + width / 2, baseline + 0.3 * size),
            (callout.x, callout.y),
            width=FINE_MM,
            stroke=GRAPHITE,
        )
        canvas.circle((callout.x, callout.y), 0.35, fill=GRAPHITE)
        canvas.text(callout.text, x=where, y=baseline, size=size, fill=GRAPHITE)


def _spread(
    callouts: Sequence[Callout],
    *,
    size: float,
    left: float,
    weight: int = REGULAR,
    gap: float | None = None,
) -> list[float]:
    """Return the left edge of each name: over its part, else as near as its neighbours let it."""
    gap = 0.8 * size if gap is None else gap
    widths = [text_width(c.text, size=size, weight=weight) for c in callouts]
    edges: list[float] = []
    least = left
    for callout, width in zip(callouts, widths, strict=True):
        edge = max(least, callout.x - width / 2)
        edges.append(edge)
        least = edge + width + gap
    return edges


def callouts_right(callouts: Sequence[Callout], *, size: float, left: float) -> float:
    """Return the right edge of the row that ``draw_callouts`` writes."""
    edges = _spread(callouts, size=size, left=left)
    return max(
        edge + text_width(c.text, size=size) for edge, c in zip(edges, callouts, strict=True)
    )
