"""Light in a plastic fibre: its power ledger, how fast its rays let it be, what a bend takes.

Convention of the ledger: launched power is stated *in the fibre, behind the source's own plug*, as
data of optical parts give it (a standard test lead plugged in). The coupling into that plug is in
the figure already. What comes off for each end is only what a plug finished on the bench and mated
in service loses *more* than the one of the test lead; taking a plug's whole loss off at the source
once more would count it twice.
"""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S
from reelwright.core.quantities.guard import (
    require_count,
    require_finite,
    require_not_negative,
    require_positive,
)
from reelwright.core.verdicts import Basis, Source

BANDWIDTH_OF_SPREAD = 0.44
"""Bandwidth times the time by which a pulse is spread [1], for a bell-shaped pulse."""

TURNS_TESTED, RADIUS_TESTED_M, LOSS_TESTED_DB = 10, 0.025, 0.5
"""Turns of that radius [m] take that at most [dB]: IEC 60793-2-40 annex A, from memory."""


@dataclass(frozen=True, kw_only=True)
class OpticalLedger:
    """What is launched [dBm], what the receiver needs [dBm], and what is lost besides the fibre.

    ``launch_dbm`` is in the fibre, behind the source's own plug. ``interfaces`` ends cost
    ``interface_loss_db`` [dB] each *more* than the plug of the test lead; ``ageing_db`` [dB] is
    held back for bends and age.
    """

    launch_dbm: float
    needed_dbm: float
    interfaces: int
    interface_loss_db: float
    ageing_db: float

    def __post_init__(self) -> None:
        require_finite(self, "launch_dbm", "needed_dbm")
        require_count(self, "interfaces")
        require_not_negative(self, "interface_loss_db", "ageing_db")

    @property
    def fibre_budget_db(self) -> float:
        """What the fibre itself may lose [dB]; negative where nothing is left."""
        return (
            self.launch_dbm
            - self.needed_dbm
            - self.interfaces * self.interface_loss_db
            - self.ageing_db
        )

    def margin_db(self, *, length_m: npt.ArrayLike, loss_db_per_m: float) -> FloatArray:
        """Return what is left over [dB], shape of ``length_m`` [m]."""
        lost = np.asarray(length_m, dtype=np.float64) * loss_db_per_m
        margin: FloatArray = self.fibre_budget_db - lost
        return margin

    def longest_m(self, *, loss_db_per_m: float) -> float:
        """Return the longest run [m] with nothing to spare; 0 where even none would do."""
        return max(0.0, self.fibre_budget_db / loss_db_per_m)


def launch_in_fibre_dbm(*, emitted_dbm: float, plug_loss_db: float) -> float:
    """Return the launch [dBm] in the ledger's convention of a source stated before its plug.

    ``emitted_dbm`` [dBm] leaves the socket, ``plug_loss_db`` [dB] is lost into a plug of the test
    lead's quality: here, and nowhere else, the source's own termination is taken off. Raises
    BadValue for a loss below zero.
    """
    if plug_loss_db < 0:
        raise BadValue(
            owner="launch_in_fibre_dbm",
            field="plug_loss_db",
            value=plug_loss_db,
            accepted="zero or more",
        )
    return emitted_dbm - plug_loss_db


@dataclass(frozen=True, kw_only=True)
class StepIndexFibre:
    """A fibre whose core of ``core_index_ratio`` [1] is ``core_diameter_m`` [m] thick.

    ``cladding_index_ratio`` [1] is lower; the cladding ends at ``cladding_diameter_m`` [m]. Raises
    BadValue where light would not be guided.
    """

    core_index_ratio: float
    cladding_index_ratio: float
    core_diameter_m: float
    cladding_diameter_m: float
    source: Source

    def __post_init__(self) -> None:
        require_positive(self, "core_diameter_m")
        for field, low in (
            ("core_index_ratio", self.cladding_index_ratio),
            ("cladding_index_ratio", 1.0),
        ):
            if not (math.isfinite(getattr(self, field)) and getattr(self, field) > low):
                raise BadValue(
                    owner="StepIndexFibre",
                    field=field,
                    value=getattr(self, field),
                    accepted=f"above {low:g}",
                )
        if not self.cladding_diameter_m > self.core_diameter_m:
            raise BadValue(
                owner="StepIndexFibre",
                field="cladding_diameter_m",
                value=self.cladding_diameter_m,
                accepted=f"above the core's {self.core_diameter_m:g}",
            )

    @property
    def numerical_aperture(self) -> float:
        """√(n1² − n2²) [1]."""
        return math.sqrt(self.core_index_ratio**2 - self.cladding_index_ratio**2)

    @property
    def acceptance_rad(self) -> float:
        """Half the angle [rad] of the cone that it takes in from air: asin NA."""
        return acceptance_rad(self.numerical_aperture)

    @property
    def ray_spread_s_per_m(self) -> float:
        """How much later [s/m] the steepest ray arrives than the straight one: n1/c·(n1/n2 − 1).

        Every ray counted, none changing places with another: real fibres spread less.
        """
        return (
            self.core_index_ratio
            / SPEED_OF_LIGHT_M_PER_S
            * (self.core_index_ratio / self.cladding_index_ratio - 1)
        )

    def bandwidth_hz(self, *, length_m: float) -> float:
        """Return the bandwidth [Hz] that the spread of rays leaves over ``length_m`` [m]."""
        if length_m <= 0:
            raise BadValue(
                owner="StepIndexFibre", field="length_m", value=length_m, accepted="above zero"
            )
        return BANDWIDTH_OF_SPREAD / (self.ray_spread_s_per_m * length_m)

    def longest_m(self, *, bandwidth_hz: float) -> float:
        """Return the length [m] over which ``bandwidth_hz`` [Hz] are left."""
        return self.bandwidth_hz(length_m=1.0) / bandwidth_hz

    def bend_kept(self, *, radius_m: float, wavelength_m: float) -> float:
        """Return the part [1] of the light that a bend of ``radius_m`` [m] can still guide.

        1 − (2a/R + (3λ/(4π·n2·R))^(2/3))/(2Δ), a half the core's diameter and
        Δ = (n1² − n2²)/(2n1²); 0 where nothing is guided. For light that fills the fibre evenly,
        as from a wide source: the most that any number of turns can take. Source: Gloge, Applied
        Optics 11 (1972) 2506, from memory.
        """
        if radius_m <= 0 or wavelength_m <= 0:
            raise BadValue(
                owner="StepIndexFibre",
                field="radius_m",
                value=radius_m,
                accepted="a radius and a wavelength above zero",
            )
        difference = self.numerical_aperture**2 / (2 * self.core_index_ratio**2)
        width = self.core_diameter_m / radius_m
        leak = (3 * wavelength_m / (4 * math.pi * self.cladding_index_ratio * radius_m)) ** (2 / 3)
        return float(max(0.0, 1 - (width + leak) / (2 * difference)))


def acceptance_rad(aperture_ratio: float) -> float:
    """Return half the angle [rad] of the cone taken in from air: asin of ``aperture_ratio`` [1]."""
    if not 0 < aperture_ratio <= 1:
        raise BadValue(
            owner="acceptance_rad",
            field="aperture_ratio",
            value=aperture_ratio,
            accepted="above 0, at most 1",
        )
    return math.asin(aperture_ratio)


def bend_allowance_db(*, turn_count: int) -> float:
    """Return the most [dB] that ``turn_count`` full turns of a radius of 25 mm or more may take.

    In proportion to the ten turns that are tested, though most is lost in the first.
    """
    if turn_count < 0:
        raise BadValue(
            owner="bend_allowance_db", field="turn_count", value=turn_count, accepted="zero or more"
        )
    return LOSS_TESTED_DB * turn_count / TURNS_TESTED


ACRYLIC_FIBRE = StepIndexFibre(
    core_index_ratio=1.492,
    cladding_index_ratio=1.402,
    core_diameter_m=0.98e-3,
    cladding_diameter_m=1.0e-3,
    source=Source(
        text="1 mm acrylic fibre: indices and core as data of such fibres state them",
        basis=Basis.FROM_MEMORY,
    ),
)
"""The fibre of optical audio, class A4a of IEC 60793-2-40."""
