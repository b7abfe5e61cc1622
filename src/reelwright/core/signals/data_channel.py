"""Category data cabling, judged by the length rule of a channel and by nothing else."""

from dataclasses import dataclass

from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.quantities.show import show_both, show_plain_m
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.length_rule import length_budget
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

CHANNEL_M = 100.0
"""A whole channel [m]: 90 m fixed and solid, 10 m of stranded cords."""

CORDS_M = 10.0
"""All stranded cords of one channel together [m]."""

STRANDED_LOSS_FACTOR = 1.2
"""Loss of stranded cord over solid cable of the same length [1]."""

_SOURCE = Source(
    text="ISO/IEC 11801-1 and ANSI/TIA-568.2-D: 100 m channel with 10 m of cords, 20 % more loss",
    basis=Basis.FROM_MEMORY,
)
_NAME = "length of the channel"
_SOLID_EQUIVALENT_M = CHANNEL_M - CORDS_M + STRANDED_LOSS_FACTOR * CORDS_M
_ONLY_LENGTH = (
    "Only the length is judged: crosstalk and return loss show in a test of the finished cable."
)


@dataclass(frozen=True, kw_only=True)
class DataChannel(JudgedSignal):
    """A data channel on four pairs."""

    check_name = _NAME
    check_source = _SOURCE

    needs = SignalNeeds(
        legs=8, balanced=True, phantom_power=False, screen=False, impedance_ohm=None
    )
    """Four pairs, 100 Ω; a screen is not asked for."""

    families = (Family.DATA,)
    """Data pairs only."""

    margin_unit = "m"
    """Metres of solid cable of the same loss."""

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return (
            "A port that finds the loss, echoes, crosstalk and delay of a whole channel within its "
            "category."
        )

    @property
    def name(self) -> str:
        """Category data."""
        return "category data"

    def budget(self, run: Run) -> Budget | Reason:
        """Return the run as metres of solid cable of the same loss, against a whole channel."""
        factor = 1.0 if run.cable.solid_conductor else STRANDED_LOSS_FACTOR
        return length_budget(
            run, limit_m=_SOLID_EQUIVALENT_M, used_m=lambda lengths_m: factor * lengths_m
        )

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the length, as a cord or as a channel of its own."""
        margin = budget.margin_at(run.length.mean_m)
        length = show_both(run.length.mean_m)
        stranded = not run.cable.solid_conductor
        if margin < 0:
            outcome = Outcome.BAD
            sentence = (
                f"{length} of {run.cable.code} loses more than a whole channel of "
                f"{show_plain_m(CHANNEL_M)} may."
            )
        elif stranded and run.length.mean_m > CORDS_M:
            outcome = Outcome.CAUTION
            sentence = (
                f"{length} of stranded {run.cable.code} is more than the "
                f"{show_plain_m(CORDS_M)} of cords that a channel may hold; it may stand only "
                "as a whole channel by itself, with nothing fixed in between."
            )
        else:
            outcome = Outcome.GOOD
            sentence = f"{length} of {run.cable.code} is within the rule for " + (
                f"cords, {show_plain_m(CORDS_M)} in one channel."
                if stranded
                else f"a channel of {show_plain_m(CHANNEL_M)}."
            )
        return Check(
            name=_NAME,
            outcome=outcome,
            sentence=f"{sentence} {_ONLY_LENGTH}",
            source=_SOURCE,
            value=budget.used_at(run.length.mean_m),
            limit=budget.limit,
            margin=margin,
            unit="m",
        )
