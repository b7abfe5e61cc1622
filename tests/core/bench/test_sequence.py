"""The order of batches and the hours of the day."""

import dataclasses
import itertools
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.bench import (
    BenchProblem,
    Station,
    Weights,
    differences,
    sequence,
)
from reelwright.core.bench.order import EXACT_UP_TO, OneBench, order_line
from reelwright.core.errors import BadValue, InputFaults
from tests.core.bench.checker import wrong_with
from tests.core.bench.days import ANA, RULE, SETTINGS, any_day, batch, day

REST = tuple(name for name in SETTINGS if name != "T-02")
BEST_TWO = {
    ("T-01+T-11", "T-09", "T-08", "T-03", "T-05"),
    ("T-03", "T-08", "T-09", "T-01+T-11", "T-05"),
}


def test_the_best_order_from_the_running_set_up_takes_52_minutes() -> None:
    """Five set-ups after T-02: 52 min of change-over, one of two orders that tie, plenum last."""
    plan = sequence(day(*(batch(name, SETTINGS[name], 1) for name in REST), now=SETTINGS["T-02"]))
    (order,) = plan.orders
    assert order.change_over_s == 52 * 60
    assert order.batch_ids in BEST_TWO
    assert order.proven


def test_the_worst_order_takes_69_minutes() -> None:
    """Of all 120 orders the best takes 52 min, twice, and the worst 69."""
    found: dict[float, int] = {}
    for order in itertools.permutations(REST):
        minutes = 0.0
        for before, after in itertools.pairwise(("T-02", *order)):
            parts = differences(RULE, SETTINGS[before], SETTINGS[after])
            minutes += sum(part.duration_s for part in parts) / 60
        found[minutes] = found.get(minutes, 0) + 1
    assert (min(found), found[min(found)], max(found)) == (52, 2, 69)


def test_breaking_in_costs_nine_minutes_more() -> None:
    """O-09 breaks into O-12 and T-02 comes back: 61 min of change-over instead of 52."""
    rush = batch("O-09", SETTINGS["T-01+T-11"], 2)
    back = batch("O-12 rest", SETTINGS["T-02"], 16)
    others = [batch(name, SETTINGS[name], 1) for name in ("T-03", "T-05", "T-08", "T-09")]
    broken = sum(
        part.duration_s
        for before, after in (("T-02", "T-01+T-11"), ("T-01+T-11", "T-02"))
        for part in differences(RULE, SETTINGS[before], SETTINGS[after])
    )
    rest = sequence(day(back, *others, now=SETTINGS["T-02"])).change_over_s
    whole = sequence(day(rush, back, *others, now=SETTINGS["T-02"])).change_over_s
    assert (broken + rest, whole) == (61 * 60, 52 * 60)


def test_a_courier_hour_can_be_worth_a_change_over() -> None:
    """The batch that is due goes first although that costs minutes; without an hour it does not."""
    near, far = batch("near", SETTINGS["T-09"], 4), batch("far", SETTINGS["T-05"], 4)
    order = sequence(day(near, far, now=SETTINGS["T-02"])).orders[0]
    assert order.batch_ids == ("near", "far")
    due = dataclasses.replace(far, due_s=2400)
    order = sequence(day(near, due, now=SETTINGS["T-02"])).orders[0]
    assert order.batch_ids == ("far", "near")


def test_a_late_batch_says_by_how_much() -> None:
    """One hour of work cannot be ready in half an hour."""
    plan = sequence(day(batch("O-12", SETTINGS["T-02"], 30, due_s=1800), now=SETTINGS["T-02"]))
    (late,) = plan.late
    assert late.batch_id == "O-12"
    assert late.late_s == 30 * 454 - 1800


def test_who_may_not_make_it_is_not_given_it() -> None:
    """A batch that nobody qualified can make is left out with its reason; the rest goes on."""
    alone = batch("new", SETTINGS["T-03"], 1, qualified=())
    plan = sequence(day(alone, batch("old", SETTINGS["T-02"], 1)))
    (left,) = plan.not_planned
    assert left.batch_id == "new"
    assert left.reasons[0].sentence == "Nobody who works today may strip new."
    assert {row.batch_id for row in plan.rows} == {"old"}


def test_work_beyond_the_hours_of_a_person_is_shown() -> None:
    """Ana is given more than she has hours for: the plan says by how much."""
    short = dataclasses.replace(ANA, until_s=3600)
    plan = sequence(day(batch("O-12", SETTINGS["T-02"], 30), people=(short,)))
    (load,) = plan.loads
    assert load.over_s == plan.times[0].finish_s - 3600 > 0


def test_all_contradictions_are_named_together() -> None:
    """A batch twice, a line nobody knows, a person who is not there: three faults."""
    one = batch("B", SETTINGS["T-02"], 1)
    other = batch("C", SETTINGS["T-02"], 1, line="weld", qualified=("Dee",))
    with pytest.raises(InputFaults) as caught:
        dataclasses.replace(day(one), batches=(one, one, other))
    assert len(caught.value.faults) == 3


def test_stations_out_of_order_are_refused() -> None:
    """A cable is not packed before it is cut."""
    with pytest.raises(BadValue, match="in the order a cable passes them"):
        batch("B", SETTINGS["T-02"], 1, each_s={Station.PACK: 1, Station.CUT: 1})


@given(any_day())
def test_a_plan_breaks_no_rule(problem: BenchProblem) -> None:
    """Nobody and no batch is in two places, everyone is qualified, no change-over is lost."""
    assert wrong_with(problem, sequence(problem)) == []


@settings(max_examples=40)
@given(any_day(most=5))
def test_proven_means_that_no_order_weighs_less(problem: BenchProblem) -> None:
    """Trying every order of the line finds none that weighs less."""
    line = next(line for line in problem.lines if line.name == "coax")
    batches = tuple(one for one in problem.batches if one.line == "coax")
    found = order_line(problem, line, batches)
    bench = OneBench(problem, line, tuple(sorted(batches, key=lambda one: one.id)))
    numbers = {one.id: at for at, one in enumerate(bench.batches)}
    mine = bench.weigh(tuple(numbers[name] for name in found.batch_ids))
    assert found.proven
    assert mine[0] == min(
        bench.weigh(order)[0] for order in itertools.permutations(range(len(batches)))
    )


def test_a_dearer_but_earlier_start_can_be_best() -> None:
    """Moves and swaps stop short here, and so does keeping only the cheapest start of each set."""
    batches = (
        batch("B-0", SETTINGS["T-05"], 1, due_s=2400, ready_s=2400),
        batch("B-1", SETTINGS["T-09"], 6, due_s=3600, ready_s=1200),
        batch("B-2", SETTINGS["T-01+T-11"], 1, due_s=5400, ready_s=2400),
        batch("B-3", SETTINGS["T-05"], 3, due_s=5400),
    )
    problem = day(*batches, now=SETTINGS["T-02"])
    bench = OneBench(problem, problem.lines[0], batches)
    found = order_line(problem, problem.lines[0], batches).batch_ids
    mine = bench.weigh(tuple(int(name[-1]) for name in found))
    assert mine[0] == min(bench.weigh(order)[0] for order in itertools.permutations(range(4)))


@given(any_day(), st.randoms(use_true_random=False))
def test_the_order_in_which_a_day_is_given_does_not_matter(
    problem: BenchProblem, chance: random.Random
) -> None:
    """A shuffled day has the same plan."""
    other = dataclasses.replace(
        problem,
        batches=tuple(chance.sample(problem.batches, len(problem.batches))),
        people=tuple(chance.sample(problem.people, len(problem.people))),
        lines=tuple(chance.sample(problem.lines, len(problem.lines))),
    )
    assert sequence(other) == sequence(problem)


def test_above_the_exact_size_nothing_is_called_proven() -> None:
    """Fourteen batches are ordered well, by moves and swaps, and the plan does not say best."""
    names = sorted(SETTINGS)
    batches = [
        batch(f"B-{number:02}", SETTINGS[names[number % len(names)]], 1 + number % 3)
        for number in range(EXACT_UP_TO + 2)
    ]
    problem = day(*batches, now=SETTINGS["T-02"], weights=Weights(change_over=1.0, late=1.0))
    plan = sequence(problem)
    assert not plan.orders[0].proven
    assert wrong_with(problem, plan) == []
    # Batches of one set-up belong together: six set-ups from T-02 need the 52 minutes, no more.
    assert plan.change_over_s == 52 * 60
