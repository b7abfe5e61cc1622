"""What metals hold when they are pulled: bands, since temper and drawing move them."""

from dataclasses import dataclass

from reelwright.core.materials.stress_band import StressBand
from reelwright.core.verdicts import Basis, Source


@dataclass(frozen=True, kw_only=True)
class TensileBand(StressBand):
    """The tensile strength met in the trade."""

    def force_n(self, area_m2: float) -> tuple[float, float]:
        """Return what a cross-section of ``area_m2`` [m²] holds at least and at most, in N."""
        return area_m2 * self.low_pa, area_m2 * self.high_pa


ANNEALED_COPPER = TensileBand(
    metal="annealed copper",
    low_pa=200e6,
    high_pa=250e6,
    source=Source(
        text="soft copper wire holds 200 to 250\u202fMPa (handbooks of copper)",
        basis=Basis.FROM_MEMORY,
    ),
)
