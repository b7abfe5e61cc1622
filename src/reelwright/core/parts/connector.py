"""A connector: what it mates with, what it takes, and the drawing of its back end."""

import enum
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.parts.drawing import Drawing
from reelwright.core.quantities.guard import (
    require_count,
    require_given,
    require_not_negative,
    require_positive,
    require_text,
)
from reelwright.core.verdicts import Source


class Method(enum.StrEnum):
    """How the end is made."""

    CRIMP_CRIMP = "pin and ferrule crimped"
    COMPRESSION = "compressed"
    SOLDER = "soldered"
    WELD = "welded"
    SCREW = "clamped by a screw"
    DISPLACEMENT = "insulation displacement"
    POLISH = "cleaved and polished"


@dataclass(frozen=True, kw_only=True)
class Band:
    """An accepted range of a diameter, both ends included."""

    low_m: float
    high_m: float

    def __post_init__(self) -> None:
        require_not_negative(self, "low_m", "high_m")
        if self.low_m > self.high_m:
            raise BadValue(
                owner="Band", field="low_m", value=self.low_m, accepted=f"at most {self.high_m}"
            )


@dataclass(frozen=True, kw_only=True)
class BodySection:
    """The length of line that a connector is between cable and socket, where it is made to none.

    ``impedance_ohm`` [Ω] and the time ``delay_s`` [s] a wave takes through plug and socket.
    """

    impedance_ohm: float
    delay_s: float
    source: Source

    def __post_init__(self) -> None:
        require_positive(self, "impedance_ohm", "delay_s")


@dataclass(frozen=True, kw_only=True)
class Connector:
    """One connector type.

    ``contacts`` counts what conductors can be joined to, the shell or screen contact left out.
    ``carries_balanced`` is true where two contacts can carry the two legs of a balanced line.
    ``body`` is the section of line it is, ``None`` where nobody stated or measured one.
    """

    code: str
    name: str
    mating: str
    method: Method
    contacts: int
    shell_contact: bool
    carries_balanced: bool
    impedance_ohm: float | None
    body: BodySection | None
    solid_conductor_only: bool | None
    accepts_conductor: Band | None
    accepts_jacket: Band
    conductor_setback_m: float
    trim_m: float
    drawing: Drawing | None

    def __post_init__(self) -> None:
        require_text(self, "code", "name", "mating")
        require_count(self, "contacts", at_least=1)
        require_given(self, "impedance_ohm")
        require_not_negative(self, "conductor_setback_m", "trim_m")
