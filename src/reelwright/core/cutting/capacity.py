"""How many pieces of one length the reels of an item would give, stretch by stretch."""

from collections.abc import Iterable
from dataclasses import dataclass

from reelwright.core.cutting.certainty import usable_mm
from reelwright.core.cutting.problem import ReelStock


@dataclass(frozen=True, kw_only=True)
class StretchCapacity:
    """What one stretch gives. ``rest_mm`` is what is left of its mean length."""

    reel_id: str
    lot: str
    start_mm: int
    usable_mm: int
    pieces: int
    rest_mm: int


def capacity(
    reels: Iterable[ReelStock], *, item: str, cut_length_mm: int, chance_of_enough: float
) -> tuple[StretchCapacity, ...]:
    """Return how many pieces of ``cut_length_mm`` each stretch gives, oldest reel first.

    No stretch is filled further than it is there with ``chance_of_enough`` (0 to 1).
    """
    rows = []
    for reel in sorted(reels, key=lambda reel: (reel.age_rank, reel.lot, reel.id)):
        for stretch in reel.stretches if reel.item == item else ():
            usable = usable_mm(stretch, chance_of_enough=chance_of_enough)
            count = usable // cut_length_mm
            rows.append(
                StretchCapacity(
                    reel_id=reel.id,
                    lot=reel.lot,
                    start_mm=stretch.start_mm,
                    usable_mm=usable,
                    pieces=count,
                    rest_mm=stretch.length_mm - count * cut_length_mm,
                )
            )
    return tuple(rows)
