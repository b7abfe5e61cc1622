"""Where the labels of near points go so that none prints over another or over a mark."""

from collections.abc import Sequence
from dataclasses import dataclass

_LETTER_PX = 7.5
"""Width of a figure or small letter at the charts' size; labels are short, so nearly is enough."""

_HEIGHT_PX = 15.0
_MARK_PX = 7.0
_STEPS = (
    (9.0, -9.0),
    (9.0, 12.0),
    (-9.0, -9.0),
    (-9.0, 12.0),
    (12.0, 0.0),
    (-12.0, 0.0),
    (9.0, -24.0),
    (9.0, 27.0),
    (-9.0, -24.0),
    (-9.0, 27.0),
)
_Box = tuple[float, float, float, float]


@dataclass(frozen=True, kw_only=True)
class LabelPlace:
    """A label stands ``dx`` and ``dy`` pixels from its point, to its right where dx is above 0."""

    dx: float
    dy: float

    @property
    def is_right(self) -> bool:
        """Whether the label begins at its place; else it ends there."""
        return self.dx > 0


def place_labels(
    points: Sequence[tuple[float, float]], labels: Sequence[str], *, width_px: float
) -> tuple[LabelPlace, ...]:
    """Return a place for each of ``labels``; ``points`` in pixels, y downwards, one after another.

    The first place that covers neither a label placed before nor any mark is taken, inside
    ``width_px``; where there is none, the one that covers least.
    """
    marks = [(x - _MARK_PX, y - _MARK_PX, x + _MARK_PX, y + _MARK_PX) for x, y in points]
    taken: list[_Box] = []
    places = []
    for (x, y), told in zip(points, labels, strict=True):
        wide = _LETTER_PX * len(told)
        best: tuple[float, LabelPlace, _Box] | None = None
        for dx, dy in _STEPS:
            left = x + dx if dx > 0 else x + dx - wide
            box = (left, y + dy - _HEIGHT_PX / 2, left + wide, y + dy + _HEIGHT_PX / 2)
            outside = max(0.0, -left) + max(0.0, left + wide - width_px)
            covered = sum(_common(box, other) for other in (*taken, *marks))
            cost = covered + 100.0 * outside
            if best is None or cost < best[0]:
                best = (cost, LabelPlace(dx=dx, dy=dy), box)
            if cost <= 0:
                break
        assert best is not None
        places.append(best[1])
        taken.append(best[2])
    return tuple(places)


def _common(one: _Box, other: _Box) -> float:
    wide = min(one[2], other[2]) - max(one[0], other[0])
    high = min(one[3], other[3]) - max(one[1], other[1])
    return max(0.0, wide) * max(0.0, high)
