"""The working law of a line's loss: k1·√f + k2·f, fitted to what is stated or measured.

k1 is the conductor part (skin effect), which follows temperature; k2 the dielectric part. Below
about 3 MHz the current fills the whole conductor and the law fails by a factor of two and more,
so it refuses to be asked there: audio is computed from resistance and capacitance instead.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import LossPoint
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.resistance import temperature_factor
from reelwright.core.quantities.guard import require_not_negative, require_positive
from reelwright.core.verdicts import Reason

LOWEST_FREQUENCY_HZ = 3e6
"""Below this [Hz] the law is never used: solid copper, own comparison with the exact wire."""

ACCEPTED_RESIDUAL = 0.02
"""Largest residual [1] of a fit that is taken without a caution (common practice, no source)."""


@dataclass(frozen=True, kw_only=True)
class LossLaw:
    """A fitted law at 20 °C.

    ``conductor_db_per_m_per_root_hz`` [dB/m/√Hz], ``dielectric_db_per_m_per_hz`` [dB/m/Hz];
    the points it was fitted to lie from ``lowest_hz`` to ``highest_hz`` [Hz], and
    ``worst_residual`` [1] is the largest relative distance of the law from one of them.
    """

    conductor_db_per_m_per_root_hz: float
    dielectric_db_per_m_per_hz: float
    lowest_hz: float
    highest_hz: float
    worst_residual: float

    def __post_init__(self) -> None:
        require_positive(self, "conductor_db_per_m_per_root_hz", "lowest_hz", "highest_hz")
        require_not_negative(self, "dielectric_db_per_m_per_hz", "worst_residual")

    def loss_db_per_m(
        self, frequency_hz: npt.ArrayLike, *, temperature_celsius: float
    ) -> FloatArray:
        """Return the loss [dB/m], shape of ``frequency_hz`` [Hz], at a temperature [°C].

        The conductor part goes as √(1 + 0.00393 (T − 20)), the dielectric part stays.
        Raises BadValue for any frequency below ``LOWEST_FREQUENCY_HZ``.
        """
        frequency = np.asarray(frequency_hz, dtype=np.float64)
        if bool((frequency < LOWEST_FREQUENCY_HZ).any()):
            raise BadValue(
                owner="LossLaw",
                field="frequency_hz",
                value=float(frequency.min()),
                accepted=f"{LOWEST_FREQUENCY_HZ:g} or more; below it R and C decide",
            )
        warm = np.sqrt(temperature_factor(temperature_celsius))
        loss: FloatArray = (
            self.conductor_db_per_m_per_root_hz * warm * np.sqrt(frequency)
            + self.dielectric_db_per_m_per_hz * frequency
        )
        return loss

    def extrapolates(self, frequency_hz: float) -> bool:
        """Return whether ``frequency_hz`` [Hz] lies above every point the law was fitted to."""
        return frequency_hz > self.highest_hz


def fit_loss_law(points: Sequence[LossPoint]) -> LossLaw | Reason:
    """Return the law nearest to ``points`` in relative error, or the reason why there is none.

    Least squares of (k1·√f + k2·f)/α − 1, so that the small losses at low frequency count as much
    as the large ones. Points below ``LOWEST_FREQUENCY_HZ`` are left out; three must remain.
    """
    used = [point for point in points if point.frequency_hz >= LOWEST_FREQUENCY_HZ]
    if len(used) < 3:
        return Reason(
            code="loss-points-missing",
            sentence=(
                f"the loss is stated at {len(used)} usable "
                f"frequenc{'y' if len(used) == 1 else 'ies'}; three are needed"
            ),
        )
    frequency = np.array([point.frequency_hz for point in used])
    stated = np.array([point.loss_db_per_m for point in used])
    # Columns of like size: in hertz the second is a hundred thousand times the first.
    root_scale, linear_scale = np.sqrt(frequency[-1]), frequency[-1]
    columns = np.stack(
        [np.sqrt(frequency) / root_scale / stated, frequency / linear_scale / stated], axis=1
    )
    solution = np.linalg.lstsq(columns, np.ones_like(stated), rcond=None)[0]
    residual = float(np.abs(columns @ solution - 1).max())
    conductor, dielectric = float(solution[0] / root_scale), float(solution[1] / linear_scale)
    if conductor <= 0 or dielectric < 0:
        return Reason(
            code="loss-points-do-not-fit",
            sentence=(
                "the stated losses do not follow the two-term law (a part comes out negative), so "
                "it says nothing between and beyond them"
            ),
        )
    return LossLaw(
        conductor_db_per_m_per_root_hz=conductor,
        dielectric_db_per_m_per_hz=dielectric,
        lowest_hz=float(frequency[0]),
        highest_hz=float(frequency[-1]),
        worst_residual=residual,
    )
