"""Each item of a day solved: all quick at once, then one by one, then again where unproven."""

import functools
from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import zip_longest

from reelwright.core.cutting.aims import Aim, Aims
from reelwright.core.cutting.item import AFTER_SERVING, Counts, ItemCutting
from reelwright.core.cutting.moves import improved
from reelwright.core.cutting.plan import AimReached, Standing
from reelwright.core.cutting.quick import quick_plans
from reelwright.core.cutting.stages import staged, values_of
from reelwright.core.cutting.stop import Progress, Stop, never

NODES = 100
"""Branchings allowed for each aim of an item; most need none."""

MORE = 10
ROUNDS = 4
"""With time left, items not proven have so many times the branchings, in so many rounds at most."""

MOVES = 1_000
IMPROVED = 2
"""How many of the quick plans are worth moving pieces in, and how many moves are looked at."""

Solved = tuple[Counts, Standing]


def solve_items(
    cuttings: Sequence[ItemCutting],
    aims: Aims,
    *,
    nodes: int,
    serving_only: bool,
    stop: Stop,
) -> list[Solved]:
    """Return the counts and the standing of each item, as ``plan`` says."""
    if stop is never:
        return [_remembered(one, aims, nodes, serving_only) for one in cuttings]
    known = [_remembered(one, aims, 0, serving_only) for one in cuttings]
    done = 0

    def stopped() -> bool:
        missing = sum(standing.levels[0][1] for _, standing in known)
        return stop(Progress(best=missing, bound=0, steps=done))

    for _ in range(ROUNDS):
        todo = [at for at, (_, standing) in enumerate(known) if not standing.proven_best]
        for at in sorted(todo, key=lambda at: _open_share(known[at][1]), reverse=True):
            if stopped():
                return known
            again = _solved(
                cuttings[at],
                aims,
                begin=known[at][0] if done >= len(cuttings) else None,
                nodes=nodes,
                serving_only=serving_only,
                stop=stopped,
            )
            known[at] = _with_bounds_of(known[at][1], again)
            done += 1
        done = max(done, len(cuttings))
        nodes *= MORE
    return known


# A day is planned again for every line given up, and most items stay as they were.
@functools.lru_cache(maxsize=512)
def _remembered(cutting: ItemCutting, aims: Aims, nodes: int, serving_only: bool) -> Solved:
    return _solved(
        cutting, aims, begin=None, nodes=nodes, serving_only=serving_only, stop=lambda: False
    )


def _solved(
    cutting: ItemCutting,
    aims: Aims,
    *,
    begin: Counts | None,
    nodes: int,
    serving_only: bool,
    stop: Callable[[], bool],
) -> Solved:
    wanted = aims.of(cutting)
    first = len(wanted) - (len(AFTER_SERVING) - 1 if serving_only else 0)
    counts = _quick(cutting, wanted, moves=MOVES if nodes else 0) if begin is None else begin
    found = staged(cutting, counts, wanted, first=first, nodes=nodes, moves=MOVES, stop=stop)
    values = values_of(cutting, found.counts, wanted)
    return found.counts, Standing(
        item=cutting.item,
        levels=cutting.shown(cutting.standing(found.counts)),
        aims=tuple(
            AimReached(name=aim.name, value=value, bound=bound, given_back=aim.give_back)
            for aim, value, bound in zip_longest(wanted, values, found.bounds)
        ),
    )


def _quick(cutting: ItemCutting, aims: tuple[Aim, ...], *, moves: int) -> Counts:
    def rank(counts: Counts) -> tuple[tuple[int, ...], Counts]:
        return values_of(cutting, counts, aims), counts

    plans = sorted(quick_plans(cutting), key=rank)[: IMPROVED if moves else 1]
    return min((improved(cutting, counts, aims, moves=moves) for counts in plans), key=rank)


def _with_bounds_of(before: Standing, again: Solved) -> Solved:
    """Return the newer standing with the older one's bounds where those are higher and hold still.

    A bound holds among plans as good at the aims before, so as long as those have not moved.
    """
    counts, standing = again
    aims = list(standing.aims)
    for at, (older, newer) in enumerate(zip(before.aims, aims, strict=True)):
        known = [bound for bound in (older.bound, newer.bound) if bound is not None]
        aims[at] = replace(newer, bound=max(known, default=None))
        if older.value != newer.value:
            break
    return counts, replace(standing, aims=tuple(aims))


def _open_share(standing: Standing) -> float:
    """Return how far the first aim that is not proven is above its bound."""
    first = next(aim for aim in standing.aims if not aim.met)
    return float("inf") if first.bound is None else float(first.value - first.bound)
