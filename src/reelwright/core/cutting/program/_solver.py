"""Programs in whole numbers: built up row by row, then minimised, once or several times."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from reelwright.core.cutting._solver import end_when, highs, infinity, quiet_model

Terms = Mapping[int, float]
"""What each variable is multiplied with; those that are left out count nothing."""

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Found:
    """``values`` (variables,) of the best found, None if none; nothing is below ``bound``."""

    values: FloatArray | None
    bound: float


class Program:
    """Variables and rows, added one by one; then minimised, once or several times."""

    def __init__(self) -> None:
        self._low: list[float] = []
        self._high: list[float] = []
        self._whole: list[bool] = []
        self._rows: list[tuple[Terms, float, float]] = []
        self._model: Any = None

    @property
    def size(self) -> int:
        """How many variables there are."""
        return len(self._low)

    def variable(self, low: float, high: float, *, whole: bool) -> int:
        """Add a variable; return its number."""
        self._low.append(low)
        self._high.append(high)
        self._whole.append(whole)
        return len(self._low) - 1

    def row(self, terms: Terms, *, low: float | None = None, high: float | None = None) -> None:
        """Add a row: the sum of terms × variables lies between ``low`` and ``high``."""
        limits = (
            -infinity() if low is None else float(low),
            infinity() if high is None else float(high),
        )
        if self._model is None:
            self._rows.append((terms, *limits))
        else:
            used = np.array(list(terms), dtype=np.int32)
            self._model.addRow(*limits, len(used), used, np.array(list(terms.values()), float))

    def minimise(
        self,
        terms: Terms,
        *,
        start: FloatArray | None,
        nodes: int,
        stop: Callable[[], bool],
    ) -> Found:
        """Return the least sum of terms × variables found, and the bound proven.

        ``start`` (variables,) is a known answer to begin with; ``nodes`` limits the branching.
        """
        if self._model is None:
            self._model = self._passed()
        model, solver = self._model, highs()
        costs = np.zeros(self.size)
        costs[list(terms)] = list(terms.values())
        model.changeColsCost(self.size, np.arange(self.size, dtype=np.int32), costs)
        model.setOptionValue("mip_max_nodes", nodes)
        if start is not None:
            known = solver.HighsSolution()
            known.col_value = start.tolist()
            model.setSolution(known)
        self._stop = stop
        model.run()
        if start is not None and self._untrue(costs):
            model.clearSolver()
            model.run()
        info = model.getInfo()
        if model.getModelStatus() == solver.HighsModelStatus.kInfeasible:
            return Found(None, infinity())
        values = None
        if info.primal_solution_status == solver.SolutionStatus.kSolutionStatusFeasible:
            values = np.array(model.getSolution().col_value)
        return Found(values, float(info.mip_dual_bound))

    def _untrue(self, costs: FloatArray) -> bool:
        """Return whether the values handed back do not come to the objective told with them.

        Seen with HiGHS 1.16: presolve improves on the start, and the start itself is handed back.
        """
        values = np.array(self._model.getSolution().col_value)
        told = float(self._model.getInfo().objective_function_value)
        return bool(len(values)) and float(values @ costs) > told + 1e-6 * max(1.0, abs(told))

    def _passed(self) -> Any:
        solver = highs()
        model = quiet_model()
        model.setOptionValue("mip_rel_gap", 0.0)
        program = solver.HighsLp()
        program.num_col_, program.num_row_ = self.size, len(self._rows)
        program.col_cost_ = np.zeros(self.size)
        program.col_lower_ = np.array(self._low, dtype=float)
        program.col_upper_ = np.array(self._high, dtype=float)
        program.row_lower_ = np.array([low for _, low, _ in self._rows], dtype=float)
        program.row_upper_ = np.array([high for _, _, high in self._rows], dtype=float)
        matrix = program.a_matrix_
        matrix.format_ = solver.MatrixFormat.kRowwise
        lengths = [len(terms) for terms, _, _ in self._rows]
        matrix.start_ = np.append(0, np.cumsum(lengths)).astype(np.int32)
        matrix.index_ = np.array(_chained(list(t) for t, _, _ in self._rows), dtype=np.int32)
        matrix.value_ = np.array(_chained(list(t.values()) for t, _, _ in self._rows), dtype=float)
        kinds = solver.HighsVarType
        program.integrality_ = [
            kinds.kInteger if whole else kinds.kContinuous for whole in self._whole
        ]
        model.passModel(program)
        end_when(model, self._ended)
        return model

    def _ended(self) -> bool:
        return self._stop()


def _chained(lists: Any) -> Sequence[float]:
    return [value for each in lists for value in each]
