"""Cable television: the level at the outlet, less the cable's loss, within what a tuner takes."""

import enum
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_finite, require_positive
from reelwright.core.quantities.show import show_plain
from reelwright.core.signals.level_signal import OUTLET_SOURCE, LevelSignal, Window
from reelwright.core.signals.practice import GUARD_DB
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

LOWEST_CHANNEL_HZ = 47e6
"""Bottom [Hz] of the band of cable television (the way back to the network lies below)."""

HIGHEST_CHANNEL_HZ = 862e6
"""Top [Hz] of the band of cable television."""

HIGHEST_EVER_HZ = 1218e6
"""Top [Hz] of the highest channel that any network uses (from memory)."""

LARGEST_DIFFERENCE_DB = 12.0
"""Largest difference [dB] between channels at one outlet, 47 to 862 MHz (from memory)."""

UNITED_STATES_LOWEST_HZ = 54e6
"""Bottom [Hz] of the band in the United States (channel 2)."""

DROP_LEVEL_DBUV = 63.0
"""What an operator in the United States owes at the end of a drop of 30 m [dBµV]: 3 dBmV."""

_RULE = Source(
    text="47 CFR 76.605(a)(3), edition of 2014: 0 dBmV at the terminal", basis=Basis.PUBLISHED
)


class Channels(enum.StrEnum):
    """The kinds of channels, which decide the level a tuner wants; each with the signal's name."""

    DIGITAL = "cable television"
    ANALOGUE = "analogue cable television"
    UNITED_STATES = "cable television by the rule of the United States"


# (least, most) in dBµV; the rule of the United States states no figure for the most.
_LEVELS: dict[Channels, tuple[float, float | None]] = {
    Channels.DIGITAL: (54.0, 74.0),
    Channels.ANALOGUE: (60.0, 77.0),
    Channels.UNITED_STATES: (60.0, None),
}


@dataclass(frozen=True, kw_only=True)
class CableTelevision(LevelSignal):
    """Cable television; ``outlet_level_dbuv`` [dBµV] is None where the outlet was not measured.

    ``highest_hz`` [Hz] is the top of the highest channel in use.
    """

    outlet_level_dbuv: float | None
    channels: Channels
    highest_hz: float

    near_end = "your outlet"
    """Where the run begins."""

    def __post_init__(self) -> None:
        require_positive(self, "highest_hz")
        if self.outlet_level_dbuv is not None:
            require_finite(self, "outlet_level_dbuv")
        if not UNITED_STATES_LOWEST_HZ < self.highest_hz <= HIGHEST_EVER_HZ:
            raise BadValue(
                owner="CableTelevision",
                field="highest_hz",
                value=self.highest_hz,
                accepted=f"above {UNITED_STATES_LOWEST_HZ:g}, up to {HIGHEST_EVER_HZ:g}",
            )

    @property
    def name(self) -> str:
        """Cable television, with its channels where they are not the usual digital ones."""
        return str(self.channels)

    @property
    def near_level_dbuv(self) -> float | None:
        """Level at the outlet [dBµV]."""
        return self.outlet_level_dbuv

    @property
    def near_most_dbuv(self) -> float | None:
        """What an outlet may give at most is what a tuner may get [dBµV]."""
        return _LEVELS[self.channels][1]

    @property
    def window(self) -> Window:
        """What the tuner takes, by the kind of channel."""
        least, most = _LEVELS[self.channels]
        american = self.channels is Channels.UNITED_STATES
        return Window(
            low_hz=UNITED_STATES_LOWEST_HZ if american else LOWEST_CHANNEL_HZ,
            high_hz=self.highest_hz,
            least_dbuv=least,
            most_dbuv=most,
            guard_db=GUARD_DB,
            slope_db=LARGEST_DIFFERENCE_DB,
            source=_RULE if american else OUTLET_SOURCE,
        )

    def checks_besides(self, run: Run) -> tuple[Check, ...]:
        """Return slope, and in the United States what the operator owes at the drop."""
        return (*self._owed(), *super().checks_besides(run))

    def _owed(self) -> tuple[Check, ...]:
        level = self.outlet_level_dbuv
        if self.channels is not Channels.UNITED_STATES or level is None or level >= DROP_LEVEL_DBUV:
            return ()
        return (
            Check(
                name="level the operator owes",
                outcome=Outcome.CAUTION,
                sentence=(
                    f"Your outlet gives {show_plain(level, 'dBµV')}. If it is the end of the "
                    f"operator's drop, {show_plain(DROP_LEVEL_DBUV, 'dBµV')} (3\u202fdBmV) are "
                    "owed there: ask the operator first."
                ),
                source=Source(
                    text="47 CFR 76.605(a)(3), edition of 2014: 3 dBmV at the end of a 30 m drop",
                    basis=Basis.PUBLISHED,
                ),
                value=level,
                limit=DROP_LEVEL_DBUV,
                margin=level - DROP_LEVEL_DBUV,
                unit="dBµV",
            ),
        )
