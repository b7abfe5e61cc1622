"""A constant-voltage loudspeaker line: equal taps along a pair, solved exactly."""

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray


def tap_impedance_ohm(*, line_v: float, tap_w: float) -> float:
    """Return the impedance [Ω] of a tap that takes ``tap_w`` [W] at the full ``line_v`` [V]."""
    return line_v**2 / tap_w


def tap_voltages_v(
    *,
    line_v: float,
    tap_w: float,
    taps: int,
    first_m: npt.ArrayLike,
    spacing_m: float,
    conductor_ohm_per_m: float,
) -> FloatArray:
    """Return the voltage [V] at every tap, shape (n_length, taps), the amplifier's end first.

    Each tap is a constant impedance (not a constant power), so the ladder is linear: start with
    1 V at the last tap, go back to the source adding the drop of each stretch of the pair, then
    scale to ``line_v`` [V]. ``first_m`` [m], shape (n_length,), is the way to the first tap;
    ``conductor_ohm_per_m`` [Ω/m] one conductor at the temperature of the run.
    Raises BadValue for fewer than one tap or a way that is negative.
    """
    first = np.atleast_1d(np.asarray(first_m, dtype=np.float64))
    if taps < 1 or spacing_m < 0 or bool((first < 0).any()):
        raise BadValue(
            owner="tap_voltages_v",
            field="taps",
            value=taps,
            accepted="one tap or more, and distances of zero or more",
        )
    tap_ohm = tap_impedance_ohm(line_v=line_v, tap_w=tap_w)
    between_ohm = 2 * conductor_ohm_per_m * spacing_m
    voltages = np.ones(taps)
    current = 1 / tap_ohm
    for tap in range(taps - 2, -1, -1):
        voltages[tap] = voltages[tap + 1] + current * between_ohm
        current += voltages[tap] / tap_ohm
    source = voltages[0] + current * 2 * conductor_ohm_per_m * first
    scaled: FloatArray = line_v * voltages[np.newaxis, :] / source[:, np.newaxis]
    return scaled
