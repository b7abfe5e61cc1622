"""Cords and warmth: what stranded cable and heat lose more, and how long cords may be."""

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.verdicts import Basis, Source

STRANDED_MORE = 0.2
"""Loss of stranded cord over solid cable of the same length, less 1 [1].

As a page on copper links in open offices gives it for 24 AWG.
"""

LONGEST_WORK_CORD_M = 22.0
"""No cord at a shared outlet may be longer [m], 24 AWG. From memory."""

WARM_TO_CELSIUS = 60.0
"""Up to here [°C] allowances for warmth are stated."""

WARMTH_SOURCE = Source(
    text=(
        "unscreened category cable: 0.4 % for each °C above 20 to 40 °C as a book's table gives "
        "it, 0.6 % beyond and 0.2 % for screened cable from memory (TIA-568.2-D)"
    ),
    basis=Basis.FROM_MEMORY,
)
"""Where the allowance for warmth comes from."""

_PER_KELVIN, _PER_KELVIN_HOT, _PER_KELVIN_SCREENED = 0.004, 0.006, 0.002
_COLD_CELSIUS, _HOT_CELSIUS = 20.0, 40.0
_CORDS_OVER_HORIZONTAL_M = 102.0


def warmth_factor(temperature_celsius: npt.ArrayLike, *, screened: bool) -> FloatArray:
    """Return the loss at a temperature [°C] over that at 20 °C [1], shape of the temperature.

    For design: 0.4 % for each degree above 20 °C (0.6 % above 40 °C) without a screen, 0.2 % with
    one. It is more than the copper explains, as jacket and insulation warm up too. 1 below 20 °C.
    """
    warm = np.maximum(np.asarray(temperature_celsius, dtype=np.float64) - _COLD_CELSIUS, 0.0)
    if screened:
        cool: FloatArray = 1 + _PER_KELVIN_SCREENED * warm
        return cool
    hot = np.maximum(warm - (_HOT_CELSIUS - _COLD_CELSIUS), 0.0)
    factor: FloatArray = 1 + _PER_KELVIN * (warm - hot) + _PER_KELVIN_HOT * hot
    return factor


def work_cord_m(*, horizontal_m: float, rack_cords_m: float) -> float:
    """Return the longest cord [m] from a shared outlet to the desk; 0 where none is left.

    C = (102 − H)/(1 + D) is the length of all cords together for ``horizontal_m`` [m] of
    horizontal cable, D = 0.2 for 24 AWG; W = C − T, T being ``rack_cords_m`` [m] at the rack;
    never more than 22 m. From memory: ANSI/TIA-568.0-D, multi-user outlets in open offices.
    Raises BadValue for lengths below zero or more horizontal cable than a permanent link.
    """
    if not (0 <= horizontal_m <= 90 and rack_cords_m >= 0):
        raise BadValue(
            owner="work_cord_m",
            field="horizontal_m",
            value=horizontal_m,
            accepted="0 to 90, and cords of zero or more",
        )
    cords = (_CORDS_OVER_HORIZONTAL_M - horizontal_m) / (1 + STRANDED_MORE)
    return min(max(cords - rack_cords_m, 0.0), LONGEST_WORK_CORD_M)
