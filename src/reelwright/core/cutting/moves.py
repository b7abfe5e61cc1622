"""A plan made better by moving and swapping pieces, the first change that helps taken each time."""

import itertools
from collections.abc import Iterator

from reelwright.core.cutting.aims import Aim
from reelwright.core.cutting.item import Counts, ItemCutting, ReelCost, summed

Change = tuple[tuple[int, int, int], ...]
"""(kind, place, how many more) of each count that changes; place −1 is *not served*."""


def improved(cutting: ItemCutting, counts: Counts, aims: tuple[Aim, ...], *, moves: int) -> Counts:
    """Return the plan after the changes that help; at most ``moves`` are looked at."""
    table = _Table(cutting, counts, aims)
    best = table.after(())
    helped = True
    while helped and moves > 0:
        helped = False
        for change in _changes(table):
            moves -= 1
            tried = table.after(change)
            if tried is not None and best is not None and tried < best:
                table.make(change)
                best, helped = tried, True
                break
            if moves <= 0:
                break
    return table.counts()


class _Table:
    """Counts with their fills and costs, so that a change is judged by what it touches only."""

    def __init__(self, cutting: ItemCutting, counts: Counts, aims: tuple[Aim, ...]) -> None:
        self.cutting = cutting
        self._aims = aims
        self.rows = [list(row) for row in counts]
        self.fills = list(cutting.fills_mm(counts))
        self.left = list(cutting.missing(counts))
        self._costs = [self._cost(number, self.fills) for number in range(len(cutting.reels))]

    def counts(self) -> Counts:
        return tuple(tuple(row) for row in self.rows)

    def room(self, at: int) -> int:
        return self.cutting.bins[at].usable_mm - self.fills[at]

    def make(self, change: Change) -> None:
        for kind, at, more in change:
            if at < 0:
                self.left[kind] += more
            else:
                self.rows[kind][at] += more
                self.fills[at] += more * self.cutting.cut_mm[kind][at]
        for number in {self.cutting.bins[at].reel for _, at, _ in change if at >= 0}:
            self._costs[number] = self._cost(number, self.fills)

    def after(self, change: Change) -> tuple[int, ...] | None:
        """Return the aims' values after a change; None where it breaks a hard group."""
        cutting = self.cutting
        fills, costs, left = self.fills, self._costs, self.left
        if change:
            fills, costs, left = list(fills), list(costs), list(left)
            for kind, at, more in change:
                if at < 0:
                    left[kind] += more
                else:
                    fills[at] += more * cutting.cut_mm[kind][at]
            for _, at, _ in change:
                if at >= 0:
                    costs[cutting.bins[at].reel] = self._cost(cutting.bins[at].reel, fills)
        grouped = any(cutting.kinds[kind].group is not None for kind, _, _ in change)
        mixed = 0
        if grouped or cutting.soft_groups:
            changed = self._changed(change)
            if grouped and not cutting.keeps_groups(changed):
                return None
            mixed = cutting.lots_mixed(changed)
        levels = (mixed, *summed(costs), cutting.age(fills))
        missing = tuple(left)
        return tuple(aim.value(missing, levels) for aim in self._aims)

    def _cost(self, number: int, fills: list[int]) -> ReelCost:
        bins = self.cutting.bins_of_reel[number]
        return self.cutting.reel_cost(number, tuple(fills[at] for at in bins))

    def _changed(self, change: Change) -> Counts:
        rows = [list(row) for row in self.rows]
        for kind, at, more in change:
            if at >= 0:
                rows[kind][at] += more
        return tuple(tuple(row) for row in rows)


def _changes(table: _Table) -> Iterator[Change]:
    """Yield all pieces of a kind, or one, to another place; then one swapped for another."""
    cutting = table.cutting
    places = range(len(cutting.bins))
    for number in range(len(cutting.kinds)):
        sources = [(-1, table.left[number]), *enumerate(table.rows[number])]
        for (source, there), target in itertools.product(sources, places):
            if not there or source == target:
                continue
            most = min(there, table.room(target) // cutting.cut_mm[number][target])
            for count in {most, 1} if most > 0 else ():
                yield ((number, source, -count), (number, target, count))
    cut = cutting.cut_mm
    for one, two in itertools.permutations(range(len(cutting.kinds)), 2):
        for source, target in itertools.permutations(places, 2):
            if not table.rows[one][source] or not table.rows[two][target]:
                continue
            more_there = cut[one][target] - cut[two][target]
            more_here = cut[two][source] - cut[one][source]
            if table.room(target) >= more_there and table.room(source) >= more_here:
                yield (
                    (one, source, -1),
                    (one, target, 1),
                    (two, target, -1),
                    (two, source, 1),
                )
