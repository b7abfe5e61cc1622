"""What a category allows 100 m of horizontal cable: loss, crosstalk, echo, delay, resistance.

Frequencies here are in [Hz] as everywhere; the formulae of the standards have them in MHz. All
hold from 1 MHz to the highest frequency of the category, at 20 °C.
"""

import enum

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.verdicts import Basis, Source

LOWEST_HZ = 1e6
"""Every limit of a category starts here [Hz]."""

LENGTH_M = 100.0
"""The length [m] of cable that the limits of this module are stated for."""

SKEW_S = 45e-9
"""Most that the delays of two pairs of 100 m of cable may differ [s]. From memory."""

CONDUCTOR_OHM_PER_M = 9.38 / LENGTH_M
"""Most that one horizontal conductor may have [Ω/m] at 20 °C. From memory."""

CORD_CONDUCTOR_OHM_PER_M = 14.0 / LENGTH_M
"""Most that one conductor of a stranded cord may have [Ω/m] at 20 °C. From memory."""

UNBALANCE_FRACTION = 0.05
"""Most that both conductors of a pair may differ in resistance [1], cable. From memory."""

LOSS_SOURCE = Source(
    text=(
        "insertion loss of category cable, formulae of TIA-568 as printed in a public module of "
        "limits; the values of category 5e also as a book's table"
    ),
    basis=Basis.PUBLISHED,
)
"""Where the losses come from."""


class Category(enum.StrEnum):
    """A category of balanced cabling for four pairs of 100 Ω."""

    FIVE_E = "5e"
    SIX = "6"
    SIX_A = "6A"

    @property
    def highest_hz(self) -> float:
        """Up to here [Hz] its limits are stated."""
        return _HIGHEST_HZ[self]


_HIGHEST_HZ = {Category.FIVE_E: 100e6, Category.SIX: 250e6, Category.SIX_A: 500e6}
# a·√f + b·f + c/√f in dB for 100 m, f in MHz.
_LOSS = {
    Category.FIVE_E: (1.967, 0.023, 0.05),
    Category.SIX: (1.808, 0.017, 0.2),
    Category.SIX_A: (1.82, 0.0091, 0.25),
}
_NEAR = {Category.FIVE_E: 35.3, Category.SIX: 44.3, Category.SIX_A: 44.3}
_NEAR_SUM = {Category.FIVE_E: 32.3, Category.SIX: 42.3, Category.SIX_A: 42.3}
_FAR = {Category.FIVE_E: 23.8, Category.SIX: 27.8, Category.SIX_A: 27.8}
_FAR_SUM = {Category.FIVE_E: 20.8, Category.SIX: 24.8, Category.SIX_A: 24.8}


def megahertz(category: Category, frequency_hz: npt.ArrayLike) -> FloatArray:
    """Return ``frequency_hz`` [Hz] in [MHz]; BadValue outside what the category is stated for."""
    frequency = np.asarray(frequency_hz, dtype=np.float64)
    outside = ~((frequency >= LOWEST_HZ) & (frequency <= category.highest_hz))
    if outside.any():
        raise BadValue(
            owner=f"category {category}",
            field="frequency_hz",
            value=float(frequency[outside].flat[0]),
            accepted=f"{LOWEST_HZ:g} to {category.highest_hz:g}",
        )
    scaled: FloatArray = frequency / 1e6
    return scaled


def insertion_loss_db(category: Category, frequency_hz: npt.ArrayLike) -> FloatArray:
    """Return the most that 100 m of cable may lose [dB], shape of ``frequency_hz`` [Hz].

    a·√f + b·f + c/√f: ANSI/TIA-568.2-D as printed in a public module of limits.
    """
    f = megahertz(category, frequency_hz)
    root, linear, inverse = _LOSS[category]
    loss: FloatArray = root * np.sqrt(f) + linear * f + inverse / np.sqrt(f)
    return loss


def near_crosstalk_db(category: Category, frequency_hz: npt.ArrayLike) -> FloatArray:
    """Return the least near-end crosstalk loss [dB] pair to pair (NEXT), shape of [Hz].

    35.3 − 15 log(f/100) for category 5e, 44.3 − 15 log(f/100) for 6 and 6A: same source.
    """
    crosstalk: FloatArray = _NEAR[category] - 15 * _decades(category, frequency_hz)
    return crosstalk


def near_crosstalk_sum_db(category: Category, frequency_hz: npt.ArrayLike) -> FloatArray:
    """Return the same from all other pairs together (power sum); from memory."""
    crosstalk: FloatArray = _NEAR_SUM[category] - 15 * _decades(category, frequency_hz)
    return crosstalk


def far_crosstalk_db(category: Category, frequency_hz: npt.ArrayLike) -> FloatArray:
    """Return the least far-end crosstalk ratio [dB] pair to pair (ACR-F) of 100 m.

    23.8 or 27.8 − 20 log(f/100), from memory.
    """
    crosstalk: FloatArray = _FAR[category] - 20 * _decades(category, frequency_hz)
    return crosstalk


def far_crosstalk_sum_db(category: Category, frequency_hz: npt.ArrayLike) -> FloatArray:
    """Return the same from all other pairs together (power sum); from memory."""
    crosstalk: FloatArray = _FAR_SUM[category] - 20 * _decades(category, frequency_hz)
    return crosstalk


def return_loss_db(category: Category, frequency_hz: npt.ArrayLike) -> FloatArray:
    """Return the least return loss [dB] of 100 m of cable, shape of ``frequency_hz`` [Hz].

    20 + 5 log f to 10 MHz, 25 to 20 MHz, 25 − 7 log(f/20) above: the same public module of limits.
    """
    f = megahertz(category, frequency_hz)
    least: FloatArray = np.where(
        f <= 10, 20 + 5 * np.log10(f), 25 - 7 * np.log10(np.maximum(f, 20) / 20)
    )
    return least


def delay_s(category: Category, frequency_hz: npt.ArrayLike) -> FloatArray:
    """Return the longest delay [s] of 100 m of cable: 534 + 36/√f ns, from memory."""
    longest: FloatArray = (534 + 36 / np.sqrt(megahertz(category, frequency_hz))) * 1e-9
    return longest


def _decades(category: Category, frequency_hz: npt.ArrayLike) -> FloatArray:
    decades: FloatArray = np.log10(megahertz(category, frequency_hz) / 100)
    return decades
