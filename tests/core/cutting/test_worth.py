"""What a remnant is worth to later orders, and what hangs on the wall after a plan."""

import dataclasses
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.cutting import plan
from reelwright.core.cutting.wall import wall_after
from reelwright.core.cutting.worth import remnant_uses, use_chance
from reelwright.core.errors import BadValue
from tests.core.cutting.days import RED, RED_REELS, any_problem, pieces, problem, use


def test_one_length_asked_for_suits_remnants_from_it_to_twice_it() -> None:
    """Ten cuts of 3 m in five weeks: 3 to 6 m are used within a week by 1 − e⁻², others never."""
    uses = remnant_uses([3_000] * 10, over_weeks=5, within_weeks=1, smallest_remnant_mm=1_000)
    assert [one.at_least_mm for one in uses] == [1_000, 3_000, 6_001]
    assert [one.use_chance for one in uses] == pytest.approx([0.0, 1 - math.exp(-2), 0.0])


@given(
    st.lists(st.integers(500, 20_000), max_size=30),
    st.floats(0.5, 100),
    st.floats(0, 50),
    st.integers(1_000, 25_000),
)
def test_every_step_is_within_its_stated_error_of_the_plain_count(
    cuts: list[int], over: float, within: float, length: int
) -> None:
    """At any length worth keeping the step says the chance of counting suited cuts, to 0.05."""
    uses = remnant_uses(cuts, over_weeks=over, within_weeks=within, smallest_remnant_mm=1_000)
    said = [one.use_chance for one in uses if one.at_least_mm <= length][-1]
    suited = sum(cut <= length and 2 * cut >= length for cut in cuts)
    assert abs(said - (1 - math.exp(-suited / over * within))) < 0.05 + 1e-9


@pytest.mark.parametrize("weeks", [0.0, -1.0, math.nan])
def test_a_history_of_no_weeks_is_refused(weeks: float) -> None:
    """A rate cannot be taken from no time at all."""
    with pytest.raises(BadValue, match="over_weeks"):
        remnant_uses([3_000], over_weeks=weeks, within_weeks=8, smallest_remnant_mm=1_000)


def test_the_wall_tells_each_length_left_and_how_likely_it_is_used() -> None:
    """Of the demo's red reels: 3.02 m loose before the flaw, and what stays behind the last cut."""
    asked = problem(pieces(31, 3_060), RED_REELS, keep_mm=1_500)
    uses = (use(1_500, 0.2), use(3_000, 0.4))
    asked = dataclasses.replace(
        asked, rules=(dataclasses.replace(asked.rules[0], remnant_uses=uses),)
    )
    wall = wall_after(asked, plan(asked))
    assert [(one.length_mm, one.loose, one.use_chance) for one in wall.lengths] == [
        (1_860, False, 0.2),
        (3_020, True, 0.4),
    ]
    assert wall.expected_unused_count == pytest.approx(0.8 + 0.6)
    assert wall.expected_unused_mm == pytest.approx(0.8 * 1_860 + 0.6 * 3_020)
    assert {one.item for one in wall.lengths} == {RED}


@given(any_problem())
def test_the_wall_holds_what_the_reels_had_less_what_went(asked) -> None:  # type: ignore[no-untyped-def]
    """Clean cable before is pieces, scrap and lengths left, those too short to keep included."""
    made = plan(asked)
    wall = wall_after(asked, made)
    touched = {cuts.reel_id: cuts for cuts in made.reels}
    for reel in asked.reels:
        left = sum(one.length_mm for one in wall.lengths if one.reel_id == reel.id)
        clean = sum(one.length_mm for one in reel.stretches)
        short = 0
        if reel.id not in touched:
            short = sum(one.length_mm for one in reel.stretches if one.length_mm < 60)
            assert left + short == clean
        else:
            parts = touched[reel.id].segments
            gone = sum(part.length_mm for part in parts if part.kind.value in {"piece", "scrap"})
            short = sum(
                part.length_mm
                for part in parts
                if part.kind.value == "stays on the reel" and part.length_mm < 60
            )
            assert left + short + gone == clean


def test_a_chance_is_that_of_arrivals_in_time() -> None:
    """0.8 orders a week, of which 35 % are suited, come within 8 weeks with 0.89; 8 % with 0.40."""
    assert use_chance(suited_per_week=0.8 * 0.35, within_weeks=8) == pytest.approx(0.89, abs=0.005)
    assert use_chance(suited_per_week=0.8 * 0.08, within_weeks=8) == pytest.approx(0.40, abs=0.005)
