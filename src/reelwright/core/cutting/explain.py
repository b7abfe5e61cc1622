"""Why this reel, why not at all, and what the lead should know: in sentences.

Each sentence is worked out from the plan: the alternatives are tried, not assumed.
"""

from collections.abc import Iterator

from reelwright.core.cutting.certainty import chance_of
from reelwright.core.cutting.item import NEVER_MM, Counts, ItemCutting, Kind
from reelwright.core.cutting.problem import LotRule
from reelwright.core.cutting.words import spread
from reelwright.core.quantities.show import show_chance, show_length_mm, show_metres
from reelwright.core.quantities.words import counted
from reelwright.core.verdicts import Reason

WORSE_AT = {
    "unusable ends": "it would leave an unusable end there",
    "value lost": "more would become scrap, or a remnant of less use",
    "reels touched": "one more reel would have to be mounted",
    "open remnants": "one more open remnant would be left",
    "age of the lots used": "more of a younger lot would be used",
}


def why_there(cutting: ItemCutting, counts: Counts, kind: int, at: int) -> tuple[Reason, ...]:
    """Return why a piece of that kind comes from that stretch."""
    one, cut = cutting.kinds[kind], cutting.cut_mm[kind]
    here = cutting.reels[cutting.bins[at].reel]
    reasons = []
    if one.group is not None:
        lots = cutting.lots_of_groups(counts)[one.group]
        if len(lots) == 1:
            reasons.append(
                Reason(code="lot kept", sentence=f"Keeps {one.group} in lot {here.lot}.")
            )
    able = sorted(
        {item.reel for other, item in enumerate(cutting.bins) if item.usable_mm >= cut[other]}
    )
    if one.only_reel is not None:
        reasons.append(Reason(code="reserved", sentence=f"Reserved on {here.id}."))
        return tuple(reasons)
    if able == [cutting.bins[at].reel]:
        reasons.append(
            Reason(
                code="only reel",
                sentence=f"{here.id} is the only reel of {cutting.item} that can give "
                f"{show_metres(cut[at])}.",
            )
        )
        return tuple(reasons)
    older = [number for number in able if cutting.reels[number].age_rank < here.age_rank]
    if not older:
        reasons.append(
            Reason(code="oldest lot", sentence=f"The oldest lot that can give it: {here.lot}.")
        )
    else:
        reasons.append(_why_not_older(cutting, counts, kind, at, older[0]))
    return tuple(reasons)


def _why_not_older(cutting: ItemCutting, counts: Counts, kind: int, at: int, older: int) -> Reason:
    reel = cutting.reels[older]
    fills = cutting.fills_mm(counts)
    room = [
        other
        for other in cutting.bins_of_reel[older]
        if cutting.bins[other].usable_mm - fills[other] >= cutting.cut_mm[kind][other]
    ]
    if not room:
        return Reason(
            code="older full", sentence=f"{reel.id} is older but taken up by other pieces."
        )
    now = cutting.standing(counts)
    best = min(cutting.standing(_moved(counts, kind, at, other)) for other in room)
    for before, after, (name, _) in zip(
        now[cutting.ranks :], best[cutting.ranks :], cutting.shown(now)[1:], strict=True
    ):
        if after > before:
            why = WORSE_AT.get(name, "its lot group would be split")
            return Reason(code=name, sentence=f"Not the older {reel.id}: {why}.")
    return Reason(code="as good", sentence=f"As good as the older {reel.id}.")


def _moved(counts: Counts, kind: int, source: int, target: int) -> Counts:
    row = list(counts[kind])
    row[source] -= 1
    row[target] += 1
    return (*counts[:kind], tuple(row), *counts[kind + 1 :])


def why_not(
    cutting: ItemCutting, counts: Counts, kind: int, *, chance_of_enough: float
) -> tuple[Reason, ...]:
    """Return why a piece of that kind is cut from no reel."""
    one = cutting.kinds[kind]
    cut = cutting.cut_mm[kind]
    places = [at for at in range(len(cutting.bins)) if cut[at] < NEVER_MM]
    if not places:
        where = cutting.item if one.only_reel is None else one.only_reel
        return (Reason(code="no stock", sentence=f"There is no {where} in stock."),)
    if all(cutting.bins[at].usable_mm < cut[at] for at in places):
        best = max(
            places,
            key=lambda at: (
                cutting.bins[at].usable_mm - cut[at],
                cutting.bins[at].stretch.length_mm,
            ),
        )
        longest = cutting.bins[best]
        reel = cutting.reels[longest.reel]
        return (
            Reason(
                code="too short",
                sentence=f"Needs {show_metres(cut[best])} with "
                f"{show_chance(chance_of_enough)} certainty; the best stretch is "
                f"{spread(longest.stretch, longest.stretch.length_mm)} on {reel.id}, "
                f"safe for {show_metres(longest.usable_mm)}.",
            ),
        )
    return tuple(_taken(cutting, counts, kind, places, chance_of_enough=chance_of_enough))


def _taken(
    cutting: ItemCutting,
    counts: Counts,
    kind: int,
    places: list[int],
    *,
    chance_of_enough: float,
) -> Iterator[Reason]:
    one, cut = cutting.kinds[kind], cutting.cut_mm[kind]
    fills = cutting.fills_mm(counts)
    # How much would be to spare with one more piece there; below zero it does not fit.
    spare = {at: cutting.bins[at].usable_mm - fills[at] - cut[at] for at in places}
    fitting = [at for at in places if spare[at] >= 0]
    if fitting and one.group in cutting.hard_groups:
        reel = cutting.reels[cutting.bins[fitting[0]].reel]
        if one.rule is LotRule.SAME_REEL:
            yield Reason(
                code="would mix reels",
                sentence=f"{one.group} is wanted from one reel; {reel.id} has room for this piece, "
                "but not for the whole of it.",
            )
            return
        lots = ", ".join(sorted(cutting.lots_of_groups(counts).get(one.group or "", ())))
        yield Reason(
            code="would mix lots",
            sentence=f"The rest of {one.group} is cut from lot {lots}, which has no more room; "
            f"{reel.id} of lot {reel.lot} has, but that would mix lots.",
        )
        return
    at = max(places, key=lambda at: spare[at])
    item, fill = cutting.bins[at], fills[at]
    reel = cutting.reels[item.reel]
    left_mm = item.stretch.length_mm - fill
    yield Reason(
        code="taken up",
        sentence=f"All that is long enough goes to other pieces, the more urgent first; what is "
        f"left is at best {spread(item.stretch, left_mm)} on {reel.id}, and "
        f"{show_metres(cut[at])} is needed with {show_chance(chance_of_enough)} certainty.",
    )
    chance = chance_of(item.stretch, wanted_mm=fill + cut[at])
    if left_mm >= cut[at]:
        yield Reason(
            code="not sure enough",
            sentence=f"By the book it fits there with {show_length_mm(left_mm - cut[at])} to "
            f"spare; the chance that it really does is {show_chance(chance)}.",
        )


def would_serve(cutting: ItemCutting, one: Kind, missing: int) -> str:
    """Return what would serve the missing pieces of a kind."""
    lot = ""
    if one.group in cutting.hard_groups:
        what = "lot" if one.rule is LotRule.SAME else "reel"
        lot = f" of one {what}, for all of {one.group}"
    return (
        f"{counted(missing, 'piece')} of {show_metres(one.length_mm)} missing: served by a length "
        f"of {show_metres(missing * one.length_mm)} or more of {cutting.item}{lot}, "
        f"in stretches of {show_metres(one.length_mm)} at the least."
    )


def lots_mixed(cutting: ItemCutting, counts: Counts) -> Iterator[Reason]:
    """Yield a warning for every group that is cut from several lots."""
    for group, lots in sorted(cutting.lots_of_groups(counts).items()):
        if len(lots) < 2:
            continue
        of_lot = dict.fromkeys(sorted(lots), 0)
        for kind, row in zip(cutting.kinds, counts, strict=True):
            for at, count in enumerate(row):
                if kind.group == group and count:
                    of_lot[cutting.reels[cutting.bins[at].reel].lot] += count
        shares = ", ".join(f"{counted(count, 'piece')} of {lot}" for lot, count in of_lot.items())
        yield Reason(
            code="lots mixed",
            sentence=f"{group} mixes lots of {cutting.item}: {shares}. Shades may differ; "
            "ask the customer, or wait for one lot.",
        )
