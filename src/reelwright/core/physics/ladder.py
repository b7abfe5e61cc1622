"""A constant-voltage loudspeaker line: taps along a pair, solved exactly, alike or not."""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray


def tap_impedance_ohm(*, line_v: float, tap_w: float) -> float:
    """Return the impedance [Ω] of a tap that takes ``tap_w`` [W] at the full ``line_v`` [V]."""
    return line_v**2 / tap_w


def ladder_voltages_v(
    *,
    line_v: float,
    taps_w: Sequence[float],
    first_m: npt.ArrayLike,
    between_m: Sequence[float],
    conductor_ohm_per_m: float,
) -> FloatArray:
    """Return the voltage [V] at every tap, shape (n_length, n_tap), the amplifier's end first.

    ``taps_w`` [W] from the amplifier outwards, ``between_m`` [m] from each tap to the next. Each
    tap is a constant impedance (not a constant power), so the ladder is linear: start with 1 V at
    the last tap, go back to the source adding the drop of each stretch of the pair, then scale to
    ``line_v`` [V]. ``first_m`` [m], shape (n_length,), is the way to the first tap;
    ``conductor_ohm_per_m`` [Ω/m] one conductor at the temperature of the run.
    Raises BadValue for no tap, a tap or a voltage that is not above zero, or a way below zero.
    """
    first = np.atleast_1d(np.asarray(first_m, dtype=np.float64))
    watts, ways = np.array(taps_w, dtype=np.float64), np.array(between_m, dtype=np.float64)
    if watts.size == 0 or ways.size != watts.size - 1:
        raise _refuse("taps_w", len(taps_w), "one tap or more, and one way less than taps")
    if not (np.isfinite(watts).all() and (watts > 0).all() and line_v > 0):
        raise _refuse("taps_w", tuple(taps_w), "watts and volts above zero")
    if (ways < 0).any() or (first < 0).any() or conductor_ohm_per_m < 0:
        raise _refuse("between_m", tuple(between_m), "ways and resistances of zero or more")
    taken_siemens = watts / line_v**2
    stretch_ohm = 2 * conductor_ohm_per_m * ways
    voltages = np.ones(watts.size)
    current = taken_siemens[-1]
    for tap in range(watts.size - 2, -1, -1):
        voltages[tap] = voltages[tap + 1] + current * stretch_ohm[tap]
        current += voltages[tap] * taken_siemens[tap]
    source = voltages[0] + current * 2 * conductor_ohm_per_m * first
    scaled: FloatArray = line_v * voltages[np.newaxis, :] / source[:, np.newaxis]
    return scaled


def tap_voltages_v(
    *,
    line_v: float,
    tap_w: float,
    taps: int,
    first_m: npt.ArrayLike,
    spacing_m: float,
    conductor_ohm_per_m: float,
) -> FloatArray:
    """Return the same for ``taps`` alike [count], ``tap_w`` [W] each and ``spacing_m`` [m] apart.

    Raises BadValue as :func:`ladder_voltages_v` does.
    """
    return ladder_voltages_v(
        line_v=line_v,
        taps_w=(tap_w,) * taps,
        first_m=first_m,
        between_m=(spacing_m,) * (taps - 1),
        conductor_ohm_per_m=conductor_ohm_per_m,
    )


def _refuse(field: str, value: object, accepted: str) -> BadValue:
    return BadValue(owner="ladder_voltages_v", field=field, value=value, accepted=accepted)
