"""The cut plan: each item on its own, good at once, proven best where the steps allow.

Aims, in this order (common practice, no published source): serve everything, the most urgent
first; keep groups in one lot; fewest unusable ends; least scrap; fewest reels touched; fewest open
remnants; oldest lot first. The same problem, in whatever order it is given, has the same plan.
"""

import functools

from reelwright.core.cutting.bounds import proven_levels
from reelwright.core.cutting.exact import Search
from reelwright.core.cutting.explain import lots_mixed, why_not, why_there, would_serve
from reelwright.core.cutting.greedy import best_of_greedy
from reelwright.core.cutting.item import LEVELS, Counts, ItemCutting
from reelwright.core.cutting.layout import lay_out
from reelwright.core.cutting.plan import CutPlan, Placement, ReelCuts, Standing, Unserved
from reelwright.core.cutting.problem import CutProblem
from reelwright.core.verdicts import Reason


def plan(problem: CutProblem, *, steps_per_item: int = 200_000, moves: int = 2_000) -> CutPlan:
    """Return the cut plan.

    ``steps_per_item`` bounds the exact search of each item (about a microsecond a step); an item
    that needs more keeps the best plan found by quick filling, improved by trying ``moves``, and
    its standing says how far that is proven.
    """
    reels: list[ReelCuts] = []
    placements: list[Placement] = []
    unserved: list[Unserved] = []
    warnings: list[Reason] = []
    standings = []
    for item in problem.items:
        cutting = ItemCutting.of(problem, item)
        counts, standing = _solve(cutting, steps=steps_per_item, moves=moves)
        cuts = lay_out(cutting, counts)
        reels += cuts
        placements += _placements(cutting, counts, cuts)
        unserved += _unserved(cutting, counts, chance_of_enough=problem.chance_of_enough)
        warnings += lots_mixed(cutting, counts)
        standings.append(standing)
    return CutPlan(
        reels=tuple(reels),
        placements=tuple(sorted(placements, key=lambda place: place.piece_id)),
        unserved=tuple(unserved),
        warnings=tuple(warnings),
        standings=tuple(standings),
    )


# A day is planned again for every line given up, and most items stay as they were.
@functools.lru_cache(maxsize=512)
def _solve(cutting: ItemCutting, *, steps: int, moves: int) -> tuple[Counts, Standing]:
    known = best_of_greedy(cutting, moves=moves)
    search = Search(cutting, at_most_steps=steps)
    counts, proven = known, proven_levels(cutting, cutting.standing(known))
    if proven != LEVELS and (found := search.best(known)) is not None:
        counts, proven = found, LEVELS
    return counts, Standing(
        item=cutting.item,
        levels=cutting.shown(cutting.standing(counts)),
        proven=proven,
        steps=search.steps,
    )


def _placements(
    cutting: ItemCutting, counts: Counts, reels: tuple[ReelCuts, ...]
) -> list[Placement]:
    kind_of = {name: at for at, kind in enumerate(cutting.kinds) for name in kind.piece_ids}
    bin_of = {
        (cutting.reels[one.reel].id, position): at
        for at, one in enumerate(cutting.bins)
        for position in (one.stretch.start_mm,)
    }
    placements = []
    for reel in reels:
        starts = sorted(start for name, start in bin_of if name == reel.reel_id)
        for cut in reel.cuts:
            if cut.piece_id is None:
                continue
            start = max(start for start in starts if start <= cut.start_mm)
            placements.append(
                Placement(
                    piece_id=cut.piece_id,
                    reel_id=reel.reel_id,
                    lot=reel.lot,
                    start_mm=cut.start_mm,
                    end_mm=cut.end_mm,
                    why=why_there(
                        cutting, counts, kind_of[cut.piece_id], bin_of[reel.reel_id, start]
                    ),
                )
            )
    return placements


def _unserved(cutting: ItemCutting, counts: Counts, *, chance_of_enough: float) -> list[Unserved]:
    missing = []
    for number, (kind, row) in enumerate(zip(cutting.kinds, counts, strict=True)):
        names = kind.piece_ids[sum(row) :]
        if not names:
            continue
        reasons = why_not(cutting, counts, number, chance_of_enough=chance_of_enough)
        needed = would_serve(cutting, kind, len(names))
        missing += [
            Unserved(
                piece_id=name,
                item=cutting.item,
                cut_length_mm=kind.length_mm,
                reasons=reasons,
                would_serve=needed,
            )
            for name in names
        ]
    return missing
