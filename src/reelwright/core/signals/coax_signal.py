"""What all signals on 75 Ω coax share: one conductor, a screen, a loss at one frequency."""

from abc import abstractmethod

from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.signals.answer import not_computed
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.line_loss import LossLimit, judge_line_loss, loss_budget, loss_doubts
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Check, Reason


class CoaxSignal(JudgedSignal):
    """A signal on 75 Ω coax with a limit for its loss."""

    @property
    @abstractmethod
    def limit(self) -> LossLimit:
        """The loss allowed, at the frequency that decides."""

    @property
    def needs(self) -> SignalNeeds:
        """One conductor and a screen, 75 Ω."""
        return SignalNeeds(
            legs=1, balanced=False, phantom_power=False, screen=True, impedance_ohm=75.0
        )

    @property
    def families(self) -> tuple[Family, ...]:
        """Coax only."""
        return (Family.COAX,)

    @property
    def margin_unit(self) -> str:
        """Decibels."""
        return "dB"

    def budget(self, run: Run) -> Budget | Reason:
        """Return the loss of the run against the limit."""
        return loss_budget(run, self.limit)

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the loss."""
        return judge_line_loss(run, self.limit, budget, signal=self.name)

    def unknown(self, run: Run, reason: Reason) -> Check:
        """Return that the loss is not computed, and why."""
        return not_computed(
            name=self.limit.check_name,
            because=f"for {run.cable.code} {reason.sentence}",
            source=self.limit.source,
            unit="dB",
        )

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return what is doubtful about the loss itself."""
        return loss_doubts(run, self.limit)
