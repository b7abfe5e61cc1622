"""Unbalanced analogue audio: one conductor and a screen that is also the way back."""

from dataclasses import dataclass

from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.physics.lot_values import Stated
from reelwright.core.quantities.guard import require_given
from reelwright.core.signals.audio_band import AudioSignal, SourceResistance
from reelwright.core.signals.hum import CONSUMER_LINE, hum_checks
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Check

ASSUMED_SOURCE_OHM = 1000.0
"""Largest output resistance [Ω] of consumer line outputs: IEC 61938, from memory."""


@dataclass(frozen=True, kw_only=True)
class LineAudio(AudioSignal):
    """Unbalanced line level; ``source_ohm`` [Ω] is None where the customer did not state it."""

    source_ohm: float | None

    needs = SignalNeeds(
        legs=1, balanced=False, phantom_power=False, screen=True, impedance_ohm=None
    )
    """One conductor and a screen."""

    families = (Family.COAX, Family.PAIR)
    """Coax, or a screened pair of which one leg is used."""

    def __post_init__(self) -> None:
        require_given(self, "source_ohm")

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return (
            "An input of 10\u202fkΩ or more that gets the treble undulled by the capacitance of "
            "the cable."
        )

    @property
    def name(self) -> str:
        """Unbalanced line audio."""
        return "unbalanced line audio"

    @property
    def source(self) -> SourceResistance:
        """The stated output resistance, else the largest that consumer equipment should have."""
        if self.source_ohm is None:
            return SourceResistance(
                resistance_ohm=ASSUMED_SOURCE_OHM,
                assumed=True,
                why="the most a consumer line output should have, IEC 61938, from memory",
            )
        return SourceResistance(
            resistance_ohm=self.source_ohm, assumed=False, why="stated by the customer"
        )

    def between(self, cable: Cable) -> Stated:
        """Return conductor to screen; in a pair one core to all the rest."""
        return unbalanced_between(cable)

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return the hum, where the resistance of the screen is known."""
        return hum_checks(run, CONSUMER_LINE)


def unbalanced_between(cable: Cable) -> Stated:
    """Return which capacitance an unbalanced signal sees, pairs with one leg in use included."""
    if cable.family is Family.PAIR:
        return Stated.CAPACITANCE_TO_REST
    return Stated.CAPACITANCE
