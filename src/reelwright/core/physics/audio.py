"""Audio lines: short against the wavelength, so resistances and capacitances, never a line loss."""

import math

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray


def corner_frequency_hz(*, source_ohm: float, capacitance_f: float) -> float:
    """Return the frequency [Hz] at which a source [Ω] into a capacitance [F] falls by 3 dB.

    1/(2π·R·C). Raises BadValue unless both are above zero.
    """
    if source_ohm <= 0 or capacitance_f <= 0:
        raise BadValue(
            owner="corner_frequency_hz",
            field="source_ohm",
            value=source_ohm,
            accepted="a resistance and a capacitance above zero",
        )
    return 1 / (2 * math.pi * source_ohm * capacitance_f)


def droop_db(*, source_ohm: float, capacitance_f: npt.ArrayLike, frequency_hz: float) -> FloatArray:
    """Return how far the level has fallen [dB, positive], shape of ``capacitance_f`` [F].

    10 log10(1 + (2π·f·R·C)²), ``source_ohm`` [Ω] feeding the cable's capacitance at
    ``frequency_hz`` [Hz]; the load is taken as high, which can only make the droop look worse.
    """
    angle = 2 * math.pi * frequency_hz * source_ohm * np.asarray(capacitance_f, dtype=np.float64)
    fall: FloatArray = 10 * np.log10(1 + angle**2)
    return fall


def hum_db(
    *,
    current_a: float,
    screen_ohm_per_m: float,
    length_m: float,
    contact_ohm: float,
    signal_v: float,
) -> float:
    """Return the level [dB] of hum against a signal [V] on an unbalanced run.

    A mains current [A] through the screen [Ω/m over m] and the contact of each end [Ω] stands in
    series with the signal: 20 log10(I·(R·L + 2·Rc)/V).
    """
    hum_v = current_a * (screen_ohm_per_m * length_m + 2 * contact_ohm)
    if hum_v <= 0 or signal_v <= 0:
        raise BadValue(
            owner="hum_db",
            field="current_a",
            value=current_a,
            accepted="a current, a resistance and a signal above zero",
        )
    return 20 * math.log10(hum_v / signal_v)
