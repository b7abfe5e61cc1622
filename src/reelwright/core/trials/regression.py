"""Least squares with what belongs to it: spread of the coefficients, R², F, what is left."""

from dataclasses import dataclass

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.trials._kernels import chance_of_larger_f
from reelwright.core.trials.repeats import Repeats
from reelwright.core.trials.space import FloatArray


@dataclass(frozen=True, kw_only=True, eq=False)
class Regression:
    """A linear model that was fitted; arrays ``(n_column,)`` and ``(n_run,)``.

    ``unscaled`` is (XᵀX)⁻¹; ``left`` are the residuals; ``total`` is the scatter of the readings
    about their mean.
    """

    coefficients: FloatArray
    unscaled: FloatArray
    left: FloatArray
    total: Repeats

    @property
    def degrees(self) -> int:
        """Readings less coefficients."""
        return len(self.left) - len(self.coefficients)

    @property
    def sum_left(self) -> float:
        """The sum of squares that the model leaves."""
        return float(self.left @ self.left)

    @property
    def deviation(self) -> float:
        """The standard deviation of what is left, in the unit of the readings."""
        return float(np.sqrt(self.sum_left / self.degrees))

    @property
    def standard_errors(self) -> FloatArray:
        """The standard deviation of each coefficient."""
        return np.asarray(self.deviation * np.sqrt(np.diag(self.unscaled)), dtype=np.float64)

    @property
    def determination_fraction(self) -> float:
        """R²: the share of the scatter about the mean that the model explains."""
        return 1 - self.sum_left / self.total.sum_of_squares

    @property
    def ratio(self) -> float:
        """F of the whole model against the mean alone."""
        own = len(self.coefficients) - 1
        explained = self.total.sum_of_squares - self.sum_left
        return explained / own / (self.sum_left / self.degrees)

    @property
    def chance(self) -> float:
        """How often readings that follow no setting would give so large an F."""
        return chance_of_larger_f(
            ratio=self.ratio, degrees=len(self.coefficients) - 1, degrees_below=self.degrees
        )


def least_squares(columns: FloatArray, values: FloatArray) -> Regression:
    """Fit ``values`` ``(n_run,)`` by ``columns`` ``(n_run, n_column)``, the first of them ones.

    Columns are centred and brought to one size before the QR, and the residuals fitted once more:
    columns that nearly follow each other then cost no digits. Raises BadValue where there are
    fewer readings than coefficients, or columns that follow from each other.
    """
    runs, size = columns.shape
    if values.shape != (runs,) or not np.all(np.isfinite(values)):
        raise BadValue(
            owner="least_squares", field="values", value=values.shape, accepted=f"({runs},), finite"
        )
    if runs < size or not np.all(columns[:, 0] == 1):
        raise BadValue(
            owner="least_squares",
            field="columns",
            value=columns.shape,
            accepted="a first column of ones and as many readings as columns, or more",
        )
    middle = columns.mean(axis=0)
    middle[0] = 0.0
    centred = columns - middle
    sizes = np.sqrt((centred**2).sum(axis=0))
    follows = "columns of which none follows from the others"
    if np.any(sizes == 0):
        raise BadValue(owner="least_squares", field="columns", value="constant", accepted=follows)
    q, r = np.linalg.qr(centred / sizes)
    if np.linalg.cond(r) > 1e10:
        raise BadValue(owner="least_squares", field="columns", value="dependent", accepted=follows)
    found = np.zeros(size)
    left = values.astype(np.float64)
    for _ in range(3):
        step = np.linalg.solve(r, q.T @ left)
        found = found + step
        left = values - (centred / sizes) @ found
    # Back from centred and scaled columns: only the constant feels the centring.
    back = np.diag(1 / sizes)
    back[0, 1:] = -middle[1:] / sizes[1:]
    inner = np.linalg.inv(r)
    mean = values.mean()
    away = values - mean
    away = away - away.mean()
    return Regression(
        coefficients=back @ found,
        unscaled=back @ inner @ inner.T @ back.T,
        left=left,
        total=Repeats(sum_of_squares=float(away @ away), degrees=runs - 1),
    )
