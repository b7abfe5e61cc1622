"""What a signal answers about a run."""

from dataclasses import dataclass
from typing import NamedTuple

from reelwright.core.physics.arrays import FloatArray
from reelwright.core.quantities.guard import (
    require_between,
    require_given,
    require_positive,
    require_text,
)
from reelwright.core.verdicts import Source, Verdict


@dataclass(frozen=True, kw_only=True)
class PhysicalReach:
    """How far a signal could go with the best receiver that physics allows: no promise.

    ``length_m`` [m]; ``sentence`` says what receiver that would be.
    """

    length_m: float
    sentence: str
    source: Source

    def __post_init__(self) -> None:
        require_positive(self, "length_m")
        require_text(self, "sentence")


@dataclass(frozen=True, kw_only=True)
class Judgement:
    """A verdict with what a page needs beside it.

    ``chance_within_limit`` [1] is the chance that the loss (or what the signal is judged by) stays
    within the *design limit*, from the spreads of lots, length and joints. It is not the chance
    that the equipment works: receivers differ, and most reach further than the limit promised.
    ``length_at_95_m`` and ``length_at_50_m`` [m] are the lengths at which that chance is 95 % and
    50 %. All three are None where the signal is not judged by length, or could not be computed.
    ``deciding`` names the check which decides; ``sentence`` is for the customer; ``far_end`` says
    what the far end needs. ``possible`` is None where it is not known how far past the limit
    physics would allow.
    """

    verdict: Verdict
    chance_within_limit: float | None
    length_at_95_m: float | None
    length_at_50_m: float | None
    deciding: str
    sentence: str
    far_end: str
    possible: PhysicalReach | None

    def __post_init__(self) -> None:
        require_text(self, "deciding", "sentence", "far_end")
        require_given(self, "length_at_95_m", "length_at_50_m", positive=False)
        if self.chance_within_limit is not None:
            require_between(self, "chance_within_limit", low=0.0, high=1.0)


class MarginCurve(NamedTuple):
    """Margin against length, shape (n_length,), with its 95 % band; in the signal's margin unit."""

    margin: FloatArray
    low: FloatArray
    high: FloatArray
