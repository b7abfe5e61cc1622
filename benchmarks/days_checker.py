"""Looks a cut plan over, and counts what it costs, with nothing but the plan and the problem.

No code of the planner is used here, only its data. It works by intervals, so that a reel of 300 m
is looked over as fast as one of 3 m. ``tests/benchmarks/test_days_checker.py`` breaks a plan in
every way that is told here and sees that it is found.
"""

from bisect import bisect_right
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from statistics import NormalDist

from reelwright.core.cutting import (
    CutPlan,
    CutProblem,
    ItemRules,
    LotRule,
    ReelCuts,
    ReelStock,
    Segment,
    SegmentKind,
    Stretch,
)
from reelwright.core.cutting.aims import InMoney

CLEAN = {SegmentKind.SCRAP, SegmentKind.KEPT_LOOSE, SegmentKind.KEPT_ON_REEL}


def complaints(problem: CutProblem, plan: CutPlan) -> list[str]:
    """Return everything that is wrong with a plan, in words; an empty list: nothing is."""
    return [*_of_pieces(problem, plan), *_of_groups(problem, plan), *_of_reels(problem, plan)]


def _of_pieces(problem: CutProblem, plan: CutPlan) -> Iterator[str]:
    wanted = {piece.id: piece for piece in problem.pieces}
    cut = Counter(part.piece_id or "" for reel in plan.reels for part in reel.cuts)
    missing = Counter(piece.piece_id for piece in plan.unserved)
    for name in cut.keys() | missing.keys() | wanted.keys():
        if name not in wanted:
            yield f"{name} is not wanted"
        elif cut[name] + missing[name] != 1:
            yield f"{name} is cut {cut[name]} times and unserved {missing[name]} times"
    where = {
        (part.piece_id, reel.reel_id, reel.lot, part.start_mm, part.end_mm)
        for reel in plan.reels
        for part in reel.cuts
    }
    told = [
        (place.piece_id, place.reel_id, place.lot, place.start_mm, place.end_mm)
        for place in plan.placements
    ]
    if Counter(told) != Counter(where):
        yield "the placements are not the cuts of the reels"
    yield from (
        f"{one.piece_id} lies there without a why" for one in plan.placements if not one.why
    )
    for one in plan.unserved:
        if not one.reasons or not one.would_serve:
            yield f"{one.piece_id} is unserved without a reason"
        piece = wanted.get(one.piece_id)
        if piece and (piece.item, piece.cut_length_mm) != (one.item, one.cut_length_mm):
            yield f"{one.piece_id} is told as another length or item"


def _of_groups(problem: CutProblem, plan: CutPlan) -> Iterator[str]:
    warned = " ".join(warning.sentence for warning in plan.warnings)
    for group, reels in sorted(_reels_of_groups(problem, plan).items()):
        rule = next(one.rule for one in problem.groups if one.id == group)
        lots = {lot for _, lot in reels}
        if rule is LotRule.SAME and len(lots) > 1:
            yield f"{group} mixes the lots {sorted(lots)}"
        if rule is LotRule.SAME_REEL and len(reels) > 1:
            yield f"{group} mixes the reels {sorted(reels)}"
        if rule is LotRule.PREFER and len(lots) > 1 and f"{group} mixes" not in warned:
            yield f"{group} mixes lots without a warning"


def _reels_of_groups(problem: CutProblem, plan: CutPlan) -> dict[str, set[tuple[str, str]]]:
    """Return (reel, lot) of the pieces of each group, by the stock and not by what is told."""
    lot_of = {reel.id: reel.lot for reel in problem.reels}
    group_of = {piece.id: piece.lot_group for piece in problem.pieces}
    found: defaultdict[str, set[tuple[str, str]]] = defaultdict(set)
    for reel in plan.reels:
        for part in reel.cuts:
            group = group_of.get(part.piece_id or "")
            if group is not None:
                found[group].add((reel.reel_id, lot_of[reel.reel_id]))
    return found


def _of_reels(problem: CutProblem, plan: CutPlan) -> Iterator[str]:
    stock = {reel.id: reel for reel in problem.reels}
    rules = {rule.item: rule for rule in problem.rules}
    pieces = {piece.id: piece for piece in problem.pieces}
    for name, times in Counter(reel.reel_id for reel in plan.reels).items():
        if times > 1:
            yield f"{name} stands in the plan {times} times"
    for cuts in plan.reels:
        reel = stock[cuts.reel_id]
        if (cuts.item, cuts.lot, cuts.location) != (reel.item, reel.lot, reel.location):
            yield f"{reel.id} is told as another item, lot or place"
        if not cuts.cuts:
            yield f"{reel.id} is in the plan, and nothing is cut from it"
            continue
        for part in cuts.cuts:
            piece = pieces.get(part.piece_id or "")
            if piece is None:
                continue
            asked_mm = piece.cut_length_mm + dict(piece.longer_by_lot_mm).get(reel.lot, 0)
            if (piece.item, asked_mm) != (reel.item, part.length_mm):
                yield f"{reel.id}: {piece.id} is cut as {part.length_mm} mm of {reel.item}"
            if piece.only_reel not in {None, reel.id}:
                yield f"{reel.id}: {piece.id} is reserved on {piece.only_reel}"
        wrong = [*_of_intervals(reel, cuts.segments)]
        yield from (f"{reel.id}: {what}" for what in wrong)
        if not wrong:
            yield from _of_certainty(reel, cuts, least=problem.chance_of_enough)
            yield from (f"{reel.id}: {what}" for what in _of_rests(cuts, rules[reel.item]))


def _of_intervals(reel: ReelStock, segments: Sequence[Segment]) -> Iterator[str]:
    """Every millimetre once, and each one what the reel has there."""
    ends = [0, *(part.end_mm for part in segments)]
    starts = [*(part.start_mm for part in segments), reel.length_mm]
    for end, start in zip(ends, starts, strict=True):
        if start != end:
            yield f"{'a gap' if start > end else 'an overlap'} between {end} and {start} mm"
    for part in segments:
        one = _stretch_at(reel, part.start_mm)
        if part.kind is SegmentKind.FLAW:
            later = [each.start_mm for each in reel.stretches if each.start_mm > part.start_mm]
            if one is not None or not later or part.end_mm != later[0]:
                yield f"{part.start_mm} to {part.end_mm} mm is not a flaw"
        elif one is None or part.end_mm > one.end_mm:
            yield f"a flaw within {part.start_mm} to {part.end_mm} mm ({part.kind})"
        if (part.piece_id is None) is (part.kind is SegmentKind.CUT):
            yield f"{part.kind} with the name {part.piece_id}"


def _stretch_at(reel: ReelStock, at_mm: int) -> Stretch | None:
    number = bisect_right([one.start_mm for one in reel.stretches], at_mm) - 1
    if number < 0 or at_mm >= reel.stretches[number].end_mm:
        return None
    return reel.stretches[number]


def _of_certainty(reel: ReelStock, cuts: ReelCuts, *, least: float) -> Iterator[str]:
    taken: Counter[Stretch] = Counter()
    for part in cuts.cuts:
        one = _stretch_at(reel, part.start_mm)
        if one is not None:
            taken[one] += part.length_mm
    chances = []
    for one, cut_mm in taken.items():
        spare_mm, u_mm = one.length_mm - cut_mm, one.standard_uncertainty_mm
        chances.append(NormalDist(0, u_mm).cdf(spare_mm) if u_mm else float(spare_mm >= 0))
        if chances[-1] < least - 1e-12:
            yield f"{reel.id}: only {chances[-1]:.4f} that {cut_mm} mm are there"
    if abs(min(chances) - cuts.chance_of_enough) > 1e-9:
        yield f"{reel.id}: the chance of enough is {min(chances)}, told {cuts.chance_of_enough}"


def _of_rests(cuts: ReelCuts, rules: ItemRules) -> Iterator[str]:
    front, behind = split(cuts.segments)
    least = rules.smallest_remnant_mm
    for part in front:
        if part.stays_on_reel or part.kind is SegmentKind.KEPT_ON_REEL:
            yield f"something stays on the reel in front of the last cut, at {part.start_mm} mm"
        if part.kind is SegmentKind.KEPT_LOOSE and part.length_mm < least:
            yield f"a loose remnant of {part.length_mm} mm is too short to keep"
        if part.kind is SegmentKind.SCRAP and part.length_mm >= least:
            yield f"{part.length_mm} mm worth keeping are thrown away"
    clean = [part for part in behind if part.kind is not SegmentKind.FLAW]
    worth = max((part.length_mm for part in clean), default=0) >= least
    if any(part.stays_on_reel is not worth for part in behind):
        yield "what stays on the reel is not what is worth it"
    for part in clean:
        if part.kind is not (SegmentKind.KEPT_ON_REEL if worth else SegmentKind.SCRAP):
            yield f"{part.length_mm} mm behind the last cut are told as {part.kind}"
    for one, other in pairwise(cuts.segments):
        if {one.kind, other.kind} <= CLEAN:
            yield f"a rest in two parts at {other.start_mm} mm"


def split(segments: Sequence[Segment]) -> tuple[Sequence[Segment], Sequence[Segment]]:
    """Return what comes up to the last cut, and what lies behind it."""
    last = max(at for at, part in enumerate(segments) if part.kind is SegmentKind.CUT)
    return segments[: last + 1], segments[last + 1 :]


@dataclass(frozen=True, kw_only=True)
class Tally:
    """What a plan comes to for one item, counted from the plan."""

    not_served: int
    lots_mixed: int
    unusable_ends: int
    lost_um: int
    reels: int
    open_remnants: int
    age_mm: int
    micro_cents: int
    """By the prices of the day, in millionths of a cent."""

    @property
    def levels(self) -> tuple[int, ...]:
        """In the order in which they count."""
        return (
            self.not_served,
            self.lots_mixed,
            self.unusable_ends,
            self.lost_um,
            self.reels,
            self.open_remnants,
            self.age_mm,
        )


def tallies(problem: CutProblem, plan: CutPlan, money: InMoney) -> dict[str, Tally]:
    """Return what the plan comes to, by item."""
    by_item = {item: [*reels] for item, reels in groupby(
        sorted(plan.reels, key=lambda reel: reel.item), key=lambda reel: reel.item
    )}  # fmt: skip
    return {
        item: _tally(problem, plan, money, item, by_item.get(item, [])) for item in problem.items
    }


def _tally(
    problem: CutProblem, plan: CutPlan, money: InMoney, item: str, reels: list[ReelCuts]
) -> Tally:
    rules = next(rule for rule in problem.rules if rule.item == item)
    stock = {reel.id: reel for reel in problem.reels if reel.item == item}
    missing = {piece.piece_id for piece in plan.unserved}
    short = [piece for piece in problem.pieces if piece.item == item and piece.id in missing]
    soft = {
        piece.lot_group
        for piece in problem.pieces
        if piece.item == item
        for group in problem.groups
        if group.id == piece.lot_group and group.rule is LotRule.PREFER
    }
    mixed = sum(
        len({lot for _, lot in origins}) - 1
        for group, origins in _reels_of_groups(problem, plan).items()
        if group in soft
    )
    ends, still_open, lost_um, age_mm = 0, 0, 0, 0
    for cuts in reels:
        front, behind = split(cuts.segments)
        thrown_mm = sum(part.length_mm for part in behind if not part.stays_on_reel)
        ends += int(thrown_mm > rules.swarf_mm)
        ends += sum(
            part.kind is SegmentKind.SCRAP and part.length_mm > rules.swarf_mm for part in front
        )
        still_open += int(any(part.stays_on_reel for part in behind))
        still_open += sum(part.kind is SegmentKind.KEPT_LOOSE for part in front)
        lost_um += _lost_um(cuts.segments, rules)
        before = (one.length_mm for one in stock[cuts.reel_id].stretches)
        lost_um -= sum(length * (1000 - worth(length, rules)) for length in before)
        age_mm += stock[cuts.reel_id].age_rank * sum(part.length_mm for part in cuts.cuts)
    cents_per_m = dict(money.price_cents_per_m)[item]
    return Tally(
        not_served=len(short),
        lots_mixed=mixed,
        unusable_ends=ends,
        lost_um=lost_um,
        reels=len(reels),
        open_remnants=still_open,
        age_mm=age_mm,
        micro_cents=1_000_000
        * (
            sum(piece.priority for piece in short) * money.short_cents
            + mixed * money.lot_mixed_cents
            + ends * money.unusable_end_cents
            + len(reels) * money.reel_cents
            + still_open * money.open_remnant_cents
        )
        + 1000 * sum(piece.cut_length_mm for piece in short) * money.short_cents_per_m
        + lost_um * cents_per_m
        + 1000 * age_mm * money.age_cents_per_m,
    )


def _lost_um(segments: Iterable[Segment], rules: ItemRules) -> int:
    lost = 0
    for part in segments:
        if part.kind in {SegmentKind.KEPT_LOOSE, SegmentKind.KEPT_ON_REEL}:
            lost += part.length_mm * (1000 - worth(part.length_mm, rules))
        elif part.kind is not SegmentKind.CUT and not part.stays_on_reel:
            lost += part.length_mm * 1000
    return lost


def worth(length_mm: int, rules: ItemRules) -> int:
    """Return what a clean length is worth to later orders, in thousandths of it."""
    if length_mm < rules.smallest_remnant_mm:
        return 0
    chance = 0.0 if rules.remnant_uses else 1.0
    for use in rules.remnant_uses:
        if use.at_least_mm <= length_mm:
            chance = use.use_chance
    return round(1000 * chance)
