"""Longest first, tightest stretch: the plain rule that a day's cuts are held against, as a plan."""

from reelwright.core.cutting import CutPlan, CutProblem, Placement, ReelCuts, Unserved
from reelwright.core.cutting.explain import lots_mixed
from reelwright.core.cutting.item import ItemCutting
from reelwright.core.cutting.layout import lay_out
from reelwright.core.cutting.plain_rules import best_fit
from reelwright.core.verdicts import Reason

TIGHTEST = (Reason(code="tightest", sentence="The tightest stretch that held it."),)
FULL = (Reason(code="no_room", sentence="No stretch had room for it when its turn came."),)


def longest_first(problem: CutProblem) -> CutPlan:
    """Return the plan by this rule; nothing in it is proven."""
    reels: list[ReelCuts] = []
    warnings: list[Reason] = []
    for item in problem.items:
        cutting = ItemCutting.of(problem, item)
        counts = best_fit(cutting)
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
