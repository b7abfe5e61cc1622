"""A Gaussian process for the mean of one response, with the noise that its repeats show.

The mean at settings x is h(x)ᵀβ + g(x): what physics says, with coefficients β known only so far,
and a smooth departure g from it, of covariance a²·(1 + √5r + 5r²/3)·exp(−√5r), r² = Σ((x−x')ᵢ/ℓᵢ)²
(Matérn, ν = 5/2). A trial of n repeats shows it with variance σ²/n. Amplitude a, lengths ℓ and
noise σ are those of the largest marginal likelihood times a prior (Rasmussen and Williams, Gaussian
Processes for Machine Learning, 2006, 2.7, 4.2 and 5.4); σ is held by the scatter within the trials
too, which enters the likelihood exactly: −½(ν·ln σ² + S/σ²).

All in the response's own scale: values less their centre, over their scale. The priors are common
practice: lengths about 0.3·√d of the range within a factor 1.8, amplitudes about one scale within a
factor 1.6; with them, few trials neither make the response flat nor make it forget its neighbours.
"""

from dataclasses import dataclass

import numpy as np

from reelwright.core.trials._kernels import factorise, solve_factored, solve_lower
from reelwright.core.trials._solver import least
from reelwright.core.trials.space import FloatArray

_ROOT5 = 5**0.5
_LENGTH_SPREAD = 0.6
_AMPLITUDE_SPREAD = 0.5
_NOISE_SPREAD = 1.0
_LEVEL_VARIANCE = 4.0
_SLOPE_VARIANCE = 1.0
_JITTER = 1e-9


def typical_length(dimensions: int) -> float:
    """Return the length (1, parts of the range) over which a response is expected to change."""
    return 0.3 * float(np.sqrt(dimensions))


def matern(one: FloatArray, other: FloatArray, lengths: FloatArray) -> FloatArray:
    """Return the correlation (1) between points (1) ``(n, d)`` and ``(m, d)``: ``(n, m)``."""
    a, b = one / lengths, other / lengths
    squares = (a**2).sum(axis=1)[:, None] + (b**2).sum(axis=1)[None, :] - 2 * a @ b.T
    r = np.sqrt(np.maximum(squares, 0.0))
    return np.asarray((1 + _ROOT5 * r + 5 / 3 * r**2) * np.exp(-_ROOT5 * r), dtype=np.float64)


@dataclass(frozen=True, kw_only=True, eq=False)
class Shown:
    """What trials showed: ``points`` (1) ``(n, d)``, ``means`` and ``counts`` ``(n,)`` of repeats.

    ``columns`` ``(n, p)`` is the basis there. ``within`` and ``degrees`` are the scatter within the
    trials: sum of squares and degrees of freedom. Means and scatter in the response's scale.
    """

    points: FloatArray
    means: FloatArray
    counts: FloatArray
    columns: FloatArray
    within: float
    degrees: int


@dataclass(frozen=True, kw_only=True, eq=False)
class Process:
    """A fitted process; ``amplitude`` and ``noise`` in the response's scale, ``lengths`` (1)."""

    shown: Shown
    expected: FloatArray
    variances: FloatArray
    amplitude: float
    lengths: FloatArray
    noise: float
    factor: FloatArray
    weights: FloatArray

    def at(self, points: FloatArray, columns: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return mean and standard deviation ``(n,)`` of the response's mean at ``points`` (1)."""
        cross = self.amplitude**2 * matern(points, self.shown.points, self.lengths)
        cross += (columns * self.variances) @ self.shown.columns.T
        mean = columns @ self.expected + cross @ self.weights
        prior = self.amplitude**2 + (columns**2 * self.variances).sum(axis=1)
        known = (solve_lower(self.factor, cross.T) ** 2).sum(axis=0)
        return mean, np.sqrt(np.maximum(prior - known, 1e-12 * prior))


def condition(
    shown: Shown, expected: FloatArray, *, amplitude: float, lengths: FloatArray, noise: float
) -> Process:
    """Return the process that these trials leave, with its parameters as given."""
    variances = _variances(len(expected))
    left = shown.means - shown.columns @ expected
    factor = factorise(_covariance(shown, variances, amplitude, lengths, noise))
    return Process(
        shown=shown,
        expected=expected,
        variances=variances,
        amplitude=amplitude,
        lengths=lengths,
        noise=noise,
        factor=factor,
        weights=solve_factored(factor, left),
    )


def fit(shown: Shown, expected: FloatArray) -> Process:
    """Return the process whose parameters the trials make most believable."""
    size = shown.points.shape[1]
    belief = _Belief(shown, expected)
    middle = belief.middle
    # Lengths that the likelihood likes come in two kinds, short and long: both are tried.
    starts = [
        middle + np.r_[0.0, np.full(size, shift), 0.0]
        for shift in ((0.0,) if len(shown.means) < 3 else (-0.5, 0.6))
    ]
    bounds = [
        (-4.0, 4.0),
        *[(np.log(0.05), np.log(6.0))] * size,
        (middle[-1] - 4.0, middle[-1] + 3.0),
    ]
    best = least(belief.less, starts, bounds)
    return condition(
        shown,
        expected,
        amplitude=float(np.exp(best[0])),
        lengths=np.exp(best[1:-1]),
        noise=float(np.exp(best[-1])),
    )


def log_likelihood(process: Process) -> float:
    """Return the logarithm of the density of the means under the process, in its scale."""
    left = process.shown.means - process.shown.columns @ process.expected
    half = float(np.log(np.diag(process.factor)).sum())
    return -0.5 * float(left @ process.weights) - half - len(left) / 2 * float(np.log(2 * np.pi))


def _variances(columns: int) -> FloatArray:
    variances = np.full(columns, _SLOPE_VARIANCE)
    variances[0] = _LEVEL_VARIANCE
    return variances


def _covariance(
    shown: Shown, variances: FloatArray, amplitude: float, lengths: FloatArray, noise: float
) -> FloatArray:
    matrix = amplitude**2 * matern(shown.points, shown.points, lengths)
    matrix += (shown.columns * variances) @ shown.columns.T
    matrix[np.diag_indices_from(matrix)] += noise**2 / shown.counts + _JITTER
    return matrix


class _Belief:
    """Minus the logarithm of likelihood and prior, with its gradient, in ln a, ln ℓ, ln σ."""

    def __init__(self, shown: Shown, expected: FloatArray) -> None:
        self._shown = shown
        self._left = shown.means - shown.columns @ expected
        # What the coefficients leave open is the same at every step of the search.
        self._open = (shown.columns * _variances(len(expected))) @ shown.columns.T
        size = shown.points.shape[1]
        self._squares = (shown.points[:, None, :] - shown.points[None, :, :]) ** 2
        noise = np.sqrt(shown.within / shown.degrees) if shown.degrees and shown.within else 0.1
        self.middle = np.r_[
            0.0, np.full(size, np.log(typical_length(size))), np.log(max(noise, 1e-4))
        ]
        self._spread = np.r_[_AMPLITUDE_SPREAD, np.full(size, _LENGTH_SPREAD), _NOISE_SPREAD]

    def less(self, parameters: FloatArray) -> tuple[float, FloatArray]:
        """Return the value and its gradient at ``parameters``, logarithms (1)."""
        shown = self._shown
        amplitude2, noise2 = np.exp(2 * parameters[0]), np.exp(2 * parameters[-1])
        scaled = self._squares / np.exp(2 * parameters[1:-1])
        r = np.sqrt(scaled.sum(axis=2))
        decay = amplitude2 * np.exp(-_ROOT5 * r)
        smooth = (1 + _ROOT5 * r + 5 / 3 * r**2) * decay
        matrix = smooth + self._open
        matrix[np.diag_indices_from(matrix)] += noise2 / shown.counts + _JITTER
        factor = factorise(matrix)
        weights = solve_factored(factor, self._left)
        inverse = solve_factored(factor, np.eye(len(matrix)))
        # d/dθ of ½(yᵀM⁻¹y + ln|M|) is −½ tr((ww ᵀ − M⁻¹) dM/dθ).
        pull = np.outer(weights, weights) - inverse
        by_length = 5 / 3 * (1 + _ROOT5 * r) * decay
        gradient = np.empty_like(parameters)
        gradient[0] = -(pull * smooth).sum()
        gradient[1:-1] = -0.5 * np.einsum("ij,ijk->k", pull * by_length, scaled)
        gradient[-1] = -(np.diag(pull) / shown.counts).sum() * noise2
        gradient[-1] += shown.degrees - shown.within / noise2
        value = 0.5 * self._left @ weights + np.log(np.diag(factor)).sum()
        value += 0.5 * (shown.degrees * 2 * parameters[-1] + shown.within / noise2)
        off = (parameters - self.middle) / self._spread
        return float(value + 0.5 * off @ off), gradient + off / self._spread
