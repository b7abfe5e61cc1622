"""Whole reels for a list of lengths: textbook examples, and published instances where they are.

Lengths are whole numbers of the unit of the source. Where a source was remembered, the number that
comes out is what confirms it.
"""

from collections import Counter
from fractions import Fraction

import pytest

from benchmarks.cutting_cases import generated, problem_of, read_cases
from benchmarks.cutting_rivals import cost_of
from reelwright.core.cutting.stock_lengths import StockAnswer, StockProblem, cheapest
from reelwright.core.cutting.stop import after_steps
from tests.references.harness import (
    Basis,
    LeftOut,
    ReferenceCheck,
    absolute,
    exact,
    reference_test,
    rows_of,
)
from tests.references.outside_files import outside_path

CHVATAL = "Chvátal, Linear Programming (1983), chapter 13, rolls of 100 inches"
PAPER = "Wikipedia, Cutting stock problem, a paper machine of 5600 mm with 13 widths"
MODELLING = "Fourer, Gay and Kernighan, AMPL (2nd edition 2003), chapter 15, rolls of 110 inches"
COSTS = "Gilmore and Gomory, Operations Research 9 (1961), stock of 9, 6 and 5 ft for 10, 7 and 6"
PACKING = "Martello and Toth, Knapsack Problems (1990), chapter 8, nine items in bins of 100"
GAP = "Fieldhouse, The duality gap in trim problems, SICUP Bulletin 5 (1990)"
RECIPE = "Falkenauer, Journal of Heuristics 2 (1996), the recipe of the triplets"
VALUES = "da Silva and Schouery, INFORMS Journal on Computing 2025, doi 10.1287/ijoc.2023.0399"
WHOLE = exact(because="reels are counted")

ROLLS = {100: 1}, {45: 97, 36: 610, 31: 395, 14: 211}
MACHINE = (
    {5600: 1},
    {1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20, 2000: 10, 2050: 12,
     2100: 14, 2140: 16, 2150: 18, 2200: 20},
)  # fmt: skip
MODELLED = {110: 1}, {20: 48, 45: 35, 50: 24, 55: 10, 75: 8}
COSTED = {9: 10, 6: 7, 5: 6}, {2: 20, 3: 10, 4: 20}
NINE = {100: 1}, {70: 1, 60: 1, 50: 1, 33: 3, 11: 1, 7: 1, 3: 1}
WITH_A_GAP = {30: 1}, {15: 1, 10: 2, 6: 4}

Given = tuple[dict[int, int], dict[int, int]]


def problem(given: Given) -> StockProblem:
    """Return the problem of stock {length: cost} and pieces {length: count}."""
    stock, wanted = given
    return problem_of(list(stock.items()), wanted)


def cost(given: Given) -> float:
    """Return the least cost, which must be proven to count."""
    answer = cheapest(problem(given))
    return answer.cost if answer.proven_best else float("nan")


def in_fractions(given: Given) -> float:
    """Return the bound of the linear program over patterns, in reels.

    A reel costs 10,000 and one that holds nothing costs 1, so the bound is rounded to 0.0001 only.
    """
    (length,), wanted = given
    ended_there = cheapest(
        problem(({length: 10_000, 1: 1}, wanted)), stop=lambda progress: progress.steps > 0
    )
    return ended_there.bound / 10_000


def by_length(given: Given) -> Fraction:
    """Return the lengths wanted in reels, as if all could be joined."""
    (reel,), wanted = given
    return Fraction(sum(length * count for length, count in wanted.items()), reel)


def triplets() -> float:
    """Return the reels of the first 60 pieces made by the recipe."""
    first = next(case for case in generated() if case.name.startswith("triplets 60"))
    answer = cheapest(first.problem)
    return answer.cost if answer.proven_best else float("nan")


row = rows_of("core.cutting.stock_lengths", prefix="stock.")

CHECKS: tuple[ReferenceCheck, ...] = (
    row("rolls", "rolls for four widths, 1313 pieces", CHVATAL, Basis.MEMORY, 453, "rolls", WHOLE,
        lambda: cost(ROLLS)),
    row("rolls.bound", "the same in fractions of patterns", CHVATAL, Basis.MEMORY, 452.25, "rolls",
        absolute(0.0002, because="ours is rounded up to a ten-thousandth"),
        lambda: in_fractions(ROLLS)),
    row("machine", "rolls for 13 widths, 219 pieces", PAPER, Basis.MEMORY, 73, "rolls", WHOLE,
        lambda: cost(MACHINE)),
    row("machine.loss", "trim of the same", PAPER, Basis.MEMORY, 0.401, "%",
        absolute(0.0005, because="three decimals are remembered"),
        lambda: 100 * (1 - float(by_length(MACHINE)) / cost(MACHINE))),
    row("modelling", "rolls for five widths, 125 pieces", MODELLING, Basis.MEMORY, 47, "rolls",
        WHOLE, lambda: cost(MODELLED)),
    row("modelling.bound", "the same in fractions of patterns", MODELLING, Basis.MEMORY, 46.25,
        "rolls", absolute(0.0002, because="ours is rounded up to a ten-thousandth"),
        lambda: in_fractions(MODELLED)),
    row("costs", "cost of 50 pieces from three stock lengths", COSTS, Basis.MEMORY, 170, "cost",
        exact(because="costs are whole numbers"), lambda: cost(COSTED)),
    row("packing", "bins for nine items, where the lengths alone say three", PACKING, Basis.MEMORY,
        4, "bins", WHOLE, lambda: cost(NINE)),
    row("gap", "reels above the fraction that the lengths alone say, 59/30", GAP, Basis.MEMORY,
        31 / 30, "reels", absolute(1e-12, because="a fraction of small whole numbers"),
        lambda: cost(WITH_A_GAP) - float(by_length(WITH_A_GAP))),
    row("triplets", "reels for 60 pieces made by cutting 20 reels into three", RECIPE,
        Basis.COMPUTED, 20, "reels", WHOLE, triplets),
)  # fmt: skip
test_stock_lengths = reference_test(CHECKS)

LEFT_OUT = (
    LeftOut(
        names=("Marcotte 1986",),
        quantity="a stock length in the thousands of millions, whose bound rounded up is one short",
        reason="the table of fillings is as long as the stock length; no memory holds that one",
    ),
)

PUBLISHED = {
    "falkenauer_t": "t60_00 t60_04 t60_08 t60_12 t60_16 t120_00",
    "falkenauer_u": "u120_00 u120_06 u120_12 u120_18 u250_00 u500_02",
    "hard28": "BPP#12 BPP#26",
    "scholl_1": (
        "N1C1W1_A N1C2W2_A N1C3W4_A N2C1W4_A N2C3W2_A N3C1W1_A N3C2W4_A N3C3W2_A N4C1W1_A "
        "N4C2W2_A N4C3W4_A"
    ),
    "scholl_2": (
        "N1W1B1R0 N1W1B2R0 N1W2B1R0 N1W3B1R0 N1W4B2R0 N2W1B1R0 N2W1B3R0 N2W2B1R0 N2W3B2R0 N2W4B3R0"
    ),
    "schwerin_1": "BPP#0 BPP#20 BPP#40 BPP#60",
    "waescher_1": "TEST0022#0 TEST0082#10",
}
"""Some forty over all classes that have published values, those that take long left out."""

STEPS = 3000
"""None of them needs a tenth; more would be a fault, and not end for long."""


def solved(given: StockProblem) -> StockAnswer:
    """Return the answer, its reels checked by plain reckoning."""
    answer = cheapest(given, stop=after_steps(STEPS))
    reels = [
        (one.stock_length_mm, Counter(dict(one.cuts)))
        for one in answer.patterns
        for _ in range(one.times)
    ]
    assert cost_of(given, reels) == answer.cost
    return answer


@pytest.mark.reference
@pytest.mark.parametrize(
    ("kind", "name"), [(kind, name) for kind, names in PUBLISHED.items() for name in names.split()]
)
def test_a_published_instance_comes_out_at_its_best_known_value(kind: str, name: str) -> None:
    """Cost and bound are both the best known number of reels, which da Silva and Schouery give."""
    cases = read_cases(outside_path("cutting", f"{kind}.txt"))
    (case,) = [one for one in cases if one.name == name]
    answer = solved(case.problem)
    assert (answer.cost, answer.bound) == (case.best_known, case.best_known), VALUES
