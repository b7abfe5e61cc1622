"""The steps of one end as operations that need one another; their order is worked out, not listed.

A ring (boot, ferrule, shell) is slid over the jacket and passes nothing wider than its bore, so it
must be on the cable before its end is closed. ``search`` judges an order that is proposed.
"""

from collections.abc import Sequence

from reelwright.core.ends.order.joined import joining_operations
from reelwright.core.ends.order.operation import EndWork, Need, Operation, Ring, operation
from reelwright.core.ends.strip.plan import StripPlan
from reelwright.core.parts.connector import Method
from reelwright.core.verdicts import Reason


def operations_of(work: EndWork) -> tuple[Operation, ...]:
    """Return every operation of an end with what it needs; in no binding order.

    Common practice for what an end is made of; what passes over what is geometry.
    """
    made = [_thread(work, ring) for ring in work.rings]
    made.append(_strip(work))
    if work.burr:
        made.append(
            operation(
                work,
                "trim",
                "trim the burr off the conductor",
                "pin slides on by hand" if work.method is Method.CRIMP_CRIMP else "end round",
                Need(code="strip", because="the conductor must be bare to be trimmed", must=True),
            )
        )
    made += joining_operations(work)
    boot = next((ring for ring in work.rings if ring.name == "boot"), None)
    if boot is not None:
        last = made[-1]
        made.append(
            operation(
                work,
                "boot home",
                "slide the boot home",
                None,
                Need(code=f"thread {boot.name}", because="it must be on the cable", must=True),
                Need(code=last.code, because="it covers the finished end", must=True),
            )
        )
    return tuple(made)


def plan_order(works: Sequence[EndWork]) -> tuple[Operation, ...] | Reason:
    """Return the operations of one or both ends of a cable in an order that can be carried out.

    A topological sort that keeps the given order where nothing decides (Kahn 1962). A circle among
    the needs is a Reason that names it.
    """
    return sort_operations([each for work in works for each in operations_of(work)])


def sort_operations(operations: Sequence[Operation]) -> tuple[Operation, ...] | Reason:
    """Return ``operations`` so that each follows all it needs, or the circle that forbids it."""
    left, found = list(operations), []
    there = {(each.end, each.code) for each in left}
    done: set[tuple[str, str]] = set()
    while left:
        ready = next(
            (
                each
                for each in left
                if all(
                    (each.end, need.code) in done or (each.end, need.code) not in there
                    for need in each.needs
                )
            ),
            None,
        )
        if ready is None:
            named = ", ".join(f"{each.text} ({each.end})" for each in left)
            return Reason(
                code="order_impossible",
                sentence=f"each of these waits for another of them: {named}",
            )
        left.remove(ready)
        done.add((ready.end, ready.code))
        found.append(ready)
    return tuple(found)


LEVELLED = (Method.CRIMP_CRIMP, Method.COMPRESSION)
"""The ways of joining whose strip bares the layers of a coax one by one."""

_FRAYS = "a bared braid frays under what is slid over it"
_ON_THE_CORE = ("sleeve",)


def _thread(work: EndWork, ring: Ring) -> Operation:
    if ring.name in _ON_THE_CORE:
        need = Need(
            code="strip", because="it goes onto the cores, and they must lie free", must=True
        )
        return operation(work, f"thread {ring.name}", f"{ring.name} onto each core", None, need)
    # What lies nearer to the end in the finished work goes on after what lies behind it.
    before = [each for each in work.rings if each.name not in _ON_THE_CORE]
    behind = before[: before.index(ring)]
    needs = [
        Need(code=f"thread {each.name}", because=f"it ends up behind the {ring.name}", must=False)
        for each in behind
    ]
    return operation(
        work, f"thread {ring.name}", f"{ring.name} onto the cable", "right way round", *needs
    )


def _strip(work: EndWork) -> Operation:
    text, check = _strip_words(work)
    needs = [
        Need(code=f"thread {ring.name}", because=_FRAYS, must=False)
        for ring in work.rings
        if ring.name not in _ON_THE_CORE
    ]
    return operation(work, "strip", text, check, *needs)


def _strip_words(work: EndWork) -> tuple[str, str]:
    program = f" with program {work.program}" if work.program else " as drawn"
    if isinstance(work.strip, StripPlan):
        text = f"strip{program}"
        if work.strip.folds_braid:
            return (f"{text}, braid folded back", "conductor bright, without a nick")
        return (text, "conductor without a nick, no strand forward")
    if work.method is Method.POLISH:
        return (f"take the jacket back{program}", "fibre without a scratch")
    if work.strip is None and work.method in LEVELLED:
        return (f"strip{program}", "conductor without a nick")
    if work.strip is not None and work.strip.bared_mm == 0:
        return (f"take the jacket back{program}, cores left insulated", "no core cut into")
    return (f"take the jacket back and bare the cores{program}", "no strand cut")
