"""Balanced analogue audio: two legs alike inside a screen, for microphones and line level."""

import enum
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.physics.lot_values import Stated
from reelwright.core.signals.audio_band import AudioSignal, SourceResistance
from reelwright.core.signals.balanced_checks import (
    EARTHED_AT_BOTH_ENDS,
    STANDING_MICROPHONE,
    phantom_checks,
    screen_noise_checks,
)
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Check


class Level(enum.StrEnum):
    """What feeds the line."""

    MICROPHONE = "microphone"
    LINE = "line"


_SOURCE_OHM = {Level.MICROPHONE: 200.0, Level.LINE: 100.0}


@dataclass(frozen=True, kw_only=True)
class BalancedAudio(AudioSignal):
    """Balanced audio; ``phantom_power`` where the microphone is supplied over the same legs."""

    level: Level
    phantom_power: bool

    families = (Family.PAIR,)
    """Balanced pairs only."""

    def __post_init__(self) -> None:
        if self.phantom_power and self.level is not Level.MICROPHONE:
            raise BadValue(
                owner="BalancedAudio",
                field="phantom_power",
                value=True,
                accepted="only with a microphone",
            )

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return (
            "A balanced input of ten times the output resistance or more (common practice), with "
            "both legs alike."
        )

    @property
    def name(self) -> str:
        """Balanced audio with its level."""
        supply = " with phantom power" if self.phantom_power else ""
        return f"balanced {self.level} audio{supply}"

    @property
    def source(self) -> SourceResistance:
        """The usual output resistance; nobody states it with an order."""
        return SourceResistance(
            resistance_ohm=_SOURCE_OHM[self.level],
            assumed=True,
            why=f"usual for a {self.level} output, IEC 61938, from memory",
        )

    @property
    def needs(self) -> SignalNeeds:
        """Two legs and a screen."""
        return SignalNeeds(
            legs=2,
            balanced=True,
            phantom_power=self.phantom_power,
            screen=True,
            impedance_ohm=None,
        )

    def between(self, cable: Cable) -> Stated:
        """Return core to core, which is what a balanced source sees."""
        del cable
        return Stated.CAPACITANCE

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return the volts of the supply and the noise of the screen, where they are known."""
        microphone = self.level is Level.MICROPHONE
        return (
            *(phantom_checks(run) if self.phantom_power else ()),
            *screen_noise_checks(
                run,
                STANDING_MICROPHONE if microphone else EARTHED_AT_BOTH_ENDS,
                source_ohm=self.source.resistance_ohm,
            ),
        )
