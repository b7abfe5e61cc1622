"""The power ledger of a plastic fibre link."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from reelwright.core.physics.arrays import FloatArray
from reelwright.core.quantities.guard import require_count, require_finite, require_not_negative


@dataclass(frozen=True, kw_only=True)
class OpticalLedger:
    """What is launched [dBm], what the receiver needs [dBm], and what is lost besides the fibre.

    ``interfaces`` ends cost ``interface_loss_db`` [dB] each; ``ageing_db`` [dB] is held back for
    bends and age.
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
