"""A reference check is data: what is claimed, who says so, how well it is founded, what we compute.

A topic file looks like this, and nothing else is needed to have its checks run and listed:

    from tests.references.harness import Basis, ReferenceCheck, reference_test, relative

    CHECKS = (
        ReferenceCheck(
            id="wire.diameter.10",
            module="core.quantities",
            quantity="diameter of solid wire, 10 AWG",
            source="HyperPhysics, table of common wire gauges",
            basis=Basis.SEEN,
            expected=0.10189,
            unit="in",
            within=relative(0.0001, because="five digits are printed"),
            ours=lambda: awg_diameter_m(10) / INCH_M,
        ),
    )
    test_wire = reference_test(CHECKS)

``python -m tests.references`` writes docs/references.md from all topic files.
"""

import enum
import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Protocol

import pytest


class Basis(enum.StrEnum):
    """How the expected value came to us."""

    SEEN = "SEEN"
    MEMORY = "MEMORY"
    COMPUTED = "COMPUTED"


MEANING = {
    Basis.SEEN: "The number was read in the source named.",
    Basis.MEMORY: (
        "The number was remembered, not read. It must be confirmed in the document named before a "
        "customer sees it as a limit, and none of these gates a release alone."
    ),
    Basis.COMPUTED: (
        "The number was worked out apart from our code, from the formula and the inputs named."
    ),
}


class Kind(enum.StrEnum):
    """How ours is held against the expected value."""

    RELATIVE = "rel"
    ABSOLUTE = "abs"
    EXACT = "exact"
    AT_MOST = "max"
    AT_LEAST = "min"


@dataclass(frozen=True, kw_only=True)
class Within:
    """A tolerance and its reason.

    Relative and absolute: ``size`` is the deviation allowed, in parts of the expected value or in
    its unit. Exact: none. At most / at least: the expected value is a bound, ours lies below /
    above it and not further away than the fraction ``size`` of it, so that nonsense fails too.
    """

    kind: Kind
    size: float
    because: str

    def __post_init__(self) -> None:
        if not self.because.strip():
            raise ValueError("a tolerance needs its reason")
        if not (math.isfinite(self.size) and self.size >= 0):
            raise ValueError(f"a tolerance of {self.size!r} checks nothing")
        if self.kind is not Kind.EXACT and self.size == 0:
            raise ValueError("a tolerance of nothing is called exact")

    def holds(self, *, ours: float, expected: float) -> bool:
        """Return whether ``ours`` agrees with ``expected``."""
        if not math.isfinite(ours):
            return False
        away = ours - expected
        reach = self.size * abs(expected)
        match self.kind:
            case Kind.RELATIVE:
                return abs(away) <= reach
            case Kind.ABSOLUTE:
                return abs(away) <= self.size
            case Kind.EXACT:
                return away == 0
            case Kind.AT_MOST:
                return -reach <= away <= 0
            case Kind.AT_LEAST:
                return 0 <= away <= reach

    def __str__(self) -> str:
        match self.kind:
            case Kind.RELATIVE:
                return f"±{self.size * 100:g} %"
            case Kind.ABSOLUTE:
                return f"±{self.size:g}"
            case Kind.EXACT:
                return "exact"
            case Kind.AT_MOST:
                return f"at most, within {self.size * 100:g} %"
            case Kind.AT_LEAST:
                return f"at least, within {self.size * 100:g} %"


def relative(size: float, *, because: str) -> Within:
    """Allow a deviation of the fraction ``size`` of the expected value."""
    return Within(kind=Kind.RELATIVE, size=size, because=because)


def absolute(size: float, *, because: str) -> Within:
    """Allow a deviation of ``size``, in the unit of the expected value."""
    return Within(kind=Kind.ABSOLUTE, size=size, because=because)


def exact(*, because: str) -> Within:
    """Allow no deviation at all."""
    return Within(kind=Kind.EXACT, size=0.0, because=because)


def at_most(*, but_within: float, because: str) -> Within:
    """Take the expected value as an upper bound; ours lies no further below than the fraction."""
    return Within(kind=Kind.AT_MOST, size=but_within, because=because)


def at_least(*, but_within: float, because: str) -> Within:
    """Take the expected value as a lower bound; ours lies no further above than the fraction."""
    return Within(kind=Kind.AT_LEAST, size=but_within, because=because)


@dataclass(frozen=True, kw_only=True)
class ReferenceCheck:
    """One value from outside the project, and the callable that computes ours in the same unit."""

    id: str
    module: str
    quantity: str
    source: str
    basis: Basis
    expected: float
    unit: str
    within: Within
    ours: Callable[[], float]

    def __post_init__(self) -> None:
        for field in ("id", "module", "quantity", "source", "unit"):
            if not getattr(self, field).strip():
                raise ValueError(f"a reference check needs its {field}")
        if not math.isfinite(self.expected):
            raise ValueError(f"{self.id}: nothing can be held against {self.expected!r}")


class Row(Protocol):
    """One row of a table of checks, in the order it is read."""

    def __call__(  # noqa: PLR0917 - a row
        self,
        name: str,
        quantity: str,
        source: str,
        basis: Basis,
        expected: float,
        unit: str,
        within: Within,
        ours: Callable[[], float],
    ) -> ReferenceCheck:
        """Return the check of a row."""


def rows_of(module: str, *, prefix: str = "", others: Mapping[str, str] | None = None) -> Row:
    """Return what turns rows into checks of ``module``, their names behind ``prefix``.

    ``others``: the module of names that begin otherwise.
    """

    def row(  # noqa: PLR0917 - a row
        name: str,
        quantity: str,
        source: str,
        basis: Basis,
        expected: float,
        unit: str,
        within: Within,
        ours: Callable[[], float],
    ) -> ReferenceCheck:
        of = next((to for start, to in (others or {}).items() if name.startswith(start)), module)
        return ReferenceCheck(
            id=f"{prefix}{name}",
            module=of,
            quantity=quantity,
            source=source,
            basis=basis,
            expected=expected,
            unit=unit,
            within=within,
            ours=ours,
        )

    return row


@dataclass(frozen=True, kw_only=True)
class LeftOut:
    """Published values that are known and not held against, each by name, and why not.

    A topic file lists them as ``LEFT_OUT``; the page tells them after the checks.
    """

    names: tuple[str, ...]
    quantity: str
    reason: str

    def __post_init__(self) -> None:
        if not self.names or not all(name.strip() for name in self.names):
            raise ValueError("what is left out needs its names")
        if not (self.quantity.strip() and self.reason.strip()):
            raise ValueError(f"{self.names[0]}: what is left out needs its quantity and a reason")


def deviation_text(check: ReferenceCheck, ours: float) -> str:
    """Return how far ours is away: in percent, or in the unit where zero is expected."""
    away = ours - check.expected
    if check.expected == 0:
        return f"{away:+.2g}".replace("-", "−")
    percent = away / abs(check.expected) * 100
    # Below this it is the arithmetic of the machine, and would differ from one to the next.
    if abs(percent) < 1e-6:
        return "0"
    return f"{percent:+.2g} %".replace("-", "−")


def reference_test(checks: Iterable[ReferenceCheck]) -> Callable[[ReferenceCheck], None]:
    """Return a pytest function that runs each of ``checks`` under its own id."""
    checks = tuple(checks)
    ids = [check.id for check in checks]
    doubled = {name for name in ids if ids.count(name) > 1}
    if doubled or not checks:
        raise ValueError(f"checks must be there, each under its own id; doubled: {doubled}")

    @pytest.mark.reference
    @pytest.mark.parametrize("check", checks, ids=ids)
    def test_agrees_with_the_source(check: ReferenceCheck) -> None:
        """What we compute agrees with what the source says, within the stated tolerance."""
        ours: Any = check.ours()
        assert check.within.holds(ours=float(ours), expected=check.expected), (
            f"{check.quantity}: {check.source} says {check.expected:.8g} {check.unit}, "
            f"ours is {float(ours):.8g} ({deviation_text(check, float(ours))}, "
            f"allowed {check.within}: {check.within.because})"
        )

    return test_agrees_with_the_source
