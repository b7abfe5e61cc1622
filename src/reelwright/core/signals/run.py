"""One run to be judged: the cable, its lot and length, how warm it gets, what is at its ends."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.length import Length
from reelwright.core.physics.lot_values import require_lot_of
from reelwright.core.physics.resistance import temperature_factor
from reelwright.core.quantities.guard import require_count, require_finite


@dataclass(frozen=True, kw_only=True)
class Run:
    """A cable of one length between two connectors.

    ``lot`` is None while no reel is chosen; the data sheet then stands alone. ``adapters`` counts
    couplers and patch points inside the run. Raises BadValue for a length of zero, a lot of
    another cable, or a temperature [°C] at which copper no longer follows its straight line.
    """

    cable: Cable
    lot: Lot | None
    length: Length
    temperature_celsius: float
    connectors: tuple[Connector, Connector]
    adapters: int

    def __post_init__(self) -> None:
        require_finite(self, "temperature_celsius")
        require_count(self, "adapters")
        require_lot_of(self.cable, self.lot)
        temperature_factor(self.temperature_celsius)
        if self.length.mean_m <= 0:
            raise BadValue(
                owner="Run", field="length", value=self.length.mean_m, accepted="above zero"
            )

    @property
    def joints(self) -> int:
        """Connectors and adapters together: each costs a little."""
        return len(self.connectors) + self.adapters

    @property
    def length_relative_uncertainty(self) -> float:
        """Standard uncertainty of the length over its mean [1]."""
        return self.length.standard_uncertainty_m / self.length.mean_m
