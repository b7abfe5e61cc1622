"""What metals hold when they are pulled: bands, since temper and drawing move them."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_positive, require_text
from reelwright.core.verdicts import Basis, Source


@dataclass(frozen=True, kw_only=True)
class TensileBand:
    """The tensile strength met in the trade, ``low_pa`` [Pa] to ``high_pa`` [Pa].

    Raises BadValue where a bound is not above zero or the lower one lies above the upper.
    """

    metal: str
    low_pa: float
    high_pa: float
    source: Source

    def __post_init__(self) -> None:
        require_text(self, "metal")
        require_positive(self, "low_pa", "high_pa")
        if self.low_pa > self.high_pa:
            raise BadValue(
                owner="TensileBand",
                field="low_pa",
                value=self.low_pa,
                accepted=f"at most {self.high_pa}",
            )

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
