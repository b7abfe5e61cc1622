"""Two plain rules that a shop without a planner cuts by, to hold a plan against.

Both take the pieces longest first, whatever is due, and go by what is surely on each stretch. A
group that must stay together stays with the lot, or reel, that its first piece fell on; a lot that
is only preferred is nothing to either rule.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from reelwright.core.cutting.item import Counts, ItemCutting

PlainRule = Callable[[ItemCutting], Counts]


def first_fit(cutting: ItemCutting) -> Counts:
    """Return what each stretch gives if each piece takes the first that holds it, oldest first."""
    return _placed(cutting, tightest=False)


def best_fit(cutting: ItemCutting) -> Counts:
    """Return what each stretch gives if each piece goes where the least room is left behind it."""
    return _placed(cutting, tightest=True)


PLAIN_RULES: Mapping[str, PlainRule] = MappingProxyType(
    {
        "longest first, tightest stretch": best_fit,
        "longest first, first stretch": first_fit,
    }
)


def _placed(cutting: ItemCutting, *, tightest: bool) -> Counts:
    room = [one.usable_mm for one in cutting.bins]
    table = [[0] * len(room) for _ in cutting.kinds]
    origin_of: dict[str, str] = {}
    longest_first = sorted(
        range(len(cutting.kinds)), key=lambda at: (-cutting.kinds[at].length_mm, at)
    )
    for number in longest_first:
        kind, cut = cutting.kinds[number], cutting.cut_mm[number]
        held = kind.group if kind.group in cutting.hard_groups else None
        for _ in range(kind.wanted):
            able = [at for at, space in enumerate(room) if space >= cut[at]]
            if held is not None and held in origin_of:
                able = [at for at in able if cutting.origin(at, kind.rule) == origin_of[held]]
            if not able:
                break
            # The stretches of a cutting stand oldest reel first, each in unwinding order.
            at = min(able, key=lambda at: room[at]) if tightest else able[0]
            if held is not None:
                origin_of.setdefault(held, cutting.origin(at, kind.rule))
            table[number][at] += 1
            room[at] -= cut[at]
    return tuple(tuple(row) for row in table)
