"""Direct-current resistance of wires and loops, and what temperature does to it."""

import math

from reelwright.core.errors import BadValue
from reelwright.core.materials.metals import COPPER, Metal

REFERENCE_CELSIUS = 20.0
"""Temperature [°C] at which every data-sheet value in the house is stated."""

LAY_FACTOR_SEVEN_STRANDS = 1.02
"""Resistance of a seven-strand conductor over a solid one of the same area [1].

Source: NFPA 70, chapter 9, table 8: stranded rows against solid rows.
"""


def temperature_factor(temperature_celsius: float, *, metal: Metal = COPPER) -> float:
    """Return R(T)/R(20 °C) [1] for a temperature [°C]: 1 + α(T − 20), IEC 60028.

    The straight line holds to about ±0.5 % from −40 to 100 °C. Raises BadValue below −100 °C
    and above 250 °C, where it does not.
    """
    if not -100 <= temperature_celsius <= 250:
        raise BadValue(
            owner="temperature_factor",
            field="temperature_celsius",
            value=temperature_celsius,
            accepted="-100 to 250",
        )
    return 1 + metal.temperature_coefficient_per_k * (temperature_celsius - REFERENCE_CELSIUS)


def wire_resistance_ohm_per_m(*, diameter_m: float, metal: Metal, lay_factor: float) -> float:
    """Return the resistance [Ω/m] at 20 °C of a round wire of ``diameter_m`` [m]: 4ρ/(πd²).

    ``lay_factor`` [1] is 1 for a solid wire. Raises BadValue unless both are above zero.
    """
    if diameter_m <= 0 or lay_factor <= 0:
        raise BadValue(
            owner="wire_resistance_ohm_per_m",
            field="diameter_m",
            value=diameter_m,
            accepted="a diameter and a lay factor above zero",
        )
    return lay_factor * 4 * metal.resistivity_ohm_m / (math.pi * diameter_m**2)


def loop_resistance_ohm(
    *,
    conductor_ohm_per_m: float,
    return_ohm_per_m: float,
    length_m: float,
    temperature_celsius: float,
) -> float:
    """Return the resistance [Ω] out and back over a run of ``length_m`` [m], copper both ways.

    ``conductor_ohm_per_m`` and ``return_ohm_per_m`` [Ω/m] are stated at 20 °C; a pair has the same
    twice, a coax its centre and its screen.
    """
    return (
        (conductor_ohm_per_m + return_ohm_per_m)
        * length_m
        * temperature_factor(temperature_celsius)
    )


def resistance_at_20_ohm_per_m(
    *, measured_ohm: float, length_m: float, temperature_celsius: float
) -> float:
    """Return the resistance [Ω/m] at 20 °C of a copper conductor measured warm or cold.

    R/(1 + 0.00393 (T − 20))/L; ``measured_ohm`` [Ω] by four wires over ``length_m`` [m].
    """
    return measured_ohm / temperature_factor(temperature_celsius) / length_m
