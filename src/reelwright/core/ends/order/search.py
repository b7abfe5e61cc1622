"""Whether an end can be assembled in an order that somebody proposes, and which step cannot."""

from collections.abc import Sequence
from dataclasses import dataclass

from reelwright.core.ends.order.assembly import operations_of
from reelwright.core.ends.order.joined import CLOSES
from reelwright.core.ends.order.operation import EndWork, Need, Operation, Ring, blocked_by
from reelwright.core.verdicts import Basis, Check, Outcome, Source

_GEOMETRY = Source(text="what passes over what, step by step", basis=Basis.COMPUTED)


@dataclass(frozen=True, kw_only=True)
class ProposedStep:
    """One step of a proposal: which end, and the code of its operation."""

    end: str
    code: str


def judge_order(
    works: Sequence[EndWork], proposed: Sequence[ProposedStep], *, other_end_made: bool = False
) -> tuple[Check, ...]:
    """Return, step by step, whether the proposal can be carried out, then what it leaves out.

    ``works``: the end, or both ends, of one cable. ``other_end_made``: with one end given, whether
    the other is made already, so that nothing can be slid on from there. A step that cannot be done
    is not done, and what rests on it falls with it.
    """
    bench = _Bench(works, other_end_made)
    return (*(bench.judge(step) for step in proposed), *bench.left_out())


class _Bench:
    """What has been done so far, on both ends."""

    def __init__(self, works: Sequence[EndWork], other_end_made: bool) -> None:
        self._works = {work.end: work for work in works}
        self._operations = {
            (each.end, each.code): each for work in works for each in operations_of(work)
        }
        self._done: set[tuple[str, str]] = set()
        self._failed: set[tuple[str, str]] = set()
        self._far_open = len(works) == 1 and not other_end_made

    def judge(self, step: ProposedStep) -> Check:
        operation = self._operations.get((step.end, step.code))
        if operation is None:
            return _check(step.end, step.code, Outcome.BAD, "this end has no such step")
        if (step.end, step.code) in self._done:
            return _check(step.end, operation.text, Outcome.BAD, "it is done already")
        outcome, told = self._try(operation)
        (self._failed if outcome is Outcome.BAD else self._done).add(
            (operation.end, operation.code)
        )
        return _check(operation.end, operation.text, outcome, told)

    def left_out(self) -> list[Check]:
        """One bad check for every operation that was never tried."""
        checks = []
        for key, operation in self._operations.items():
            if key in self._done | self._failed:
                continue
            told = "it is never done"
            ring = self._ring(operation)
            if ring is not None and not self._can_thread(operation.end, ring):
                told = f"it was not threaded first: {self._why_not(operation.end, ring)}"
            checks.append(_check(operation.end, operation.text, Outcome.BAD, told))
        return checks

    def _try(self, operation: Operation) -> tuple[Outcome, str]:
        ring = self._ring(operation)
        worst, told = Outcome.GOOD, "it can be done"
        if ring is not None:
            worst, told = self._thread(operation.end, ring)
        for need in operation.needs:
            outcome, said = self._need(operation, need)
            if outcome.rank > worst.rank:
                worst, told = outcome, said
        return worst, told

    def _thread(self, end: str, ring: Ring) -> tuple[Outcome, str]:
        if not self._can_thread(end, ring):
            return Outcome.BAD, self._why_not(end, ring)
        work = self._works[end]
        if self._closed(end) and not ring.passes(work.widest_m):
            return Outcome.CAUTION, "it comes from the other end, which is still open"
        late = [
            need.because
            for each in self._operations.values()
            if each.end == end and (end, each.code) in self._done
            for need in each.needs
            if need.code == f"thread {ring.name}" and not need.must
        ]
        if late:
            return Outcome.CAUTION, f"it comes late: {late[0]}"
        return Outcome.GOOD, "it can be done"

    def _need(self, operation: Operation, need: Need) -> tuple[Outcome, str]:
        if (operation.end, need.code) in self._done:
            return Outcome.GOOD, "it can be done"
        waiting = self._operations[operation.end, need.code]
        told = f"{waiting.text} comes first: {need.because}"
        closes = operation.code == CLOSES[self._works[operation.end].method]
        ring = self._ring(waiting)
        if not need.must:
            return Outcome.CAUTION, told
        if closes and ring is not None and self._open_elsewhere(operation.end, ring):
            return Outcome.CAUTION, f"{told}; now it can only come from the other end"
        return Outcome.BAD, told

    def _ring(self, operation: Operation) -> Ring | None:
        if not operation.threads:
            return None
        rings = self._works[operation.end].rings
        return next(ring for ring in rings if operation.code == f"thread {ring.name}")

    def _closed(self, end: str) -> bool:
        return (end, CLOSES[self._works[end].method]) in self._done

    def _can_thread(self, end: str, ring: Ring) -> bool:
        work = self._works[end]
        own = not self._closed(end) or ring.passes(work.widest_m)
        return own or self._open_elsewhere(end, ring)

    def _open_elsewhere(self, end: str, ring: Ring) -> bool:
        if self._far_open:
            return True
        return any(
            not self._closed(other) or ring.passes(work.widest_m)
            for other, work in self._works.items()
            if other != end
        )

    def _why_not(self, end: str, ring: Ring) -> str:
        return (
            f"{blocked_by(ring, self._works[end])}, and the other end is made: cut this end off "
            "and make it again"
        )


def _check(end: str, step: str, outcome: Outcome, told: str) -> Check:
    return Check(
        name=f"end {end}: {step}",
        outcome=outcome,
        sentence=f"{step}: {told}",
        source=_GEOMETRY,
        value=None,
        limit=None,
        margin=None,
        unit="",
    )
