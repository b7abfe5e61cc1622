"""The steps of one end as operations that need one another; their order is worked out, not listed.

A ring (boot, ferrule, shell) is slid over the jacket and passes nothing wider than its bore, so it
must be on the cable before its end is closed. ``assembly_order`` judges an order that is proposed.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from reelwright.core.ends.strip.plan import StripPlan, WireStrip
from reelwright.core.parts.connector import Method
from reelwright.core.quantities.guard import require_given, require_text
from reelwright.core.quantities.show import show_dimension
from reelwright.core.verdicts import Reason


@dataclass(frozen=True, kw_only=True)
class Ring:
    """Something slid over the cable; ``bore_m`` is what it passes over, in m (None: not known)."""

    name: str
    bore_m: float | None

    def __post_init__(self) -> None:
        require_text(self, "name")
        require_given(self, "bore_m")

    def passes(self, widest_m: float | None) -> bool:
        """Return whether it goes over what is ``widest_m`` [m] wide; unknown sizes never pass."""
        return self.bore_m is not None and widest_m is not None and self.bore_m >= widest_m


@dataclass(frozen=True, kw_only=True)
class Need:
    """What must be done before; ``must`` is false where the order is only the better one."""

    code: str
    because: str
    must: bool


@dataclass(frozen=True, kw_only=True)
class Operation:
    """One step of one end. ``check``: what to look at before the next (None: nothing)."""

    end: str
    code: str
    text: str
    check: str | None
    needs: tuple[Need, ...]

    @property
    def threads(self) -> bool:
        """True where it slides a ring onto the cable."""
        return self.code.startswith("thread ")


@dataclass(frozen=True, kw_only=True)
class EndWork:
    """What one end is made of: its rings, its strip, what is fitted and how wide that is [m].

    ``burr``: why the conductor is trimmed, empty where it is not. ``joined`` is false for bare ends
    that are only tinned. Names of program and dies as the benches have them.
    """

    end: str
    method: Method
    strip: StripPlan | WireStrip
    rings: tuple[Ring, ...]
    widest_m: float | None
    burr: str
    joined: bool
    program: str | None
    pin_die: str | None
    ferrule_die: str | None

    def __post_init__(self) -> None:
        require_text(self, "end")
        require_given(self, "widest_m")


CLOSES = {
    Method.CRIMP_CRIMP: "body",
    Method.COMPRESSION: "connector",
    Method.SOLDER: "solder",
    Method.WELD: "plug",
    Method.DISPLACEMENT: "insert",
    Method.POLISH: "plug",
}
"""The operation after which what is fitted stands on the end and rings pass it or not."""


def operations_of(work: EndWork) -> tuple[Operation, ...]:
    """Return every operation of an end with what it needs; in no binding order.

    Common practice for what an end is made of; what passes over what is geometry.
    """
    made = [_thread(work, ring) for ring in work.rings]
    made.append(_strip(work))
    if work.burr:
        made.append(
            _operation(
                work,
                "trim",
                "trim the burr off the conductor",
                "pin slides on by hand" if work.method is Method.CRIMP_CRIMP else "end round",
                Need(code="strip", because="the conductor must be bare to be trimmed", must=True),
            )
        )
    made += _joining(work)
    boot = next((ring for ring in work.rings if ring.name == "boot"), None)
    if boot is not None:
        last = made[-1]
        made.append(
            _operation(
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


def blocked_by(ring: Ring, work: EndWork) -> str:
    """Return in words why a ring passes no end that is closed."""
    if ring.bore_m is not None and work.widest_m is not None:
        return (
            f"the {ring.name} (bore {show_dimension(ring.bore_m)}) does not pass the fitted end "
            f"({show_dimension(work.widest_m)})"
        )
    return f"no drawing says that the {ring.name} passes the fitted end"


def _operation(work: EndWork, code: str, text: str, check: str | None, *needs: Need) -> Operation:
    return Operation(end=work.end, code=code, text=text, check=check, needs=needs)


_FRAYS = "a bared braid frays under what is slid over it"
_ON_THE_CORE = ("sleeve",)


def _thread(work: EndWork, ring: Ring) -> Operation:
    if ring.name in _ON_THE_CORE:
        need = Need(
            code="strip", because="it goes onto the cores, and they must lie free", must=True
        )
        return _operation(work, f"thread {ring.name}", f"{ring.name} onto each core", None, need)
    # What lies nearer to the end in the finished work goes on after what lies behind it.
    before = [each for each in work.rings if each.name not in _ON_THE_CORE]
    behind = before[: before.index(ring)]
    needs = [
        Need(code=f"thread {each.name}", because=f"it ends up behind the {ring.name}", must=False)
        for each in behind
    ]
    return _operation(
        work, f"thread {ring.name}", f"{ring.name} onto the cable", "right way round", *needs
    )


def _threaded(work: EndWork) -> list[Need]:
    """What must be on the cable before the end is closed, as it would not pass afterwards."""
    return [
        Need(code=f"thread {ring.name}", because=blocked_by(ring, work), must=True)
        for ring in work.rings
        if not ring.passes(work.widest_m)
    ]


def _strip(work: EndWork) -> Operation:
    text, check = _strip_words(work)
    needs = [
        Need(code=f"thread {ring.name}", because=_FRAYS, must=False)
        for ring in work.rings
        if ring.name not in _ON_THE_CORE
    ]
    return _operation(work, "strip", text, check, *needs)


def _strip_words(work: EndWork) -> tuple[str, str]:
    program = f" with program {work.program}" if work.program else " as drawn"
    if isinstance(work.strip, StripPlan):
        text = f"strip{program}"
        if work.strip.folds_braid:
            return (f"{text}, braid folded back", "conductor bright, without a nick")
        return (text, "conductor without a nick, no strand forward")
    if work.method is Method.POLISH:
        return (f"take the jacket back{program}", "fibre without a scratch")
    if work.strip.bared_mm == 0:
        return (f"take the jacket back{program}, cores left insulated", "no core cut into")
    return (f"take the jacket back and bare the cores{program}", "no strand cut")


def _bare(work: EndWork, because: str) -> list[Need]:
    needs = [Need(code="strip", because=because, must=True)]
    if work.burr:
        needs.append(Need(code="trim", because=work.burr, must=True))
    return needs


def _joining(work: EndWork) -> list[Operation]:
    match work.method:
        case Method.CRIMP_CRIMP:
            return _crimping(work)
        case Method.COMPRESSION:
            return [
                _operation(
                    work,
                    "connector",
                    "connector on, dielectric flush with its floor",
                    "no braid at the conductor",
                    *_bare(work, "the conductor and the stem need their layers bared"),
                    *_threaded(work),
                ),
                _operation(
                    work,
                    "compress",
                    "compress once, full stroke",
                    "conductor at its length",
                    Need(code="connector", because="the sleeve is driven over it", must=True),
                ),
            ]
        case Method.SOLDER:
            return _soldering(work)
        case Method.WELD:
            return _welding(work)
        case Method.DISPLACEMENT:
            return [
                _operation(
                    work,
                    "lay",
                    "lay the cores flat in their order, cut them even",
                    "order by the contact table",
                    Need(code="strip", because="the cores must lie free", must=True),
                ),
                _operation(
                    work,
                    "insert",
                    "cores to the end of the plug, jacket under its clamp",
                    None,
                    Need(code="lay", because="they go in side by side", must=True),
                    *_threaded(work),
                ),
                _operation(
                    work,
                    "press",
                    "press once, full stroke",
                    "every core reaches the end",
                    Need(code="insert", because="the contacts close on the cores", must=True),
                ),
            ]
        case Method.POLISH:
            return [
                _operation(
                    work,
                    "plug",
                    "fibre into the plug, fixed, a little proud",
                    None,
                    Need(code="strip", because="the fibre itself is held", must=True),
                    *_threaded(work),
                ),
                _operation(
                    work,
                    "polish",
                    "cleave, then polish square",
                    "end face round, clear, without a scratch",
                    Need(code="plug", because="the plug guides the fibre square", must=True),
                ),
            ]


def _crimping(work: EndWork) -> list[Operation]:
    return [
        _operation(
            work,
            "pin",
            f"pin on, press it{_cavity(work.pin_die)}",
            "conductor seen in the hole",
            *_bare(work, "the barrel takes the bare conductor"),
        ),
        _operation(
            work,
            "body",
            "body home until it clicks, stem under the braid",
            "pin at its height",
            Need(code="pin", because="the body clicks over the pressed pin", must=True),
            *_threaded(work),
        ),
        _operation(
            work,
            "ferrule",
            f"ferrule forward to the body, press it{_cavity(work.ferrule_die)}",
            "no strand beyond the ferrule",
            Need(code="body", because="it closes the braid on the body's stem", must=True),
            Need(code="thread ferrule", because="it must be on the cable", must=True),
        ),
    ]


def _soldering(work: EndWork) -> list[Operation]:
    tin = _operation(
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
        _operation(
            work,
            "solder",
            "solder as the contact table says",
            "wetted, no bridge, no strand out",
            Need(code="tin", because="tinned metal joins before the insulation melts", must=True),
            *_threaded(work),
        ),
        _operation(
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
        _operation(
            work,
            "plug",
            "all strands into the plug, none outside",
            None,
            Need(code="strip", because="metal is welded to metal", must=True),
            *_threaded(work),
        ),
        _operation(
            work,
            "weld",
            "weld",
            "time, power and height inside the window",
            Need(code="plug", because="the horn presses strands and plug together", must=True),
        ),
        _operation(
            work,
            "tug",
            "tug each plug",
            "nothing moves",
            Need(code="weld", because="it tells a weld from a touch", must=True),
        ),
    ]
    if sleeved:
        steps.append(
            _operation(
                work,
                "shrink",
                "sleeve over the joint, shrink it",
                "no bare metal",
                Need(code="thread sleeve", because="it must be on the core", must=True),
                Need(code="tug", because="under the sleeve nothing is seen", must=True),
            )
        )
    return steps


def _cavity(die: str | None) -> str:
    return f", cavity {die}" if die else ""
