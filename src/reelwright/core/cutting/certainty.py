"""How much may be cut from a stretch whose length is known only to within a spread.

The length is taken as normal. For a chance p of enough cable, no more than mean − z(p) × standard
uncertainty may be planned: at 0.98, z is 2.054. Normal quantile: Python's statistics.NormalDist.
"""

import math
from statistics import NormalDist

from reelwright.core.cutting.problem import Stretch


def usable_mm(stretch: Stretch, *, chance_of_enough: float) -> int:
    """Return the greatest sum of cuts that is there with at least that chance; 0 at the least."""
    z = NormalDist().inv_cdf(chance_of_enough)
    return max(0, math.floor(stretch.length_mm - z * stretch.standard_uncertainty_mm))


def chance_of(stretch: Stretch, *, wanted_mm: int) -> float:
    """Return the chance (0 to 1) that ``wanted_mm`` can be cut from the stretch."""
    spare_mm = stretch.length_mm - wanted_mm
    if stretch.standard_uncertainty_mm == 0:
        return 1.0 if spare_mm >= 0 else 0.0
    return NormalDist().cdf(spare_mm / stretch.standard_uncertainty_mm)
