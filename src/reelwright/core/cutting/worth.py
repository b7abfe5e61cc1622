"""What a remnant is worth: the chance that later orders use it before it spoils.

Orders arrive independently, so the chance that at least one that a remnant suits arrives in time
is 1 − exp(−rate × time) (Poisson process). Which orders it suits is common practice, no published
source: those that it is long enough for and that use at least half of it.
"""

import math
from collections.abc import Sequence

from reelwright.core.cutting.problem import RemnantUse
from reelwright.core.errors import BadValue

USED_AT_LEAST = 2
"""A remnant suits a cut that is no shorter than its length divided by this."""

DIFFERENT = 0.05
"""Steps of the chance smaller than this are one step: history is not known better."""


def use_chance(*, suited_per_week: float, within_weeks: float) -> float:
    """Return the chance (0 to 1) that an order comes in time; ``suited_per_week`` of them do.

    Raises BadValue for a negative rate or time.
    """
    for field, value in (("suited_per_week", suited_per_week), ("within_weeks", within_weeks)):
        if not value >= 0:
            raise BadValue(owner="use_chance", field=field, value=value, accepted="zero or more")
    return -math.expm1(-suited_per_week * within_weeks)


def remnant_uses(
    cuts_mm: Sequence[int], *, over_weeks: float, within_weeks: float, smallest_remnant_mm: int
) -> tuple[RemnantUse, ...]:
    """Return what remnants are worth, from the cuts (mm) that were asked for ``over_weeks``.

    ``within_weeks``: how long a remnant keeps its use. Below ``smallest_remnant_mm`` nothing is
    said. Raises BadValue unless ``over_weeks`` is above zero.
    """
    if not over_weeks > 0:
        raise BadValue(
            owner="remnant_uses", field="over_weeks", value=over_weeks, accepted="above zero"
        )
    turns = {smallest_remnant_mm}
    for cut_mm in cuts_mm:
        turns |= {max(cut_mm, smallest_remnant_mm), cut_mm * USED_AT_LEAST + 1}
    uses: list[RemnantUse] = []
    for length_mm in sorted(turn for turn in turns if turn >= smallest_remnant_mm):
        suited = sum(cut_mm <= length_mm <= cut_mm * USED_AT_LEAST for cut_mm in cuts_mm)
        chance = use_chance(suited_per_week=suited / over_weeks, within_weeks=within_weeks)
        if not uses or abs(chance - uses[-1].use_chance) >= DIFFERENT:
            uses.append(RemnantUse(at_least_mm=length_mm, use_chance=chance))
    return tuple(uses)
