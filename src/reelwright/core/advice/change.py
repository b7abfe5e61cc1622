"""A change that would make a run work, with the verdict on the run that it leads to."""

import enum
from dataclasses import dataclass

from reelwright.core.advice.tried import Tried
from reelwright.core.quantities.guard import require_count, require_not_negative, require_text
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.run import Run
from reelwright.core.signals.signal import Signal


class Kind(enum.StrEnum):
    """What is changed, the least bother first (common practice, no published source).

    First what only the workshop does otherwise, then what the customer moves or sets, then what
    has to be bought, then another signal.
    """

    FEWER_ADAPTERS = "fewer adapters"
    OTHER_CABLE = "another cable"
    THICKER_CONDUCTOR = "a thicker conductor"
    TERMINATED = "a terminated line"
    OTHER_ENDS = "other connectors"
    SHORTER = "a shorter run"
    COOLER = "a cooler place"
    FEWER_WATTS = "fewer watts"
    HIGHER_VOLTAGE = "a higher voltage"
    OTHER_SOURCE = "another source"
    SPLIT = "a run in parts"
    BALANCED = "balanced instead of unbalanced"
    OTHER_RATE = "another rate"
    OTHER_MEDIUM = "another medium"

    @property
    def bother(self) -> int:
        """0 for the least, rising: the order they are told in."""
        return list(Kind).index(self)


@dataclass(frozen=True, kw_only=True)
class Change:
    """One change, with the run it leads to and its verdict.

    ``sentence`` is for the customer and stands alone. ``size`` [1] tells how large the change is
    among those of its kind (a share of the length, of the diameter, doublings, a count).
    ``parts`` counts the equal runs it takes, each as ``tried``; ``condition`` is what must be so
    at the customer's, or None.
    """

    kind: Kind
    sentence: str
    tried: Tried
    size: float
    parts: int
    condition: str | None

    def __post_init__(self) -> None:
        require_text(self, "sentence")
        require_not_negative(self, "size")
        require_count(self, "parts", at_least=1)
        if self.condition is not None:
            require_text(self, "condition")

    @property
    def run(self) -> Run:
        """The run it leads to, one of ``parts``."""
        return self.tried.run

    @property
    def signal(self) -> Signal:
        """The signal that run carries."""
        return self.tried.signal

    @property
    def judgement(self) -> Judgement:
        """The verdict on that run."""
        return self.tried.judgement

    @property
    def smallness(self) -> tuple[bool, int, int, float]:
        """What the smallest change has the smallest of: doubt, bother, cautions, size.

        What is not sure comes behind all that is; a caution only behind its own kind.
        """
        return (not self.tried.sure, self.kind.bother, self.tried.doubt, self.size)

    @property
    def rank(self) -> tuple[bool, int, int, float, float, str]:
        """The order they are told in: the smallest first, of two alike the cheaper cable."""
        price = self.tried.entry.price_per_m
        return (
            *self.smallness,
            float("inf") if price is None else float(price),
            self.run.cable.code,
        )
