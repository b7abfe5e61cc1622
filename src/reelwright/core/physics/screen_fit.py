"""How much worse than a smooth tube a screen is, fitted to measured or stated losses.

One factor k on the surface resistance of the screen, and all that it leaves unexplained. For
comparison with what is met: the whole loss of foil-and-braid coax is 1.02 to 1.06 times that of
smooth tubes of the same size, of a single braid 1.36 to 1.6 times (from memory, from sizes and
nominal losses of common types); ``loss_over_smooth_ratio`` is that figure.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import LossPoint
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.coax_line import CoaxGeometry
from reelwright.core.verdicts import Reason

HIGHEST_FACTOR = 8.0
"""Above this [1] it is no braid that is being explained but a mistake (common practice)."""


@dataclass(frozen=True, kw_only=True)
class ScreenFit:
    """A coax whose screen explains the losses as well as one factor can.

    ``relative_residuals`` [1], ours over each stated loss less 1; ``loss_over_smooth_ratio`` [1],
    the mean of the stated losses over those of the same coax with a smooth screen.
    """

    coax: CoaxGeometry
    relative_residuals: tuple[float, ...]
    loss_over_smooth_ratio: float

    @property
    def worst_residual(self) -> float:
        """Largest distance [1] of ours from a stated loss."""
        return max(abs(one) for one in self.relative_residuals)


def fit_screen(
    coax: CoaxGeometry, points: Sequence[LossPoint], *, temperature_celsius: float
) -> ScreenFit | Reason:
    """Return ``coax`` with the screen's factor that fits the losses at a temperature [°C].

    Least squares of the relative deviations, to 1e-6 of the factor. A Reason where the losses are
    lower than smooth tubes would have (the sizes or the losses are wrong), or need a factor above
    8. Raises BadValue without a point.
    """
    if not points:
        raise BadValue(owner="fit_screen", field="points", value=(), accepted="one or more")
    frequency = np.array([point.frequency_hz for point in points])
    stated = np.array([point.loss_db_per_m for point in points])

    def over(factor: float) -> FloatArray:
        with_factor = _with_factor(coax, factor, len(points))
        line = with_factor.parameters(frequency, temperature_celsius=temperature_celsius)
        deviation: FloatArray = line.loss_db_per_m / stated - 1
        return deviation

    smooth = over(1.0)
    if smooth @ np.ones_like(smooth) > 0:
        return Reason(
            code="better-than-smooth",
            sentence=(
                f"the stated losses are {float(1 - np.mean(1 / (smooth + 1))) * 100:.0f} % below "
                "those of smooth tubes of the same sizes, which no cable can be: sizes, insulation "
                "or losses are wrong"
            ),
        )
    low, high = 1.0, HIGHEST_FACTOR
    if over(high) @ np.ones_like(smooth) < 0:
        return Reason(
            code="worse-than-any-braid",
            sentence=(
                f"even a screen {HIGHEST_FACTOR:g} times as bad as a smooth tube does not explain "
                "the stated losses: sizes, insulation or losses are wrong"
            ),
        )
    # Sum of squares has one valley: the losses rise with the factor, all of them.
    golden = (5**0.5 - 1) / 2
    inner = [high - golden * (high - low), low + golden * (high - low)]
    values = [float(over(factor) @ over(factor)) for factor in inner]
    while high - low > 1e-6:
        if values[0] <= values[1]:
            high, inner[1], values[1] = inner[1], inner[0], values[0]
            inner[0] = high - golden * (high - low)
            values[0] = float(over(inner[0]) @ over(inner[0]))
        else:
            low, inner[0], values[0] = inner[0], inner[1], values[1]
            inner[1] = low + golden * (high - low)
            values[1] = float(over(inner[1]) @ over(inner[1]))
    factor = (low + high) / 2
    return ScreenFit(
        coax=_with_factor(coax, factor, len(points)),
        relative_residuals=tuple(float(one) for one in over(factor)),
        loss_over_smooth_ratio=float(np.mean(1 / (smooth + 1))),
    )


def _with_factor(coax: CoaxGeometry, factor: float, count: int) -> CoaxGeometry:
    screen = replace(
        coax.screen, loss_factor=factor, factor_origin=f"fitted to {count} stated losses"
    )
    return replace(coax, screen=screen)
