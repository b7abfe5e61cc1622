"""Impedance classes: which cable, connector and signal belong together. One rule for all rooms."""

import enum
from dataclasses import dataclass

from reelwright.core.quantities.guard import require_positive
from reelwright.core.verdicts import Basis, Source


class ImpedanceMatch(enum.StrEnum):
    """How near one impedance lies to the class it should be of."""

    SAME = "the same class"
    NEAR = "near it, but not the same class"
    OTHER = "another class"


@dataclass(frozen=True, kw_only=True)
class ImpedanceClass:
    """A class around ``nominal_ohm`` [Ω].

    Within ``same_fraction`` [1] of it an impedance is of the class, up to ``near_fraction`` [1] it
    is doubtful, beyond that it is of another class.
    """

    nominal_ohm: float
    same_fraction: float
    near_fraction: float
    source: Source

    def __post_init__(self) -> None:
        require_positive(self, "nominal_ohm", "same_fraction", "near_fraction")

    def match(self, stated_ohm: float) -> ImpedanceMatch:
        """Return how near ``stated_ohm`` [Ω] lies."""
        away_ohm = abs(stated_ohm - self.nominal_ohm)
        if away_ohm <= self.same_fraction * self.nominal_ohm:
            return ImpedanceMatch.SAME
        if away_ohm <= self.near_fraction * self.nominal_ohm:
            return ImpedanceMatch.NEAR
        return ImpedanceMatch.OTHER

    def margin_ohm(self, stated_ohm: float) -> float:
        """Return how far [Ω] ``stated_ohm`` lies inside the class; negative outside it."""
        return self.same_fraction * self.nominal_ohm - abs(stated_ohm - self.nominal_ohm)


_COMMON = Source(
    text="a line and its ends belong to one class: within 5 % of the nominal impedance",
    basis=Basis.COMMON_PRACTICE,
)
# The receivers of this one interface are built for so wide a band.
_BALANCED_DIGITAL_AUDIO = ImpedanceClass(
    nominal_ohm=110.0,
    same_fraction=0.20,
    near_fraction=0.20,
    source=Source(
        text="AES3 and IEC 60958-4: balanced digital audio on 110 Ω ± 20 %",
        basis=Basis.FROM_MEMORY,
    ),
)

# Its receivers tell edges apart, not shapes: cables of 100 to 120 Ω are laid for it everywhere.
_CONTROL_BUS = ImpedanceClass(
    nominal_ohm=120.0,
    same_fraction=0.20,
    near_fraction=0.40,
    source=Source(
        text="ANSI/TIA-485-A: balanced control on 120 Ω, data pairs of 100 Ω in use",
        basis=Basis.FROM_MEMORY,
    ),
)
_BY_NOMINAL = {each.nominal_ohm: each for each in (_BALANCED_DIGITAL_AUDIO, _CONTROL_BUS)}


def impedance_class(nominal_ohm: float) -> ImpedanceClass:
    """Return the class around ``nominal_ohm`` [Ω]; raise BadValue where it is not above zero.

    5 % is the same class, up to 10 % is near it (common practice, no published source); 110 Ω takes
    the 20 % of its standard (AES3, IEC 60958-4, from memory), 120 Ω 20 and 40 % (TIA-485, from
    memory).
    """
    if nominal_ohm in _BY_NOMINAL:
        return _BY_NOMINAL[nominal_ohm]
    return ImpedanceClass(
        nominal_ohm=nominal_ohm, same_fraction=0.05, near_fraction=0.10, source=_COMMON
    )
