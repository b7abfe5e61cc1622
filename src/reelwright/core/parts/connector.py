"""A connector, described by its own drawing.

Only the mating face follows a standard; nothing fixes the back end, so every dimension is the
drawing's own. ``None`` means: this kind of connector has no such feature.
"""

import enum
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import (
    require_count,
    require_given,
    require_not_negative,
    require_text,
)


class Method(enum.StrEnum):
    """How the end is made."""

    CRIMP_CRIMP = "pin and ferrule crimped"
    COMPRESSION = "compressed"
    SOLDER = "soldered"
    WELD = "welded"
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
class Drawing:
    """Dimensions of a crimped or compressed connector's back end.

    Depths are taken along the axis from the body's seat towards the pin tip (barrel, flange) or
    towards the cable (stem, ferrule). ``conductor_setback_m``: how far the conductor's end lies
    behind the plane that finished length is measured from (the pin tip).
    """

    barrel_depth_m: float | None
    barrel_bore_m: float | None
    barrel_outside_m: float | None
    barrel_clearance_m: float | None
    hole_far_edge_m: float | None
    seat_to_flange_m: float | None
    dielectric_relief_m: float | None
    stem_bore_m: float | None
    stem_outside_m: float | None
    stem_length_m: float | None
    braid_relief_m: float | None
    ferrule_bore_m: float | None
    ferrule_outside_m: float | None
    ferrule_length_m: float | None
    boot_bore_m: float | None
    conductor_protrusion_m: float | None

    def __post_init__(self) -> None:
        require_given(self, *self.__dataclass_fields__, positive=False)


@dataclass(frozen=True, kw_only=True)
class Connector:
    """One connector type.

    ``contacts`` counts what conductors can be joined to, the shell or screen contact left out.
    ``carries_balanced`` is true where two contacts can carry the two legs of a balanced line.
    """

    code: str
    name: str
    mating: str
    method: Method
    contacts: int
    shell_contact: bool
    carries_balanced: bool
    impedance_ohm: float | None
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
