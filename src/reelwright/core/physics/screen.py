"""A screen as a line sees it: a tube of some wall, and how much worse than smooth it is.

A braid carries current worse than a tube of the same copper: wires cross, the current changes
layers. How much is not derived here; it is one factor k on the surface resistance at high
frequency, which stands in every screen and is fitted to measured losses (``screen_fit``). The
factor is put in as a tube of k² times the resistivity and of a wall that keeps the direct-current
resistance: so it changes nothing at the low end, and the screen stays passive and causal.
"""

import math
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.materials.metals import Metal
from reelwright.core.physics.braid import Braid
from reelwright.core.quantities.guard import require_positive, require_text


@dataclass(frozen=True, kw_only=True)
class Screen:
    """A closed screen around ``inside_diameter_m`` [m].

    ``direct_ohm_per_m`` [Ω/m] at 20 °C; ``loss_factor`` k [1], 1 for a smooth tube;
    ``factor_origin`` says where k comes from. Raises BadValue for a factor below 1: nothing is
    smoother than a tube.
    """

    metal: Metal
    inside_diameter_m: float
    direct_ohm_per_m: float
    loss_factor: float
    factor_origin: str

    def __post_init__(self) -> None:
        require_positive(self, "inside_diameter_m", "direct_ohm_per_m", "loss_factor")
        require_text(self, "factor_origin")
        if self.loss_factor < 1:
            raise BadValue(
                owner="Screen", field="loss_factor", value=self.loss_factor, accepted="1 or more"
            )

    @property
    def inside_radius_m(self) -> float:
        """Inside radius b [m]."""
        return self.inside_diameter_m / 2

    def tube(self, temperature_celsius: float) -> tuple[float, float]:
        """Return outside radius [m] and resistivity [Ω·m] of the tube that stands for it at a [°C].

        The wall does not change with temperature, the resistivity does. Raises BadValue outside
        −100 to 250 °C.
        """
        rough = self.loss_factor**2
        cold = self.metal.resistivity_ohm_m * rough
        outside = math.sqrt(self.inside_radius_m**2 + cold / (math.pi * self.direct_ohm_per_m))
        return outside, self.metal.resistivity_at_ohm_m(temperature_celsius) * rough

    def direct_resistance_ohm_per_m(self, temperature_celsius: float) -> float:
        """Return the direct-current resistance [Ω/m] at a temperature [°C]."""
        rise = self.metal.resistivity_at_ohm_m(temperature_celsius) / self.metal.resistivity_ohm_m
        return self.direct_ohm_per_m * rise


SMOOTH = "smooth tube: 1 by definition"


def solid_screen(
    metal: Metal, *, inside_diameter_m: float, wall_m: float, loss_factor: float, factor_origin: str
) -> Screen:
    """Return a tube or closed foil of ``wall_m`` [m] around ``inside_diameter_m`` [m].

    ``loss_factor`` [1] is 1 for a smooth tube; common practice, no published source: 1.1 to 1.4
    for a foil under a braid. Raises BadValue for a wall that is not above zero.
    """
    if not (math.isfinite(wall_m) and wall_m > 0 and inside_diameter_m > 0):
        raise BadValue(
            owner="Screen",
            field="wall_m",
            value=wall_m,
            accepted="a wall above zero around a diameter above zero",
        )
    area = math.pi * wall_m * (inside_diameter_m + wall_m)
    return Screen(
        metal=metal,
        inside_diameter_m=inside_diameter_m,
        direct_ohm_per_m=metal.resistivity_ohm_m / area,
        loss_factor=loss_factor,
        factor_origin=factor_origin,
    )


def braided_screen(braid: Braid, *, loss_factor: float, factor_origin: str) -> Screen:
    """Return the screen that a braid alone makes; its ``loss_factor`` [1] has to be fitted."""
    return Screen(
        metal=braid.metal,
        inside_diameter_m=braid.under_diameter_m,
        direct_ohm_per_m=braid.direct_resistance_ohm_per_m(20.0),
        loss_factor=loss_factor,
        factor_origin=factor_origin,
    )
