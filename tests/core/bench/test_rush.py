"""The rush order of 14:10: both choices, each with its chance to be in time."""

import dataclasses

import pytest

from reelwright.core.bench import RushCase, rush_choices
from reelwright.core.errors import BadValue

STEPS_MIN = (8, 8, 1.81, 1, 3.8, 0.8, 1.6, 3.2, 1, 2.4)
O_09 = RushCase(
    now_s=(14 * 60 + 10) * 60,
    due_s=(15 * 60 + 30) * 60,
    running_left_s=round(16 * 1.9 * 60),
    rush_steps_s=tuple(round(minutes * 60) for minutes in STEPS_MIN),
    break_in_change_over_s=9 * 60,
    relative_spread=0.15,
    chance_of_remake=0.06,
    remake_s=10 * 60,
)


def test_the_two_choices_finish_when_the_demo_says() -> None:
    """Broken in it is done about 14:40 with 50 min to spare; behind O-12 about 15:10 with 20."""
    broken, after = rush_choices(O_09)
    assert broken.finish_s / 60 == pytest.approx(14 * 60 + 40, abs=2)
    assert after.finish_s / 60 == pytest.approx(15 * 60 + 10, abs=2.1)
    assert (broken.extra_change_over_s, after.extra_change_over_s) == (540, 0)


def test_both_are_in_time_unless_an_article_fails_twice() -> None:
    """With 15 % spread and one remake both are in time with better than 99 %; breaking in more."""
    broken, after = rush_choices(O_09)
    assert 0.99 < after.chance_in_time <= broken.chance_in_time
    assert after.slack_after_remake_s > 0


def test_without_spread_the_chance_is_a_yes_or_a_no() -> None:
    """Nothing spreads, nothing fails: in time is certain, a minute too late is certain too."""
    sure = dataclasses.replace(O_09, relative_spread=0.0, chance_of_remake=0.0)
    late = dataclasses.replace(sure, due_s=rush_choices(sure)[1].finish_s - 60)
    assert [choice.chance_in_time for choice in rush_choices(sure)] == [1.0, 1.0]
    assert [choice.chance_in_time for choice in rush_choices(late)] == [1.0, 0.0]


def test_a_chance_above_one_is_refused() -> None:
    """Six per cent is 0.06, not 6."""
    with pytest.raises(BadValue):
        dataclasses.replace(O_09, chance_of_remake=6)
