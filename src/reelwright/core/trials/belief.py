"""What a model believes at given points: in the window, surely in it, safe to try."""

from dataclasses import dataclass
from statistics import NormalDist

import numpy as np

from reelwright.core.trials._kernels import normal_below, t_below, tolerance_factors
from reelwright.core.trials.model import LooksModel, ResponseModel, TrialsModel
from reelwright.core.trials.problem import Demand
from reelwright.core.trials.space import FloatArray


@dataclass(frozen=True, kw_only=True, eq=False)
class Belief:
    """At ``points`` (1) ``(n, n_setting)``; every array ``(n,)`` or ``(n, n_demand)``.

    A demand is one limit of one response, or one look. ``margins``: how far the mean is expected
    to be on the good side, the coverage asked taken off, in scales of the response; ``spreads``:
    the standard deviation of that. ``bounds``: the same for the lower tolerance bound, which is
    what a claim rests on. ``inside`` (1) is the chance that a point is truly in the window,
    ``safe`` (1) that a trial there harms nothing.
    """

    points: FloatArray
    names: tuple[str, ...]
    margins: FloatArray
    spreads: FloatArray
    bounds: FloatArray
    inside: FloatArray
    safe: FloatArray

    @property
    def proven(self) -> "np.ndarray[tuple[int], np.dtype[np.bool_]]":
        """Where the bound of every demand clears its limit, ``(n,)``."""
        return np.asarray((self.bounds >= 0).all(axis=1))

    @property
    def worst_bound(self) -> FloatArray:
        """The bound that clears its limit by the least, ``(n,)``."""
        return np.asarray(self.bounds.min(axis=1), dtype=np.float64)


def believe(model: TrialsModel, points: FloatArray) -> Belief:
    """Return what ``model`` believes at ``points`` (1) ``(n, n_setting)``."""
    demand = model.problem.demand
    names: list[str] = []
    margins: list[FloatArray] = []
    spreads: list[FloatArray] = []
    bounds: list[FloatArray] = []
    safe = model.outcome.chance(points)
    for response in model.responses:
        mean, spread = response.at(points)
        for name, margin, wide, bound in _by_limits(response, demand, mean, spread):
            names.append(name)
            margins.append(margin)
            spreads.append(wide)
            bounds.append(bound)
        for limit, sign in response.response.dangers:
            # A single part must be safe, not the mean of many; and few trials know their own
            # spread badly, which is what the tails of Student's t are for.
            whole = np.hypot(spread, response.noise)
            trials = len(response.process.shown.means)
            safe = safe * t_below(sign * (mean - limit) / whole, degrees=trials + 2)
    for looks in model.looks:
        name, margin, wide, bound = _by_looks(looks, demand, points)
        names.append(name)
        margins.append(margin)
        spreads.append(wide)
        bounds.append(bound)
    table = [np.stack(rows, axis=1) if rows else np.zeros((len(points), 0))
             for rows in (margins, spreads, bounds)]  # fmt: skip
    inside = normal_below(table[0] / table[1]).prod(axis=1) * model.outcome.chance(points)
    return Belief(
        points=points,
        names=tuple(names),
        margins=table[0],
        spreads=table[1],
        bounds=table[2],
        inside=np.asarray(inside, dtype=np.float64),
        safe=np.asarray(safe, dtype=np.float64),
    )


def bound_distance(response: ResponseModel, demand: Demand, spread: FloatArray) -> FloatArray:
    """Return k·σ ``(n,)``: how far from the mean the tolerance bound lies, in the response's unit.

    ``spread`` in its unit, ``(n,)``. A mean known to ``spread`` is worth σ²/spread²
    readings, and σ is known with the degrees of freedom of the repeats: with the factor of the
    non-central t this is the exact bound for one setting by itself, and grows where nothing near
    was tried.
    """
    worth = (response.noise / spread) ** 2
    factors = tolerance_factors(
        worth,
        coverage=demand.coverage,
        confidence=demand.confidence,
        degrees=max(1, response.degrees),
    )
    return np.asarray(factors * response.noise, dtype=np.float64)


def _by_limits(
    response: ResponseModel, demand: Demand, mean: FloatArray, spread: FloatArray
) -> list[tuple[str, FloatArray, FloatArray, FloatArray]]:
    reach = NormalDist().inv_cdf(demand.coverage) * response.noise
    bound = bound_distance(response, demand, spread)
    return [
        (
            response.response.name,
            (sign * (mean - limit) - reach) / response.scale,
            spread / response.scale,
            (sign * (mean - limit) - bound) / response.scale,
        )
        for limit, sign in response.response.limits
    ]


def _by_looks(
    looks: LooksModel, demand: Demand, points: FloatArray
) -> tuple[str, FloatArray, FloatArray, FloatArray]:
    mean, spread = looks.process.latent(points)
    share = looks.looks.least_share
    # Two in the logarithm of the odds is about one scale: from 50 % to 88 %.
    margin = (mean - np.log(share / (1 - share))) / 2
    sure = NormalDist().inv_cdf(demand.confidence) * spread / 2
    return looks.looks.name, margin, spread / 2, margin - sure
