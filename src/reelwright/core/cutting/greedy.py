"""Good plans of an item in no time: pieces placed one by one, then moved while that helps.

Nothing here is proven; ``exact`` does that where the item is small enough.
"""

import itertools
from collections.abc import Callable, Iterator

from reelwright.core.cutting.item import Counts, ItemCutting
from reelwright.core.cutting.problem import LotRule

Order = Callable[[int], tuple[int, ...]]


IMPROVED = 2
"""How many of the fillings are worth moving pieces in."""


def best_of_greedy(cutting: ItemCutting, *, moves: int) -> Counts:
    """Return the best of several fillings; the best of them are improved, ``moves`` tried each."""
    fillings = {
        _fill(cutting, order, tight=tight) for order in _orders(cutting) for tight in (False, True)
    }
    ranked = sorted((cutting.standing(counts), counts) for counts in fillings)
    improved = [_improve(cutting, counts, moves=moves) for _, counts in ranked[:IMPROVED]]
    return min(improved, key=lambda counts: (cutting.standing(counts), counts))


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
    table = [[0] * len(cutting.bins) for _ in cutting.kinds]
    lot_of: dict[str, str] = {}
    for number, kind in enumerate(cutting.kinds):
        if kind.group is not None and kind.group not in lot_of:
            lot_of[kind.group] = _lot_with_most_room(cutting, kind.group, room)
        for _ in range(kind.wanted):
            able = [at for at in range(len(room)) if room[at] >= kind.length_mm]
            if kind.group is not None:
                same = [at for at in able if _lot(cutting, at) == lot_of[kind.group]]
                able = same if same or kind.rule is LotRule.SAME else able
            if not able:
                break
            at = min(able, key=(lambda at: (room[at], *order(at))) if tight else order)
            table[number][at] += 1
            room[at] -= kind.length_mm
    return tuple(tuple(row) for row in table)


def _lot_with_most_room(cutting: ItemCutting, group: str, room: list[int]) -> str:
    """Return the lot that takes most pieces of the group, the oldest of these."""
    lots = list(dict.fromkeys(reel.lot for reel in cutting.reels))

    def taken(lot: str) -> int:
        left = [space for at, space in enumerate(room) if _lot(cutting, at) == lot]
        count = 0
        for kind in cutting.kinds:
            for _ in range(kind.wanted if kind.group == group else 0):
                able = [at for at, space in enumerate(left) if space >= kind.length_mm]
                if able:
                    left[able[0]] -= kind.length_mm
                    count += 1
        return count

    return max(lots, key=taken, default="")


def _lot(cutting: ItemCutting, at: int) -> str:
    return cutting.reels[cutting.bins[at].reel].lot


def _improve(cutting: ItemCutting, counts: Counts, *, moves: int) -> Counts:
    """Take the first move that helps, again and again, until none does or ``moves`` were tried."""
    best = cutting.standing(counts)
    improved = True
    while improved and moves > 0:
        improved = False
        for moved in _moves(cutting, counts):
            moves -= 1
            standing = cutting.standing(moved)
            if standing < best:
                counts, best, improved = moved, standing, True
                break
            if moves <= 0:
                break
    return counts


def _moves(cutting: ItemCutting, counts: Counts) -> Iterator[Counts]:
    """Yield every plan one step away: all pieces of a kind, or one, to another stretch; a swap."""
    fills = cutting.fills_mm(counts)
    room = [one.usable_mm - fill for one, fill in zip(cutting.bins, fills, strict=True)]
    places = range(-1, len(room))
    for number, kind in enumerate(cutting.kinds):
        missing = kind.wanted - sum(counts[number])
        for source, target in itertools.product(places, places):
            available = missing if source < 0 else counts[number][source]
            if source == target or not available or target < 0:
                continue
            most = min(available, room[target] // kind.length_mm)
            for count in {most, 1} if most else ():
                changed = _changed(counts, number, source, target, count)
                if _lots_kept(cutting, changed, number):
                    yield changed
    yield from _swaps(cutting, counts, room)


def _swaps(cutting: ItemCutting, counts: Counts, room: list[int]) -> Iterator[Counts]:
    for one, two in itertools.permutations(range(len(cutting.kinds)), 2):
        longer = cutting.kinds[one].length_mm - cutting.kinds[two].length_mm
        for source, target in itertools.permutations(range(len(room)), 2):
            if not counts[one][source] or not counts[two][target]:
                continue
            if room[target] < longer or room[source] < -longer:
                continue
            changed = _changed(counts, one, source, target, 1)
            changed = _changed(changed, two, target, source, 1)
            if _lots_kept(cutting, changed, one) and _lots_kept(cutting, changed, two):
                yield changed


def _changed(counts: Counts, kind: int, source: int, target: int, count: int) -> Counts:
    row = list(counts[kind])
    if source >= 0:
        row[source] -= count
    row[target] += count
    return (*counts[:kind], tuple(row), *counts[kind + 1 :])


def _lots_kept(cutting: ItemCutting, counts: Counts, number: int) -> bool:
    """Return whether a hard group of this kind is still cut from one lot."""
    kind = cutting.kinds[number]
    if kind.group is None or kind.rule is not LotRule.SAME:
        return True
    return len(cutting.lots_of_groups(counts).get(kind.group, ())) <= 1
