"""How each way of joining puts an end together: its operations and what each of them needs."""

from collections.abc import Callable

from reelwright.core.ends.order.operation import (
    EndWork,
    Need,
    Operation,
    needs_bare,
    needs_threaded,
    operation,
)
from reelwright.core.parts.connector import Method

CLOSES = {
    Method.CRIMP_CRIMP: "body",
    Method.COMPRESSION: "connector",
    Method.SOLDER: "solder",
    Method.WELD: "plug",
    Method.SCREW: "insert",
    Method.DISPLACEMENT: "insert",
    Method.POLISH: "plug",
}
"""The operation after which what is fitted stands on the end and rings pass it or not."""


def _compressing(work: EndWork) -> list[Operation]:
    return [
        operation(
            work,
            "connector",
            "connector on, dielectric flush with its floor",
            "no braid at the conductor",
            *needs_bare(work, "the conductor and the stem need their layers bared"),
            *needs_threaded(work),
        ),
        operation(
            work,
            "compress",
            "compress once, full stroke",
            "conductor at its length",
            Need(code="connector", because="the sleeve is driven over it", must=True),
        ),
    ]


def _crimping(work: EndWork) -> list[Operation]:
    return [
        operation(
            work,
            "pin",
            f"pin on, press it{_cavity(work.pin_die)}",
            "conductor seen in the hole",
            *needs_bare(work, "the barrel takes the bare conductor"),
        ),
        operation(
            work,
            "body",
            "body home until it clicks, stem under the braid",
            "pin at its height",
            Need(code="pin", because="the body clicks over the pressed pin", must=True),
            *needs_threaded(work),
        ),
        operation(
            work,
            "ferrule",
            f"ferrule forward to the body, press it{_cavity(work.ferrule_die)}",
            "no strand beyond the ferrule",
            Need(code="body", because="it closes the braid on the body's stem", must=True),
            Need(code="thread ferrule", because="it must be on the cable", must=True),
        ),
    ]


def _soldering(work: EndWork) -> list[Operation]:
    tin = operation(
        work,
        "tin",
        "tin the cores and the screen" if work.joined else "tin the tips of the cores only",
        None if work.joined else "no solder under the insulation",
        Need(code="strip", because="solder wets bare metal only", must=True),
    )
    if not work.joined:
        return [tin]
    return [
        tin,
        operation(
            work,
            "solder",
            "solder as the contact table says",
            "wetted, no bridge, no strand out",
            Need(code="tin", because="tinned metal joins before the insulation melts", must=True),
            *needs_threaded(work),
        ),
        operation(
            work,
            "clamp",
            "close the clamp on the jacket, shell on",
            "jacket held",
            Need(code="solder", because="the shell covers the joints", must=True),
            *(
                Need(code=f"thread {ring.name}", because="it must be on the cable", must=True)
                for ring in work.rings
                if ring.name == "shell and clamp"
            ),
        ),
    ]


def _welding(work: EndWork) -> list[Operation]:
    sleeved = any(ring.name == "sleeve" for ring in work.rings)
    steps = [
        operation(
            work,
            "plug",
            "all strands into the plug, none outside",
            None,
            Need(code="strip", because="metal is welded to metal", must=True),
            *needs_threaded(work),
        ),
        operation(
            work,
            "weld",
            "weld",
            "time, power and height inside the window",
            Need(code="plug", because="the horn presses strands and plug together", must=True),
        ),
        operation(
            work,
            "tug",
            "tug each plug",
            "nothing moves",
            Need(code="weld", because="it tells a weld from a touch", must=True),
        ),
    ]
    if sleeved:
        steps.append(
            operation(
                work,
                "shrink",
                "sleeve over the joint, shrink it",
                "no bare metal",
                Need(code="thread sleeve", because="it must be on the core", must=True),
                Need(code="tug", because="under the sleeve nothing is seen", must=True),
            )
        )
    return steps


def _screwing(work: EndWork) -> list[Operation]:
    return [
        operation(
            work,
            "insert",
            "bare strands twisted as they lie, all under the screw, none tinned",
            "insulation up to the contact",
            Need(code="strip", because="the screw clamps bare metal", must=True),
            *needs_threaded(work),
        ),
        operation(
            work,
            "tighten",
            "tighten to the torque on the maker's drawing",
            "no strand outside",
            Need(code="insert", because="strands lie where they are clamped", must=True),
        ),
        operation(
            work,
            "tug",
            "tug each core, tighten once more",
            "nothing moves",
            Need(code="tighten", because="strands settle under a screw", must=True),
        ),
    ]


def _inserting(work: EndWork) -> list[Operation]:
    return [
        operation(
            work,
            "lay",
            "lay the cores flat in their order, cut them even",
            "order by the contact table",
            Need(code="strip", because="the cores must lie free", must=True),
        ),
        operation(
            work,
            "insert",
            "cores to the end of the plug, jacket under its clamp",
            None,
            Need(code="lay", because="they go in side by side", must=True),
            *needs_threaded(work),
        ),
        operation(
            work,
            "press",
            "press once, full stroke",
            "every core reaches the end",
            Need(code="insert", because="the contacts close on the cores", must=True),
        ),
    ]


def _polishing(work: EndWork) -> list[Operation]:
    return [
        operation(
            work,
            "plug",
            "fibre into the plug, fixed, a little proud",
            None,
            Need(code="strip", because="the fibre itself is held", must=True),
            *needs_threaded(work),
        ),
        operation(
            work,
            "polish",
            "cleave, then polish square",
            "end face round, clear, without a scratch",
            Need(code="plug", because="the plug guides the fibre square", must=True),
        ),
    ]


def _cavity(die: str | None) -> str:
    return f", cavity {die}" if die else ""


_JOINING: dict[Method, Callable[[EndWork], list[Operation]]] = {
    Method.CRIMP_CRIMP: _crimping,
    Method.COMPRESSION: _compressing,
    Method.SOLDER: _soldering,
    Method.WELD: _welding,
    Method.SCREW: _screwing,
    Method.DISPLACEMENT: _inserting,
    Method.POLISH: _polishing,
}


def joining_operations(work: EndWork) -> list[Operation]:
    """Return the operations by which the way of joining closes the end. Common practice."""
    return _JOINING[work.method](work)
