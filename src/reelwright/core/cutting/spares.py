"""Is there cable for the ones that fail? What is left on the reels, against the yield."""

from dataclasses import dataclass

from reelwright.core.cutting.certainty import usable_mm
from reelwright.core.cutting.plan import CutPlan
from reelwright.core.cutting.problem import CutProblem
from reelwright.core.quantities.marks import CROSS, NARROW_SPACE
from reelwright.core.quantities.show import show_chance, show_metres
from reelwright.core.quantities.words import counted
from reelwright.core.statistics.yields import chance_of_at_least, starts_needed


@dataclass(frozen=True, kw_only=True)
class SpareOutlook:
    """Pieces of one length of one item: cut, and how many more the plan leaves room for.

    ``chance_all_good`` (0 to 1): that enough are good if every further piece is cut as a spare.
    ``starts_needed``: pieces to start so that enough are good with the confidence asked for.
    """

    item: str
    cut_length_mm: int
    cut: int
    room_for_more: int
    chance_all_good: float
    starts_needed: int
    confidence: float

    @property
    def enough(self) -> bool:
        """True where the reels hold the spares that the confidence asks for."""
        return self.cut + self.room_for_more >= self.starts_needed

    @property
    def sentence(self) -> str:
        """What to tell the lead."""
        least = self.starts_needed - self.cut
        return (
            f"{self.item}: {self.cut}{NARROW_SPACE}{CROSS} {show_metres(self.cut_length_mm)} cut, "
            f"room for {self.room_for_more} more. With these as spares the chance that all can be "
            f"delivered is {show_chance(self.chance_all_good)}; {show_chance(self.confidence)} "
            f"needs {counted(least, 'piece')} to spare."
        )


def spare_outlooks(
    problem: CutProblem, plan: CutPlan, *, yield_fraction: float, confidence: float
) -> tuple[SpareOutlook, ...]:
    """Return the outlook of each item and length that is cut, sorted.

    Each length is looked at alone, as if all that is left were for its spares. A remade end makes
    a cable shorter, so a failed cable counts as a new piece. ``yield_fraction`` (0 to 1): share of
    cables that come out good; ``confidence``: the chance wanted that enough are good.
    """
    stock = {reel.id: reel for reel in problem.reels}
    filled: dict[tuple[str, int], int] = {}
    for cuts in plan.reels:
        for place, stretch in enumerate(stock[cuts.reel_id].stretches):
            filled[cuts.reel_id, place] = sum(
                cut.length_mm
                for cut in cuts.cuts
                if stretch.start_mm <= cut.start_mm < stretch.end_mm
            )
    length_of = {piece.id: (piece.item, piece.cut_length_mm) for piece in problem.pieces}
    cut_of: dict[tuple[str, int], int] = {}
    for placement in plan.placements:
        key = length_of[placement.piece_id]
        cut_of[key] = cut_of.get(key, 0) + 1
    outlooks = []
    for (item, length), count in sorted(cut_of.items()):
        room = sum(
            max(
                0,
                usable_mm(stretch, chance_of_enough=problem.chance_of_enough)
                - filled.get((reel.id, place), 0),
            )
            // length
            for reel in problem.reels
            if reel.item == item
            for place, stretch in enumerate(reel.stretches)
        )
        outlooks.append(
            SpareOutlook(
                item=item,
                cut_length_mm=length,
                cut=count,
                room_for_more=room,
                chance_all_good=chance_of_at_least(
                    good=count, starts=count + room, yield_fraction=yield_fraction
                ),
                starts_needed=starts_needed(
                    good=count, yield_fraction=yield_fraction, confidence=confidence
                ),
                confidence=confidence,
            )
        )
    return tuple(outlooks)
