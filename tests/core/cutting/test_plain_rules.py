"""The plain rules a plan is held against: worked by hand, and never better than a proven plan."""

from dataclasses import replace

import pytest
from hypothesis import given, settings

from reelwright.core.cutting import CutProblem, LotGroup, LotRule, plan
from reelwright.core.cutting.beside import beside
from reelwright.core.cutting.item import ItemCutting
from reelwright.core.cutting.plain_rules import PLAIN_RULES, PlainRule, best_fit, first_fit
from tests.core.cutting.days import RED, any_problem, pieces, problem, reel, stretch

OLD = reel("R-1", RED, stretch(0, 30_000, 0), age=0)
SHORT = reel("R-2", RED, stretch(0, 10_200, 0), lot="L2", age=1)


def placed(day: CutProblem, rule: PlainRule) -> dict[tuple[int, str, int], int]:
    """How many of each length come from which reel, and from where its stretch begins."""
    cutting = ItemCutting.of(day, RED)
    return {
        (
            cutting.kinds[kind].length_mm,
            cutting.reels[cutting.bins[at].reel].id,
            cutting.bins[at].stretch.start_mm,
        ): count
        for kind, row in enumerate(rule(cutting))
        for at, count in enumerate(row)
        if count
    }


def test_first_fit_takes_the_oldest_reel_that_holds_it() -> None:
    """10 m, 9 m and 9 m all fit on the old reel of 30 m: the short one is not touched."""
    day = problem((*pieces(1, 10_000, order="A"), *pieces(2, 9_000, order="B")), (SHORT, OLD))
    assert placed(day, first_fit) == {(10_000, "R-1", 0): 1, (9_000, "R-1", 0): 2}


def test_best_fit_takes_the_stretch_with_the_least_room_behind() -> None:
    """The 10 m go to the reel of 10.2 m, which leaves 0.2 m; then only the old one is left."""
    day = problem((*pieces(1, 10_000, order="A"), *pieces(2, 9_000, order="B")), (SHORT, OLD))
    assert placed(day, best_fit) == {(10_000, "R-2", 0): 1, (9_000, "R-1", 0): 2}


def test_the_longest_comes_first_whatever_is_due() -> None:
    """On 10.2 m the ordinary 8 m are cut and the urgent 5 m are not."""
    urgent = tuple(replace(piece, priority=1) for piece in pieces(1, 5_000, order="A"))
    day = problem((*urgent, *pieces(1, 8_000, order="B")), (SHORT,))
    for rule in PLAIN_RULES.values():
        assert placed(day, rule) == {(8_000, "R-2", 0): 1}


def test_the_stretches_of_a_reel_are_tried_as_they_unwind() -> None:
    """In front of the flaw 4 m, behind it 9 m: two of 3 m fill neither alone."""
    flawed = reel("R-3", RED, stretch(0, 4_000, 0), stretch(4_100, 9_000, 0))
    assert placed(problem(pieces(2, 3_000), (flawed,)), first_fit) == {
        (3_000, "R-3", 0): 1,
        (3_000, "R-3", 4_100): 1,
    }


def test_a_group_stays_where_its_first_piece_fell() -> None:
    """The longest of the set falls on the short reel, and the second has no room there."""
    wanted = (
        *pieces(1, 10_000, order="A", group="set"),
        *pieces(1, 9_000, order="B", group="set"),
    )
    day = problem(wanted, (SHORT, OLD), groups=(LotGroup(id="set", rule=LotRule.SAME),))
    assert placed(day, best_fit) == {(10_000, "R-2", 0): 1}
    assert placed(day, first_fit) == {(10_000, "R-1", 0): 1, (9_000, "R-1", 0): 1}


def test_what_is_not_sure_is_not_cut_by_them_either() -> None:
    """12.2 m known to 0.25 m are safe for 11.686 m: three of 3.047 m, not four."""
    doubtful = reel("R-113", RED, stretch(0, 12_200, 250))
    for rule in PLAIN_RULES.values():
        assert placed(problem(pieces(4, 3_047), (doubtful,)), rule) == {(3_047, "R-113", 0): 3}


@pytest.mark.parametrize("rule", PLAIN_RULES.values())
@given(day=any_problem(one_urgency=True))
@settings(max_examples=30, deadline=None)
def test_they_keep_what_must_be_kept_and_never_beat_a_proof(
    rule: PlainRule, day: CutProblem
) -> None:
    """No stretch overfilled, no piece cut twice, hard groups kept; a proven plan is no worse."""
    cutting = ItemCutting.of(day, day.items[0])
    counts = rule(cutting)
    for at, one in enumerate(cutting.bins):
        reel = cutting.reels[one.reel]
        filled = 0
        for row, kind in zip(counts, cutting.kinds, strict=True):
            assert kind.only_reel in {None, reel.id} or not row[at]
            longer = sum(more for lot, more in kind.longer_by_lot_mm if lot == reel.lot)
            filled += row[at] * (kind.length_mm + longer)
        assert filled <= one.usable_mm
    assert all(missing >= 0 for missing in cutting.missing(counts))
    assert cutting.keeps_groups(counts)
    (standing,) = plan(day).standings
    if standing.proven_best:
        ours = tuple(value for _, value in standing.levels)
        assert ours <= tuple(value for _, value in cutting.shown(cutting.standing(counts)))


def test_a_plan_beside_the_plain_rules() -> None:
    """Three of 10 m want the old reel alone; best fit spoils the short one and touches both."""
    day = problem(pieces(3, 10_000), (SHORT, OLD))
    ours, tight, first = beside(day, plan(day))
    assert ours.way == "this plan"
    assert [tally.served_count for tally in (ours, tight, first)] == [3, 3, 3]
    assert dict(ours.levels)["unusable ends"] == 0
    assert dict(ours.levels)["reels touched"] == 1
    assert ours.levels == first.levels
    assert dict(tight.levels)["unusable ends"] == 1
    assert (ours.scrap_mm, tight.scrap_mm) == (0, 200)
    assert tight.sentence.replace("\u202f", " ") == (
        "longest first, tightest stretch: 3 pieces served, 1 unusable end, 0.20 m scrap, "
        "2 reels touched, 1 open remnant"
    )
