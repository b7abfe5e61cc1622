"""The distributions and the linear algebra that need scipy, loaded at first use."""

from collections.abc import Callable
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]

_SIZES = np.geomspace(1e-4, 1e6, 161)


def chance_of_larger_f(*, ratio: float, degrees: int, degrees_below: int) -> float:
    """Return the chance (1) that F with these degrees of freedom exceeds ``ratio``."""
    from scipy.special import fdtrc

    return float(fdtrc(degrees, degrees_below, ratio))


def chance_of_larger_t(*, ratio: float, degrees: int) -> float:
    """Return the two-sided chance (1) that Student's t lies further from 0 than ``ratio``."""
    from scipy.special import stdtr

    return float(2 * stdtr(degrees, -abs(ratio)))


def t_quantile(*, probability: float, degrees: int) -> float:
    """Return the quantile (1) of Student's t at ``probability`` (1)."""
    from scipy.special import stdtrit

    return float(stdtrit(degrees, probability))


def normal_below(values: FloatArray) -> FloatArray:
    """Return the chance (1) that a standard normal lies below each of ``values`` (1)."""
    from scipy.special import ndtr

    return np.asarray(ndtr(values), dtype=np.float64)


def t_below(values: FloatArray, *, degrees: float) -> FloatArray:
    """Return the chance (1) that Student's t lies below each of ``values`` (1)."""
    from scipy.special import stdtr

    return np.asarray(stdtr(degrees, values), dtype=np.float64)


def logistic(values: FloatArray) -> FloatArray:
    """Return 1/(1 + exp(−value)) without overflow, ``values`` and result (1)."""
    from scipy.special import expit

    return np.asarray(expit(values), dtype=np.float64)


@lru_cache(maxsize=64)
def _factor_curve(
    coverage: float, confidence: float, degrees: int
) -> Callable[[FloatArray], FloatArray]:
    from scipy.interpolate import CubicSpline

    # Not scipy.stats: the same numbers, without the second that loading it takes.
    from scipy.special import nctdtrit, ndtri

    roots = np.sqrt(_SIZES)
    table = nctdtrit(degrees, ndtri(coverage) * roots, confidence) / roots
    # ln k against ln n is smooth and slow where k itself goes like 1/√n.
    curve: Callable[[FloatArray], FloatArray] = CubicSpline(np.log(_SIZES), np.log(table))
    return curve


def tolerance_factors(
    sizes: FloatArray, *, coverage: float, confidence: float, degrees: int
) -> FloatArray:
    """Return k (1) for each of ``sizes`` (1), the readings a mean is worth, whole or not.

    Exact non-central t at 161 sizes from 1e-4 to 1e6 in even ratio, and cubic between them; below
    and above that the end is taken.
    """
    curve = _factor_curve(coverage, confidence, degrees)
    asked = np.clip(sizes, _SIZES[0], _SIZES[-1])
    return np.asarray(np.exp(curve(np.log(asked))), dtype=np.float64)


def factorise(matrix: FloatArray) -> FloatArray:
    """Return the lower Cholesky factor of a positive definite ``matrix``."""
    from scipy.linalg import cholesky

    return np.asarray(cholesky(matrix, lower=True, check_finite=False), dtype=np.float64)


def solve_factored(factor: FloatArray, right: FloatArray) -> FloatArray:
    """Return M⁻¹·right, where ``factor`` is the lower Cholesky factor of M."""
    from scipy.linalg import cho_solve

    return np.asarray(cho_solve((factor, True), right, check_finite=False), dtype=np.float64)


def solve_lower(factor: FloatArray, right: FloatArray) -> FloatArray:
    """Return L⁻¹·right for the lower triangular ``factor`` L."""
    from scipy.linalg import solve_triangular

    return np.asarray(
        solve_triangular(factor, right, lower=True, check_finite=False), dtype=np.float64
    )
