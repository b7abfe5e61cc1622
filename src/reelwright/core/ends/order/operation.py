"""One step of an end, what it needs, and what an end is made of."""

from dataclasses import dataclass

from reelwright.core.ends.strip.plan import StripPlan, WireStrip
from reelwright.core.parts.connector import Method
from reelwright.core.quantities.guard import require_given, require_text
from reelwright.core.quantities.show import show_dimension


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

    ``strip`` is None while it is not laid down: the words are then those of any. ``burr``: why the
    conductor is trimmed, empty where it is not. ``joined`` is false for bare ends that are only
    tinned. Names of program and dies as the benches have them.
    """

    end: str
    method: Method
    strip: StripPlan | WireStrip | None
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


def blocked_by(ring: Ring, work: EndWork) -> str:
    """Return in words why a ring passes no end that is closed."""
    if ring.bore_m is not None and work.widest_m is not None:
        return (
            f"the {ring.name} (bore {show_dimension(ring.bore_m)}) does not pass the fitted end "
            f"({show_dimension(work.widest_m)})"
        )
    return f"no drawing says that the {ring.name} passes the fitted end"


def operation(work: EndWork, code: str, text: str, check: str | None, *needs: Need) -> Operation:
    """Return one step of the end that ``work`` is."""
    return Operation(end=work.end, code=code, text=text, check=check, needs=needs)


def needs_threaded(work: EndWork) -> list[Need]:
    """What must be on the cable before the end is closed, as it would not pass afterwards."""
    return [
        Need(code=f"thread {ring.name}", because=blocked_by(ring, work), must=True)
        for ring in work.rings
        if not ring.passes(work.widest_m)
    ]


def needs_bare(work: EndWork, because: str) -> list[Need]:
    """Return that the layers must be bared, and the burr trimmed where there is one."""
    needs = [Need(code="strip", because=because, must=True)]
    if work.burr:
        needs.append(Need(code="trim", because=work.burr, must=True))
    return needs
