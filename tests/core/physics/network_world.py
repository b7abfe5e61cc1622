"""A small coax that physics allows, for tests of two-ports, steps and eyes."""

import numpy as np
import numpy.typing as npt

from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.line_parameters import LineParameters, from_series_and_shunt

DELAY_S_PER_M = np.sqrt(0.3e-6 * 54e-12)


def small_coax(frequency_hz: npt.ArrayLike, *, ratio: float = 1.0) -> LineParameters:
    """R, L, G, C of a 74.5 Ω coax: direct-current resistance, then skin effect, no dielectric loss.

    Z = √(R0² + jωk²) + jωL is analytic and has a positive real part: passive and causal.
    """
    frequency = np.asarray(frequency_hz, dtype=np.float64)
    turning = 2j * np.pi * frequency
    series = np.sqrt(0.05**2 + turning * (2.0e-5) ** 2) + turning * 0.3e-6
    shunt = turning * 54e-12 + 0 * frequency
    return from_series_and_shunt(
        frequency_hz=frequency,
        series_ohm_per_m=series * ratio,
        shunt_siemens_per_m=shunt / ratio,
    )


def band(count: int = 201, top_hz: float = 3e9) -> FloatArray:
    """Frequencies from 1 kHz to the top, dense at the low end."""
    return np.geomspace(1e3, top_hz, count)
