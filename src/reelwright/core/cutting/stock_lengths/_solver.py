"""Linear programs over patterns: in fractions while they grow, in whole reels at the end."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reelwright.core.cutting._solver import end_when, highs, infinity, quiet_model
from reelwright.core.cutting.stock_lengths.case import Case, Counts, Pattern

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Point:
    """One optimum of the master: ``uses`` (patterns,) and ``duals`` (lengths,) in cost."""

    cost: float
    uses: FloatArray
    duals: FloatArray


class Master:
    """The least cost of using patterns, in fractions, so that all that is wanted is given.

    Besides the patterns there are *exchanges*: where a longer piece is given, the next shorter may
    be cut instead. They are valid for any answer that may cut too much, and hold the duals
    in order of length, which spares most rounds (dual cuts: Valério de Carvalho 2005).
    """

    def __init__(self, case: Case) -> None:
        self._case = case
        self._model = quiet_model()
        self._model.setOptionValue("presolve", "off")
        self.patterns: list[Pattern] = []
        self._counts = np.zeros((0, len(case.wanted)), dtype=np.int64)
        self._known: set[tuple[int, bytes]] = set()
        self._rest = case.wanted
        self.steps = 0
        size = len(case.wanted)
        none = np.zeros(0, dtype=np.int32)
        for wanted in case.wanted:
            self._model.addRow(float(wanted), infinity(), 0, none, np.zeros(0))
        for at in range(size - 1):
            places = np.array([at, at + 1], dtype=np.int32)
            self._model.addCol(0.0, 0.0, infinity(), 2, places, np.array([-1.0, 1.0]))
        self._first = size - 1

    @property
    def counts(self) -> Counts:
        """(patterns, lengths)"""
        return self._counts

    def add(self, patterns: Sequence[Pattern]) -> int:
        """Take in the patterns that are not there yet; return how many they were."""
        fresh = []
        for pattern in patterns:
            if pattern.key not in self._known:
                self._known.add(pattern.key)
                fresh.append(pattern)
        for pattern in fresh:
            places = np.nonzero(pattern.counts)[0]
            self._model.addCol(
                float(self._case.costs[pattern.stock]),
                0.0,
                infinity() if (pattern.counts <= self._rest).all() else 0.0,
                len(places),
                places.astype(np.int32),
                pattern.counts[places].astype(np.float64),
            )
        if fresh:
            self.patterns += fresh
            self._counts = np.vstack([self._counts, *(one.counts for one in fresh)])
        return len(fresh)

    def want(self, rest: Counts) -> None:
        """Ask for ``rest`` (lengths,) only, and for no pattern that gives more of a length."""
        self._rest = rest
        size = len(rest)
        self._model.changeRowsBounds(
            size, np.arange(size, dtype=np.int32), rest.astype(float), np.full(size, infinity())
        )
        fits = (self._counts <= rest).all(axis=1)
        number = len(self.patterns)
        self._model.changeColsBounds(
            number,
            np.arange(self._first, self._first + number, dtype=np.int32),
            np.zeros(number),
            np.where(fits, infinity(), 0.0),
        )

    def solve(self) -> Point:
        """Return an optimum. Raises RuntimeError where the solver fails, which it should not."""
        self.steps += 1
        self._model.run()
        if self._model.getModelStatus() != highs().HighsModelStatus.kOptimal:
            raise RuntimeError(f"the master was not solved: {self._model.getModelStatus()}")
        solution = self._model.getSolution()
        return Point(
            self._model.getInfo().objective_function_value,
            np.array(solution.col_value)[self._first :],
            np.maximum(np.array(solution.row_dual), 0.0),
        )


@dataclass(frozen=True, eq=False)
class Choice:
    """The patterns chosen. Where there are none: ``none_there`` tells proof from giving up."""

    patterns: list[Pattern] | None
    none_there: bool


def choose(
    case: Case,
    wanted: Counts,
    patterns: Sequence[Pattern],
    *,
    cost: int,
    nodes: int | None,
    stop: Callable[[], bool],
) -> Choice:
    """Choose patterns that give all of ``wanted`` (lengths,) for ``cost`` or less.

    ``nodes`` bounds the branching, and ``stop`` is asked on the way.
    """
    solver = highs()
    if not patterns:
        return Choice(None, none_there=True)
    model = quiet_model()
    model.setOptionValue("mip_rel_gap", 0.0)
    model.setOptionValue("mip_max_improving_sols", 1)
    if nodes is not None:
        model.setOptionValue("mip_max_nodes", nodes)
    counts = np.stack([pattern.counts for pattern in patterns])
    costs = np.array([case.costs[pattern.stock] for pattern in patterns], dtype=np.float64)
    rows = np.column_stack([counts, costs])
    used, places = np.nonzero(rows)
    program = solver.HighsLp()
    program.num_col_, program.num_row_ = len(patterns), len(wanted) + 1
    program.col_cost_ = costs
    program.col_lower_ = np.zeros(len(patterns))
    program.col_upper_ = np.full(len(patterns), float(wanted.sum()))
    program.row_lower_ = np.append(wanted.astype(float), 0.0)
    program.row_upper_ = np.append(np.full(len(wanted), infinity()), float(cost))
    matrix = program.a_matrix_
    matrix.format_ = solver.MatrixFormat.kColwise
    starts = np.cumsum(np.bincount(used, minlength=len(patterns)))
    matrix.start_ = np.append(0, starts).astype(np.int32)
    matrix.index_ = places.astype(np.int32)
    matrix.value_ = rows[used, places].astype(float)
    program.integrality_ = [solver.HighsVarType.kInteger] * len(patterns)
    model.passModel(program)
    end_when(model, stop)
    model.run()
    if model.getModelStatus() == solver.HighsModelStatus.kInfeasible:
        return Choice(None, none_there=True)
    if model.getInfo().primal_solution_status != solver.SolutionStatus.kSolutionStatusFeasible:
        return Choice(None, none_there=False)
    times = np.rint(np.array(model.getSolution().col_value)).astype(int)
    chosen = [one for one, count in zip(patterns, times, strict=True) for _ in range(count)]
    return Choice(chosen, none_there=False)
