"""Metals of conductors at 20 °C."""

from dataclasses import dataclass

from reelwright.core.quantities.constants import (
    COPPER_RESISTIVITY_20C,
    COPPER_RESISTIVITY_20C_OHM_M,
    COPPER_TEMPERATURE_COEFFICIENT_20C_PER_K,
)
from reelwright.core.quantities.guard import require_positive, require_text
from reelwright.core.verdicts import Basis, Source


@dataclass(frozen=True, kw_only=True)
class Metal:
    """A conductor metal: ``resistivity_ohm_m`` at 20 °C [Ω·m] and its rise per kelvin [1/K].

    Raises BadValue for a resistivity or a coefficient that is not above zero.
    """

    name: str
    resistivity_ohm_m: float
    temperature_coefficient_per_k: float
    source: Source

    def __post_init__(self) -> None:
        require_text(self, "name")
        require_positive(self, "resistivity_ohm_m", "temperature_coefficient_per_k")


COPPER = Metal(
    name="annealed copper",
    resistivity_ohm_m=COPPER_RESISTIVITY_20C_OHM_M,
    temperature_coefficient_per_k=COPPER_TEMPERATURE_COEFFICIENT_20C_PER_K,
    source=Source(text=COPPER_RESISTIVITY_20C.source, basis=Basis.FROM_MEMORY),
)
ALUMINIUM_1350 = Metal(
    name="aluminium 1350",
    resistivity_ohm_m=COPPER_RESISTIVITY_20C_OHM_M / 0.61,
    temperature_coefficient_per_k=0.00403,
    source=Source(
        text="61 % of the copper standard for electrical aluminium 1350; coefficient of IEC 60889",
        basis=Basis.FROM_MEMORY,
    ),
)
SILVER = Metal(
    name="silver",
    resistivity_ohm_m=1.587e-8,
    temperature_coefficient_per_k=0.0038,
    source=Source(
        text="CRC Handbook, electrical resistivity of pure metals, 293 K", basis=Basis.FROM_MEMORY
    ),
)
METALS = (COPPER, ALUMINIUM_1350, SILVER)
