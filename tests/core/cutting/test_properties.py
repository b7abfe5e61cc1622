"""What every cut plan keeps, whatever the problem."""

import dataclasses
import random
from typing import TypeVar

from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.cutting import CutPlan, CutProblem, ReelStock, plan
from tests.core.cutting.checker import complaints
from tests.core.cutting.days import any_problem, any_reel
from tests.core.cutting.exhaustive import best_standing

T = TypeVar("T")


def missing_by_urgency(problem: CutProblem, made: CutPlan) -> tuple[int, ...]:
    """How many pieces of each urgency are not served, the most urgent first."""
    names = {piece.piece_id for piece in made.unserved}
    urgencies = sorted({piece.urgency for piece in problem.pieces})
    return tuple(
        sum(piece.id in names for piece in problem.pieces if piece.urgency == urgency)
        for urgency in urgencies
    )


@given(any_problem())
def test_a_plan_stands_up_to_the_checker(problem: CutProblem) -> None:
    """Nothing overlaps, no flaw is inside a piece, no millimetre is lost, groups keep their lot."""
    assert complaints(problem, plan(problem)) == []


@given(any_problem(most_pieces=12))
def test_a_plan_found_without_the_exact_search_stands_up_too(problem: CutProblem) -> None:
    """With no step allowed the quick plan is used, and it breaks no rule either."""
    made = plan(problem, nodes=0)
    assert complaints(problem, made) == []


@settings(max_examples=60)
@given(any_problem(most_pieces=4))
def test_proven_best_means_that_no_assignment_is_better(problem: CutProblem) -> None:
    """Trying every assignment finds nothing better than a plan that is called proven."""
    made = plan(problem)
    best = best_standing(problem)
    ranks = len({piece.urgency for piece in problem.pieces})
    found = tuple(value for _, value in made.standings[0].levels)
    assert made.standings[0].proven_best
    assert missing_by_urgency(problem, made) == best[:ranks]
    assert found[1:] == best[ranks:]


@settings(max_examples=60)
@given(any_problem(most_pieces=4))
def test_what_the_bounds_prove_is_true(problem: CutProblem) -> None:
    """Each level that a quick plan calls proven has the value of the best plan."""
    standing = plan(problem, nodes=0).standings[0]
    best = best_standing(problem)
    ranks = len({piece.urgency for piece in problem.pieces})
    truth = (sum(best[:ranks]), *best[ranks:])
    for (name, value), least in zip(standing.levels, truth, strict=True):
        if name not in standing.proven:
            break
        assert value == least, name


@given(any_problem(), st.randoms(use_true_random=False))
def test_the_order_in_which_a_problem_is_given_does_not_matter(
    problem: CutProblem, chance: random.Random
) -> None:
    """A shuffled problem has the same plan, word for word."""

    def shuffled(values: tuple[T, ...]) -> tuple[T, ...]:
        return tuple(chance.sample(values, len(values)))

    other = dataclasses.replace(
        problem,
        pieces=shuffled(problem.pieces),
        reels=shuffled(problem.reels),
        groups=shuffled(problem.groups),
    )
    assert plan(other) == plan(problem)


@given(any_problem(one_urgency=True), any_reel("R-new"))
def test_one_more_reel_never_serves_fewer(problem: CutProblem, more: ReelStock) -> None:
    """What could be cut before can still be cut when another reel comes in."""
    before = plan(problem)
    after = plan(dataclasses.replace(problem, reels=(*problem.reels, more)))
    assert before.standings[0].proven_best
    assert len(after.placements) >= len(before.placements)


@given(any_problem(), any_reel("R-new"))
def test_one_more_reel_never_serves_the_urgent_worse(problem: CutProblem, more: ReelStock) -> None:
    """Counted from the most urgent on, what is missing never grows by another reel."""
    wider = dataclasses.replace(problem, reels=(*problem.reels, more))
    before = missing_by_urgency(problem, plan(problem))
    assert missing_by_urgency(wider, plan(wider)) <= before
