"""From a good plan to the best: level after level, what came before held as it is.

At each level the plan in hand is held against a bound. Where a cheap bound is met that is the
proof; else the program of the item is solved for this level alone, the levels before it capped.
It gives a better plan, or the proof that there is none, or, where its limits end it, a bound.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

from reelwright.core.cutting.aims import Aim
from reelwright.core.cutting.bounds import cheap_bound
from reelwright.core.cutting.item import Counts, ItemCutting
from reelwright.core.cutting.moves import improved
from reelwright.core.cutting.program.model import ItemProgram

CLOSE = 1e-6
"""A share of the value: bounds of the solver are told in floating point."""


@dataclass(frozen=True, kw_only=True)
class Staged:
    """The plan, and a bound for each aim looked at.

    Bounds behind the first aim that is not proven hold only for plans no worse than this one at
    the aims before.
    """

    counts: Counts
    bounds: tuple[int, ...]


def staged(
    cutting: ItemCutting,
    counts: Counts,
    aims: tuple[Aim, ...],
    *,
    first: int,
    nodes: int,
    moves: int,
    stop: Callable[[], bool],
) -> Staged:
    """Return the best plan found from ``counts`` on, looking at the ``first`` aims only.

    ``nodes`` limits the branching for each aim, ``moves`` the changes tried after each.
    """
    program: ItemProgram | None = None
    bounds: list[int] = []
    held = 0
    caps: list[int] = []
    for at, aim in enumerate(aims[:first]):
        value = values_of(cutting, counts, aims)[at]
        least = cheap_bound(cutting, aim, served=_served(cutting, aims[:at], caps))
        if nodes and value > least and not stop():
            program = program or ItemProgram(cutting)
            for before in range(held, at):
                program.hold(aims[before], caps[before])
            held = at
            if (serving := aim.serving) is not None:
                other = _floored(cutting, program, counts, serving, nodes=nodes, stop=stop)
                counts = min(
                    (counts, improved(cutting, other, aims, moves=moves)),
                    key=lambda each: values_of(cutting, each, aims),
                )
                value = values_of(cutting, counts, aims)[at]
            goal = program.goal(aim)
            found = program.program.minimise(
                goal.terms, start=program.values(counts), nodes=nodes, stop=stop
            )
            if found.values is not None:
                other = program.counts(found.values)
                if _better(cutting, other, counts, aims, caps):
                    counts = _moved(cutting, other, aims, caps, moves=moves)
                    value = values_of(cutting, counts, aims)[at]
            proven = _whole(goal.least(found.bound), value)
            least = least if proven is None else max(least, proven)
        bounds.append(least)
        caps.append(value + aim.give_back)
    return Staged(counts=counts, bounds=tuple(bounds))


def _floored(
    cutting: ItemCutting,
    program: ItemProgram,
    counts: Counts,
    serving: Aim,
    *,
    nodes: int,
    stop: Callable[[], bool],
) -> Counts:
    """Solve for the pieces missing alone, and hold the program to no less than must be missing.

    A piece is missing whole or not at all; beside the other levels the solver sees that late.
    """
    goal = program.goal(serving)
    found = program.program.minimise(
        goal.terms, start=program.values(counts), nodes=nodes, stop=stop
    )
    least = _whole(goal.least(found.bound), values_of(cutting, counts, (serving,))[0])
    if least is not None:
        program.floor(serving, least)
    if found.values is not None:
        other = program.counts(found.values)
        if cutting.keeps_groups(other) and (
            values_of(cutting, other, (serving,)) < values_of(cutting, counts, (serving,))
        ):
            return other
    return counts


def values_of(cutting: ItemCutting, counts: Counts, aims: tuple[Aim, ...]) -> tuple[int, ...]:
    """Return what each aim comes to."""
    missing, levels = cutting.missing(counts), cutting.after_serving(counts)
    return tuple(aim.value(missing, levels) for aim in aims)


def _served(cutting: ItemCutting, before: tuple[Aim, ...], caps: list[int]) -> bool:
    """Return whether the caps of the aims before leave only plans that serve everything."""
    settled = {
        number
        for aim, cap in zip(before, caps, strict=True)
        if cap == 0 and not any(aim.levels)
        for number, weight in enumerate(aim.missing)
        if weight > 0
    }
    return len(settled) == len(cutting.kinds)


def _better(
    cutting: ItemCutting,
    other: Counts,
    counts: Counts,
    aims: tuple[Aim, ...],
    caps: list[int],
) -> bool:
    """Return whether another plan keeps its groups and the caps, and is better from there on."""
    if not cutting.keeps_groups(other):
        return False
    theirs, ours = (values_of(cutting, each, aims) for each in (other, counts))
    kept = all(value <= cap for value, cap in zip(theirs, caps, strict=False))
    return kept and theirs[len(caps) :] < ours[len(caps) :]


def _moved(
    cutting: ItemCutting, counts: Counts, aims: tuple[Aim, ...], caps: list[int], *, moves: int
) -> Counts:
    """Return the plan improved by moves, where that keeps the caps and helps."""
    tried = improved(cutting, counts, aims, moves=moves)
    return tried if _better(cutting, tried, counts, aims, caps) else counts


def _whole(bound: float, value: int) -> int | None:
    """Return a bound of the solver as a whole number that is not too high."""
    if not math.isfinite(bound):
        return None
    if value - bound <= CLOSE * max(1.0, abs(value)):
        return value
    return math.ceil(bound - CLOSE * max(1.0, abs(bound)))
