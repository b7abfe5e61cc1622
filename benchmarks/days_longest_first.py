"""Longest first, best fit: the plain rule that a day's cuts are held against.

The pieces of an item, the longest first, each from the stretch with the least room that still
holds it. It is as sure of its cable as the planner, keeps hard groups (the first piece of one that
is placed decides the lot or the reel) and whatever is worth keeping. Due days, priorities and what
will be left it does not look at.
"""

from reelwright.core.cutting import CutPlan, CutProblem, LotRule, Placement, ReelCuts, Unserved
from reelwright.core.cutting.explain import lots_mixed
from reelwright.core.cutting.item import Counts, ItemCutting
from reelwright.core.cutting.layout import lay_out
from reelwright.core.verdicts import Reason

TIGHTEST = (Reason(code="tightest", sentence="The tightest stretch that held it."),)
FULL = (Reason(code="no_room", sentence="No stretch had room for it when its turn came."),)


def longest_first(problem: CutProblem) -> CutPlan:
    """Return the plan by this rule; nothing in it is proven."""
    reels: list[ReelCuts] = []
    warnings: list[Reason] = []
    for item in problem.items:
        cutting = ItemCutting.of(problem, item)
        counts = placed(cutting)
        reels += lay_out(cutting, counts)
        warnings += lots_mixed(cutting, counts)
    placements = tuple(
        Placement(
            piece_id=part.piece_id or "",
            reel_id=reel.reel_id,
            lot=reel.lot,
            start_mm=part.start_mm,
            end_mm=part.end_mm,
            why=TIGHTEST,
        )
        for reel in reels
        for part in reel.cuts
    )
    cut = {place.piece_id for place in placements}
    return CutPlan(
        reels=tuple(reels),
        placements=placements,
        unserved=tuple(
            Unserved(
                piece_id=piece.id,
                item=piece.item,
                cut_length_mm=piece.cut_length_mm,
                reasons=FULL,
                would_serve=f"A stretch of {piece.cut_length_mm} mm.",
            )
            for piece in problem.pieces
            if piece.id not in cut
        ),
        warnings=tuple(warnings),
        standings=(),
    )


def placed(cutting: ItemCutting) -> Counts:
    """Return how many pieces of each kind come from each stretch."""
    room = [one.usable_mm for one in cutting.bins]
    counts = [[0] * len(room) for _ in cutting.kinds]
    origin_of: dict[str, str] = {}
    order = sorted(range(len(cutting.kinds)), key=lambda at: -cutting.kinds[at].length_mm)
    for number in order:
        kind, cut_mm = cutting.kinds[number], cutting.cut_mm[number]
        hard = kind.group is not None and kind.rule is not LotRule.PREFER
        for _ in kind.piece_ids:
            able = [at for at in range(len(room)) if room[at] >= cut_mm[at]]
            if hard and kind.group in origin_of:
                wanted = origin_of[kind.group]
                able = [at for at in able if cutting.origin(at, kind.rule) == wanted]
            if not able:
                break
            at = min(able, key=lambda at: room[at] - cut_mm[at])
            room[at] -= cut_mm[at]
            counts[number][at] += 1
            if hard and kind.group is not None:
                origin_of.setdefault(kind.group, cutting.origin(at, kind.rule))
    return tuple(tuple(row) for row in counts)
