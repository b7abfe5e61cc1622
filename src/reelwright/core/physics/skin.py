"""Skin effect of a smooth metal surface."""

import numpy as np
import numpy.typing as npt

from reelwright.core.materials.metals import Metal
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.quantities.constants import VACUUM_PERMEABILITY_H_PER_M


def skin_depth_m(frequency_hz: npt.ArrayLike, *, metal: Metal) -> FloatArray:
    """Return the skin depth [m] at 20 °C, shape of ``frequency_hz`` [Hz]: √(ρ/(π f μ0)).

    Source: Schelkunoff, Bell System Technical Journal 13 (1934) 532; a metal that is not magnetic.
    """
    frequency = np.asarray(frequency_hz, dtype=np.float64)
    permeability = VACUUM_PERMEABILITY_H_PER_M
    depth: FloatArray = np.sqrt(metal.resistivity_ohm_m / (np.pi * frequency * permeability))
    return depth


def surface_resistance_ohm(frequency_hz: npt.ArrayLike, *, metal: Metal) -> FloatArray:
    """Return the surface resistance [Ω] at 20 °C, shape of ``frequency_hz`` [Hz]: ρ/δ.

    Holds where the metal is several skin depths thick: for a wire of 1 mm above about 1 MHz.
    """
    resistance: FloatArray = metal.resistivity_ohm_m / skin_depth_m(frequency_hz, metal=metal)
    return resistance
