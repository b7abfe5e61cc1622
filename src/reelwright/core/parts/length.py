"""Length is a distribution: a mean and a standard uncertainty."""

import math
from dataclasses import dataclass
from statistics import NormalDist

from reelwright.core.quantities.guard import require_not_negative


@dataclass(frozen=True, kw_only=True)
class Length:
    """A length known to within ``standard_uncertainty_m``, taken as normal."""

    mean_m: float
    standard_uncertainty_m: float

    def __post_init__(self) -> None:
        require_not_negative(self, "mean_m", "standard_uncertainty_m")

    def chance_at_least(self, length_m: float) -> float:
        """Return the chance (0 to 1) that at least ``length_m`` is there."""
        if self.standard_uncertainty_m == 0:
            return 1.0 if self.mean_m >= length_m else 0.0
        return NormalDist().cdf((self.mean_m - length_m) / self.standard_uncertainty_m)

    def less(self, taken: "Length") -> "Length":
        """Return what is left after an independent length was taken; never below zero."""
        return Length(
            mean_m=max(0.0, self.mean_m - taken.mean_m),
            standard_uncertainty_m=math.hypot(
                self.standard_uncertainty_m, taken.standard_uncertainty_m
            ),
        )
