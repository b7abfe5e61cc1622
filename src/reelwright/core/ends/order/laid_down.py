"""The order that a person lays down for the operations of one end, beside the worked-out one."""

from collections.abc import Sequence

from reelwright.core.ends.order.operation import EndWork, Operation
from reelwright.core.ends.order.search import ProposedStep, judge_order
from reelwright.core.ends.order.steps import worked_out
from reelwright.core.verdicts import Outcome


def in_order(work: EndWork, codes: Sequence[str]) -> tuple[Operation, ...]:
    """Return the operations of an end in the order of ``codes``; see ``arranged``."""
    return arranged(worked_out(work), codes)


def arranged(usual: Sequence[Operation], codes: Sequence[str]) -> tuple[Operation, ...]:
    """Return operations that stand in their worked-out order in the order of ``codes``.

    An operation that is not named follows all that it follows when worked out, and so all that it
    needs. A code that the end does not have is passed over: ``judge_laid_down`` tells it.
    """
    places = {code: (place, 0) for place, code in enumerate(codes)}
    before = (-1, 0)
    for each in usual:
        if each.code not in places:
            places[each.code] = (before[0], before[1] + 1)
        before = max(before, places[each.code])
    return tuple(sorted(usual, key=lambda each: places[each.code]))


def judge_laid_down(work: EndWork, codes: Sequence[str]) -> dict[str, tuple[Outcome, str]]:
    """Return what speaks against an order, by code of the operation: how much, and a sentence.

    Judged for the end of a cable that is made last, as no ring comes from the other end any more.
    What only falls with a step before it is not told again. Empty: nothing speaks against it.
    """
    operations = {each.code: each for each in worked_out(work)}
    places = {code: place for place, code in enumerate(codes)}
    proposed = [ProposedStep(end=work.end, code=code) for code in codes]
    checks = judge_order([work], proposed, other_end_made=True)
    found: dict[str, tuple[Outcome, str]] = {}
    fallen: set[str] = set()
    awaited: set[str] = set()
    for code, check in zip(codes, checks, strict=False):
        if check.outcome is Outcome.BAD and code in operations and code not in fallen:
            must = [need.code for need in operations[code].needs if need.must]
            stand_before = all(places.get(each, len(codes)) < places[code] for each in must)
            falls_with_another = stand_before and not fallen.isdisjoint(must)
            fallen.add(code)
            if falls_with_another:
                continue
        if check.outcome is Outcome.CAUTION and code in awaited:
            # That it comes late was told where it would have been better.
            continue
        if check.outcome is not Outcome.GOOD:
            found[code] = (check.outcome, check.sentence)
            awaited |= (
                {need.code for need in operations[code].needs} if code in operations else set()
            )
    for code, each in operations.items():
        if code not in places:
            found[code] = (Outcome.BAD, f"{each.text}: it is left out")
    return found
