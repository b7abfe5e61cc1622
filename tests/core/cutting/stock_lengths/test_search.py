"""The cheapest reels: against trying everything, and what holds of every answer."""

from collections import Counter
from itertools import permutations

import numpy as np
from hypothesis import given, settings

from reelwright.core.cutting.stock_lengths import StockAnswer, StockProblem, cheapest
from reelwright.core.cutting.stock_lengths.case import Case
from reelwright.core.cutting.stock_lengths.fill import longest_first
from reelwright.core.cutting.stop import Progress, after_steps, any_of, telling, within_gap
from tests.core.cutting.stock_lengths.small import least_cost, small_problems, stock_problem


def complaints(problem: StockProblem, answer: StockAnswer) -> list[str]:
    """Return everything that is wrong with an answer, by plain reckoning."""
    cost_of = {one.length_mm: one.cost for one in problem.stock}
    given_pieces: Counter[int] = Counter()
    wrong = []
    for pattern in answer.patterns:
        if sum(length * count for length, count in pattern.cuts) > pattern.stock_length_mm:
            wrong.append(f"{pattern} cuts more than there is")
        for length, count in pattern.cuts:
            given_pieces[length] += count * pattern.times
    if given_pieces != Counter({one.length_mm: one.pieces for one in problem.wanted}):
        wrong.append(f"wanted {problem.wanted}, given {given_pieces}")
    if sum(cost_of[one.stock_length_mm] * one.times for one in answer.patterns) != answer.cost:
        wrong.append(f"the reels do not cost {answer.cost}")
    if answer.bound > answer.cost:
        wrong.append(f"the bound {answer.bound} is above the cost {answer.cost}")
    return wrong


@settings(max_examples=150, deadline=None)
@given(small_problems())
def test_a_small_problem_is_solved_best_and_proven(problem):
    """The cost is that of trying everything, and the answer says that nothing costs less."""
    answer = cheapest(problem)
    assert complaints(problem, answer) == []
    assert answer.cost == least_cost(problem)
    assert answer.proven_best


@settings(max_examples=60, deadline=None)
@given(small_problems())
def test_a_search_stopped_at_once_still_has_an_answer_and_an_honest_bound(problem):
    """Stopped before its first step, the answer is whole and its bound is not too high."""
    answer = cheapest(problem, stop=after_steps(0))
    assert complaints(problem, answer) == []
    assert answer.bound <= least_cost(problem) <= answer.cost


def test_the_order_in_which_a_problem_is_given_changes_nothing():
    """Every order of the lengths wanted has the same answer, pattern by pattern."""
    wanted = {450: 9, 360: 7, 310: 5, 140: 8}
    answers = {
        cheapest(stock_problem({1000: 7, 800: 6}, dict(order)))
        for order in permutations(wanted.items())
    }
    assert len(answers) == 1


def test_two_reels_that_hold_the_length_but_not_the_pieces_are_refused_by_proof():
    """15, 2 × 10 and 4 × 6 make 59 of 60, yet in any two reels of 30 something is left over."""
    # Fieldhouse, The duality gap in trim problems (1990): the bound of fractions is 59/30.
    answer = cheapest(stock_problem({30: 1}, {15: 1, 10: 2, 6: 4}))
    assert (answer.cost, answer.bound) == (3, 3)


def test_an_empty_tail_takes_the_shorter_reel():
    """What is left for the last reel is cut from the cheaper length that holds it."""
    answer = cheapest(stock_problem({100_000: 80, 25_000: 25}, {20_000: 6}))
    assert answer.cost == 105
    assert {one.stock_length_mm: one.times for one in answer.patterns} == {100_000: 1, 25_000: 1}


def test_the_stop_rule_is_told_how_far_the_search_has_come():
    """Told progress has a bound that never falls and a best that never rises."""
    rng = np.random.default_rng(5)
    lengths = {int(length): 1 for length in rng.choice(np.arange(251, 480), 60, replace=False)}
    told: list[Progress] = []
    cheapest(
        stock_problem({1000: 1}, lengths), stop=telling(any_of(within_gap(0.0)), tell=told.append)
    )
    assert told
    assert [one.bound for one in told] == sorted(one.bound for one in told)
    assert [-one.best for one in told] == sorted(-one.best for one in told)


def test_longest_first_with_one_stock_length_is_first_fit_decreasing():
    """Filling reel by reel opens as many reels as first-fit decreasing, piece by piece."""
    rng = np.random.default_rng(7)
    for _ in range(40):
        lengths = rng.integers(5, 60, size=30).tolist()
        problem = stock_problem({100: 1}, dict(Counter(lengths)))
        rooms: list[int] = []
        for length in sorted(lengths, reverse=True):
            at = next((at for at, room in enumerate(rooms) if room >= length), None)
            if at is None:
                rooms.append(100 - length)
            else:
                rooms[at] -= length
        case = Case.of(problem)
        assert len(longest_first(case, case.wanted)) == len(rooms)
