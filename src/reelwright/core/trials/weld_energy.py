"""First guess of a weld's energy: a power law through the gauges the shop already welds well."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_finite, require_positive


@dataclass(frozen=True, kw_only=True)
class KnownGauge:
    """The middle of a window found on the bench: conductor ``area_m2`` [m²], ``energy_j`` [J]."""

    area_m2: float
    energy_j: float

    def __post_init__(self) -> None:
        require_positive(self, "area_m2", "energy_j")


@dataclass(frozen=True, kw_only=True)
class EnergyLaw:
    """E = a·A^b with A in mm². ``coefficient_j`` [J] is a, ``exponent_factor`` is b.

    ``relative_spread_factor``: the standard deviation of ln E about the law, from the residuals;
    ``None`` for two gauges, through which any law passes exactly. ``smallest_m2`` and
    ``largest_m2`` are the areas between which the law was found.
    """

    coefficient_j: float
    exponent_factor: float
    relative_spread_factor: float | None
    smallest_m2: float
    largest_m2: float

    def __post_init__(self) -> None:
        require_positive(self, "coefficient_j", "smallest_m2", "largest_m2")
        require_finite(self, "exponent_factor")

    def energy_j(self, *, area_m2: float) -> float:
        """Return the energy [J] of the first trial on a conductor of ``area_m2`` [m²]."""
        if not (math.isfinite(area_m2) and area_m2 > 0):
            raise BadValue(
                owner="EnergyLaw.energy_j", field="area_m2", value=area_m2, accepted="above zero"
            )
        return float(self.coefficient_j * (area_m2 * 1e6) ** self.exponent_factor)

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
    )
