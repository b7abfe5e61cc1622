"""Up to which frequency a coax carries one wave only: the cut-off of its TE11 mode."""

import math

from reelwright.core.errors import BadValue
from reelwright.core.physics._mode_kernels import first_cross_root
from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S

GUARD_FACTOR = 0.95
"""Share of the cut-off to use a line up to [1]: Pozar, Microwave Engineering, example 3.3."""


def te11_cutoff_hz(*, inner_m: float, outer_m: float, relative_permittivity: float) -> float:
    """Return the exact cut-off [Hz] of TE11 between diameters ``inner_m`` and ``outer_m`` [m].

    The lowest root of J1'(ka)Y1'(kb) = J1'(kb)Y1'(ka). Raises BadValue unless 0 < d < D and
    ``relative_permittivity`` [1] is 1 or more. Source: Pozar, Microwave Engineering, section 3.5.
    """
    _require(inner_m, outer_m, relative_permittivity)
    scaled = first_cross_root(ratio=outer_m / inner_m)
    return scaled * te11_estimate_hz(
        inner_m=inner_m, outer_m=outer_m, relative_permittivity=relative_permittivity
    )


def te11_estimate_hz(*, inner_m: float, outer_m: float, relative_permittivity: float) -> float:
    """Return the cut-off [Hz] where the mean circumference is one wavelength, diameters in [m].

    k = 2/(a + b): between 2.9 % too low (D/d near 3.6) and, for a thin centre, 8 % too high.
    Raises BadValue as :func:`te11_cutoff_hz`.
    """
    _require(inner_m, outer_m, relative_permittivity)
    wave_number = 4 / (inner_m + outer_m)
    return wave_number * SPEED_OF_LIGHT_M_PER_S / (2 * math.pi * math.sqrt(relative_permittivity))


def highest_frequency_hz(*, inner_m: float, outer_m: float, relative_permittivity: float) -> float:
    """Return the highest frequency [Hz] to use a coax at: GUARD_FACTOR of the exact cut-off.

    Diameters in [m]. Raises BadValue as :func:`te11_cutoff_hz`.
    """
    return GUARD_FACTOR * te11_cutoff_hz(
        inner_m=inner_m, outer_m=outer_m, relative_permittivity=relative_permittivity
    )


def _require(inner_m: float, outer_m: float, relative_permittivity: float) -> None:
    if not 0 < inner_m < outer_m < math.inf:
        raise BadValue(
            owner="mode_limit",
            field="inner_m",
            value=inner_m,
            accepted=f"above 0 and below outer_m, {outer_m}",
        )
    if not 1 <= relative_permittivity < math.inf:
        raise BadValue(
            owner="mode_limit",
            field="relative_permittivity",
            value=relative_permittivity,
            accepted="1 or more",
        )
