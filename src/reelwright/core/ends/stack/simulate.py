"""A stack drawn many times over: for results that are no sum, and for what is not normal."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reelwright.core.ends.stack.contributor import Contributor, Reading
from reelwright.core.ends.stack.linear import Outcome, Window, require_contributors
from reelwright.core.quantities.guard import require_count


@dataclass(frozen=True, kw_only=True)
class Simulated:
    """What the draws gave, each figure with the standard uncertainty that the draws leave it.

    ``mean`` is that of the results and is not moved back onto ``nominal``, the result of the
    contributors' means: a curved result shifts, and the shift is part of the answer.
    ``outside_share`` [1] is None where no window was given; its uncertainty is never nothing, as
    even no draw outside of n leaves about 1/n open. ``histogram`` holds the share [1] of the draws
    in each of as many steps of equal width, from ``histogram_low`` to ``histogram_high``.
    """

    nominal: float
    mean: float
    mean_uncertainty: float
    deviation: float
    deviation_uncertainty: float
    lowest: float
    highest: float
    below_share: float | None
    above_share: float | None
    outside_share: float | None
    outside_share_uncertainty: float | None
    histogram_low: float
    histogram_high: float
    histogram: tuple[float, ...]
    draw_count: int
    seed: int


_STEPS = 60
_REACH = 4.5
"""The histogram's, in standard deviations to either side of the mean."""


@dataclass(frozen=True, kw_only=True)
class _Asked:
    draw_count: int
    seed: int

    def __post_init__(self) -> None:
        require_count(self, "draw_count", at_least=100)
        require_count(self, "seed")


def simulate(
    contributors: Sequence[Contributor],
    *,
    window: Window | None,
    draw_count: int,
    seed: int,
    outcome: Outcome | None = None,
) -> Simulated:
    """Return what ``draw_count`` independent draws give; the same seed gives the same answer.

    ``outcome`` takes values of shape (contributor, draw) and returns results of shape (draw,); it
    replaces the weighted sum, and sensitivities are then its own affair. Uncertainties: of a mean
    s/√n, of a standard deviation from the fourth moment, of a share the standard deviation of the
    Beta(k + 1, n − k + 1) that k of n draws leave. Raises BadValue for fewer than 100 draws.
    """
    require_contributors(contributors)
    asked = _Asked(draw_count=draw_count, seed=seed)
    generator = np.random.default_rng(asked.seed)
    values = np.stack([_drawn(each, generator, draw_count) for each in contributors])
    means = np.array([each.mean for each in contributors], dtype=np.float64)
    if outcome is None:
        weights = np.array([each.sensitivity for each in contributors], dtype=np.float64)
        results, nominal = weights @ values, float(weights @ means)
    else:
        results, nominal = outcome(values), float(outcome(means[:, None])[0])
    mean, deviation = float(results.mean()), float(results.std(ddof=1))
    fourth = float(((results - mean) ** 4).mean())
    below = above = outside = unsure = None
    if window is not None:
        below = int((results < window.low).sum()) / draw_count
        above = int((results > window.high).sum()) / draw_count
        outside = below + above
        unsure = _share_uncertainty(round(outside * draw_count), draw_count)
    reach = _REACH * deviation
    counts, edges = np.histogram(results, bins=_STEPS, range=(mean - reach, mean + reach))
    return Simulated(
        nominal=nominal,
        mean=mean,
        mean_uncertainty=deviation / math.sqrt(draw_count),
        deviation=deviation,
        deviation_uncertainty=math.sqrt(max(0.0, fourth - deviation**4) / draw_count)
        / (2 * deviation),
        lowest=float(results.min()),
        highest=float(results.max()),
        below_share=below,
        above_share=above,
        outside_share=outside,
        outside_share_uncertainty=unsure,
        histogram_low=float(edges[0]),
        histogram_high=float(edges[-1]),
        histogram=tuple(float(each) / draw_count for each in counts),
        draw_count=draw_count,
        seed=seed,
    )


def _drawn(
    contributor: Contributor, generator: "np.random.Generator", size: int
) -> NDArray[np.float64]:
    mean, half = contributor.mean, contributor.tolerance
    if half == 0:
        return np.full(size, mean)
    match contributor.reading:
        case Reading.NORMAL:
            return generator.normal(mean, contributor.deviation, size)
        case Reading.UNIFORM:
            return generator.uniform(mean - half, mean + half, size)
        case Reading.TRIANGULAR:
            return generator.triangular(mean - half, mean, mean + half, size)


def _share_uncertainty(outside_count: int, draw_count: int) -> float:
    share = (outside_count + 1) / (draw_count + 2)
    return math.sqrt(share * (1 - share) / (draw_count + 3))
