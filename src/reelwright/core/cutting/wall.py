"""What hangs on the wall after a plan: every clean length left, and what it is good for."""

from dataclasses import dataclass

from reelwright.core.cutting.plan import CutPlan, SegmentKind
from reelwright.core.cutting.problem import CutProblem, ItemRules


@dataclass(frozen=True, kw_only=True)
class LengthLeft:
    """One clean length worth keeping. ``loose``: it was cut off in front of a flaw.

    ``use_chance`` (0 to 1) is that of being used in time, as the rules of its item say.
    ``cut_into``: whether the plan opened or shortened its reel.
    """

    item: str
    reel_id: str
    lot: str
    location: str | None
    length_mm: int
    loose: bool
    cut_into: bool
    use_chance: float


@dataclass(frozen=True, kw_only=True)
class Wall:
    """All lengths left, the least useful first."""

    lengths: tuple[LengthLeft, ...]

    @property
    def expected_unused_count(self) -> float:
        """How many of them will not be used in time, on average."""
        return sum(1.0 - each.use_chance for each in self.lengths)

    @property
    def expected_unused_mm(self) -> float:
        """How much cable that is."""
        return sum((1.0 - each.use_chance) * each.length_mm for each in self.lengths)


def wall_after(problem: CutProblem, plan: CutPlan) -> Wall:
    """Return what is left in the rack of every item, reels that nothing is cut from included."""
    cuts_of = {cuts.reel_id: cuts for cuts in plan.reels}
    left = []
    for reel in problem.reels:
        rules = problem.rules_of(reel.item)
        cuts = cuts_of.get(reel.id)
        if cuts is None:
            kept = [(stretch.length_mm, False) for stretch in reel.stretches]
        else:
            kept = [
                (part.length_mm, part.kind is SegmentKind.KEPT_LOOSE)
                for part in cuts.segments
                if part.kind in {SegmentKind.KEPT_LOOSE, SegmentKind.KEPT_ON_REEL}
            ]
        left += [
            LengthLeft(
                item=reel.item,
                reel_id=reel.id,
                lot=reel.lot,
                location=reel.location,
                length_mm=length_mm,
                loose=loose,
                cut_into=cuts is not None,
                use_chance=_chance(rules, length_mm),
            )
            for length_mm, loose in kept
            if length_mm >= rules.smallest_remnant_mm
        ]
    return Wall(
        lengths=tuple(
            sorted(left, key=lambda one: (one.use_chance, one.length_mm, one.item, one.reel_id))
        )
    )


def _chance(rules: ItemRules, length_mm: int) -> float:
    return rules.worth_permille(length_mm) / 1000
