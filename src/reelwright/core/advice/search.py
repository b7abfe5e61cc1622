"""The whole catalogue tried on one question, and what would fix it, the smallest change first."""

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass

from reelwright.core.advice import (
    balanced,
    cooler,
    fewer_adapters,
    line_voltage,
    other_cable,
    other_ends,
    other_medium,
    other_rate,
    other_source,
    shorter,
    split,
    supply_voltage,
    terminate,
)
from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.pareto import front_of_changes
from reelwright.core.advice.question import Question
from reelwright.core.advice.tried import Tried, asked_tried
from reelwright.core.verdicts import Outcome

_Propose = Callable[[Question], Iterator[Change]]

_WAYS: tuple[tuple[frozenset[Kind], _Propose], ...] = (
    (frozenset({Kind.FEWER_ADAPTERS}), fewer_adapters.propose),
    (frozenset({Kind.OTHER_CABLE, Kind.THICKER_CONDUCTOR}), other_cable.propose),
    (frozenset({Kind.TERMINATED}), terminate.propose),
    (frozenset({Kind.OTHER_ENDS}), other_ends.propose),
    (frozenset({Kind.SHORTER}), shorter.propose),
    (frozenset({Kind.COOLER}), cooler.propose),
    (frozenset({Kind.FEWER_WATTS}), line_voltage.propose_watts),
    (frozenset({Kind.HIGHER_VOLTAGE}), line_voltage.propose_voltage),
    (frozenset({Kind.HIGHER_VOLTAGE}), supply_voltage.propose),
    (frozenset({Kind.OTHER_SOURCE}), other_source.propose),
    (frozenset({Kind.SPLIT}), split.propose),
    (frozenset({Kind.BALANCED}), balanced.propose),
    (frozenset({Kind.OTHER_RATE}), other_rate.propose),
    (frozenset({Kind.OTHER_MEDIUM}), other_medium.propose),
)
ALL_KINDS = frozenset(Kind)
"""Every kind of change there is."""


@dataclass(frozen=True, kw_only=True)
class Advice:
    """The run as asked for, where it can be made at all, and the changes that make it better.

    ``changes`` are in the order of their bother, each with its own verdict, none of them dominated
    by another of its kind; empty where the run is sure as it is, or nothing here helps.
    """

    asked: Tried | None
    changes: tuple[Change, ...]

    def of(self, *kinds: Kind) -> tuple[Change, ...]:
        """Return the changes of these kinds, in their order."""
        return tuple(each for each in self.changes if each.kind in kinds)


def advise(question: Question, *, kinds: Collection[Kind] = ALL_KINDS) -> Advice:
    """Return what would make a run work that fails, is in doubt, or only just works.

    Of each kind those that are sure, where one is; then what no other of its kind beats in size,
    price per metre, margin, outside diameter and mass together; the smallest change first.
    """
    asked = asked_tried(question)
    if asked is not None and asked.sure and asked.judgement.verdict.outcome is Outcome.GOOD:
        return Advice(asked=asked, changes=())
    found: list[Change] = []
    for of_kinds, propose in _WAYS:
        if of_kinds.isdisjoint(kinds):
            continue
        better = [
            each for each in propose(question) if each.kind in kinds and _improves(each, asked)
        ]
        if Kind.OTHER_CABLE in of_kinds:
            better = other_cable.without_idle_jackets(better)
        found += [each for each in better if each.tried.sure] or better
    return Advice(
        asked=asked,
        changes=tuple(sorted(front_of_changes(found), key=lambda change: change.rank)),
    )


def _improves(change: Change, asked: Tried | None) -> bool:
    """Whether the change leads to a run that works, and works better than the one asked for."""
    own = change.judgement.verdict
    if not own.works:
        return False
    if asked is None or not asked.judgement.verdict.works:
        return True
    before = asked.judgement.verdict.outcome
    if own.outcome is not before:
        return own.outcome.rank < before.rank
    # What is said against a run that is sure is no matter of margin: more of it mends nothing.
    if asked.sure:
        return False
    if change.signal.name != asked.signal.name:
        return change.tried.sure
    return change.tried.margin > asked.margin
