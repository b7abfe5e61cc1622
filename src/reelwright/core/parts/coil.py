"""How large a cable is when it is coiled for its box."""

import math
from dataclasses import dataclass

from reelwright.core.quantities.guard import require_between, require_positive


@dataclass(frozen=True, kw_only=True)
class Coil:
    """A cable coiled with a square section.

    ``fill_fraction`` (above 0, at most 1): share of the section that is cable; about 0.6 for a
    coil laid by hand (common practice, no published source).

    Geometry: turns N = L / (π·(Di + w)); section w² = N·(π/4)·d² / fill; so that
    w²·(Di + w) = L·d² / (4·fill).
    """

    length_m: float
    cable_diameter_m: float
    inner_diameter_m: float
    fill_fraction: float

    def __post_init__(self) -> None:
        require_positive(self, "length_m", "cable_diameter_m", "inner_diameter_m", "fill_fraction")
        require_between(self, "fill_fraction", low=0, high=1)

    @property
    def build_m(self) -> float:
        """Width and height of the section, by bisection; never thinner than the cable."""
        wanted = self.length_m * self.cable_diameter_m**2 / (4 * self.fill_fraction)
        low, high = 0.0, math.cbrt(wanted)
        while high - low > 1e-9:
            middle = (low + high) / 2
            if middle * middle * (self.inner_diameter_m + middle) < wanted:
                low = middle
            else:
                high = middle
        return max(self.cable_diameter_m, high)

    @property
    def outer_diameter_m(self) -> float:
        """Outside of the coil."""
        return self.inner_diameter_m + 2 * self.build_m

    @property
    def turns(self) -> float:
        """How often the cable goes round."""
        return self.length_m / (math.pi * (self.inner_diameter_m + self.build_m))
