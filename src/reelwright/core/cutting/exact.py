"""The best plan of a small item, proven, by working through its reels one after the other.

After each reel only this matters for what follows: how many pieces of each kind are still to be
cut, and which lots each unfinished group has been cut from. Of all ways to reach the same state
the one with the least cost so far is kept: the costs of the reels add up level by level, so it
stays the least whatever follows. States that cannot beat the plan in hand are dropped
(``bounds``). The search gives up after a stated number of steps and then proves nothing.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from reelwright.core.cutting.bounds import ServingBound
from reelwright.core.cutting.item import Counts, ItemCutting
from reelwright.core.cutting.problem import LotRule

Pattern = tuple[tuple[int, ...], ...]
"""pattern[place][kind]: how many pieces of each kind come from each stretch of one reel."""

Lots = tuple[frozenset[str], ...]
"""The lots each group was cut from, so far; emptied once the group is complete."""

State = tuple[tuple[int, ...], Lots]
"""How many pieces of each kind are left, and the lots of the groups."""


@dataclass(frozen=True, slots=True)
class _Path:
    """``kinds[at]``: which kind of the problem stands at that place of the state."""

    cost: tuple[int, ...]
    patterns: tuple[Pattern, ...]
    kinds: tuple[int, ...]


class OutOfSteps(Exception):
    """The item is too large for the steps allowed."""


class Search:
    """One exact search. ``steps`` counts choices looked at so far, a filled reel for its kinds."""

    def __init__(self, cutting: ItemCutting, *, at_most_steps: int) -> None:
        self.cutting = cutting
        self.steps = 0
        self._at_most = at_most_steps
        self._bound = ServingBound(cutting)
        self._groups = sorted({kind.group for kind in cutting.kinds if kind.group is not None})
        self._group_of = [
            None if kind.group is None else self._groups.index(kind.group) for kind in cutting.kinds
        ]
        self._alike = self._interchangeable()
        self._hard = {
            self._groups.index(kind.group)
            for kind in cutting.kinds
            if kind.group is not None and kind.rule is LotRule.SAME
        }

    def best(self, known: Counts) -> Counts | None:
        """Return the best plan, ``known`` if nothing beats it, None if the steps ran out."""
        try:
            return self._best(known)
        except OutOfSteps:
            return None

    def _best(self, known: Counts) -> Counts:
        cutting = self.cutting
        limit = cutting.standing(known)
        self._demand(limit)
        nothing: Lots = (frozenset(),) * len(self._groups)
        start = (tuple(kind.wanted for kind in cutting.kinds), nothing)
        states = {start: _Path((0,) * 6, (), tuple(range(len(cutting.kinds))))}
        for number in range(len(cutting.reels)):
            reached: dict[State, _Path] = {}
            for (left, lots), path in states.items():
                for pattern in self._patterns(number, left):
                    self._step(len(cutting.kinds))
                    step = self._after(number, pattern, left, lots, path.cost)
                    if step is None:
                        continue
                    (left_then, lots_then), cost = step
                    least = self._bound.least_missing(left_then, number + 1)
                    if (*least, *cost) > limit:
                        continue
                    state, order = self._sorted(left_then, lots_then)
                    before = reached.get(state)
                    if before is None or cost < before.cost:
                        mine = tuple(_back(place, path.kinds) for place in pattern)
                        kinds = tuple(path.kinds[at] for at in order)
                        reached[state] = _Path(cost, (*path.patterns, mine), kinds)
            states = reached
        ends = [((*self._missing(left), *path.cost), path) for (left, _), path in states.items()]
        if not ends:
            return known
        standing, path = min(ends, key=lambda end: end[0])
        return self._counts(path.patterns) if standing < limit else known

    def _demand(self, limit: tuple[int, ...]) -> None:
        """Note of which kinds how many may be missed, so that a reel never takes too few.

        Where the plan in hand serves everything that is all kinds and none; else it is the most
        urgent kinds and what the plan in hand misses of them.
        """
        cutting = self.cutting
        self._may_miss = limit[0] if cutting.ranks else 0
        everything = not any(limit[: cutting.ranks])
        lengths = [kind.length_mm for kind in cutting.kinds if everything or kind.rank == 0]
        self._demanded = len(lengths)
        self._shortest = min(lengths, default=1)
        self._slots_behind = [
            sum(later.usable_mm // self._shortest for later in cutting.bins[at + 1 :])
            for at in range(len(cutting.bins))
        ]

    def _step(self, count: int = 1) -> None:
        self.steps += count
        if self.steps > self._at_most:
            raise OutOfSteps

    def _interchangeable(self) -> tuple[tuple[int, ...], ...]:
        """Return the kinds that differ by the name of their group only (the racks of one order)."""
        groups = [kind.group for kind in self.cutting.kinds]
        alike: dict[object, list[int]] = {}
        for at, kind in enumerate(self.cutting.kinds):
            if kind.group is not None and groups.count(kind.group) == 1:
                alike.setdefault((kind.rank, kind.length_mm, kind.rule), []).append(at)
        return tuple(tuple(kinds) for kinds in alike.values() if len(kinds) > 1)

    def _sorted(self, left: tuple[int, ...], lots: Lots) -> tuple[State, tuple[int, ...]]:
        """Return one state for all that differ by the names of groups, and what stands where."""
        order = list(range(len(left)))
        left_sorted, lots_sorted = list(left), list(lots)
        for kinds in self._alike:
            best = sorted(kinds, key=lambda at: (left[at], sorted(self._lots_of(at, lots)), at))
            for place, at in zip(kinds, best, strict=True):
                order[place] = at
                left_sorted[place] = left[at]
                group = self._group_of[place]
                if group is not None:
                    lots_sorted[group] = self._lots_of(at, lots)
        return (tuple(left_sorted), tuple(lots_sorted)), tuple(order)

    def _lots_of(self, at: int, lots: Lots) -> frozenset[str]:
        group = self._group_of[at]
        return frozenset() if group is None else lots[group]

    def _patterns(self, number: int, left: tuple[int, ...]) -> Iterator[Pattern]:
        bins = self.cutting.bins_of_reel[number]

        def per_stretch(place: int, free: tuple[int, ...]) -> Iterator[Pattern]:
            if place == len(bins):
                yield ()
                return
            at = bins[place]
            # What the later stretches cannot take of the demanded kinds must be taken here.
            need = sum(free[: self._demanded]) - self._slots_behind[at] - self._may_miss
            for one in self._fillings(self.cutting.bins[at].usable_mm, free, 0, need):
                rest = tuple(have - taken for have, taken in zip(free, one, strict=True))
                for others in per_stretch(place + 1, rest):
                    yield (one, *others)

        return per_stretch(0, left)

    def _fillings(
        self, room: int, free: tuple[int, ...], kind: int, need: int
    ) -> Iterator[tuple[int, ...]]:
        if need > (room // self._shortest if kind < self._demanded else 0):
            return
        self._step()
        if kind == len(free):
            yield ()
            return
        length = self.cutting.kinds[kind].length_mm
        for count in range(min(free[kind], room // length), -1, -1):
            rest = need - count if kind < self._demanded else need
            for others in self._fillings(room - count * length, free, kind + 1, rest):
                yield (count, *others)

    def _after(
        self,
        number: int,
        pattern: Pattern,
        left: tuple[int, ...],
        lots: Lots,
        cost: tuple[int, ...],
    ) -> tuple[State, tuple[int, ...]] | None:
        """Return the state and cost behind this reel; None where it breaks a lot rule."""
        cutting = self.cutting
        reel = cutting.reels[number]
        taken = tuple(sum(place[at] for place in pattern) for at in range(len(left)))
        rest = tuple(have - took for have, took in zip(left, taken, strict=True))
        mixed = 0
        after = list(lots)
        for at, group in enumerate(self._group_of):
            if group is None or not taken[at] or reel.lot in after[group]:
                continue
            if after[group]:
                if group in self._hard:
                    return None
                mixed += 1
            after[group] = after[group] | {reel.lot}
        for group in range(len(after)):
            if not any(rest[at] for at, of in enumerate(self._group_of) if of == group):
                after[group] = frozenset()
        fills = tuple(
            sum(count * kind.length_mm for count, kind in zip(place, cutting.kinds, strict=True))
            for place in pattern
        )
        one = cutting.reel_cost(number, fills)
        added = (mixed, one.ends, one.scrap_mm, one.touched, one.open, sum(fills) * reel.age_rank)
        return (rest, tuple(after)), tuple(a + b for a, b in zip(cost, added, strict=True))

    def _missing(self, left: tuple[int, ...]) -> tuple[int, ...]:
        missing = [0] * self.cutting.ranks
        for kind, count in zip(self.cutting.kinds, left, strict=True):
            missing[kind.rank] += count
        return tuple(missing)

    def _counts(self, patterns: tuple[Pattern, ...]) -> Counts:
        places = [place for pattern in patterns for place in pattern]
        return tuple(
            tuple(place[kind] for place in places) for kind in range(len(self.cutting.kinds))
        )


def _back(place: tuple[int, ...], kinds: tuple[int, ...]) -> tuple[int, ...]:
    """Return the counts of one stretch under the kinds of the problem."""
    mine = [0] * len(place)
    for at, count in zip(kinds, place, strict=True):
        mine[at] = count
    return tuple(mine)
