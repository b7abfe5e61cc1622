"""Independent measurements of one thing, combined by their inverse variance."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, sqrt

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_between, require_not_negative, require_positive
from reelwright.core.quantities.measured import Measured
from reelwright.core.statistics._kernels import chi_square_above


@dataclass(frozen=True, kw_only=True)
class Combined:
    """The best value of all, with how far the measurements disagree.

    ``value`` and ``standard_uncertainty`` in ``unit``; ``chi_square`` (1) with ``degrees`` of
    freedom; ``chance_of_disagreement`` (1): how often honest measurements would lie further apart.
    """

    value: float
    standard_uncertainty: float
    unit: str
    chi_square: float
    degrees: int
    chance_of_disagreement: float

    def __post_init__(self) -> None:
        require_positive(self, "standard_uncertainty")
        require_not_negative(self, "chi_square")
        require_between(self, "chance_of_disagreement", low=0, high=1)

    def agrees(self, *, significance: float) -> bool:
        """Return False where so large a disagreement is rarer than ``significance`` (1)."""
        return self.chance_of_disagreement >= significance


def combine(measurements: Sequence[Measured]) -> Combined:
    """Combine two or more independent measurements of one thing in one unit.

    Weights 1/u²; u of the result is (Σ 1/u²)^−½ and is not widened where they disagree: that is
    for a person to explain first. Raises BadValue for fewer than two, mixed units, and a
    measurement whose spread is unknown or zero. Weighted mean and Birge's chi-square: Bevington
    and Robinson, Data Reduction and Error Analysis, chapter 4 (from memory).
    """
    if len(measurements) < 2 or len({item.unit for item in measurements}) > 1:
        raise BadValue(
            owner="combine",
            field="measurements",
            value=tuple(measurements),
            accepted="two or more, all in one unit",
        )
    weights: list[float] = []
    for item in measurements:
        if not item.standard_uncertainty:
            raise BadValue(
                owner="combine",
                field="standard_uncertainty",
                value=item.standard_uncertainty,
                accepted="a known spread above zero",
            )
        weights.append(item.standard_uncertainty**-2)
    total = fsum(weights)
    value = fsum(w * item.value for w, item in zip(weights, measurements, strict=True)) / total
    chi_square = fsum(
        w * (item.value - value) ** 2 for w, item in zip(weights, measurements, strict=True)
    )
    degrees = len(measurements) - 1
    return Combined(
        value=value,
        standard_uncertainty=1 / sqrt(total),
        unit=measurements[0].unit,
        chi_square=chi_square,
        degrees=degrees,
        chance_of_disagreement=chi_square_above(chi_square=chi_square, degrees=degrees),
    )
