"""The cut plan: each item on its own, good at once, then proven best level by level.

Aims, in this order (common practice, no published source): serve everything, the most urgent
first; keep groups in one lot; fewest unusable ends; least value lost; fewest reels touched; fewest
open remnants; oldest lot first. The same problem, in whatever order it is given, has the same plan.
"""

import functools

from reelwright.core.cutting.aims import WORKSHOP, Aims
from reelwright.core.cutting.explain import lots_mixed, why_not, why_there, would_serve
from reelwright.core.cutting.item import Counts, ItemCutting
from reelwright.core.cutting.layout import lay_out
from reelwright.core.cutting.plan import (
    CutPlan,
    Placement,
    ReelCuts,
    Unserved,
)
from reelwright.core.cutting.problem import CutProblem
from reelwright.core.cutting.solve import NODES, solve_items
from reelwright.core.cutting.stop import Stop, never
from reelwright.core.verdicts import Reason


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
    With a ``stop`` rule there is a whole quick plan first, then each item is worked on, and those
    not proven again with more branching, until the rule ends it. It is told the pieces not served
    as the best, and the items worked on as steps.
    """
    cuttings = [ItemCutting.of(problem, item) for item in problem.items]
    solved = solve_items(cuttings, aims, nodes=nodes, serving_only=serving_only, stop=stop)
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


def _placements(
    cutting: ItemCutting, counts: Counts, reels: tuple[ReelCuts, ...]
) -> list[Placement]:
    kind_of = {name: at for at, kind in enumerate(cutting.kinds) for name in kind.piece_ids}
    bins_of = {
        reel.id: bins for reel, bins in zip(cutting.reels, cutting.bins_of_reel, strict=True)
    }

    # Pieces alike from one stretch have one reason; it is costly to work out.
    @functools.cache
    def why(kind: int, at: int) -> tuple[Reason, ...]:
        return why_there(cutting, counts, kind, at)

    placements = []
    for reel in reels:
        for cut in reel.cuts:
            if cut.piece_id is None:
                continue
            at = next(
                at for at in bins_of[reel.reel_id] if cut.end_mm <= cutting.bins[at].stretch.end_mm
            )
            placements.append(
                Placement(
                    piece_id=cut.piece_id,
                    reel_id=reel.reel_id,
                    lot=reel.lot,
                    start_mm=cut.start_mm,
                    end_mm=cut.end_mm,
                    why=why(kind_of[cut.piece_id], at),
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
