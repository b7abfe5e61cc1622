"""Column generation: which fillings are worth having, and the bound that proves how good they are.

Gilmore and Gomory 1961. The duals asked for fillings are mixed with those of the best bound so
far (Wentges 1997), and each round takes several fillings that complement each other.
"""

from dataclasses import dataclass

import numpy as np

from reelwright.core.cutting.stock_lengths._solver import FloatArray, Master, Point
from reelwright.core.cutting.stock_lengths.case import Case, Counts, Pattern
from reelwright.core.cutting.stock_lengths.duals import SCALE, Duals
from reelwright.core.cutting.stock_lengths.knapsack import Knapsack

MIXED = 0.5
FILLINGS_A_ROUND = 8
WORTHWHILE = 1e-7
"""A filling must be worth more than its reel by this share, or rounding would never end."""


@dataclass(frozen=True, eq=False)
class Generated:
    """The master's last optimum and the duals of the best bound."""

    point: Point
    duals: Duals


def generate(
    case: Case, master: Master, knapsack: Knapsack, wanted: Counts, *, enough: int | None
) -> Generated:
    """Add fillings to the master until none is missing, or the bound reaches ``enough``."""
    best: Duals | None = None
    while True:
        point = master.solve()
        mixed = point.duals
        if best is not None:
            mixed = MIXED * best.as_costs + (1 - MIXED) * point.duals
        asked = [mixed] if best is None else [mixed, point.duals]
        fillings: list[Pattern] = []
        for duals in asked:
            fillings, found = _priced(case, knapsack, wanted, duals, point.duals)
            if best is None or _higher(found, best, wanted):
                best = found
            if fillings:
                break
        assert best is not None
        if enough is not None and best.bound(case, wanted) >= enough:
            return Generated(point, best)
        if not master.add(fillings):
            return Generated(point, best)


def _higher(one: Duals, other: Duals, wanted: Counts) -> bool:
    return one.total(wanted) * other.unit > other.total(wanted) * one.unit


def _priced(
    case: Case, knapsack: Knapsack, wanted: Counts, asked: FloatArray, duals: FloatArray
) -> tuple[list[Pattern], Duals]:
    """Return the fillings that ``asked`` makes dearest and ``duals`` find worthwhile."""
    values = np.floor(asked * SCALE + 1e-6).astype(np.int64)
    best = knapsack.best(values, wanted)
    found = Duals.scaled(case, values, best)
    fillings: list[Pattern] = []
    for stock in range(len(case.stock_mm)):
        pattern = Pattern(stock, knapsack.filling(int(case.stock_mm[stock])))
        if _worthwhile(case, pattern, duals):
            fillings.append(pattern)
    rest = wanted.copy()
    last = fillings[0] if len(case.stock_mm) == 1 and fillings else None
    for _ in range(FILLINGS_A_ROUND):
        if last is None:
            stock = int(np.argmax(best[case.stock_mm] / case.costs))
            last = Pattern(stock, knapsack.filling(int(case.stock_mm[stock])))
        if not _worthwhile(case, last, duals):
            break
        fillings.append(last)
        rest -= last.counts
        best = knapsack.best(values, rest)
        last = None
    return fillings, found


def _worthwhile(case: Case, pattern: Pattern, duals: FloatArray) -> bool:
    cost = float(case.costs[pattern.stock])
    return float(pattern.counts @ duals) > cost * (1 + WORTHWHILE)
