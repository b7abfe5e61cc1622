"""How warm current makes the middle of a bundle of cables: an estimate for a caution, no design.

A bundle is taken as one round cylinder that makes the same heat everywhere and hangs in still air.
In steady state its middle is warmer than the air by q·(1/(π·D·h) + 1/(4π·k)): what leaves through
the surface, and conduction with uniform heat in a cylinder (Carslaw and Jaeger, Conduction of Heat
in Solids, from memory). In a conduit, in insulation or in the sun it gets warmer than this.
"""

import math
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.materials.metals import COPPER
from reelwright.core.parts.bundle import bundle_diameter_m
from reelwright.core.physics.resistance import REFERENCE_CELSIUS, temperature_factor
from reelwright.core.quantities.guard import require_count, require_not_negative, require_positive
from reelwright.core.verdicts import Basis, Source

SURFACE_W_PER_M2_K = 8.0
"""What a warm surface gives off to still air and by radiation [W/(m²·K)], from memory: 5 to 10."""

BUNDLE_W_PER_M_K = 0.15
"""Conduction [W/(m·K)] across plastics and the air between cables, from memory: 0.1 to 0.2."""

SOURCE = Source(
    text=(
        "steady heat of a bundle hanging in still air, 8 W/(m²·K) at its surface and 0.15 W/(m·K) "
        "inside; right to about half as much again either way"
    ),
    basis=Basis.FROM_MEMORY,
)
"""Where the estimate comes from, and how far it may be trusted."""


@dataclass(frozen=True, kw_only=True)
class HeatedBundle:
    """``cable_count`` equal cables of ``cable_diameter_m`` [m], all carrying the same.

    ``conductors`` of each cable carry ``current_a`` [A] each; ``conductor_ohm_per_m`` [Ω/m] is one
    of them at 20 °C, copper. Raises BadValue for none of a thing or a current below zero.
    """

    cable_diameter_m: float
    cable_count: int
    conductors: int
    conductor_ohm_per_m: float
    current_a: float

    def __post_init__(self) -> None:
        require_positive(self, "cable_diameter_m", "conductor_ohm_per_m")
        require_count(self, "cable_count", "conductors", at_least=1)
        require_not_negative(self, "current_a")

    @property
    def heat_w_per_m(self) -> float:
        """Heat of the whole bundle [W/m] with its copper at 20 °C."""
        return self.cable_count * self.conductors * self.current_a**2 * self.conductor_ohm_per_m

    @property
    def heat_resistance_k_m_per_w(self) -> float:
        """Kelvin between the middle and the air for each watt in a metre [K·m/W]."""
        outside = bundle_diameter_m(cable_diameter_m=self.cable_diameter_m, count=self.cable_count)
        return 1 / (math.pi * outside * SURFACE_W_PER_M2_K) + 1 / (4 * math.pi * BUNDLE_W_PER_M_K)

    def rise_k(self, *, ambient_celsius: float) -> float | None:
        """Return how much warmer the middle is [K] than air of ``ambient_celsius`` [°C].

        Warm copper resists more and makes more heat: q = q20·(1 + α·(T − 20)) is solved exactly.
        None where heat would grow faster than it gets away.
        """
        cold_rise = self.heat_resistance_k_m_per_w * self.heat_w_per_m
        growth = cold_rise * COPPER.temperature_coefficient_per_k
        if growth >= 1:
            return None
        return cold_rise * temperature_factor(ambient_celsius) / (1 - growth)

    def current_for_rise_a(self, *, rise_k: float, ambient_celsius: float) -> float:
        """Return the current [A] in each conductor that warms the middle by ``rise_k`` [K]."""
        if rise_k < 0:
            raise BadValue(
                owner="HeatedBundle", field="rise_k", value=rise_k, accepted="zero or more"
            )
        hot = 1 + COPPER.temperature_coefficient_per_k * (
            ambient_celsius + rise_k - REFERENCE_CELSIUS
        )
        per_ampere = (
            self.cable_count * self.conductors * self.conductor_ohm_per_m * hot
        ) * self.heat_resistance_k_m_per_w
        return math.sqrt(rise_k / per_ampere)
