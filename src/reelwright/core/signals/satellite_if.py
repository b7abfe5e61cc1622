"""From a satellite head to the receiver: 950 to 2150 MHz down, the supply up the same cable."""

from dataclasses import dataclass

from reelwright.core.quantities.guard import require_finite, require_given
from reelwright.core.quantities.show import show_in
from reelwright.core.signals.level_signal import LevelSignal, Window
from reelwright.core.signals.run import Run
from reelwright.core.signals.supply_drop import Supply, SupplyStep
from reelwright.core.verdicts import Basis, Check, Outcome, Source

LOWEST_HZ = 950e6
"""Bottom [Hz] of what the head sends down."""

HIGHEST_HZ = 2150e6
"""Top [Hz] of what the head sends down."""

LEAST_DBUV = 47.0
"""Least level [dBµV] at the receiver."""

MOST_DBUV = 77.0
"""Highest level [dBµV] at the receiver."""

ADVISED_DBUV = 53.0
"""Level [dBµV] advised as the floor in practice: what lies between is left for rain."""

HEAD_MOST_DBUV = 95.0
"""No head gives more than this [dBµV] (common practice, no published source)."""

LARGEST_DIFFERENCE_DB = 15.0
"""Largest difference [dB] between channels at one outlet, 950 to 2150 MHz (from memory)."""

MOST_CURRENT_A = 0.5
"""Most current [A] that a receiver gives its head (EN 61319-1, from memory)."""

HEAD_STEPS = (
    SupplyStep(source_v=13.0, needed_v=11.5),
    SupplyStep(source_v=18.0, needed_v=16.0),
)
"""Two voltages choose between two polarisations, and each must arrive within its own band."""

HEAD_SOURCE = Source(
    text="EN 61319-1 and papers of heads: 11.5 V of 13 V, 16 V of 18 V at the head",
    basis=Basis.FROM_MEMORY,
)
"""Where the voltages come from."""

_LEVELS = Source(
    text=(
        "EN 60728-1, 47 to 77 dBµV for satellite, as a trade compendium gives it; 53 dBµV advised "
        "as the floor by a trade article"
    ),
    basis=Basis.PUBLISHED,
)


@dataclass(frozen=True, kw_only=True)
class SatelliteIf(LevelSignal):
    """A head feeding one receiver.

    ``head_level_dbuv`` [dBµV] at the head's output and ``head_current_a`` [A] that it takes; either
    is None where it is not known.
    """

    head_level_dbuv: float | None
    head_current_a: float | None

    name = "satellite"
    """The signal."""

    near_end = "the head"
    """Where the run begins."""

    near_most_dbuv = HEAD_MOST_DBUV
    """What it gives at most [dBµV]."""

    def __post_init__(self) -> None:
        if self.head_level_dbuv is not None:
            require_finite(self, "head_level_dbuv")
        require_given(self, "head_current_a")

    @property
    def near_level_dbuv(self) -> float | None:
        """Level at the head [dBµV]."""
        return self.head_level_dbuv

    @property
    def window(self) -> Window:
        """What the receiver takes."""
        return Window(
            low_hz=LOWEST_HZ,
            high_hz=HIGHEST_HZ,
            least_dbuv=LEAST_DBUV,
            most_dbuv=MOST_DBUV,
            guard_db=ADVISED_DBUV - LEAST_DBUV,
            slope_db=LARGEST_DIFFERENCE_DB,
            source=_LEVELS,
        )

    @property
    def supply(self) -> Supply:
        """The supply of the head, 13 V and 18 V."""
        return Supply(
            load="head",
            steps=HEAD_STEPS,
            current_a=self.head_current_a,
            most_current_a=MOST_CURRENT_A,
            source=HEAD_SOURCE,
        )

    def checks_besides(self, run: Run) -> tuple[Check, ...]:
        """Return slope, supply, a current beyond what receivers give, and ends that are not F."""
        return (*super().checks_besides(run), *self._current(), *_ends(run))

    def _current(self) -> tuple[Check, ...]:
        current = self.head_current_a
        if current is None or current <= MOST_CURRENT_A:
            return ()
        most = show_in(MOST_CURRENT_A * 1e3, "mA", decimals=0)
        return (
            Check(
                name="current of the head",
                outcome=Outcome.CAUTION,
                sentence=(
                    f"The head takes {show_in(current * 1e3, 'mA', decimals=0)}, and most "
                    f"receivers give {most} at most: please look whether yours gives more."
                ),
                source=Source(text="EN 61319-1: up to 500 mA", basis=Basis.FROM_MEMORY),
                value=current,
                limit=MOST_CURRENT_A,
                margin=MOST_CURRENT_A - current,
                unit="A",
            ),
        )


def _ends(run: Run) -> tuple[Check, ...]:
    others = dict.fromkeys(end for end in run.connectors if end.mating != "F")
    return tuple(
        Check(
            name=f"socket for {end.code}",
            outcome=Outcome.CAUTION,
            sentence=(
                f"Heads and receivers for satellite have F sockets; {end.name} ({end.code}) needs "
                "an adapter there."
            ),
            source=Source(text="F sockets on heads and receivers", basis=Basis.COMMON_PRACTICE),
            value=end.mating,
            limit="F",
            margin=None,
            unit="",
        )
        for end in others
    )
