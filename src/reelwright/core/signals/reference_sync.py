"""Video reference on 75 Ω coax: black burst, or tri-level sync of high definition."""

import enum
from dataclasses import dataclass

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.mismatch import Mismatch, bounds
from reelwright.core.quantities.show import show_both, show_db, show_plain
from reelwright.core.quantities.show_scaled import show_megahertz
from reelwright.core.signals.answer import told_longest
from reelwright.core.signals.budget import Budget, longest_within_m
from reelwright.core.signals.coax_signal import CoaxSignal
from reelwright.core.signals.line_loss import LossLimit, loss_budget
from reelwright.core.signals.run import Run
from reelwright.core.signals.termination import (
    BRIDGING_OHM,
    LINE_OHM,
    TAP_CAPACITANCE_F,
    Ending,
    FarEnd,
    delay_check,
    delay_s,
    termination_check,
)
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

SUBCARRIER_HZ = 4_433_618.75
"""Colour subcarrier [Hz] of the 625-line system, the higher of the two (ITU-R BT.470)."""

TRI_LEVEL_HZ = 30e6
"""Top [Hz] of the band that tri-level sync shares with high-definition component video."""

# Edges of 54 ns (SMPTE 274M, from memory) hold next to nothing above 0.35/54 ns.
_TRI_LEVEL_EDGE_HZ = 0.35 / 54e-9

LEVEL_LIMIT_DB = 3.0
"""Lowest level [dB below nominal] that reference inputs take (common practice)."""

TAP_RETURN_LOSS_DB = 20.0
"""Least return loss [dB] with all inputs on the way together (common practice)."""

_SOURCE = Source(
    text="reference inputs take 3 dB less than nominal; 0.5 dB held back",
    basis=Basis.COMMON_PRACTICE,
)
_RETURN_SOURCE = Source(
    text="20 dB with all bridging inputs together; 10 kΩ and 30 pF each",
    basis=Basis.COMMON_PRACTICE,
)
_DELAY_SOURCE = Source(
    text="reference generators are set in steps far finer than a line", basis=Basis.COMMON_PRACTICE
)
# A line of 625-line video and the shortest of high definition: what a generator can make up.
_LINE_S = {"black burst": 64e-6, "tri-level sync": 14.8e-6}


class ReferenceFormat(enum.StrEnum):
    """What is sent as reference."""

    BLACK_BURST = "black burst"
    TRI_LEVEL = "tri-level sync"


@dataclass(frozen=True, kw_only=True)
class ReferenceSync(CoaxSignal):
    """Black burst or tri-level sync on a line with that ``ending``."""

    format: ReferenceFormat
    ending: Ending

    def __post_init__(self) -> None:
        if not isinstance(self.format, ReferenceFormat):
            raise BadValue(
                owner="ReferenceSync",
                field="format",
                value=self.format,
                accepted=" or ".join(ReferenceFormat),
            )

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return (
            "A reference input that gets no less than 3\u202fdB below nominal; one termination of "
            "75\u202fΩ at the last input and nowhere else."
        )

    @property
    def name(self) -> str:
        """The format, and its ending where that is not the plain one."""
        return f"{self.format}{self.ending.words}"

    @property
    def limit(self) -> LossLimit:
        """What the level may lose on the way, the ending included."""
        black = self.format is ReferenceFormat.BLACK_BURST
        return LossLimit(
            frequency_hz=SUBCARRIER_HZ if black else TRI_LEVEL_HZ,
            limit_db=LEVEL_LIMIT_DB,
            guard_db=0.5,
            source=_SOURCE,
        )

    @property
    def check_name(self) -> str:
        """The level, with its frequency."""
        return f"level at {self._frequency}"

    @property
    def _frequency(self) -> str:
        return f"{self.limit.frequency_hz / 1e6:.4g} MHz"

    def budget(self, run: Run) -> Budget | Reason:
        """Return loss and ending together against what an input takes."""
        line = loss_budget(run, self.limit)
        if isinstance(line, Reason):
            return line
        # A level too high gives nothing away: how far it is too high is a check of its own.
        ending_db = max(0.0, self.ending.lost_db)

        def used(lengths_m: FloatArray) -> FloatArray:
            return line.used(lengths_m) + ending_db

        return Budget(
            limit=line.limit,
            used=used,
            spread=line.spread,
            length_relative_uncertainty=line.length_relative_uncertainty,
        )

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the level at the far end."""
        limit, length_m = self.limit, run.length.mean_m
        used, margin = budget.used_at(length_m), budget.margin_at(length_m)
        ending_db = max(0.0, self.ending.lost_db)
        twice = self.ending.far_end is FarEnd.TWICE
        if margin < 0:
            outcome = Outcome.BAD
        else:
            outcome = Outcome.GOOD if margin >= limit.guard_db else Outcome.CAUTION
        start = (
            f"Over {show_both(length_m)} of {run.cable.code} {self.format} arrives "
            f"{show_db(used)} weaker at {show_megahertz(round(limit.frequency_hz, -4))}"
        )
        if ending_db >= 0.05:
            what = "two terminations in parallel" if twice else "the inputs on the way"
            start += f", {show_db(ending_db)} of it through {what}"
        if margin >= limit.guard_db:
            end = f"; inputs take {show_plain(LEVEL_LIMIT_DB, 'dB')}."
        elif twice:
            end = f"; inputs take {show_plain(LEVEL_LIMIT_DB, 'dB')}. Take one termination off."
        else:
            end = (
                f"; inputs take {show_plain(LEVEL_LIMIT_DB, 'dB')}, of which we hold "
                f"{show_plain(limit.guard_db, 'dB')} back. "
                + told_longest(longest_within_m(budget, guard=limit.guard_db))
            )
        return Check(
            name=self.check_name,
            outcome=outcome,
            sentence=start + end,
            source=_SOURCE,
            value=used,
            limit=limit.limit_db,
            margin=margin,
            unit="dB",
        )

    @property
    def tap_return_loss_db(self) -> float | None:
        """Return loss [dB] of all inputs on the way, in phase at the worst; None without any.

        Of one, a shunt of admittance Y, Γ = −Y·Z/(2 + Y·Z): any text on lines.
        """
        if not self.ending.taps:
            return None
        black = self.format is ReferenceFormat.BLACK_BURST
        highest = SUBCARRIER_HZ if black else _TRI_LEVEL_EDGE_HZ
        across = 1 / BRIDGING_OHM + 2j * np.pi * highest * TAP_CAPACITANCE_F
        own = float(abs(across * LINE_OHM / (2 + across * LINE_OHM)))
        each = Mismatch(own_reflection=own, loss_before_db=0.0)
        return bounds([each] * self.ending.taps).worst_return_loss_db

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return end of the line, inputs on the way, delay and what is doubtful of the loss."""
        return (
            termination_check(run, self.ending),
            *self._taps(),
            *delay_check(
                run,
                limit_s=_LINE_S[self.format],
                of_what="a line of picture, which the generator makes up" + self._degrees(run),
                source=_DELAY_SOURCE,
            ),
            *super().further_checks(run),
        )

    def _degrees(self, run: Run) -> str:
        late = delay_s(run)
        if self.format is not ReferenceFormat.BLACK_BURST or late is None:
            return ""
        turn = 360 * late * SUBCARRIER_HZ
        return f" ({turn:.0f}° of the colour subcarrier)"

    def _taps(self) -> tuple[Check, ...]:
        found = self.tap_return_loss_db
        if found is None:
            return ()
        good = found >= TAP_RETURN_LOSS_DB
        count = self.ending.taps
        told = "The input" if count == 1 else f"All {count} inputs"
        return (
            Check(
                name="inputs on the way",
                outcome=Outcome.GOOD if good else Outcome.CAUTION,
                sentence=(
                    f"{told} on the way together send back {show_db(found)} less than they get in "
                    f"the worst case; {show_plain(TAP_RETURN_LOSS_DB, 'dB')} are usual"
                    + (
                        "."
                        if good
                        else ", so the picture reference may be disturbed: use a distribution "
                        "amplifier, or fewer inputs on T-pieces."
                    )
                ),
                source=_RETURN_SOURCE,
                value=found,
                limit=TAP_RETURN_LOSS_DB,
                margin=found - TAP_RETURN_LOSS_DB,
                unit="dB",
            ),
        )
