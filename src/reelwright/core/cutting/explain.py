"""Why this reel, why not at all, and what the lead should know: in sentences.

Each sentence is worked out from the plan: the alternatives are tried, not assumed.
"""

from collections.abc import Iterator

from reelwright.core.cutting.certainty import chance_of
from reelwright.core.cutting.item import Counts, ItemCutting, Kind
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
    one = cutting.kinds[kind]
    here = cutting.reels[cutting.bins[at].reel]
    reasons = []
    if one.group is not None:
        lots = cutting.lots_of_groups(counts)[one.group]
        if len(lots) == 1:
            reasons.append(
                Reason(code="lot kept", sentence=f"Keeps {one.group} in lot {here.lot}.")
            )
    able = sorted({item.reel for item in cutting.bins if item.usable_mm >= one.length_mm})
    if able == [cutting.bins[at].reel]:
        reasons.append(
            Reason(
                code="only reel",
                sentence=f"{here.id} is the only reel of {cutting.item} that can give "
                f"{show_metres(one.length_mm)}.",
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
    one = cutting.kinds[kind]
    reel = cutting.reels[older]
    fills = cutting.fills_mm(counts)
    room = [
        other
        for other in cutting.bins_of_reel[older]
        if cutting.bins[other].usable_mm - fills[other] >= one.length_mm
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
    if not cutting.bins:
        return (Reason(code="no stock", sentence=f"There is no {cutting.item} in stock."),)
    able = [at for at, item in enumerate(cutting.bins) if item.usable_mm >= one.length_mm]
    if not able:
        longest = max(cutting.bins, key=lambda item: (item.usable_mm, item.stretch.length_mm))
        reel = cutting.reels[longest.reel]
        return (
            Reason(
                code="too short",
                sentence=f"Needs {show_metres(one.length_mm)} with "
                f"{show_chance(chance_of_enough)} certainty; the best stretch is "
                f"{spread(longest.stretch, longest.stretch.length_mm)} on {reel.id}, "
                f"safe for {show_metres(longest.usable_mm)}.",
            ),
        )
    return tuple(_taken(cutting, counts, one, chance_of_enough=chance_of_enough))


def _taken(
    cutting: ItemCutting, counts: Counts, one: Kind, *, chance_of_enough: float
) -> Iterator[Reason]:
    fills = cutting.fills_mm(counts)
    spare = [
        (item.usable_mm - fill, item, fill) for item, fill in zip(cutting.bins, fills, strict=True)
    ]
    fitting = [entry for entry in spare if entry[0] >= one.length_mm]
    if fitting and one.rule is LotRule.SAME and one.group is not None:
        lots = ", ".join(sorted(cutting.lots_of_groups(counts).get(one.group, ())))
        reel = cutting.reels[fitting[0][1].reel]
        yield Reason(
            code="would mix lots",
            sentence=f"The rest of {one.group} is cut from lot {lots}, which has no more room; "
            f"{reel.id} of lot {reel.lot} has, but that would mix lots.",
        )
        return
    _room, item, fill = max(spare, key=lambda entry: entry[0])
    reel = cutting.reels[item.reel]
    left_mm = item.stretch.length_mm - fill
    yield Reason(
        code="taken up",
        sentence=f"All that is long enough goes to other pieces, the more urgent first; what is "
        f"left is at best {spread(item.stretch, left_mm)} on {reel.id}, and "
        f"{show_metres(one.length_mm)} is needed with {show_chance(chance_of_enough)} certainty.",
    )
    chance = chance_of(item.stretch, wanted_mm=fill + one.length_mm)
    if left_mm >= one.length_mm:
        yield Reason(
            code="not sure enough",
            sentence=f"By the book it fits there with {show_length_mm(left_mm - one.length_mm)} to "
            f"spare; the chance that it really does is {show_chance(chance)}.",
        )


def would_serve(cutting: ItemCutting, one: Kind, missing: int) -> str:
    """Return what would serve the missing pieces of a kind."""
    lot = ""
    if one.rule is LotRule.SAME:
        lot = f" of one lot, for all of {one.group}"
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
