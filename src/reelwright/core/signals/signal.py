"""What every signal is: a value that states its needs and judges a run."""

from typing import Protocol

from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.signals.judgement import Judgement, MarginCurve
from reelwright.core.signals.run import Run


class Signal(Protocol):
    """A signal as a customer names it.

    ``families`` are the kinds of cable that can carry it; ``margin_unit`` the unit of its margin.
    """

    @property
    def name(self) -> str:
        """The signal in the trade's words, with its rate or load."""
        ...

    @property
    def needs(self) -> SignalNeeds:
        """What it asks of conductors and contacts."""
        ...

    @property
    def families(self) -> tuple[Family, ...]:
        """The kinds of cable that can carry it."""
        ...

    @property
    def far_end(self) -> str:
        """What the far end needs to get, in one sentence."""
        ...

    @property
    def margin_unit(self) -> str:
        """The unit of its margin."""
        ...

    def judge(self, run: Run) -> Judgement:
        """Return the verdict on a run."""
        ...

    def margin_at(self, run: Run, lengths_m: FloatArray) -> MarginCurve | None:
        """Return the margin over ``lengths_m`` [m], shape (n_length,); None where there is none."""
        ...
