"""What all signals on 75 Ω coax share: one conductor, a screen, a loss at one frequency."""

from abc import abstractmethod

from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.quantities.show import show_in
from reelwright.core.quantities.show_scaled import show_megahertz
from reelwright.core.signals.answer import not_computed
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.line_loss import LossLimit, judge_line_loss, loss_budget, loss_doubts
from reelwright.core.signals.practice import CONNECTOR_COUNTED_FROM_HZ, PRACTICE_SOURCE
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Check, Reason, Source


class CoaxSignal(JudgedSignal):
    """A signal on 75 Ω coax with a limit for its loss."""

    needs = SignalNeeds(
        legs=1, balanced=False, phantom_power=False, screen=True, impedance_ohm=75.0
    )
    """One conductor and a screen, 75 Ω."""

    families = (Family.COAX,)
    """Coax only."""

    @property
    @abstractmethod
    def limit(self) -> LossLimit:
        """The loss allowed, at the frequency that decides."""

    @property
    def check_name(self) -> str:
        """The loss, with its frequency."""
        return self.limit.check_name

    @property
    def check_source(self) -> Source:
        """Where the loss allowed comes from."""
        return self.limit.source

    def budget(self, run: Run) -> Budget | Reason:
        """Return the loss of the run against the limit."""
        return loss_budget(run, self.limit)

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the loss."""
        return judge_line_loss(run, self.limit, budget, signal=self.name)

    def unknown(self, run: Run, reason: Reason) -> Check:
        """Return that the loss is not computed, and why."""
        return super().unknown(
            run, Reason(code=reason.code, sentence=f"for {run.cable.code} {reason.sentence}")
        )

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return what is doubtful about the loss itself, and ends that were made for no line."""
        nominal = self.needs.impedance_ohm
        return (
            *loss_doubts(run, self.limit),
            *ends_of_no_impedance(
                run,
                signal=self.name,
                frequency_hz=self.limit.frequency_hz,
                nominal_ohm=75.0 if nominal is None else nominal,
            ),
        )


def ends_of_no_impedance(
    run: Run, *, signal: str, frequency_hz: float, nominal_ohm: float
) -> tuple[Check, ...]:
    """Return what is not known of ends made to no impedance, at ``frequency_hz`` [Hz].

    A plug short against the wave goes unnoticed; from 100 MHz up it is no longer short.
    ``nominal_ohm`` [Ω] is what ``signal`` wants from end to end.
    """
    if frequency_hz < CONNECTOR_COUNTED_FROM_HZ:
        return ()
    ends = [end for end in dict.fromkeys(run.connectors) if end.impedance_ohm is None]
    nominal = show_in(nominal_ohm, "Ω", decimals=0)
    return tuple(
        not_computed(
            name=f"impedance of {end.code}",
            because=(
                f"{end.name} ({end.code}) is made to no impedance, so what comes back from it at "
                f"{show_megahertz(frequency_hz)} is not known, and {signal} wants {nominal} "
                "from end to end: please look whether your sockets really take this plug"
            ),
            source=PRACTICE_SOURCE,
            unit="Ω",
        )
        for end in ends
    )
