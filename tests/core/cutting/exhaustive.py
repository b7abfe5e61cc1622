"""The best standing of a small problem by trying every assignment; shares no code with the engine.

Slow and plain on purpose: what it says is easy to believe.
"""

from itertools import product
from math import floor
from statistics import NormalDist

from reelwright.core.cutting import CutProblem, LotRule, Piece, ReelStock


def best_standing(problem: CutProblem) -> tuple[int, ...]:
    """Return the least standing over all assignments of pieces to stretches."""
    places = [(at, one) for at, reel in enumerate(problem.reels) for one in reel.stretches]
    found = (
        _standing(problem, choice, places)
        for choice in product([None, *places], repeat=len(problem.pieces))
    )
    return min(standing for standing in found if standing is not None)


def _standing(problem, choice, places):  # type: ignore[no-untyped-def]
    taken = {id(one): 0 for _, one in places}
    for piece, place in zip(problem.pieces, choice, strict=True):
        if place is not None:
            taken[id(place[1])] += piece.cut_length_mm
    z = NormalDist().inv_cdf(problem.chance_of_enough)
    for _, one in places:
        if taken[id(one)] > max(0, floor(one.length_mm - z * one.standard_uncertainty_mm)):
            return None
    mixed = 0
    for group in problem.groups:
        lots = {
            problem.reels[place[0]].lot
            for piece, place in zip(problem.pieces, choice, strict=True)
            if piece.lot_group == group.id and place is not None
        }
        if len(lots) > 1 and group.rule is LotRule.SAME:
            return None
        mixed += max(0, len(lots) - 1)
    urgencies = sorted({_urgency(piece) for piece in problem.pieces})
    missing = [
        sum(
            place is None and _urgency(piece) == urgency
            for piece, place in zip(problem.pieces, choice, strict=True)
        )
        for urgency in urgencies
    ]
    ends = scrap = touched = left_open = age = 0
    for reel in problem.reels:
        fills = [taken[id(one)] for one in reel.stretches]
        if any(fills):
            bad, waste, kept = _reel(reel, fills, problem)
            ends, scrap, left_open = ends + bad, scrap + waste, left_open + kept
            touched += 1
            age += sum(fills) * reel.age_rank
    return (*missing, mixed, ends, scrap, touched, left_open, age)


def _urgency(piece: Piece) -> tuple[int, str]:
    return (-piece.priority, "9999" if piece.due_day is None else piece.due_day.isoformat())


def _reel(reel: ReelStock, fills: list[int], problem: CutProblem) -> tuple[int, int, int]:
    """Walk along the reel millimetre by millimetre of bookkeeping: what is a rest, what a flaw."""
    keep, swarf = problem.rules[0].smallest_remnant_mm, problem.rules[0].swarf_mm
    last = max(at for at, fill in enumerate(fills) if fill)
    rests = [one.length_mm - fill for one, fill in zip(reel.stretches, fills, strict=True)]
    in_front = reel.stretches[last].start_mm
    cable_in_front = sum(one.length_mm for one in reel.stretches[:last])
    scrap = in_front - cable_in_front
    bad = kept = 0
    for rest in rests[:last]:
        if rest >= keep:
            kept += 1
        else:
            scrap += rest
            bad += swarf < rest
    if max(rests[last:]) >= keep:
        kept += 1
    else:
        whole_rest = reel.stretches[-1].end_mm - in_front - fills[last]
        scrap += whole_rest
        bad += swarf < whole_rest
    return bad, scrap, kept
