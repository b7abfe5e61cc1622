"""A feed from a terrestrial antenna: FM, DAB or television, the highest channel decides."""

import enum
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_finite, require_positive
from reelwright.core.signals.level_signal import OUTLET_SOURCE, LevelSignal, Window
from reelwright.core.signals.practice import GUARD_DB
from reelwright.core.signals.supply_drop import Supply

LARGEST_DIFFERENCE_DB = 12.0
"""Largest difference [dB] between channels at one outlet (EN 60728-1, from memory)."""


class Service(enum.StrEnum):
    """What the antenna receives."""

    FM = "FM radio"
    DAB = "DAB radio"
    DVB_T = "DVB-T television"
    DVB_T2 = "DVB-T2 television"


@dataclass(frozen=True, kw_only=True)
class ServiceBand:
    """Band [Hz] and levels [dBµV] of a service; ``most_hz`` [Hz] is the highest ever used."""

    low_hz: float
    high_hz: float
    most_hz: float
    least_dbuv: float
    most_dbuv: float


SERVICE_BANDS = {
    Service.FM: ServiceBand(
        low_hz=87.5e6, high_hz=108e6, most_hz=108e6, least_dbuv=50.0, most_dbuv=70.0
    ),
    Service.DAB: ServiceBand(
        low_hz=174e6, high_hz=240e6, most_hz=240e6, least_dbuv=28.0, most_dbuv=94.0
    ),
    Service.DVB_T: ServiceBand(
        low_hz=470e6, high_hz=694e6, most_hz=862e6, least_dbuv=45.0, most_dbuv=74.0
    ),
    Service.DVB_T2: ServiceBand(
        low_hz=470e6, high_hz=694e6, most_hz=862e6, least_dbuv=39.0, most_dbuv=74.0
    ),
}
"""Levels: EN 60728-1 (64-level, rate 2/3 for television); bands: ITU and regional plans, memory."""


@dataclass(frozen=True, kw_only=True)
class TerrestrialAntenna(LevelSignal):
    """A feed from an antenna or an antenna outlet.

    ``level_dbuv`` [dBµV] is that of the weakest wanted channel where the run begins, None where it
    was not measured; ``highest_hz`` [Hz] the top of the highest channel in use; ``mast_supply``
    what feeds an amplifier at the antenna over the cable, or None; ``at_outlet`` where the run
    begins at an outlet in the wall and not at the antenna. Raises BadValue for a channel
    outside the band of its service.
    """

    service: Service
    highest_hz: float
    level_dbuv: float | None
    mast_supply: Supply | None
    at_outlet: bool

    def __post_init__(self) -> None:
        require_positive(self, "highest_hz")
        if self.level_dbuv is not None:
            require_finite(self, "level_dbuv")
        band = SERVICE_BANDS[self.service]
        if not band.low_hz < self.highest_hz <= band.most_hz:
            raise BadValue(
                owner="TerrestrialAntenna",
                field="highest_hz",
                value=self.highest_hz,
                accepted=f"above {band.low_hz:g}, up to {band.most_hz:g}",
            )

    @property
    def name(self) -> str:
        """The antenna with its service."""
        return f"antenna feed for {self.service}"

    @property
    def near_end(self) -> str:
        """Where the run begins: the outlet, or the amplifier where there is one."""
        if self.at_outlet:
            return "your outlet"
        return "the antenna" if self.mast_supply is None else "the amplifier at the antenna"

    @property
    def near_level_dbuv(self) -> float | None:
        """Level where the run begins [dBµV]."""
        return self.level_dbuv

    @property
    def near_most_dbuv(self) -> float | None:
        """What an outlet may give at most [dBµV]; no figure is known for an antenna."""
        return SERVICE_BANDS[self.service].most_dbuv if self.at_outlet else None

    @property
    def supply(self) -> Supply | None:
        """What feeds the amplifier at the antenna."""
        return self.mast_supply

    @property
    def window(self) -> Window:
        """What the tuner takes of this service."""
        band = SERVICE_BANDS[self.service]
        return Window(
            low_hz=band.low_hz,
            high_hz=self.highest_hz,
            least_dbuv=band.least_dbuv,
            most_dbuv=band.most_dbuv,
            guard_db=GUARD_DB,
            slope_db=LARGEST_DIFFERENCE_DB,
            source=OUTLET_SOURCE,
        )
