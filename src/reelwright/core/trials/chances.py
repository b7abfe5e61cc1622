"""A Gaussian process behind yes and no: how likely a trial comes out, where it was never made.

The chance is logistic(f(x)), f a Gaussian process with a level of its own; trials show numbers of
yes among numbers looked at, and the posterior of f is Laplace's (Rasmussen and Williams, 2006,
3.4, algorithm 3.1, with the binomial in place of the single yes). The common length is the one with
the best marginal likelihood among five about the typical one.
"""

from dataclasses import dataclass

import numpy as np

from reelwright.core.trials._kernels import factorise, logistic, solve_factored, solve_lower
from reelwright.core.trials.process import matern, typical_length
from reelwright.core.trials.space import FloatArray

_AMPLITUDE2 = 4.0
_LEVEL_VARIANCE = 1.0
_LENGTH_SPREAD = 0.6
_LENGTH_RATIOS = (0.5, 0.7, 1.0, 1.4, 2.0)


@dataclass(frozen=True, kw_only=True, eq=False)
class ChanceProcess:
    """What trials say of a chance: ``points`` (1) ``(n, d)`` and how ``f`` stands at them."""

    points: FloatArray
    level: float
    length: float
    slopes: FloatArray
    roots: FloatArray
    factor: FloatArray

    def latent(self, points: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return mean and standard deviation (1) of f at ``points`` (1) ``(n, d)``."""
        prior = _AMPLITUDE2 + _LEVEL_VARIANCE
        if not len(self.points):
            return np.full(len(points), self.level), np.full(len(points), np.sqrt(prior))
        cross = _covariance(points, self.points, self.length)
        mean = self.level + cross @ self.slopes
        known = (solve_lower(self.factor, self.roots[:, None] * cross.T) ** 2).sum(axis=0)
        return mean, np.sqrt(np.maximum(prior - known, 1e-9))

    def chance(self, points: FloatArray) -> FloatArray:
        """Return the expected chance (1) of a yes at ``points`` (1) ``(n, d)``.

        The mean of the logistic of a normal, by MacKay's κ = (1 + πs²/8)^−½ (the same, 3.6).
        """
        mean, spread = self.latent(points)
        return logistic(mean / np.sqrt(1 + np.pi / 8 * spread**2))


def fit_chances(
    points: FloatArray, good: FloatArray, counts: FloatArray, *, expected_fraction: float
) -> ChanceProcess:
    """Return the process that ``good`` of ``counts`` ``(n,)`` at ``points`` ``(n, d)`` leave.

    ``expected_fraction`` (1) is the chance expected anywhere before the first trial.
    """
    # The level is such that the expected chance, not its median, is the one stated.
    widened = np.sqrt(1 + np.pi / 8 * (_AMPLITUDE2 + _LEVEL_VARIANCE))
    level = float(np.log(expected_fraction / (1 - expected_fraction)) * widened)
    typical = typical_length(points.shape[1])
    if not len(points):
        empty = np.zeros(0)
        return ChanceProcess(
            points=points,
            level=level,
            length=typical,
            slopes=empty,
            roots=empty,
            factor=np.zeros((0, 0)),
        )
    found = [
        (
            evidence - 0.5 * (np.log(ratio) / _LENGTH_SPREAD) ** 2,
            place,
            made,
        )
        for place, ratio in enumerate(_LENGTH_RATIOS)
        for evidence, made in [_laplace(points, good, counts, level, typical * ratio)]
    ]
    return max(found)[2]


def _covariance(one: FloatArray, other: FloatArray, length: float) -> FloatArray:
    lengths = np.full(one.shape[1], length)
    return _AMPLITUDE2 * matern(one, other, lengths) + _LEVEL_VARIANCE


def _laplace(
    points: FloatArray, good: FloatArray, counts: FloatArray, level: float, length: float
) -> tuple[float, ChanceProcess]:
    covariance = _covariance(points, points, length)
    away = np.zeros(len(points))
    for _ in range(100):
        chance = logistic(level + away)
        bend = counts * chance * (1 - chance)
        roots = np.sqrt(bend)
        factor = factorise(np.eye(len(points)) + roots[:, None] * covariance * roots[None, :])
        right = bend * away + good - counts * chance
        slopes = right - roots * solve_factored(factor, roots * (covariance @ right))
        moved = covariance @ slopes
        # A full Newton step may overshoot where all is nearly sure; two steps' length is plenty.
        step = np.clip(moved - away, -2.0, 2.0)
        away = away + step
        if float(np.abs(step).max()) < 1e-9:
            break
    chance = logistic(level + away)
    bend = counts * chance * (1 - chance)
    roots = np.sqrt(bend)
    factor = factorise(np.eye(len(points)) + roots[:, None] * covariance * roots[None, :])
    slopes = good - counts * chance
    surely = np.log(np.clip(chance, 1e-300, None)) * good
    surely += np.log(np.clip(1 - chance, 1e-300, None)) * (counts - good)
    evidence = float(surely.sum() - 0.5 * away @ slopes - np.log(np.diag(factor)).sum())
    return evidence, ChanceProcess(
        points=points, level=level, length=length, slopes=slopes, roots=roots, factor=factor
    )
