"""Looks a cut plan over without any code of the engine: geometry, lots, certainty, sums."""

from collections import Counter
from itertools import pairwise
from statistics import NormalDist

from reelwright.core.cutting import CutPlan, CutProblem, LotRule, SegmentKind


def complaints(problem: CutProblem, plan: CutPlan) -> list[str]:
    """Return everything that is wrong with a plan, in words; an empty list: nothing is."""
    return [
        *_every_piece_once(problem, plan),
        *_every_millimetre(problem, plan),
        *_certain_enough(problem, plan),
        *_lots(problem, plan),
        *_remnants(problem, plan),
    ]


def _every_piece_once(problem: CutProblem, plan: CutPlan) -> list[str]:
    wanted = Counter(piece.id for piece in problem.pieces)
    placed = Counter(place.piece_id for place in plan.placements)
    cut = Counter(part.piece_id for reel in plan.reels for part in reel.cuts)
    missing = Counter(piece.piece_id for piece in plan.unserved)
    wrong = []
    if cut != placed:
        wrong.append(f"cut {cut} but placed {placed}")
    if placed + missing != wanted:
        wrong.append(f"wanted {wanted}, placed {placed}, unserved {missing}")
    if any(not piece.reasons for piece in plan.unserved):
        wrong.append("an unserved piece without a reason")
    if any(not place.why for place in plan.placements):
        wrong.append("a placement without a reason")
    return wrong


def _every_millimetre(problem: CutProblem, plan: CutPlan) -> list[str]:
    stock = {reel.id: reel for reel in problem.reels}
    pieces = {piece.id: piece for piece in problem.pieces}
    wrong = []
    if len({reel.reel_id for reel in plan.reels}) != len(plan.reels):
        wrong.append("a reel twice in the plan")
    for cuts in plan.reels:
        reel = stock[cuts.reel_id]
        ends = [0, *(part.end_mm for part in cuts.segments)]
        starts = [*(part.start_mm for part in cuts.segments), reel.stretches[-1].end_mm]
        if ends != starts:
            wrong.append(f"{reel.id}: a gap or an overlap in {cuts.segments}")
        flawless = {at for one in reel.stretches for at in range(one.start_mm, one.end_mm)}
        for part in cuts.segments:
            inside = set(range(part.start_mm, part.end_mm))
            if part.kind is SegmentKind.FLAW and inside & flawless:
                wrong.append(f"{reel.id}: good cable called a flaw at {part.start_mm}")
            if part.kind is not SegmentKind.FLAW and not inside <= flawless:
                wrong.append(f"{reel.id}: a flaw inside {part}")
        for part in cuts.cuts:
            piece = pieces[part.piece_id or ""]
            asked = piece.cut_length_mm + dict(piece.longer_by_lot_mm).get(reel.lot, 0)
            elsewhere = piece.only_reel not in {None, reel.id} or piece.item != reel.item
            if part.end_mm - part.start_mm != asked or elsewhere:
                wrong.append(f"{reel.id}: {part} is not what {piece} asks for")
        on_reel = [part.stays_on_reel for part in cuts.segments]
        if any(before and not after for before, after in pairwise(on_reel)):
            wrong.append(f"{reel.id}: something comes off from behind what stays on")
    return wrong


def _certain_enough(problem: CutProblem, plan: CutPlan) -> list[str]:
    stock = {reel.id: reel for reel in problem.reels}
    wrong = []
    for cuts in plan.reels:
        for one in stock[cuts.reel_id].stretches:
            taken = sum(
                part.end_mm - part.start_mm
                for part in cuts.cuts
                if one.start_mm <= part.start_mm < one.end_mm
            )
            spare = one.length_mm - taken
            if taken and one.standard_uncertainty_mm:
                chance = NormalDist(0, one.standard_uncertainty_mm).cdf(spare)
                if chance < problem.chance_of_enough - 1e-12:
                    wrong.append(f"{cuts.reel_id}: only {chance} that {taken} mm are there")
            elif spare < 0:
                wrong.append(f"{cuts.reel_id}: {taken} mm from {one}")
    return wrong


def _lots(problem: CutProblem, plan: CutPlan) -> list[str]:
    lot_of = {place.piece_id: place.lot for place in plan.placements}
    warned = " ".join(warning.sentence for warning in plan.warnings)
    wrong = []
    for group in problem.groups:
        lots = {
            lot_of[piece.id]
            for piece in problem.pieces
            if piece.lot_group == group.id and piece.id in lot_of
        }
        if len(lots) > 1 and group.rule is LotRule.SAME:
            wrong.append(f"{group.id} mixes {lots}")
        if len(lots) > 1 and f"{group.id} mixes" not in warned:
            wrong.append(f"{group.id} mixes {lots} without a warning")
    return wrong


def _remnants(problem: CutProblem, plan: CutPlan) -> list[str]:
    keep = {rule.item: rule.smallest_remnant_mm for rule in problem.rules}
    wrong = []
    for cuts in plan.reels:
        least = keep[cuts.item]
        if any(part.length_mm < least for part in cuts.loose_remnants):
            wrong.append(f"{cuts.reel_id}: a loose remnant too short to keep")
        on_reel = [p.length_mm for p in cuts.segments if p.kind is SegmentKind.KEPT_ON_REEL]
        if on_reel and max(on_reel) < least:
            wrong.append(f"{cuts.reel_id}: a rest too short to keep stays on the reel")
        scrap = [p.length_mm for p in cuts.segments if p.kind is SegmentKind.SCRAP]
        if any(length >= least for length in scrap):
            wrong.append(f"{cuts.reel_id}: a rest worth keeping is thrown away")
    return wrong
