"""The parts of the benchmark of days: the rule beside ours, the shorter reel, one whole day."""

import json
from dataclasses import replace

import pytest

from benchmarks import days
from benchmarks.days_checker import complaints, tallies
from benchmarks.days_longest_first import longest_first
from benchmarks.days_made import made
from benchmarks.days_read import Day
from reelwright.core.cutting import CutPlan, CutProblem, ItemRules, LotGroup, LotRule, plan
from tests.benchmarks.test_days_checker import MONEY, piece, reel

RULES = (ItemRules(item="cable", smallest_remnant_mm=3000, swarf_mm=50),)
REELS = (
    reel("A", "L1", 0, (0, 9000), u_mm=0.0),
    reel("B", "L2", 1, (0, 6100), u_mm=0.0),
)


def day_with(*lengths_mm: int, group: LotGroup | None = None) -> Day:
    """A day of these pieces, all of one group where one is given."""
    pieces = tuple(
        piece(f"P{number}", length, group.id if group else None)
        for number, length in enumerate(lengths_mm)
    )
    problem = CutProblem(
        pieces=pieces,
        reels=REELS,
        rules=RULES,
        groups=(group,) if group else (),
        chance_of_enough=0.98,
    )
    return Day(name="small", problem=problem, money=MONEY)


def where(found: CutPlan) -> dict[str, str]:
    """Return the reel of each piece."""
    return {place.piece_id: place.reel_id for place in found.placements}


def test_longest_first_takes_the_tightest_stretch_and_leaves_an_end() -> None:
    """The 5 m go to the reel of 6.1 m and leave 1.1 m, where the planner leaves no such end."""
    day = day_with(2000, 5000)
    found = longest_first(day.problem)
    assert where(found) == {"P0": "A", "P1": "B"}
    assert complaints(day.problem, found) == []
    assert tallies(day.problem, found, MONEY)["cable"].unusable_ends == 1
    ours = plan(day.problem)
    assert tallies(day.problem, ours, MONEY)["cable"].unusable_ends == 0


def test_longest_first_keeps_a_hard_group_and_refuses_the_rest_of_it() -> None:
    """Of three pieces of 5 m from one lot the tightest reel gives one; without the group, two."""
    group = LotGroup(id="G", rule=LotRule.SAME)
    assert where(longest_first(day_with(5000, 5000, 5000, group=group).problem)) == {"P0": "B"}
    found = longest_first(day_with(5000, 5000, 5000).problem)
    assert sorted(where(found).values()) == ["A", "B"]
    assert [one.piece_id for one in found.unserved] == ["P2"]


def test_a_reel_is_made_shorter_at_its_inner_end() -> None:
    """Three metres less: the stretches behind go, and the one they end in is cut back."""
    long = reel("A", "L1", 0, (100, 6000), (6200, 900), (7200, 1800), u_mm=0.0)
    assert days.shorter(long).stretches == (replace(long.stretches[0], length_mm=5900),)
    assert days.shorter(reel("B", "L1", 0, (0, 3000), u_mm=0.0)).stretches == ()


@pytest.mark.parametrize("name", ["made_30_1"])
def test_a_day_is_measured_whole(name: str) -> None:
    """A small day has a figure for every column, no complaint, and no cost below its bound."""
    told = json.loads(json.dumps(days.run(name, 2.0)))
    assert set(days.COLUMNS) | {"gaps"} == set(told)
    assert told["complaints"] == 0
    assert told["cents"] >= told["bound"]
    assert told["cents"] <= told["longest_first_cents"]
    assert told["pieces"] == len(made(30, seed=1).problem.pieces)
    assert days._gap([told]) == pytest.approx(told["gap_percent"])


def test_what_a_plan_tells_wrongly_is_found() -> None:
    """A standing with one end more than there is does not pass."""
    day = day_with(2000, 5000)
    found = plan(day.problem)
    assert days._told_wrongly(day, found) == []
    standing = found.standings[0]
    levels = tuple(
        (name, value + 1 if name == "unusable ends" else value) for name, value in standing.levels
    )
    boasting = replace(found, standings=(replace(standing, levels=levels),))
    assert len(days._told_wrongly(day, boasting)) == 1
