"""A stress as it is met in the trade: a band, since temper and drawing move it."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_positive, require_text
from reelwright.core.verdicts import Source


@dataclass(frozen=True, kw_only=True)
class StressBand:
    """A stress of one metal, ``low_pa`` [Pa] to ``high_pa`` [Pa].

    Raises BadValue where a bound is not above zero or the lower one lies above the upper.
    """

    metal: str
    low_pa: float
    high_pa: float
    source: Source

    def __post_init__(self) -> None:
        require_text(self, "metal")
        require_positive(self, "low_pa", "high_pa")
        if self.low_pa > self.high_pa:
            raise BadValue(
                owner=type(self).__name__,
                field="low_pa",
                value=self.low_pa,
                accepted=f"at most {self.high_pa}",
            )
