"""The parts of the search, each against trying everything."""

from itertools import product

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.cutting.stock_lengths.case import Case
from reelwright.core.cutting.stock_lengths.duals import Duals
from reelwright.core.cutting.stock_lengths.knapsack import Knapsack
from reelwright.core.cutting.stock_lengths.near_best import fillings_within
from tests.core.cutting.stock_lengths.small import least_cost, small_problems


def fillings(case: Case, room: int) -> list[tuple[int, ...]]:
    """Return every filling of a reel with no more pieces than are wanted."""
    return [
        counts
        for counts in product(*(range(int(most) + 1) for most in case.wanted))
        if np.dot(counts, case.lengths_mm) <= room
    ]


@settings(max_examples=100, deadline=None)
@given(small_problems(), st.data())
def test_the_knapsack_finds_the_dearest_filling_of_every_length(problem, data):
    """For each length the value is the best of all fillings, and the filling has that value."""
    case = Case.of(problem)
    values = np.array(
        data.draw(
            st.lists(st.integers(0, 50), min_size=len(case.wanted), max_size=len(case.wanted))
        )
    )
    longest = int(case.stock_mm.max())
    knapsack = Knapsack(case.lengths_mm, longest)
    best = knapsack.best(values, case.wanted)
    for length in range(longest + 1):
        assert best[length] == max(np.dot(counts, values) for counts in fillings(case, length))
        found = knapsack.filling(length)
        assert found @ values == best[length]
        assert found @ case.lengths_mm <= length
        assert (found <= case.wanted).all()


@settings(max_examples=100, deadline=None)
@given(small_problems(), st.data())
def test_any_worth_scaled_by_its_dearest_filling_is_a_bound(problem, data):
    """Whatever the pieces are said to be worth, the bound is not above the least cost."""
    case = Case.of(problem)
    values = np.array(
        data.draw(
            st.lists(st.integers(0, 50), min_size=len(case.wanted), max_size=len(case.wanted))
        )
    )
    best = Knapsack(case.lengths_mm, int(case.stock_mm.max())).best(values, case.wanted)
    assert Duals.scaled(case, values, best).bound(case, case.wanted) <= least_cost(problem)


@settings(max_examples=100, deadline=None)
@given(small_problems(), st.data())
def test_the_fillings_listed_are_all_that_an_answer_can_contain(problem, data):
    """Listed are exactly the full fillings whose reduced cost is within what a cost leaves."""
    case = Case.of(problem)
    values = np.array(
        data.draw(
            st.lists(st.integers(0, 50), min_size=len(case.wanted), max_size=len(case.wanted))
        )
    )
    best = Knapsack(case.lengths_mm, int(case.stock_mm.max())).best(values, case.wanted)
    duals = Duals.scaled(case, values, best)
    cost = data.draw(st.integers(0, 30))
    slack = cost * duals.unit - duals.total(case.wanted)
    expected = {
        (stock, counts)
        for stock, room in enumerate(case.stock_mm.tolist())
        for counts in fillings(case, room)
        if int(case.costs[stock]) * duals.unit - np.dot(counts, values) <= slack
        and all(
            count == most or np.dot(counts, case.lengths_mm) + length > room
            for count, most, length in zip(counts, case.wanted, case.lengths_mm, strict=True)
        )
    }
    listed = fillings_within(case, case.wanted, duals, cost=cost, at_most=10_000)
    assert listed is not None
    assert {(one.stock, tuple(one.counts.tolist())) for one in listed} == expected
