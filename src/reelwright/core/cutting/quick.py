"""Good plans of an item in no time: pieces placed one by one, in several orders of the reels.

Nothing here is proven; ``moves`` improves such a plan and ``stages`` proves one.
"""

from collections.abc import Callable, Iterator

from reelwright.core.cutting.item import Counts, ItemCutting
from reelwright.core.cutting.problem import LotRule

Order = Callable[[int], tuple[int, ...]]


def quick_plans(cutting: ItemCutting) -> frozenset[Counts]:
    """Return the different fillings."""
    return frozenset(
        _fill(cutting, order, tight=tight) for order in _orders(cutting) for tight in (False, True)
    )


def _orders(cutting: ItemCutting) -> Iterator[Order]:
    """Which reel is tried first: the oldest, the shortest, the longest."""

    def usable(at: int) -> int:
        return sum(cutting.bins[one].usable_mm for one in cutting.bins_of_reel[at])

    yield lambda at: (cutting.bins[at].reel, at)
    yield lambda at: (usable(cutting.bins[at].reel), at)
    yield lambda at: (-usable(cutting.bins[at].reel), at)


def _fill(cutting: ItemCutting, order: Order, *, tight: bool) -> Counts:
    """Place pieces in order of urgency and length; ``tight``: where the least room is left."""
    room = [one.usable_mm for one in cutting.bins]
    places = sorted(range(len(room)), key=order)
    table = [[0] * len(cutting.bins) for _ in cutting.kinds]
    origin_of: dict[str, str] = {}
    for number, kind in enumerate(cutting.kinds):
        cut = cutting.cut_mm[number]
        if kind.group is not None and kind.group not in origin_of:
            origin_of[kind.group] = _origin_with_most_room(cutting, kind.group, room)
        left = kind.wanted
        while left:
            able = [at for at in places if room[at] >= cut[at]]
            if kind.group is not None:
                wanted = origin_of[kind.group]
                same = [at for at in able if cutting.origin(at, kind.rule) == wanted]
                able = same if same or kind.rule is not LotRule.PREFER else able
            if not able:
                break
            at = min(able, key=lambda at: room[at]) if tight else able[0]
            count = min(left, room[at] // cut[at])
            table[number][at] += count
            room[at] -= count * cut[at]
            left -= count
    return tuple(tuple(row) for row in table)


def _origin_with_most_room(cutting: ItemCutting, group: str, room: list[int]) -> str:
    """Return the lot, or reel, that takes most pieces of the group, the oldest of these."""
    kinds = [at for at, kind in enumerate(cutting.kinds) if kind.group == group]
    rule = cutting.kinds[kinds[0]].rule
    origins = [cutting.origin(at, rule) for at in range(len(room))]

    def taken(origin: str) -> int:
        left = {at: room[at] for at, own in enumerate(origins) if own == origin}
        count = 0
        for kind in kinds:
            wanted = cutting.kinds[kind].wanted
            for at, space in left.items():
                fit = min(wanted, space // cutting.cut_mm[kind][at])
                left[at] -= fit * cutting.cut_mm[kind][at]
                wanted -= fit
                count += fit
        return count

    return max(dict.fromkeys(origins), key=taken, default="")
