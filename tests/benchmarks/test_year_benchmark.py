"""The replay of a year: the same orders for all, a rack that forgets nothing, and its rules."""

import math
from dataclasses import replace

import pytest

from benchmarks.days_longest_first import longest_first
from benchmarks.year import COLUMNS, Planner, ends_of, ours, year
from benchmarks.year_shop import (
    DELIVERY_DAYS,
    RATES,
    REEL_MM,
    SPOILS_DAYS,
    Rack,
    kept,
    ordered,
    rules_of,
)
from reelwright.core.cutting import CutPlan, CutProblem
from tests.benchmarks.test_days_checker import PROBLEM, WHOLE, reel


def test_orders_follow_the_day_and_the_seed_alone() -> None:
    """The same day has the same orders, and in the mean as many pieces as the rates say."""
    assert ordered(3, 4, seed=1) == ordered(3, 4, seed=1)
    assert ordered(3, 4, seed=1) != ordered(3, 4, seed=2)
    days = 400
    count = sum(len(ordered(day, len(RATES), seed=5)[0]) for day in range(days))
    # Poisson: the sum over the days spreads by its root; four of that are rarely passed.
    expected = days * sum(RATES)
    assert abs(count - expected) < 4 * math.sqrt(expected)


def test_what_is_kept_goes_back_and_nothing_else() -> None:
    """R1 loses 15.2 m at its free end and leaves a loose 3.9 m; R2 and R3 are gone."""
    stock = {one.id: one for one in PROBLEM.reels}
    back = {
        name: [(one.start_mm, one.length_mm) for one in stretches]
        for cuts in WHOLE.reels
        for name, stretches in kept(stock[cuts.reel_id], cuts)
    }
    assert back == {"R1": [(0, 15000), (15100, 2000)], "R1/6100": [(0, 3900)]}


def test_ends_are_counted_by_what_is_thrown_away() -> None:
    """Of the plan counted by hand: 100 mm and 1,000 mm are ends, 20 mm of swarf are none."""
    assert ends_of(WHOLE, swarf_mm=50) == 2
    assert ends_of(WHOLE, swarf_mm=10) == 3


def test_a_reel_is_bought_when_it_runs_low_and_comes_days_after() -> None:
    """The first stand there on the first morning; with nothing left the next come five days on."""
    rack = Rack(seed=1, items=1)
    rack.morning(0)
    first = rack.bought[0]
    assert first == len(rack.reels) > 0
    rack.reels.clear()
    for day in range(1, 1 + DELIVERY_DAYS):
        rack.morning(day)
    assert rack.bought[0] == first
    rack.morning(1 + DELIVERY_DAYS)
    assert rack.bought[0] == 2 * first


def test_a_remnant_that_nothing_is_cut_from_is_written_off() -> None:
    """A remnant of 5 m is there until it has lain for its time, and then its length is counted."""
    rack = Rack(seed=1, items=1)
    rack.reels["old"] = replace(reel("old", "L", 0, (0, 5000), u_mm=0.0), item="K1")
    rack.last_cut["old"] = 0
    rack.morning(SPOILS_DAYS - 1)
    assert (len(rack.wall), rack.written_off_mm) == (1, 0)
    rack.morning(SPOILS_DAYS)
    assert (len(rack.wall), rack.written_off_mm) == (0, 5000)


def test_remnants_are_worth_less_where_little_is_ordered() -> None:
    """A length of 10 m is sure to be used of the first item, and may well not be of the last."""
    rules = rules_of(len(RATES), seed=1, with_uses=True)
    worth = [rule.worth_permille(10_000) for rule in rules]
    assert worth[0] == 1000
    assert worth[-1] < 950
    plain = rules_of(len(RATES), seed=1, with_uses=False)
    assert {rule.worth_permille(10_000) for rule in plain} == {1000}


@pytest.mark.parametrize("planner", [ours, longest_first])
def test_a_few_weeks_go_by_without_a_complaint(planner: Planner) -> None:
    """Everything is counted, no rule is broken, and no length is lost (the year would raise)."""
    told = year(planner, seed=2, days=15, items=4, with_uses=True)
    assert set(told) | {"planner", "seed"} == set(COLUMNS)
    assert told["complaints"] == 0
    assert told["pieces"] == sum(len(ordered(day, 4, seed=2)[0]) for day in range(15))
    assert 0 <= told["refused"] < told["pieces"]
    assert told["bought_m"] % (REEL_MM / 1000) == 0


def test_length_that_comes_from_nowhere_is_an_error() -> None:
    """A plan that leaves out what stays on a reel does not pass for a year."""
    with pytest.raises(ValueError, match="nowhere"):
        year(_losing, seed=2, days=5, items=2, with_uses=False)


def _losing(problem: CutProblem) -> CutPlan:
    """Longest first, with the rest behind the last cut of each reel left out."""
    found = longest_first(problem)
    return replace(
        found,
        reels=tuple(
            replace(cuts, segments=tuple(one for one in cuts.segments if not one.stays_on_reel))
            for cuts in found.reels
        ),
    )
