"""One knob of a machine: how far it turns, in which steps, and how well it holds."""

import math
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import (
    require_finite,
    require_not_negative,
    require_positive,
    require_text,
)
from reelwright.core.quantities.show import show_number, with_unit


@dataclass(frozen=True, kw_only=True)
class Setting:
    """One setting, all numbers in ``unit``.

    ``low`` and ``high`` bound what may be tried, ``step`` is the finest the machine can be set,
    ``drift`` the standard deviation with which it holds what was set, 0 where it holds exactly.
    Raises BadValue where there are fewer than two steps from low to high.
    """

    name: str
    unit: str
    low: float
    high: float
    step: float
    drift: float

    def __post_init__(self) -> None:
        require_text(self, "name", "unit")
        require_finite(self, "low", "high")
        require_positive(self, "step")
        require_not_negative(self, "drift")
        if self.last_step < 2:
            raise BadValue(
                owner="Setting",
                field="high",
                value=self.high,
                accepted=f"two steps of {self.step:g} or more above {self.low:g}",
            )

    @property
    def last_step(self) -> int:
        """How many steps lie between ``low`` and the highest setting that can be set."""
        return math.floor((self.high - self.low) / self.step * (1 + 1e-12) + 1e-9)

    @property
    def play(self) -> float:
        """The standard deviation of what the machine does: drift, and the width of one step.

        A value that lies anywhere within one step spreads by step/√12 (JCGM 100:2008, 4.3.7).
        """
        return max(self.drift, self.step / math.sqrt(12))

    def show(self, value: float) -> str:
        """Return ``value`` (in ``unit``) as the machine shows it: with the places of its step."""
        places = max(0, min(6, -math.floor(math.log10(self.step) + 1e-9)))
        if not math.isclose(round(self.step, places), self.step, rel_tol=1e-9):
            places += 1
        return with_unit(show_number(value, decimals=places), self.unit)
