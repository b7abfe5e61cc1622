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


def hum_v(
    *,
    current_a: float,
    screen_ohm_per_m: float,
    length_m: npt.ArrayLike,
    contact_ohm: float,
) -> FloatArray:
    """Return the hum [V] in series with the signal of an unbalanced run, shape of ``length_m`` [m].

    A mains current [A] through the screen [Ω/m], which is the way back of the signal as well, and
    through the contact of each end [Ω]: I·(R·L + 2·Rc). Right at mains frequency and its lower
    harmonics, where the whole screen carries the current. Raises BadValue unless current and
    screen are above zero, and for a contact below zero.
    """
    if current_a <= 0 or screen_ohm_per_m <= 0 or contact_ohm < 0:
        raise BadValue(
            owner="hum_v",
            field="current_a",
            value=current_a,
            accepted="a current and a screen above zero, a contact of zero or more",
        )
    length = np.asarray(length_m, dtype=np.float64)
    hum: FloatArray = current_a * (screen_ohm_per_m * length + 2 * contact_ohm)
    return hum


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
    series with the signal: 20 log10(I·(R·L + 2·Rc)/V). Raises BadValue as :func:`hum_v` does, and
    for a length or a signal that is not above zero.
    """
    if length_m <= 0 or signal_v <= 0:
        raise BadValue(
            owner="hum_db",
            field="signal_v",
            value=signal_v,
            accepted="a length and a signal above zero",
        )
    hum = hum_v(
        current_a=current_a,
        screen_ohm_per_m=screen_ohm_per_m,
        length_m=length_m,
        contact_ohm=contact_ohm,
    )
    return 20 * math.log10(float(hum) / signal_v)
