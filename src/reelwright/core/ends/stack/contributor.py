"""One dimension of a stack: how far it may be off, how that is to be read, who can change it."""

import enum
import math
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_finite, require_not_negative, require_text
from reelwright.core.verdicts import Source


class Reading(enum.StrEnum):
    """What a tolerance of ± T is taken to say of the values inside and beyond it."""

    NORMAL = "normal, the tolerance at three standard deviations"
    UNIFORM = "any value within the tolerance as likely as another"
    TRIANGULAR = "triangular: the middle likeliest, none beyond the tolerance"

    @property
    def deviation_ratio(self) -> float:
        """The standard deviation of such values over T [1]: 1/3, 1/√3, 1/√6."""
        return {
            Reading.NORMAL: 1 / 3,
            Reading.UNIFORM: 1 / math.sqrt(3),
            Reading.TRIANGULAR: 1 / math.sqrt(6),
        }[self]


class Keeper(enum.StrEnum):
    """Who can do something about a tolerance."""

    SHOP = "workshop"
    MAKER = "maker"


@dataclass(frozen=True, kw_only=True)
class Contributor:
    """One dimension, in the unit of its stack: nominal + shift ± tolerance.

    ``shift`` moves the mean away from the nominal before anything is added up (a wheel that runs
    long, a pin that grows). ``sensitivity`` is signed: what the result moves by for one unit.
    There is no default reading: three standard deviations are as much a claim as the tolerance is.
    """

    name: str
    nominal: float
    sensitivity: float
    tolerance: float
    shift: float
    reading: Reading
    keeper: Keeper
    source: Source

    def __post_init__(self) -> None:
        require_text(self, "name")
        require_finite(self, "nominal", "sensitivity", "shift")
        require_not_negative(self, "tolerance")
        if self.sensitivity == 0:
            raise BadValue(
                owner="Contributor",
                field="sensitivity",
                value=0,
                accepted="a number that is not zero: what moves nothing contributes nothing",
            )

    @property
    def mean(self) -> float:
        """Nominal and shift together."""
        return self.nominal + self.shift

    @property
    def deviation(self) -> float:
        """The standard deviation that the tolerance is read as."""
        return self.tolerance * self.reading.deviation_ratio

    @property
    def reach(self) -> float:
        """What the result moves by, at most, to either side: |sensitivity| × tolerance."""
        return abs(self.sensitivity) * self.tolerance

    @property
    def spread(self) -> float:
        """The standard deviation it gives the result: |sensitivity| × standard deviation."""
        return abs(self.sensitivity) * self.deviation
