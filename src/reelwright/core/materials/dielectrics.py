"""Insulating materials of radio-frequency lines at 20 °C."""

import math
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_positive, require_text
from reelwright.core.verdicts import Basis, Source


@dataclass(frozen=True, kw_only=True)
class Dielectric:
    """A dielectric: relative permittivity [1] and the usual band of its loss tangent [1].

    Raises BadValue for a permittivity below 1 or a band that is upside down.
    """

    name: str
    relative_permittivity: float
    loss_tangent_low: float
    loss_tangent_high: float
    source: Source

    def __post_init__(self) -> None:
        require_text(self, "name")
        require_positive(self, "relative_permittivity", "loss_tangent_low", "loss_tangent_high")
        if self.relative_permittivity < 1:
            raise BadValue(
                owner="Dielectric",
                field="relative_permittivity",
                value=self.relative_permittivity,
                accepted="1 or more",
            )
        if self.loss_tangent_low > self.loss_tangent_high:
            raise BadValue(
                owner="Dielectric",
                field="loss_tangent_low",
                value=self.loss_tangent_low,
                accepted=f"at most {self.loss_tangent_high}",
            )

    @property
    def velocity_factor(self) -> float:
        """Speed on a line filled with it, over the speed of light in vacuum [1]: 1/√εr."""
        return 1 / math.sqrt(self.relative_permittivity)


_PERMITTIVITY = "permittivity as in the CRC and military cable handbooks"
_TANGENT = "band of loss tangents met in the trade"


def _row(name: str, permittivity: float, low: float, high: float) -> Dielectric:
    return Dielectric(
        name=name,
        relative_permittivity=permittivity,
        loss_tangent_low=low,
        loss_tangent_high=high,
        source=Source(text=f"{_PERMITTIVITY}; {_TANGENT}", basis=Basis.FROM_MEMORY),
    )


SOLID_POLYETHYLENE = _row("solid polyethylene", 2.26, 2e-4, 3e-4)
FOAMED_POLYETHYLENE = _row("chemically foamed polyethylene", 1.50, 1e-4, 2e-4)
GAS_FOAMED_POLYETHYLENE = _row("gas-foamed polyethylene", 1.45, 1e-4, 2e-4)
SOLID_PTFE = _row("solid polytetrafluoroethylene", 2.05, 2e-4, 3e-4)
# Foamed fluoropolymer of plenum types: the permittivity follows from a velocity factor of 0.84.
FOAMED_FEP = _row("foamed fluorinated ethylene propylene", 1.417, 3e-4, 6e-4)
DIELECTRICS = (
    SOLID_POLYETHYLENE,
    FOAMED_POLYETHYLENE,
    GAS_FOAMED_POLYETHYLENE,
    SOLID_PTFE,
    FOAMED_FEP,
)
