"""One cable of the catalogue tried on a question: sorted out cheaply, judged on demand."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

from reelwright.core.advice.question import CatalogueCable, Question
from reelwright.core.ends.fit.logic import judge_logic
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.run import Run
from reelwright.core.signals.signal import Signal
from reelwright.core.signals.space import rules_out
from reelwright.core.verdicts import Outcome

SURE_CHANCE = 0.99
"""A run is chosen or proposed as sure from this chance [1] of keeping its limit (common practice,
no published source)."""


def budget_of(signal: Signal, run: Run) -> Budget | None:
    """Return what the run uses up of the signal's limit; None where that is not known."""
    if not isinstance(signal, JudgedSignal):
        return None
    budget = signal.budget(run)
    return budget if isinstance(budget, Budget) else None


@dataclass(frozen=True, kw_only=True)
class Tried:
    """A run on a cable of the catalogue, for one signal; what is costly is done when asked for."""

    entry: CatalogueCable
    signal: Signal
    run: Run

    @cached_property
    def budget(self) -> Budget | None:
        """What the run uses up; None where the signal's limit or the cable's value is not known."""
        return budget_of(self.signal, self.run)

    @property
    def promising(self) -> bool:
        """Whether nothing that is cheap to know speaks against it: kind of cable, limit."""
        if self.run.cable.family not in self.signal.families:
            return False
        budget = self.budget
        return budget is None or budget.margin_at(self.run.length.mean_m) >= 0

    @cached_property
    def judgement(self) -> Judgement:
        """The verdict on the run."""
        return self.signal.judge(self.run)

    @property
    def works(self) -> bool:
        """Whether every check of the run ends well."""
        return self.promising and self.judgement.verdict.works

    @property
    def sure(self) -> bool:
        """Whether the guard is kept, and the limit with 99 % chance as well."""
        return is_sure(self.judgement)

    @property
    def doubt(self) -> int:
        """0 where it is sure and nothing is said against it, 1 with a caution, 2 where not sure."""
        if not self.sure:
            return 2
        return int(self.judgement.verdict.outcome is not Outcome.GOOD)

    @property
    def margin(self) -> float:
        """What the signal's own check leaves, in its unit; minus infinity where not a number."""
        margin = self.judgement.verdict.checks[0].margin
        return float("-inf") if margin is None else margin


def surest(found: Iterable[Tried], *, own: str | None) -> Tried:
    """Return the cable of code ``own`` where it is among them, else the surest with most to spare.

    Raises ValueError for none at all.
    """
    return max(
        found,
        key=lambda each: (
            each.run.cable.code == own,
            -each.doubt,
            each.margin,
            each.run.cable.code,
        ),
    )


def is_sure(judgement: Judgement) -> bool:
    """Return whether the guard is kept, and the limit with 99 % chance as well."""
    main, chance = judgement.verdict.checks[0], judgement.chance_within_limit
    kept = main.outcome is Outcome.GOOD or main.margin is None
    return judgement.verdict.works and kept and (chance is None or chance >= SURE_CHANCE)


def try_all(question: Question) -> tuple[Tried, ...]:
    """Return every cable that takes both ends and that logic and jacket allow, in their order.

    A class that is asked for excludes every cable not known to have it; a space that is not known,
    or that no class answers for, excludes none. Nor does the kind of cable, so that a "no" can
    name it.
    """
    found = (try_one(question, entry) for entry in question.catalogue)
    return tuple(each for each in found if each is not None)


def try_one(question: Question, entry: CatalogueCable) -> Tried | None:
    """Return the question's run on one cable; None where ends, logic or jacket forbid it."""
    place = question.space
    if place is not None and rules_out(entry.cable, place):
        return None
    end_a, end_b = entry.connector(question.ends[0]), entry.connector(question.ends[1])
    if end_a is None or end_b is None:
        return None
    if judge_logic(
        cable=entry.cable, connector_a=end_a, connector_b=end_b, needs=question.signal.needs
    ):
        return None
    return Tried(
        entry=entry,
        signal=question.signal,
        run=Run(
            cable=entry.cable,
            lot=entry.lot,
            length=question.length,
            temperature_celsius=question.temperature_celsius,
            connectors=(end_a, end_b),
            adapters=question.adapters,
        ),
    )


def carriers(question: Question) -> tuple[Tried, ...]:
    """Return every cable that carries the question's signal, in the catalogue's order.

    Whatever kind of cable or limit rules out is left out by its budget alone; only the rest is
    judged.
    """
    return tuple(each for each in try_all(question) if each.works)


def asked_tried(question: Question) -> Tried | None:
    """Return the run asked for as one that was tried, or None where it cannot be made."""
    asked = question.asked
    if asked is None or not question.asked_is_there:
        return None
    entry = next(each for each in question.catalogue if each.cable.code == asked.cable.code)
    ends = (asked.connectors[0].code,), (asked.connectors[1].code,)
    tried = try_one(replace(question, ends=ends), entry)
    # The reel that was asked for stays the reel.
    return None if tried is None else replace(tried, run=asked)
