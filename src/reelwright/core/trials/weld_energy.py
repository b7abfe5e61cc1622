"""First guess of a weld's energy: a power law through the gauges the shop already welds well."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_count, require_finite, require_positive
from reelwright.core.quantities.show import show_in, show_number, show_percent
from reelwright.core.quantities.show_scaled import show_area_m2
from reelwright.core.trials._kernels import t_quantile

FARTHEST_FACTOR = 2.0
"""How far [1] beyond the known gauges a law is still carried on: twice the largest area or half of
the smallest, three gauge numbers. Our own caution: nothing says that joints so much larger weld by
the same law."""

CONFIDENCE = 0.95
"""That of every band [1] about a first guess, on page and form alike."""

SAME_GAUGE_FACTOR = 1.05
"""Areas less than this factor [1] apart are one gauge: gauge numbers are 1.26 apart, and what a
sheet rounds or a maker draws thinner stays within. Our own choice."""


@dataclass(frozen=True, kw_only=True)
class KnownGauge:
    """The middle of a window found on the bench: conductor ``area_m2`` [m²], ``energy_j`` [J]."""

    area_m2: float
    energy_j: float

    def __post_init__(self) -> None:
        require_positive(self, "area_m2", "energy_j")


def are_one_gauge(one_m2: float, other_m2: float) -> bool:
    """Return whether two areas [m²] are one gauge, which counts once in a law."""
    return max(one_m2, other_m2) <= SAME_GAUGE_FACTOR * min(one_m2, other_m2)


@dataclass(frozen=True, kw_only=True)
class EnergyLaw:
    """E = a·A^b with A in mm². ``coefficient_j`` [J] is a, ``exponent_factor`` is b.

    ``relative_spread_factor``: the standard deviation of ln E about the law, from the residuals;
    ``None`` for two gauges, through which any law passes exactly. ``smallest_m2`` and
    ``largest_m2`` are the areas between which the law was found, ``gauges_count`` how many gauges
    it was found from, and ``middle_m2`` and ``width_square`` [1] the mean of ln A and the sum of
    squares about it, which the band needs.
    """

    coefficient_j: float
    exponent_factor: float
    relative_spread_factor: float | None
    smallest_m2: float
    largest_m2: float
    gauges_count: int
    middle_m2: float
    width_square: float

    def __post_init__(self) -> None:
        require_positive(
            self, "coefficient_j", "smallest_m2", "largest_m2", "middle_m2", "width_square"
        )
        require_finite(self, "exponent_factor")
        require_count(self, "gauges_count", at_least=2)

    def energy_j(self, *, area_m2: float) -> float:
        """Return the energy [J] of the first trial on a conductor of ``area_m2`` [m²]."""
        if not (math.isfinite(area_m2) and area_m2 > 0):
            raise BadValue(
                owner="EnergyLaw.energy_j", field="area_m2", value=area_m2, accepted="above zero"
            )
        return float(self.coefficient_j * (area_m2 * 1e6) ** self.exponent_factor)

    def band_j(self, *, area_m2: float, confidence: float) -> tuple[float, float] | None:
        """Return between which energies [J] a window's middle at ``area_m2`` [m²] will lie.

        Prediction interval of one new gauge, two-sided with ``confidence`` [1]:
        ln E ± t·s·√(1 + 1/n + (ln A − mean)²/Σ(ln A − mean)²), t with n − 2 degrees of freedom.
        ``None`` for two gauges, which tell nothing of the spread.
        """
        if not 0 < confidence < 1:
            raise BadValue(
                owner="EnergyLaw.band_j",
                field="confidence",
                value=confidence,
                accepted="above 0 and below 1",
            )
        energy_j = self.energy_j(area_m2=area_m2)
        if self.relative_spread_factor is None:
            return None
        away = math.log(area_m2 / self.middle_m2)
        reach = self.relative_spread_factor * math.sqrt(
            1 + 1 / self.gauges_count + away**2 / self.width_square
        )
        reach *= t_quantile(probability=(1 + confidence) / 2, degrees=self.gauges_count - 2)
        return energy_j * math.exp(-reach), energy_j * math.exp(reach)

    def beyond_factor(self, *, area_m2: float) -> float:
        """Return by which factor [1] ``area_m2`` [m²] lies beyond the known; else 1."""
        return max(1.0, area_m2 / self.largest_m2, self.smallest_m2 / area_m2)

    def reaches(self, *, area_m2: float) -> bool:
        """Return whether ``area_m2`` [m²] lies between the gauges the law was found from."""
        return self.smallest_m2 <= area_m2 <= self.largest_m2


def fit_energy_law(gauges: Sequence[KnownGauge]) -> EnergyLaw:
    """Return the law by least squares on ln E = ln a + b·ln A; raise BadValue under two areas.

    Ordinary least squares with the spread √(Σr²/(n − 2)) of the residuals.
    """
    if len({one.area_m2 for one in gauges}) < 2:
        raise BadValue(
            owner="fit_energy_law",
            field="gauges",
            value=tuple(gauges),
            accepted="two gauges or more, of different areas",
        )
    areas = [math.log(one.area_m2 * 1e6) for one in gauges]
    energies = [math.log(one.energy_j) for one in gauges]
    area, energy = fmean(areas), fmean(energies)
    exponent = sum((a - area) * (e - energy) for a, e in zip(areas, energies, strict=True)) / sum(
        (a - area) ** 2 for a in areas
    )
    level = energy - exponent * area
    left = sum((e - level - exponent * a) ** 2 for a, e in zip(areas, energies, strict=True))
    return EnergyLaw(
        coefficient_j=math.exp(level),
        exponent_factor=exponent,
        relative_spread_factor=math.sqrt(left / (len(areas) - 2)) if len(areas) > 2 else None,
        smallest_m2=min(one.area_m2 for one in gauges),
        largest_m2=max(one.area_m2 for one in gauges),
        gauges_count=len(areas),
        middle_m2=math.exp(area) * 1e-6,
        width_square=sum((a - area) ** 2 for a in areas),
    )


@dataclass(frozen=True, kw_only=True)
class EnergyGuess:
    """The energy [J] of a first trial with its band [J], or why there is none.

    ``energy_j`` is ``None`` where it is not computed; ``low_j`` and ``high_j`` are ``None`` where
    the spread is not known. ``sentence`` stands alone.
    """

    law: EnergyLaw | None
    energy_j: float | None
    low_j: float | None
    high_j: float | None
    sentence: str


def guess_energy(gauges: Sequence[KnownGauge], *, area_m2: float, confidence: float) -> EnergyGuess:
    """Return the first guess for a conductor of ``area_m2`` [m²] through the shop's own gauges.

    Fewer than two areas, and an area more than ``FARTHEST_FACTOR`` beyond them, are not computed.
    The band is that of ``EnergyLaw.band_j`` with ``confidence`` [1].
    """
    asked = show_area_m2(area_m2)
    if len({one.area_m2 for one in gauges}) < 2:
        few = "one gauge is" if gauges else "no gauge is"
        told = f"{few} welded here yet, and a law needs two: not computed for {asked}"
        return EnergyGuess(law=None, energy_j=None, low_j=None, high_j=None, sentence=told)
    law = fit_energy_law(gauges)
    beyond = law.beyond_factor(area_m2=area_m2)
    known = f"{show_area_m2(law.smallest_m2)} to {show_area_m2(law.largest_m2)}"
    if beyond > FARTHEST_FACTOR:
        told = (
            f"{asked} lies {show_number(beyond, decimals=1)} times beyond the gauges known, "
            f"{known}; more than {show_number(FARTHEST_FACTOR, decimals=0)} times is not guessed: "
            "weld a gauge between first"
        )
        return EnergyGuess(law=law, energy_j=None, low_j=None, high_j=None, sentence=told)
    energy_j = law.energy_j(area_m2=area_m2)
    band = law.band_j(area_m2=area_m2, confidence=confidence)
    told = f"begin with {show_in(energy_j, 'J', decimals=0)} on {asked}"
    if band is None:
        told += ", from two gauges, which tell nothing of the spread"
    else:
        low, high = (show_in(each, "J", decimals=0) for each in band)
        told += f", between {low} and {high} with {show_percent(confidence)}"
    if beyond > 1:
        told += f"; it lies beyond the gauges known, {known}"
    return EnergyGuess(
        law=law,
        energy_j=energy_j,
        low_j=None if band is None else band[0],
        high_j=None if band is None else band[1],
        sentence=told,
    )
