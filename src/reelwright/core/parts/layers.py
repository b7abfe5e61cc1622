"""The layers of a cable from the middle outwards."""

import enum
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_not_negative, require_positive, require_text


class LayerRole(enum.StrEnum):
    """What a layer is for. ``CORE`` is one insulated conductor of a cable that has several."""

    CONDUCTOR = "conductor"
    DIELECTRIC = "dielectric"
    FOIL = "foil"
    BRAID = "braid"
    CORE = "core"
    JACKET = "jacket"


@dataclass(frozen=True, kw_only=True)
class Layer:
    """One layer; its tolerance is the half width of the maker's band on the outside diameter."""

    role: LayerRole
    material: str
    outside_diameter_m: float
    tolerance_m: float

    def __post_init__(self) -> None:
        require_text(self, "material")
        require_positive(self, "outside_diameter_m")
        require_not_negative(self, "tolerance_m")
        if self.tolerance_m >= self.outside_diameter_m:
            raise BadValue(
                owner="Layer",
                field="tolerance_m",
                value=self.tolerance_m,
                accepted=f"less than the diameter, {self.outside_diameter_m}",
            )

    @property
    def largest_m(self) -> float:
        """The outside diameter at the upper end of its tolerance."""
        return self.outside_diameter_m + self.tolerance_m

    @property
    def smallest_m(self) -> float:
        """The outside diameter at the lower end of its tolerance."""
        return self.outside_diameter_m - self.tolerance_m
