"""The same run, no longer than it works."""

import math
from collections.abc import Iterator
from dataclasses import replace

from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.question import Question
from reelwright.core.advice.tried import SURE_CHANCE, Tried, asked_tried
from reelwright.core.advice.words import to_spare
from reelwright.core.parts.length import Length
from reelwright.core.quantities.show import show_both
from reelwright.core.signals.budget import longest_within_m
from reelwright.core.signals.coax_signal import CoaxSignal

LEAST_SHARE = 0.75
"""A run cut to less than this share [1] of what was asked is no answer (common practice)."""

# Rounding and the cut's own spread cost less than this many steps of rounding.
_MOST_STEPS = 5


def propose(question: Question) -> Iterator[Change]:
    """Yield the run at the longest length that keeps the guard, and the limit with 99 % chance.

    Nothing where that is less than three quarters of what was asked for.
    """
    asked = asked_tried(question)
    if asked is None or asked.budget is None:
        return
    asked_m = question.length.mean_m
    sure_m = asked.budget.length_at_m(SURE_CHANCE)
    guard = asked.signal.limit.guard_db if isinstance(asked.signal, CoaxSignal) else 0.0
    longest_m = longest_within_m(asked.budget, guard=guard)
    wanted_m = min(longest_m, longest_m if sure_m is None else sure_m)
    for steps in range(_MOST_STEPS):
        length_m = _rounded_down_m(wanted_m, steps)
        if not LEAST_SHARE * asked_m <= length_m < asked_m:
            return
        shorter = with_length(asked, length_m)
        if shorter.sure:
            break
    yield Change(
        kind=Kind.SHORTER,
        sentence=(
            f"If {show_both(length_m)} of {asked.run.cable.code} is long enough: "
            f"{to_spare(shorter.judgement)}"
        ),
        tried=shorter,
        size=1 - length_m / asked_m,
        parts=1,
        condition="a shorter one is long enough",
    )


def with_length(tried: Tried, length_m: float) -> Tried:
    """Return the run at ``length_m`` [m], cut as exactly as the one it stands for."""
    spread = tried.run.length.standard_uncertainty_m
    length = Length(mean_m=length_m, standard_uncertainty_m=spread)
    return replace(tried, run=replace(tried.run, length=length))


def _rounded_down_m(length_m: float, steps: int) -> float:
    """To ten centimetres, as nobody measures a room finer; below ten metres to one. Steps less."""
    step = 0.1 if length_m >= 10 else 0.01
    return round((math.floor(length_m / step) - steps) * step, 2)
