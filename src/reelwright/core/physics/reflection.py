"""Steps of impedance and what is seen of them."""

import math

from reelwright.core.errors import BadValue
from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S


def reflection_of_step(*, impedance_ohm: float, line_ohm: float) -> float:
    """Return the reflection coefficient [1] where a line [Ω] meets an impedance [Ω]."""
    return (impedance_ohm - line_ohm) / (impedance_ohm + line_ohm)


def return_loss_db(reflection: float) -> float:
    """Return the return loss [dB] of a reflection coefficient [1]: −20 log10|ρ|.

    Raises BadValue for a coefficient of 0 (no reflection has no figure) or above 1.
    """
    if not 0 < abs(reflection) <= 1:
        raise BadValue(
            owner="return_loss_db", field="reflection", value=reflection, accepted="0 < |ρ| ≤ 1"
        )
    return -20 * math.log10(abs(reflection))


def standing_wave_ratio(*, return_loss_db: float) -> float:
    """Return the voltage standing-wave ratio [1] of a return loss [dB]: (1+|ρ|)/(1−|ρ|)."""
    size = float(10 ** (-return_loss_db / 20))
    return (1 + size) / (1 - size)


def local_impedance_ohm(*, reflection: float, line_ohm: float) -> float:
    """Return the impedance [Ω] behind a reflection coefficient [1] on a line [Ω]."""
    if not -1 < reflection < 1:
        raise BadValue(
            owner="local_impedance_ohm",
            field="reflection",
            value=reflection,
            accepted="between -1 and 1",
        )
    return line_ohm * (1 + reflection) / (1 - reflection)


def echo_distance_m(*, round_trip_s: float, velocity_factor: float) -> float:
    """Return the distance [m] of an echo after ``round_trip_s`` [s]: v·c·t/2."""
    return velocity_factor * SPEED_OF_LIGHT_M_PER_S * round_trip_s / 2


def ripple_frequency_hz(*, pitch_m: float, velocity_factor: float) -> float:
    """Return the lowest frequency [Hz] at which flaws every ``pitch_m`` [m] add up: v·c/(2p)."""
    return velocity_factor * SPEED_OF_LIGHT_M_PER_S / (2 * pitch_m)
