"""What a piece of each length is worth, in whole numbers, and the bound that follows.

If no filling of any reel is worth more than the reel costs, then no way to cut all that is wanted
costs less than the wanted pieces are worth (weak duality; Farley 1990 scales any values so). Kept
in whole numbers, the bound is exact: no rounding error can make it too high.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from reelwright.core.cutting.stock_lengths.case import Case, Counts
from reelwright.core.cutting.stock_lengths.knapsack import Values

SCALE = 2**30
"""One unit of cost, in the whole numbers that the master's duals are rounded down to."""


@dataclass(frozen=True, eq=False)
class Duals:
    """``values`` (lengths,) of a piece; a reel of cost c is worth no more than c × ``unit``."""

    values: Values
    unit: int

    @classmethod
    def scaled(cls, case: Case, values: Values, best: Values) -> "Duals":
        """Return values with the least unit that holds, ``best`` (longest + 1,) of a filling."""
        worth = best[case.stock_mm]
        return cls(values, max(1, int((-(-worth // case.costs)).max())))

    def total(self, wanted: Counts) -> int:
        """Return what all of ``wanted`` (lengths,) is worth, in shares of ``unit``."""
        return int(self.values @ wanted)

    def bound(self, case: Case, wanted: Counts) -> int:
        """Return the least cost there can be for ``wanted`` (lengths,)."""
        return case.up_to_grain(-(-self.total(wanted) // self.unit))

    @cached_property
    def as_costs(self) -> NDArray[np.float64]:
        """The values as floats (lengths,), a unit of cost being 1."""
        return self.values / self.unit
