"""The way every signal judges a run: fitness, then what length uses up, then what else there is."""

from abc import ABC, abstractmethod

from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.signals.answer import judgement, not_computed
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.fitness import judge_fitness
from reelwright.core.signals.judgement import Judgement, MarginCurve, PhysicalReach
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Check, Reason, Source


class JudgedSignal(ABC):
    """A signal; each one says what it is and how a run uses up its limit."""

    @property
    @abstractmethod
    def name(self) -> str:
        """The signal in the trade's words."""

    @property
    @abstractmethod
    def needs(self) -> SignalNeeds:
        """What it asks of conductors and contacts."""

    @property
    @abstractmethod
    def families(self) -> tuple[Family, ...]:
        """The kinds of cable that can carry it."""

    @property
    @abstractmethod
    def check_name(self) -> str:
        """The name of the check it lives by."""

    @property
    @abstractmethod
    def check_source(self) -> Source:
        """Where the limit of that check comes from."""

    @property
    @abstractmethod
    def far_end(self) -> str:
        """What the far end needs to get, in one sentence."""

    @property
    def margin_unit(self) -> str:
        """The unit of its margin: decibels, unless a signal says otherwise."""
        return "dB"

    def possible(self, run: Run) -> PhysicalReach | None:
        """Return how far past the promised limit physics allows; None where that is not known."""
        del run
        return None

    @abstractmethod
    def budget(self, run: Run) -> Budget | Reason:
        """Return what a run uses up against the limit, or the reason why that is not known."""

    @abstractmethod
    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check the signal lives by."""

    def unknown(self, run: Run, reason: Reason) -> Check:
        """Return the check that stands in where there is no budget, and why there is none."""
        del run
        return not_computed(
            name=self.check_name,
            because=reason.sentence,
            source=self.check_source,
            unit=self.margin_unit,
        )

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return what else this signal asks of a run; nothing unless a signal says so."""
        del run
        return ()

    def checks_besides(self, run: Run) -> tuple[Check, ...]:
        """Return what can be judged even where there is no budget; nothing unless a signal does."""
        del run
        return ()

    def judge(self, run: Run) -> Judgement:
        """Return the verdict on a run."""
        fitness = judge_fitness(run, signal=self.name, needs=self.needs, families=self.families)
        budget = self.budget(run)
        known = isinstance(budget, Budget)
        return judgement(
            fitness=fitness,
            main=(
                self.main_check(run, budget)
                if isinstance(budget, Budget)
                else self.unknown(run, budget)
            ),
            further=(*(self.further_checks(run) if known else ()), *self.checks_besides(run)),
            budget=budget if isinstance(budget, Budget) else None,
            length=run.length,
            far_end=self.far_end,
            possible=self.possible(run) if known else None,
        )

    def margin_at(self, run: Run, lengths_m: FloatArray) -> MarginCurve | None:
        """Return the margin over ``lengths_m`` [m], shape (n_length,); None where there is none."""
        budget = self.budget(run)
        return budget.curve(lengths_m) if isinstance(budget, Budget) else None
