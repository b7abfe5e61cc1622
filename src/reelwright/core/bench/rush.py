"""A rush order arrives: break into the running batch, or let that finish first?

Both choices are shown with the chance to be in time; a person picks. Station times spread about
their mean independently of each other, as normal; one failed article may have to be made again.
"""

import math
from dataclasses import dataclass
from statistics import NormalDist

from reelwright.core.quantities.guard import require_between, require_count, require_not_negative


@dataclass(frozen=True, kw_only=True)
class RushCase:
    """What is known when the rush order arrives. Seconds from the start of the day.

    ``running_left_s``: work left of the running batch in front of the rush order;
    ``rush_steps_s``: every set-up, first article and station of the rush order, one by one;
    ``break_in_change_over_s``: change-over that breaking in costs over the day, above letting the
    batch finish. ``relative_spread``: standard deviation of each step over its length;
    ``chance_of_remake`` (0 to 1) and ``remake_s``: one article failing.
    """

    now_s: int
    due_s: int
    running_left_s: int
    rush_steps_s: tuple[int, ...]
    break_in_change_over_s: int
    relative_spread: float
    chance_of_remake: float
    remake_s: int

    def __post_init__(self) -> None:
        require_count(
            self, "now_s", "due_s", "running_left_s", "break_in_change_over_s", "remake_s"
        )
        require_not_negative(self, "relative_spread")
        require_between(self, "chance_of_remake", low=0, high=1)


@dataclass(frozen=True, kw_only=True)
class RushChoice:
    """One choice: when the rush order is done and what it costs the day."""

    name: str
    finish_s: int
    slack_s: int
    slack_after_remake_s: int
    extra_change_over_s: int
    chance_in_time: float


def rush_choices(case: RushCase) -> tuple[RushChoice, RushChoice]:
    """Return (break in now, after the running batch)."""
    return (
        _choice(case, "break in now", case.rush_steps_s, case.break_in_change_over_s),
        _choice(case, "after the running batch", (case.running_left_s, *case.rush_steps_s), 0),
    )


def _choice(case: RushCase, name: str, steps: tuple[int, ...], extra_s: int) -> RushChoice:
    finish = case.now_s + sum(steps)
    slack = case.due_s - finish
    deviation = case.relative_spread * math.hypot(*steps)
    chance = (1 - case.chance_of_remake) * _in_time(slack, deviation)
    chance += case.chance_of_remake * _in_time(slack - case.remake_s, deviation)
    return RushChoice(
        name=name,
        finish_s=finish,
        slack_s=slack,
        slack_after_remake_s=slack - case.remake_s,
        extra_change_over_s=extra_s,
        chance_in_time=chance,
    )


def _in_time(slack_s: int, deviation_s: float) -> float:
    if deviation_s == 0:
        return 1.0 if slack_s >= 0 else 0.0
    return NormalDist().cdf(slack_s / deviation_s)
