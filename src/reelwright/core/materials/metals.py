"""Metals of conductors at 20 °C."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.constants import (
    COPPER_RESISTIVITY_20C,
    COPPER_RESISTIVITY_20C_OHM_M,
    COPPER_TEMPERATURE_COEFFICIENT_20C_PER_K,
)
from reelwright.core.quantities.guard import (
    require_finite,
    require_not_negative,
    require_positive,
    require_text,
)
from reelwright.core.verdicts import Basis, Source

_COLDEST_CELSIUS, _HOTTEST_CELSIUS = -100.0, 250.0


@dataclass(frozen=True, kw_only=True)
class Metal:
    """A conductor metal at 20 °C.

    ``resistivity_ohm_m`` [Ω·m] with its ``resistivity_relative_uncertainty`` [1] (how far pieces of
    that metal differ), its rise ``temperature_coefficient_per_k`` [1/K], and
    ``relative_permeability`` [1] at low field with the band met in the trade, both ends 1 for what
    is not magnetic.

    Raises BadValue for a resistivity, a coefficient or a permeability that is not above zero, or a
    band that does not hold its own permeability.
    """

    name: str
    resistivity_ohm_m: float
    resistivity_relative_uncertainty: float
    temperature_coefficient_per_k: float
    relative_permeability: float
    relative_permeability_low: float
    relative_permeability_high: float
    source: Source

    def __post_init__(self) -> None:
        require_text(self, "name")
        require_positive(
            self,
            "resistivity_ohm_m",
            "temperature_coefficient_per_k",
            "relative_permeability",
            "relative_permeability_low",
        )
        require_not_negative(self, "resistivity_relative_uncertainty")
        require_finite(self, "relative_permeability_high")
        if not (
            self.relative_permeability_low
            <= self.relative_permeability
            <= self.relative_permeability_high
        ):
            raise BadValue(
                owner="Metal",
                field="relative_permeability",
                value=self.relative_permeability,
                accepted=(f"{self.relative_permeability_low} to {self.relative_permeability_high}"),
            )

    @property
    def copper_share(self) -> float:
        """Conductivity over that of annealed copper [1]."""
        return COPPER_RESISTIVITY_20C_OHM_M / self.resistivity_ohm_m

    def resistivity_at_ohm_m(self, temperature_celsius: float) -> float:
        """Return ρ(T) = ρ20·(1 + α(T − 20)) [Ω·m]; BadValue below −100 and above 250 °C."""
        if not _COLDEST_CELSIUS <= temperature_celsius <= _HOTTEST_CELSIUS:
            raise BadValue(
                owner="Metal",
                field="temperature_celsius",
                value=temperature_celsius,
                accepted=f"{_COLDEST_CELSIUS:g} to {_HOTTEST_CELSIUS:g}",
            )
        rise = self.temperature_coefficient_per_k * (temperature_celsius - 20.0)
        return self.resistivity_ohm_m * (1 + rise)


def _plain(
    name: str, resistivity_ohm_m: float, uncertainty: float, coefficient_per_k: float, source: str
) -> Metal:
    return Metal(
        name=name,
        resistivity_ohm_m=resistivity_ohm_m,
        resistivity_relative_uncertainty=uncertainty,
        temperature_coefficient_per_k=coefficient_per_k,
        relative_permeability=1.0,
        relative_permeability_low=1.0,
        relative_permeability_high=1.0,
        source=Source(text=source, basis=Basis.FROM_MEMORY),
    )


def _of_copper(share: float) -> float:
    return COPPER_RESISTIVITY_20C_OHM_M / share


COPPER = _plain(
    "annealed copper",
    COPPER_RESISTIVITY_20C_OHM_M,
    0.01,
    COPPER_TEMPERATURE_COEFFICIENT_20C_PER_K,
    f"{COPPER_RESISTIVITY_20C.source}; drawn wire reaches 97 to 101 % of it",
)
ALUMINIUM_1350 = _plain(
    "aluminium 1350",
    _of_copper(0.61),
    0.01,
    0.00403,
    "61 % of the copper standard for electrical aluminium 1350; coefficient of IEC 60889",
)
SILVER = _plain(
    "silver",
    1.587e-8,
    0.03,
    0.0038,
    "CRC Handbook, electrical resistivity of pure metals, 293 K; plating is a little poorer",
)
TIN = _plain(
    "tin",
    1.15e-7,
    0.05,
    0.0045,
    "CRC Handbook, electrical resistivity of pure metals, 293 K; the layer next to copper alloys",
)
BRONZE = _plain(
    "phosphor bronze 5 %",
    _of_copper(0.15),
    0.15,
    0.0018,
    "Copper Development Association, alloy C51000: 15 % of the copper standard",
)
BRASS = _plain(
    "brass 70/30",
    _of_copper(0.28),
    0.05,
    0.0015,
    "Copper Development Association, alloy C26000: 28 % of the copper standard",
)
STEEL = Metal(
    name="steel of clad wire",
    resistivity_ohm_m=1 / 4.6e6,
    resistivity_relative_uncertainty=0.25,
    temperature_coefficient_per_k=0.005,
    relative_permeability=200.0,
    relative_permeability_low=50.0,
    relative_permeability_high=500.0,
    source=Source(
        text=(
            "carbon steel for clad wire, 8 to 12 % of the copper standard; its permeability "
            "depends on grade, drawing and field, and matters below about 10 MHz only"
        ),
        basis=Basis.FROM_MEMORY,
    ),
)
METALS = (COPPER, ALUMINIUM_1350, SILVER, TIN, BRONZE, BRASS, STEEL)
