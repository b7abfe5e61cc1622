"""The cut plan: each item on its own, good at once, then proven best level by level.

Aims, in this order (common practice, no published source): serve everything, the most urgent
first; keep groups in one lot; fewest unusable ends; least value lost; fewest reels touched; fewest
open remnants; oldest lot first. The same problem, in whatever order it is given, has the same plan.
"""

import functools
from collections.abc import Callable
from itertools import zip_longest

from reelwright.core.cutting.aims import WORKSHOP, Aim, Aims
from reelwright.core.cutting.explain import lots_mixed, why_not, why_there, would_serve
from reelwright.core.cutting.item import AFTER_SERVING, Counts, ItemCutting
from reelwright.core.cutting.layout import lay_out
from reelwright.core.cutting.moves import improved
from reelwright.core.cutting.plan import (
    AimReached,
    CutPlan,
    Placement,
    ReelCuts,
    Standing,
    Unserved,
)
from reelwright.core.cutting.problem import CutProblem
from reelwright.core.cutting.quick import quick_plans
from reelwright.core.cutting.stages import staged, values_of
from reelwright.core.cutting.stop import Progress, Stop, never
from reelwright.core.verdicts import Reason

NODES = 400
"""Branchings allowed for each level of an item; most need none."""

MOVES = 1_000
IMPROVED = 2
"""How many of the quick plans are worth moving pieces in, and how many moves are looked at."""


def plan(
    problem: CutProblem,
    *,
    aims: Aims = WORKSHOP,
    nodes: int = NODES,
    serving_only: bool = False,
    stop: Stop = never,
) -> CutPlan:
    """Return the cut plan.

    ``nodes`` limits the branching for each aim of an item: where it does not suffice, the
    standing says how far the plan is proven. 0 takes the quick plan as it is. With
    ``serving_only`` nothing beyond serving the pieces and keeping their lots is looked at.
    ``stop`` is asked on the way, with the items that are done as steps and the pieces not served
    as best; once it says so, the items left keep their quick plans.
    """
    cuttings = [ItemCutting.of(problem, item) for item in problem.items]
    solved = _solved(cuttings, aims, nodes=nodes, serving_only=serving_only, stop=stop)
    reels: list[ReelCuts] = []
    placements: list[Placement] = []
    unserved: list[Unserved] = []
    warnings: list[Reason] = []
    for cutting, (counts, _) in zip(cuttings, solved, strict=True):
        cuts = lay_out(cutting, counts)
        reels += cuts
        placements += _placements(cutting, counts, cuts)
        unserved += _unserved(cutting, counts, chance_of_enough=problem.chance_of_enough)
        warnings += lots_mixed(cutting, counts)
    return CutPlan(
        reels=tuple(reels),
        placements=tuple(sorted(placements, key=lambda place: place.piece_id)),
        unserved=tuple(unserved),
        warnings=tuple(warnings),
        standings=tuple(standing for _, standing in solved),
    )


Solved = tuple[Counts, Standing]


def _solved(
    cuttings: list[ItemCutting], aims: Aims, *, nodes: int, serving_only: bool, stop: Stop
) -> list[Solved]:
    """Return each item's counts and standing: all quick first, then one proven after the other."""
    known: dict[ItemCutting, Solved] = {}
    if stop is not never:
        known = {one: _solve(one, aims, nodes=0, serving_only=serving_only) for one in cuttings}
    done = 0

    def missing() -> int:
        return sum(standing.levels[0][1] for _, standing in known.values())

    def stopped() -> bool:
        return stop(Progress(best=missing(), bound=0, steps=done))

    for cutting in cuttings:
        if stop is never:
            known[cutting] = _solve(cutting, aims, nodes=nodes, serving_only=serving_only)
        elif not stopped():
            known[cutting] = _found(
                cutting, aims, nodes=nodes, serving_only=serving_only, stop=stopped
            )
        done += 1
    return [known[cutting] for cutting in cuttings]


# A day is planned again for every line given up, and most items stay as they were.
@functools.lru_cache(maxsize=512)
def _solve(cutting: ItemCutting, aims: Aims, *, nodes: int, serving_only: bool) -> Solved:
    return _found(cutting, aims, nodes=nodes, serving_only=serving_only, stop=lambda: False)


def _found(
    cutting: ItemCutting,
    aims: Aims,
    *,
    nodes: int,
    serving_only: bool,
    stop: Callable[[], bool],
) -> Solved:
    wanted = aims.of(cutting)
    first = len(wanted) - (len(AFTER_SERVING) - 1 if serving_only else 0)
    best = _quick(cutting, wanted, moves=MOVES if nodes else 0)
    found = staged(cutting, best, wanted, first=first, nodes=nodes, moves=MOVES, stop=stop)
    values = values_of(cutting, found.counts, wanted)
    return found.counts, Standing(
        item=cutting.item,
        levels=cutting.shown(cutting.standing(found.counts)),
        aims=tuple(
            AimReached(name=aim.name, value=value, bound=bound)
            for aim, value, bound in zip_longest(wanted, values, found.bounds)
        ),
    )


def _quick(cutting: ItemCutting, aims: tuple[Aim, ...], *, moves: int) -> Counts:
    def rank(counts: Counts) -> tuple[tuple[int, ...], Counts]:
        return values_of(cutting, counts, aims), counts

    plans = sorted(quick_plans(cutting), key=rank)[: IMPROVED if moves else 1]
    return min((improved(cutting, counts, aims, moves=moves) for counts in plans), key=rank)


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
