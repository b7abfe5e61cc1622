"""In which order an end is made, as the bench reads it. What goes onto the cable first comes first:
a boot that was forgotten means that the end is made again."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from reelwright.core.ends.order.assembly import operations_of, sort_operations
from reelwright.core.ends.order.burr import judge_burr
from reelwright.core.ends.order.operation import EndWork, Operation, Ring
from reelwright.core.ends.strip.plan import StripPlan, WireStrip
from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector, Method
from reelwright.core.quantities.words import listed
from reelwright.core.verdicts import Outcome, Reason


@dataclass(frozen=True, kw_only=True)
class EndSetUp:
    """What a set-up says of one end; ``None``: this end has no such thing.

    ``program`` is the stripper's; dies are named as engraved on the cavity, ``1.60``.
    """

    method: Method
    strip: StripPlan | WireStrip | None
    boot: bool
    program: str | None
    pin_die: str | None
    ferrule_die: str | None


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step, numbered from 1; ``check`` is what to look at before the next, ``because`` why it
    stands where it does (empty: nothing has to come before it)."""

    number: int
    text: str
    check: str | None
    because: str


def order_of_work(
    set_up: EndSetUp, *, cable: Cable | None = None, connector: Connector | None = None
) -> tuple[Step, ...]:
    """Return the steps of one end in their order, worked out from what each step needs.

    With ``cable`` and ``connector`` the rings, the burr and what passes over what are theirs;
    without, what every end of that method has. What an end is made of: common practice, no
    published source.
    """
    return steps_of(worked_out(end_work(set_up, cable=cable, connector=connector)))


def worked_out(work: EndWork) -> tuple[Operation, ...]:
    """Return the operations of one end in the order that follows from what each needs."""
    ordered = sort_operations(operations_of(work))
    if isinstance(ordered, Reason):
        # Only needs of our own making could wait for each other.
        raise BadValue(owner="worked_out", field="work", value=work, accepted=ordered.sentence)
    return ordered


def end_work(
    set_up: EndSetUp,
    *,
    cable: Cable | None = None,
    connector: Connector | None = None,
    end: str = "A",
) -> EndWork:
    """Return what one end is made of, for ``assembly`` and ``assembly_order``."""
    drawing = None if connector is None else connector.drawing
    burr = None if cable is None or connector is None else judge_burr(cable, connector)
    return EndWork(
        end=end,
        method=set_up.method,
        strip=set_up.strip,
        rings=_rings(set_up, connector),
        widest_m=None if drawing is None else drawing.smallest_m("ferrule_outside_m"),
        burr=burr.sentence if burr is not None and burr.outcome is Outcome.CAUTION else "",
        joined=_is_joined(set_up, connector),
        program=set_up.program,
        pin_die=set_up.pin_die,
        ferrule_die=set_up.ferrule_die,
    )


def _is_joined(set_up: EndSetUp, connector: Connector | None) -> bool:
    """A soldered end without a shell has nothing to be soldered to: its tips are tinned."""
    return not (
        set_up.method is Method.SOLDER and connector is not None and not connector.shell_contact
    )


def _rings(set_up: EndSetUp, connector: Connector | None) -> tuple[Ring, ...]:
    drawing = None if connector is None else connector.drawing
    jacket_m = None if connector is None else connector.accepts_jacket.high_m
    rings = []
    # A drawing that has a boot says so by its bore.
    boot_m = None if drawing is None else drawing.largest_m("boot_bore_m")
    if set_up.boot and (drawing is None or boot_m is not None):
        rings.append(Ring(name="boot", bore_m=boot_m))
    if set_up.method is Method.CRIMP_CRIMP:
        rings.append(
            Ring(
                name="ferrule",
                bore_m=None if drawing is None else drawing.largest_m("ferrule_bore_m"),
            )
        )
    if set_up.method is Method.SOLDER and _is_joined(set_up, connector):
        rings.append(Ring(name="shell and clamp", bore_m=jacket_m))
    if set_up.method is Method.WELD:
        rings.append(Ring(name="sleeve", bore_m=None))
    return tuple(rings)


def steps_of(operations: Sequence[Operation]) -> tuple[Step, ...]:
    """Return operations, in whatever order, as steps; rings slid on together are one step."""
    steps: list[Step] = []
    slid_on = " onto the cable"
    for threads, group in groupby(
        operations, key=lambda each: each.threads and each.text.endswith(slid_on)
    ):
        each_of = list(group)
        if threads:
            names = ", then ".join(each.text.removesuffix(slid_on) for each in each_of)
            because = listed(dict.fromkeys(_why_first(each, operations) for each in each_of))
            steps.append(
                Step(
                    number=len(steps) + 1,
                    text=f"{names}{',' if len(each_of) > 1 else ''}{slid_on}",
                    check=each_of[0].check,
                    because=because,
                )
            )
            continue
        for each in each_of:
            steps.append(
                Step(
                    number=len(steps) + 1, text=each.text, check=each.check, because=_because(each)
                )
            )
    return tuple(steps)


def _why_first(ring: Operation, operations: Sequence[Operation]) -> str:
    """Why a ring is on the cable before all else: what would not let it pass afterwards."""
    reasons = [
        need for each in operations for need in each.needs if need.code == ring.code and need.must
    ]
    return reasons[0].because if reasons else ""


def _because(operation: Operation) -> str:
    must = [need.because for need in operation.needs if need.must]
    return "; ".join(dict.fromkeys(must))
