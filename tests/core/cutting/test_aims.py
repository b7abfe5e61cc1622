"""What a plan is good at: in order, with something given back, or weighed in money."""

import dataclasses

from hypothesis import given, settings

from reelwright.core.cutting import CutProblem, plan
from reelwright.core.cutting.aims import InMoney, InOrder
from reelwright.core.cutting.stop import Progress, after_steps, telling
from tests.core.cutting.checker import complaints
from tests.core.cutting.days import any_problem, pieces, problem, reel, stretch, use
from tests.core.cutting.exhaustive import every_standing

CENTS = InMoney(
    price_cents_per_m=(("cable", 5_000),),
    short_cents=20_000,
    short_cents_per_m=200,
    lot_mixed_cents=400,
    unusable_end_cents=300,
    reel_cents=150,
    open_remnant_cents=50,
    age_cents_per_m=200,
)
RED = "VID-60 red"


def cents(asked: CutProblem, missing: list[str], standing: tuple[int, ...]) -> float:
    """Add up in cents, by plain reckoning, what a standing and the pieces missing cost."""
    mixed, ends, lost_um, touched, left_open, age = standing
    short = sum(
        piece.priority * 20_000 + 200 * piece.cut_length_mm / 1000
        for piece in asked.pieces
        if piece.id in missing
    )
    return (
        short
        + 400 * mixed
        + 300 * ends
        + lost_um / 1e6 * 5_000
        + 150 * touched
        + 50 * left_open
        + 200 * age / 1000
    )


@settings(max_examples=40)
@given(any_problem(most_pieces=4))
def test_the_plan_in_money_costs_no_more_than_any_assignment(asked: CutProblem) -> None:
    """Its cents are the least over every assignment, and its bound says so."""
    made = plan(asked, aims=CENTS)
    assert complaints(asked, made) == []
    best = min(cents(asked, missing, levels) for missing, levels in every_standing(asked))
    (aim,) = made.standings[0].aims
    assert abs(aim.value / 1e6 - best) < 1e-6
    assert aim.met


def test_a_little_lost_is_given_back_where_it_spares_a_reel() -> None:
    """Two short reels fit exactly, one long reel leaves less of use: given a fifth, it is taken."""
    asked = problem(
        (*pieces(1, 6_000, order="A"), *pieces(1, 5_000, order="B")),
        (
            reel("R-1", RED, stretch(0, 6_000, 0.0)),
            reel("R-2", RED, stretch(0, 5_000, 0.0)),
            reel("R-3", RED, stretch(0, 21_000, 0.0)),
        ),
    )
    rules = dataclasses.replace(asked.rules[0], remnant_uses=(use(3_000, 0.9), use(11_000, 1.0)))
    asked = dataclasses.replace(asked, rules=(rules,))
    strict = plan(asked)
    yielding = plan(asked, aims=InOrder(given_back_fraction=0.2))
    # The short reels lose nothing and had lost a tenth of their worth before: 1.1 m is won back.
    assert dict(strict.standings[0].levels)["value lost"] == -1_100_000
    assert {each.reel_id for each in strict.reels} == {"R-1", "R-2"}
    assert dict(yielding.standings[0].levels)["value lost"] == 1_000_000
    assert {each.reel_id for each in yielding.reels} == {"R-3"}
    assert yielding.standings[0].proven_best


def test_a_stop_rule_is_asked_and_ends_with_a_whole_plan() -> None:
    """Ended at once, every piece is still placed by the quick plan, which claims no proof."""
    asked = problem(
        pieces(6, 7_000),
        (reel("R-1", RED, stretch(0, 30_000, 0.0)), reel("R-2", RED, stretch(0, 22_500, 0.0))),
    )
    told: list[Progress] = []
    made = plan(asked, stop=telling(after_steps(0), tell=told.append))
    assert len(told) == 1
    assert complaints(asked, made) == []
    assert not made.unserved
    assert not made.standings[0].proven_best
    assert plan(asked, stop=after_steps(9)).standings[0].proven_best
