"""The parts of the cutting benchmark: its instances, and the ways held beside ours."""

from collections import Counter
from functools import partial
from pathlib import Path

import pytest

from benchmarks.cutting import by, ours, row
from benchmarks.cutting_cases import (
    FOLDER,
    KINDS,
    Case,
    all_cases,
    generated,
    problem_of,
    read_case,
    some_of_each,
    spread,
)
from benchmarks.cutting_rivals import (
    Way,
    assignment,
    best_fit_decreasing,
    cost_of,
    first_fit_decreasing,
    patterns,
)

# Twice 3 + 2 + 2; whoever begins with the longest cuts 3 + 3 and is left with a piece of 2.
TIGHT = problem_of([(7, 1)], Counter({3: 2, 2: 4}))
# 23 in all: 7 + 7 + 10 hold it for 22, and whatever costs less is shorter than 23.
SEVERAL = problem_of([(10, 10), (7, 6)], Counter({6: 1, 4: 2, 3: 3}))
WAYS = [
    first_fit_decreasing,
    best_fit_decreasing,
    partial(assignment, limit_s=5.0),
    partial(patterns, limit_s=5.0),
]
NAMES = ["first fit", "best fit", "assignment", "patterns"]


def test_a_line_of_one_stock_length_is_read() -> None:
    """Name, stock, best known, three published columns, pieces singly and by count."""
    case = read_case("small", "a 150 3 Optimal 2.5 0.01 98x2 60 40x3")
    assert case.problem == problem_of([(150, 1)], Counter({98: 2, 60: 1, 40: 3}))
    assert (case.kind, case.name, case.best_known) == ("small", "a", 3)


def test_a_line_of_several_stock_lengths_is_read() -> None:
    """Each stock length has its cost, and a best known of ``?`` is none."""
    case = read_case("small", "b 100:90,120:110 ? 70 30x2")
    assert case.problem == problem_of([(100, 90), (120, 110)], Counter({70: 1, 30: 2}))
    assert case.best_known is None


def test_without_a_folder_generated_instances_are_measured_and_it_is_said(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """With no folder named there are the generated instances, and one sentence why."""
    monkeypatch.delenv(FOLDER, raising=False)
    cases, missing = all_cases()
    assert {case.name for case in cases} == {case.name for case in generated()}
    assert len(missing) == 1
    assert FOLDER in missing[0]


def test_a_missing_file_is_told_by_name(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """One file of eight there: its instance, the generated ones, and the names of the seven."""
    (tmp_path / "cutting").mkdir()
    (tmp_path / "cutting" / "hard28.txt").write_text("# head\na 10 1 Optimal 1 0.1 5x2\n")
    monkeypatch.setenv(FOLDER, str(tmp_path))
    cases, missing = all_cases()
    assert [case.name for case in cases if case.kind == "hard28"] == ["a"]
    assert len(cases) == 1 + len(generated())
    assert [line.split(".txt")[0] for line in missing] == [one for one in KINDS if one != "hard28"]


def test_generated_triplets_fill_their_reels() -> None:
    """A third as many reels as pieces hold exactly what is wanted, and pieces fit the recipe."""
    triplets = [case for case in generated() if case.best_known is not None]
    assert len(triplets) == 20
    for case in triplets:
        wanted = case.problem.wanted
        assert sum(one.length_mm * one.pieces for one in wanted) == 1000 * (case.best_known or 0)
        assert all(250 <= one.length_mm <= 490 for one in wanted)


def test_choices_take_of_every_class_and_are_always_the_same() -> None:
    """A choice by seed has as many of each class; the spread has three or more of each."""
    cases = generated()
    chosen = some_of_each(cases, count=8, seed=3)
    assert Counter(case.kind for case in chosen).most_common()[0][1] == 4
    assert chosen == some_of_each(cases, count=8, seed=3)
    assert chosen != some_of_each(cases, count=8, seed=4)
    assert min(Counter(case.kind for case in spread(cases)).values()) >= 3


@pytest.mark.parametrize("way", WAYS, ids=NAMES)
def test_every_way_cuts_what_is_wanted(way: Way) -> None:
    """Each way cuts exactly what is wanted, and never for less than the least cost."""
    assert cost_of(TIGHT, way(TIGHT).reels) >= 2
    assert cost_of(SEVERAL, way(SEVERAL).reels) >= 22


@pytest.mark.parametrize("way", WAYS[2:], ids=NAMES[2:])
def test_a_solver_finds_and_proves_what_decreasing_ways_miss(way: Way) -> None:
    """Two reels of 7 are enough for 3, 3, 2, 2, 2, 2; first and best fit open a third."""
    assert cost_of(TIGHT, first_fit_decreasing(TIGHT).reels) == 3
    assert cost_of(TIGHT, best_fit_decreasing(TIGHT).reels) == 3
    cut = way(TIGHT)
    assert cost_of(TIGHT, cut.reels) == 2
    assert cut.proven


def test_the_assignment_model_chooses_among_stock_lengths() -> None:
    """CP-SAT finds and proves the 22 that one long and two short reels cost."""
    cut = assignment(SEVERAL, limit_s=5.0)
    assert (cost_of(SEVERAL, cut.reels), cut.proven) == (22, True)
    assert sorted(stock for stock, _ in cut.reels) == [7, 7, 10]


def test_best_fit_takes_the_fullest_reel_that_holds() -> None:
    """Behind 7 and 4 + 4 on reels of 10 the 2 goes to the first, or to where it leaves nothing."""
    problem = problem_of([(10, 1)], Counter({7: 1, 4: 2, 2: 1}))
    cuts = {
        way: [sorted(cut.elements()) for _, cut in way(problem).reels]
        for way in (first_fit_decreasing, best_fit_decreasing)
    }
    assert cuts[first_fit_decreasing] == [[2, 7], [4, 4]]
    assert cuts[best_fit_decreasing] == [[7], [2, 4, 4]]


@pytest.mark.parametrize(
    "reels", [[(7, Counter({3: 2, 2: 4}))], [(7, Counter({3: 2})), (7, Counter({2: 3}))]]
)
def test_an_answer_that_does_not_hold_is_refused(reels: list[tuple[int, Counter[int]]]) -> None:
    """A reel cut beyond its end, and a piece that is missing, are errors and no figures."""
    with pytest.raises(ValueError, match=r"is cut|wanted"):
        cost_of(TIGHT, reels)


def test_a_row_counts_what_is_best_and_what_is_beside() -> None:
    """First fit on one tight and one easy instance: one at the optimum, one reel too many."""
    cases = [
        Case(kind="small", name="tight", problem=TIGHT, best_known=2),
        Case(
            kind="small", name="easy", problem=problem_of([(10, 1)], Counter({5: 4})), best_known=2
        ),
    ]
    mine = [ours(case) for case in cases]
    runs = [by(first_fit_decreasing, case) for case in cases]
    first = row("two", "first fit", cases, runs, mine)
    assert row("two", "ours", cases, mine, mine)[2:8] == (2, 2, 2, 0, 0, 0)
    assert first[2:8] == (2, 1, 1, 25, 50, 1)
    assert first[12:15] == (0, 1, 1.25)
