"""Length is a distribution: a mean and a standard uncertainty."""

from dataclasses import dataclass

from reelwright.core.quantities.guard import require_not_negative


@dataclass(frozen=True, kw_only=True)
class Length:
    """A length known to within ``standard_uncertainty_m``, taken as normal."""

    mean_m: float
    standard_uncertainty_m: float

    def __post_init__(self) -> None:
        require_not_negative(self, "mean_m", "standard_uncertainty_m")
