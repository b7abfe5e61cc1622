"""Balanced digital audio on a 110 Ω pair: a length allowed by the standard, at the usual rates."""

from dataclasses import dataclass

from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.quantities.guard import require_positive
from reelwright.core.quantities.show import show_both, show_plain, show_plain_m
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.length_rule import length_budget
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

LONGEST_M = 100.0
"""Length [m] without an equaliser at frame rates up to 50 kHz, IEC 60958-4-4."""

HIGHEST_RATE_HZ = 50_000
"""The frame rate [Hz] up to which that length is stated."""

_SOURCE = Source(
    text="IEC 60958-4-4:2016, 100 m without equalisation at frame rates to 50 kHz",
    basis=Basis.STANDARD,
)
_NAME = "length"


@dataclass(frozen=True, kw_only=True)
class DigitalAudio110(JudgedSignal):
    """Balanced digital audio at ``sample_rate_hz`` [Hz]."""

    sample_rate_hz: int

    check_name = _NAME
    check_source = _SOURCE

    needs = SignalNeeds(
        legs=2, balanced=True, phantom_power=False, screen=True, impedance_ohm=110.0
    )
    """Two legs and a screen, 110 Ω."""

    families = (Family.PAIR,)
    """Balanced pairs only."""

    margin_unit = "m"
    """Metres."""

    def __post_init__(self) -> None:
        require_positive(self, "sample_rate_hz")

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return "A receiver terminated with 110\u202fΩ that gets 200\u202fmV or more."

    @property
    def name(self) -> str:
        """Balanced digital audio with its sample rate."""
        return f"balanced digital audio {self.sample_rate_hz / 1e3:g} kHz"

    def budget(self, run: Run) -> Budget | Reason:
        """Return the length against the standard's, or that it states none at this rate."""
        if self.sample_rate_hz > HIGHEST_RATE_HZ:
            return Reason(
                code="rate-beyond-the-rule",
                sentence=(
                    "the standard states a length up to 50\u202fkHz only; at "
                    f"{show_plain(self.sample_rate_hz / 1e3, 'kHz')} the loss of {run.cable.code} "
                    f"at {show_plain(128 * self.sample_rate_hz / 1e6, 'MHz')} is needed"
                ),
            )
        return length_budget(run, limit_m=LONGEST_M, used_m=lambda lengths_m: lengths_m)

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the length."""
        margin = budget.margin_at(run.length.mean_m)
        allowed = show_plain_m(LONGEST_M)
        return Check(
            name=_NAME,
            outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
            sentence=(
                f"{show_both(run.length.mean_m)} of {run.cable.code} "
                + (
                    f"is within the {allowed} that {self.name} may go without an equaliser, "
                    f"{show_plain_m(margin)} to spare."
                    if margin >= 0
                    else f"is {show_plain_m(-margin)} more than the {allowed} that {self.name} "
                    "may go without an equaliser."
                )
            ),
            source=_SOURCE,
            value=run.length.mean_m,
            limit=LONGEST_M,
            margin=margin,
            unit="m",
        )
