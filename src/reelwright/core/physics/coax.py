"""A coaxial line from its dimensions: impedance, capacitance, inductance, delay, loss.

Round and concentric; ``inner_m`` is the electrical diameter of the centre conductor (of seven
strands about 0.94 of the bundle), ``outer_m`` the inside diameter of the screen.
"""

import math

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.materials.metals import Metal
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.skin import surface_resistance_ohm
from reelwright.core.quantities.constants import (
    SPEED_OF_LIGHT_M_PER_S,
    VACUUM_PERMEABILITY_H_PER_M,
)

DECIBEL_PER_NEPER = 20 / math.log(10)
"""Decibels in one neper [dB], by definition."""


def _ratio_log(inner_m: float, outer_m: float) -> float:
    if not 0 < inner_m < outer_m:
        raise BadValue(
            owner="coax", field="inner_m", value=inner_m, accepted=f"above 0 and below {outer_m}"
        )
    return math.log(outer_m / inner_m)


def impedance_ohm(*, inner_m: float, outer_m: float, velocity_factor: float) -> float:
    """Return the impedance [Ω] of a coax: μ0·c·v/(2π) · ln(D/d), diameters in [m].

    Source: any text on lines; μ0·c/(2π) is the familiar 59.96 Ω. ``velocity_factor`` [1].
    Raises BadValue unless 0 < d < D.
    """
    free_space = VACUUM_PERMEABILITY_H_PER_M * SPEED_OF_LIGHT_M_PER_S
    return free_space * velocity_factor / (2 * math.pi) * _ratio_log(inner_m, outer_m)


def delay_s_per_m(*, velocity_factor: float) -> float:
    """Return the delay [s/m] of a line with that velocity factor [1]: 1/(v·c)."""
    if not 0 < velocity_factor <= 1:
        raise BadValue(
            owner="coax",
            field="velocity_factor",
            value=velocity_factor,
            accepted="above 0, at most 1",
        )
    return 1 / (velocity_factor * SPEED_OF_LIGHT_M_PER_S)


def capacitance_f_per_m(*, inner_m: float, outer_m: float, velocity_factor: float) -> float:
    """Return the capacitance [F/m] of a coax: delay/Z0; diameters in [m]."""
    return delay_s_per_m(velocity_factor=velocity_factor) / impedance_ohm(
        inner_m=inner_m, outer_m=outer_m, velocity_factor=velocity_factor
    )


def inductance_h_per_m(*, inner_m: float, outer_m: float) -> float:
    """Return the outer inductance [H/m] of a coax: μ0/(2π) · ln(D/d); diameters in [m]."""
    return VACUUM_PERMEABILITY_H_PER_M / (2 * math.pi) * _ratio_log(inner_m, outer_m)


def conductor_loss_db_per_m(
    frequency_hz: npt.ArrayLike,
    *,
    inner_m: float,
    outer_m: float,
    velocity_factor: float,
    metal: Metal,
    inner_factor: float,
    outer_factor: float,
) -> FloatArray:
    """Return the conductor part [dB/m] at 20 °C, shape of ``frequency_hz`` [Hz].

    8.686 · Rs/(2π·Z0) · (ki/d + ko/D). ``inner_factor`` and ``outer_factor`` [1] are 1 for smooth
    solid metal; common practice, no published source: 1.1 to 1.25 for strands, 1.2 to 1.4 for foil
    and braid. Diameters in [m]. Holds where the skin is thin (above about 3 MHz).
    """
    impedance = impedance_ohm(inner_m=inner_m, outer_m=outer_m, velocity_factor=velocity_factor)
    loss: FloatArray = (
        DECIBEL_PER_NEPER
        * surface_resistance_ohm(frequency_hz, metal=metal)
        / (2 * math.pi * impedance)
        * (inner_factor / inner_m + outer_factor / outer_m)
    )
    return loss


def dielectric_loss_db_per_m(
    frequency_hz: npt.ArrayLike, *, velocity_factor: float, loss_tangent: float
) -> FloatArray:
    """Return the dielectric part [dB/m], shape of ``frequency_hz`` [Hz]: 8.686·π·f·tanδ/(v·c).

    ``loss_tangent`` [1] is taken the same at all frequencies, true enough for foams to 6 GHz.
    """
    frequency = np.asarray(frequency_hz, dtype=np.float64)
    delay = delay_s_per_m(velocity_factor=velocity_factor)
    loss: FloatArray = DECIBEL_PER_NEPER * math.pi * frequency * loss_tangent * delay
    return loss
