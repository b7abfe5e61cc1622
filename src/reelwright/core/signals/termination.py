"""How a 75 Ω clock or reference line ends, and the inputs that bridge it on its way."""

import enum
from dataclasses import dataclass

import numpy as np

from reelwright.core.physics.lot_values import Stated, known_value
from reelwright.core.quantities.guard import require_count, require_text
from reelwright.core.quantities.show import show_both, show_plain
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

LINE_OHM = 75.0
"""Impedance [Ω] of the line, of its source and of one termination."""

BRIDGING_OHM = 10_000.0
"""Resistance [Ω] of an input that bridges the line without ending it (common practice)."""

TAP_CAPACITANCE_F = 30e-12
"""Capacitance [F] of a T-piece with the input on it (common practice)."""

TERMINATION_NAME = "end of the line"
PRACTICE = Source(
    text=(
        "one termination of 75 Ω, at the last input; inputs on the way bridge with 10 kΩ and 30 pF "
        "each"
    ),
    basis=Basis.COMMON_PRACTICE,
)


class FarEnd(enum.StrEnum):
    """What stands across the last input."""

    TERMINATED = "terminated"
    OPEN = "not terminated"
    TWICE = "terminated twice"


@dataclass(frozen=True, kw_only=True)
class Ending:
    """The end of a line and how many inputs bridge it on the way there, on T-pieces."""

    far_end: FarEnd
    taps: int

    def __post_init__(self) -> None:
        require_text(self, "far_end")
        require_count(self, "taps")

    @property
    def load_ohm(self) -> float:
        """All that stands across the line for a steady level [Ω]."""
        terminations = {FarEnd.TERMINATED: 1, FarEnd.OPEN: 0, FarEnd.TWICE: 2}[self.far_end]
        # The last input bridges as well: without a termination it is all that is left.
        return 1 / (terminations / LINE_OHM + (self.taps + 1) / BRIDGING_OHM)

    @property
    def level_ratio(self) -> float:
        """Level at the end over that across one termination alone [1], the line left out."""
        return 2 * self.load_ohm / (self.load_ohm + LINE_OHM)

    @property
    def lost_db(self) -> float:
        """What the ending takes from the level [dB]; below zero where it is too high."""
        return float(-20 * np.log10(self.level_ratio))

    @property
    def words(self) -> str:
        """The ending in brackets, as a name tells it; nothing for one termination and no inputs."""
        told = [] if self.far_end is FarEnd.TERMINATED else [str(self.far_end)]
        if self.taps:
            told.append(f"{self.taps} input{'s' if self.taps > 1 else ''} on the way")
        return f" ({', '.join(told)})" if told else ""


def delay_s(run: Run) -> float | None:
    """Return the delay of a run [s], of its line or by impedance and capacitance; None: unknown."""
    per_metre = known_value(run.cable, run.lot, Stated.DELAY)
    if per_metre is not None:
        return per_metre.value * run.length.mean_m
    impedance = known_value(run.cable, run.lot, Stated.IMPEDANCE)
    capacitance = known_value(run.cable, run.lot, Stated.CAPACITANCE)
    if impedance is None or capacitance is None:
        return None
    return impedance.value * capacitance.value * run.length.mean_m


def termination_check(run: Run, ending: Ending) -> Check:
    """Return what the ending does to the wave; value and limit say what stands there."""
    one = show_plain(LINE_OHM, "Ω")
    stands = {FarEnd.TERMINATED: one, FarEnd.OPEN: "open", FarEnd.TWICE: f"2 × {one}"}
    sentences = {
        FarEnd.TERMINATED: "The line ends in one termination of 75\u202fΩ, as it must.",
        FarEnd.TWICE: (
            "Two terminations of 75\u202fΩ stand in parallel: a third of the level is lost and a "
            "third of the wave comes back. Take one off; only the last input is terminated."
        ),
        FarEnd.OPEN: (
            "The far end is not terminated: the level there doubles and the whole wave comes back"
            + _plateau(run, ending)
            + ". Switch on the 75\u202fΩ of the last input, or plug a terminator beside it."
        ),
    }
    good = ending.far_end is FarEnd.TERMINATED
    return Check(
        name=TERMINATION_NAME,
        outcome=Outcome.GOOD if good else Outcome.CAUTION,
        sentence=sentences[ending.far_end],
        source=PRACTICE,
        value=stands[ending.far_end],
        limit=one,
        margin=None,
        unit="",
    )


def _plateau(run: Run, ending: Ending) -> str:
    late = delay_s(run)
    if not ending.taps or late is None:
        return ""
    there_and_back = show_quantity(2 * late, "s", digits=2)
    return f", so an input on the way stands at half the level for up to {there_and_back}"


def delay_check(run: Run, *, limit_s: float, of_what: str, source: Source) -> tuple[Check, ...]:
    """Return how late the far end is, against ``limit_s`` [s]; nothing where it is not known.

    ``of_what`` says what the limit is, as in "5 % of a sample".
    """
    late = delay_s(run)
    if late is None:
        return ()
    good = late <= limit_s
    return (
        Check(
            name="delay",
            outcome=Outcome.GOOD if good else Outcome.CAUTION,
            sentence=(
                f"Over {show_both(run.length.mean_m)} the far end is "
                f"{show_quantity(late, 's')} later than the source; "
                f"{show_quantity(limit_s, 's')} are allowed, {of_what}"
                + ("." if good else ": set the far equipment earlier, or feed all by one length.")
            ),
            source=source,
            value=late * 1e9,
            limit=limit_s * 1e9,
            margin=(limit_s - late) * 1e9,
            unit="ns",
        ),
    )
