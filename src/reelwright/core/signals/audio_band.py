"""Treble lost in an audio cable: a source resistance against the cable's capacitance."""

from abc import abstractmethod
from dataclasses import dataclass

from reelwright.core.parts.cable import Cable
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.audio import droop_db
from reelwright.core.physics.spread import BOOK_CAPACITANCE_SPREAD
from reelwright.core.quantities.guard import require_positive, require_text
from reelwright.core.quantities.show import show_both, show_both_whole, show_db, show_in, show_plain
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.direct_current import spread_per_length
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

TOP_HZ = 20e3
"""Top of the audio band [Hz]."""

DROOP_LIMIT_DB = 0.5
"""Largest loss [dB] at the top of the band (common practice)."""

# From here on nobody calls it slight (common practice).
_PLAINLY_DULL_DB = 3.0

_SOURCE = Source(text="at most 0.5 dB at 20 kHz", basis=Basis.COMMON_PRACTICE)
_NAME = "treble lost at 20 kHz"


@dataclass(frozen=True, kw_only=True)
class SourceResistance:
    """The resistance [Ω] that feeds the cable; ``assumed`` where the customer did not state it."""

    resistance_ohm: float
    assumed: bool
    why: str

    def __post_init__(self) -> None:
        require_positive(self, "resistance_ohm")
        require_text(self, "why")


class AudioSignal(JudgedSignal):
    """An analogue audio signal, judged by the treble its cable takes away."""

    check_name = _NAME
    check_source = _SOURCE

    @property
    @abstractmethod
    def source(self) -> SourceResistance:
        """What feeds the cable."""

    @abstractmethod
    def capacitance_f_per_m(self, cable: Cable) -> float | None:
        """Return the capacitance [F/m] the source sees; None where it is not stated."""

    def budget(self, run: Run) -> Budget | Reason:
        """Return the treble lost at 20 kHz against the usual half decibel."""
        per_metre = self.capacitance_f_per_m(run.cable)
        if per_metre is None:
            return Reason(
                code="capacitance-missing",
                sentence=f"the capacitance of {run.cable.code} is not stated",
            )

        def used(lengths_m: FloatArray) -> FloatArray:
            return droop_db(
                source_ohm=self.source.resistance_ohm,
                capacitance_f=per_metre * lengths_m,
                frequency_hz=TOP_HZ,
            )

        return Budget(
            limit=DROOP_LIMIT_DB,
            used=used,
            spread=spread_per_length(used, spread=BOOK_CAPACITANCE_SPREAD),
            length_relative_uncertainty=run.length_relative_uncertainty,
        )

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the treble lost."""
        lost = budget.used_at(run.length.mean_m)
        margin = budget.margin_at(run.length.mean_m)
        per_metre = self.capacitance_f_per_m(run.cable) or 0.0
        capacitance = show_quantity(per_metre * run.length.mean_m, "F")
        source = show_in(self.source.resistance_ohm, "Ω", decimals=0)
        fed = f"a source of {source}"
        if self.source.assumed:
            fed += f" (assumed: {self.source.why})"
        longest = budget.length_at_m(0.5)
        amount = show_db(lost)
        ending = (
            f"well within the {show_plain(DROOP_LIMIT_DB, 'dB')} usually allowed."
            if margin >= 0
            else f"more than the {show_plain(DROOP_LIMIT_DB, 'dB')} usually allowed: "
            + ("slightly dull." if lost < _PLAINLY_DULL_DB else "dull.")
            + ("" if longest is None else f" It holds up to {show_both_whole(longest)}.")
        )
        return Check(
            name=_NAME,
            outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
            sentence=(
                f"{show_both(run.length.mean_m)} of {run.cable.code} has {capacitance}; from "
                f"{fed} it takes {amount} off the treble at 20\u202fkHz, {ending}"
            ),
            source=_SOURCE,
            value=lost,
            limit=DROOP_LIMIT_DB,
            margin=margin,
            unit="dB",
        )
