"""The best standing of a small problem by trying every assignment; shares no code with the engine.

Slow and plain on purpose: what it says is easy to believe.
"""

from collections.abc import Iterator
from itertools import product
from math import floor
from statistics import NormalDist

from reelwright.core.cutting import CutProblem, ItemRules, LotRule, Piece, ReelStock


def best_standing(problem: CutProblem) -> tuple[int, ...]:
    """Return the least standing over all assignments of pieces to stretches."""
    urgencies = sorted({_urgency(piece) for piece in problem.pieces})
    urgency_of = {piece.id: _urgency(piece) for piece in problem.pieces}
    return min(
        (
            *(sum(urgency_of[name] == urgency for name in missing) for urgency in urgencies),
            *levels,
        )
        for missing, levels in every_standing(problem)
    )


def every_standing(problem: CutProblem) -> Iterator[tuple[list[str], tuple[int, ...]]]:
    """Yield (pieces missing, levels after serving) of every assignment that breaks no rule."""
    places = [(at, one) for at, reel in enumerate(problem.reels) for one in reel.stretches]
    for choice in product([None, *places], repeat=len(problem.pieces)):
        found = _standing(problem, choice, places)
        if found is not None:
            yield found


def _standing(problem, choice, places):  # type: ignore[no-untyped-def]
    taken = {id(one): 0 for _, one in places}
    for piece, place in zip(problem.pieces, choice, strict=True):
        if place is not None:
            reel = problem.reels[place[0]]
            if piece.only_reel not in {None, reel.id}:
                return None
            taken[id(place[1])] += piece.cut_length_mm + sum(
                more for lot, more in piece.longer_by_lot_mm if lot == reel.lot
            )
    z = NormalDist().inv_cdf(problem.chance_of_enough)
    for _, one in places:
        if taken[id(one)] > max(0, floor(one.length_mm - z * one.standard_uncertainty_mm)):
            return None
    mixed = 0
    for group in problem.groups:
        whole = group.rule is LotRule.SAME_REEL
        lots = {
            problem.reels[place[0]].id if whole else problem.reels[place[0]].lot
            for piece, place in zip(problem.pieces, choice, strict=True)
            if piece.lot_group == group.id and place is not None
        }
        if len(lots) > 1 and group.rule is not LotRule.PREFER:
            return None
        mixed += max(0, len(lots) - 1)
    missing = [
        piece.id for piece, place in zip(problem.pieces, choice, strict=True) if place is None
    ]
    ends = scrap = touched = left_open = age = 0
    for reel in problem.reels:
        fills = [taken[id(one)] for one in reel.stretches]
        if any(fills):
            bad, waste, kept = _reel(reel, fills, problem)
            ends, scrap, left_open = ends + bad, scrap + waste, left_open + kept
            touched += 1
            age += sum(fills) * reel.age_rank
    return missing, (mixed, ends, scrap, touched, left_open, age)


def _urgency(piece: Piece) -> tuple[int, str]:
    return (-piece.priority, "9999" if piece.due_day is None else piece.due_day.isoformat())


def _reel(reel: ReelStock, fills: list[int], problem: CutProblem) -> tuple[int, int, int]:
    """Walk along the reel: what is a rest, what a flaw, what is kept and what it is worth."""
    rules = problem.rules[0]
    keep, swarf = rules.smallest_remnant_mm, rules.swarf_mm
    last = max(at for at, fill in enumerate(fills) if fill)
    rests = [one.length_mm - fill for one, fill in zip(reel.stretches, fills, strict=True)]
    in_front = reel.stretches[last].start_mm
    flaws_off = in_front - sum(one.length_mm for one in reel.stretches[:last])
    bad = kept = after = 0
    for rest in rests[:last]:
        if rest >= keep:
            kept += 1
            after += _worth(rest, rules)
        else:
            bad += swarf < rest
    if max(rests[last:]) >= keep:
        kept += 1
        after += sum(_worth(rest, rules) for rest in rests[last:])
    else:
        whole_rest = reel.stretches[-1].end_mm - in_front - fills[last]
        flaws_off += whole_rest - sum(rests[last:])
        bad += swarf < whole_rest
    before = sum(_worth(one.length_mm, rules) for one in reel.stretches)
    return bad, before - after - 1000 * sum(fills) + 1000 * flaws_off, kept


def _worth(length_mm: int, rules: ItemRules) -> int:
    """What a clean length in the rack is worth, in thousandths of a millimetre of cable."""
    if length_mm < rules.smallest_remnant_mm:
        return 0
    chance = 0.0 if rules.remnant_uses else 1.0
    for use in rules.remnant_uses:
        if length_mm >= use.at_least_mm:
            chance = use.use_chance
    return length_mm * round(1000 * chance)
