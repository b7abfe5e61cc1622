"""Whether a press has the force that a crimp asks for.

A press can crush a hand: what is said here of force never replaces its own instructions, its guards
and the local rules.
"""

import enum
import math
from collections.abc import Iterable
from dataclasses import dataclass

from reelwright.core.ends.dies.hexagon import ACROSS_CORNERS_PER_ACROSS_FLATS
from reelwright.core.errors import BadValue
from reelwright.core.materials.stress_band import StressBand
from reelwright.core.quantities.guard import require_positive, require_text
from reelwright.core.quantities.show import show_in
from reelwright.core.verdicts import Basis, Check, Outcome, Source

KEEP_OUT = (
    "Hands stay out of the press: use both-hand control or the guard, as its own manual and the "
    "local rules say; they come first."
)
"""The caution that goes with every force."""

TONNE_FORCE_N = 9806.65
"""One tonne-force [N]: 1000 kg times standard gravity, exact."""

COMMON_BENCH_PRESS_N = 3 * TONNE_FORCE_N
"""Force [N] of a usual pneumatic bench press, about three tonnes. Common practice, no published
source; a plain cylinder does not give it, a toggle or an intensifier does."""

HOLLOW_FACTOR_LOW, HOLLOW_FACTOR_HIGH = 1.5, 2.0
"""By how much closing a hollow ferrule exceeds the plain squeezing of its two walls [1]. Common
practice, no published source."""


@dataclass(frozen=True, kw_only=True)
class FlowStress(StressBand):
    """The stress at which a metal flows cold, as it is met in pins and ferrules."""


def _stress(metal: str, low_mpa: float, high_mpa: float, text: str) -> FlowStress:
    return FlowStress(
        metal=metal,
        low_pa=low_mpa * 1e6,
        high_pa=high_mpa * 1e6,
        source=Source(text=text, basis=Basis.FROM_MEMORY),
    )


SOFT_COPPER = _stress(
    "annealed copper", 200.0, 300.0, "tensile strength of soft copper, a little work-hardened"
)
BRASS_ANNEALED = _stress(
    "annealed brass", 300.0, 400.0, "tensile strength of soft brass, ferrules are annealed"
)
BRASS_HALF_HARD = _stress("half-hard brass", 380.0, 480.0, "tensile strength of half-hard brass")
BRONZE_HARD = _stress("phosphor bronze, spring hard", 550.0, 700.0, "tensile strength of C51000")
FLOW_STRESSES = (SOFT_COPPER, BRASS_ANNEALED, BRASS_HALF_HARD, BRONZE_HARD)
"""Handbook figures from memory; a metal's own certificate comes first."""


@dataclass(frozen=True, kw_only=True)
class Force:
    """Force [N] that a crimp needs, at the soft and at the hard end of what is known."""

    low_n: float
    high_n: float
    basis: str

    def __post_init__(self) -> None:
        require_positive(self, "low_n", "high_n")
        require_text(self, "basis")


def pin_force(*, across_flats_m: float, crimped_length_m: float, metal: FlowStress) -> Force:
    """Return the force [N] to fill a hexagon: flow stress times the area it presses on.

    The area is ``crimped_length_m`` [m] by the width across corners of ``across_flats_m`` [m].
    Common practice of estimating; filling sharp corners asks for more.
    """
    _require("pin_force", across_flats_m=across_flats_m, crimped_length_m=crimped_length_m)
    area_m2 = across_flats_m * ACROSS_CORNERS_PER_ACROSS_FLATS * crimped_length_m
    return Force(
        low_n=metal.low_pa * area_m2,
        high_n=metal.high_pa * area_m2,
        basis=f"flow stress of {metal.metal} on the pressed area",
    )


def ferrule_force(*, wall_m: float, crimped_length_m: float, metal: FlowStress) -> Force:
    """Return the force [N] to close a hollow ferrule: (1.5 to 2)·2·t·L·σ.

    ``wall_m`` is t [m], ``crimped_length_m`` is L [m]. Common practice, no published source.
    """
    _require("ferrule_force", wall_m=wall_m, crimped_length_m=crimped_length_m)
    area_m2 = 2 * wall_m * crimped_length_m
    return Force(
        low_n=HOLLOW_FACTOR_LOW * area_m2 * metal.low_pa,
        high_n=HOLLOW_FACTOR_HIGH * area_m2 * metal.high_pa,
        basis=f"flow stress of {metal.metal} in both walls, 1.5 to 2 times",
    )


class ForceKnown(enum.StrEnum):
    """How the force of a press is known."""

    STATED = "stated by its maker"
    MEASURED = "measured"
    COMPUTED = "computed from its cylinder"


@dataclass(frozen=True, kw_only=True)
class Press:
    """A press: its force [N] at the die, and how that is known."""

    code: str
    force_n: float
    known: ForceKnown

    def __post_init__(self) -> None:
        require_text(self, "code")
        require_positive(self, "force_n")


def cylinder_force_n(
    *, bore_m: float, pressure_pa: float, ratio: float, efficiency: float
) -> float:
    """Return the force [N] at the die: F = p·A·i·η.

    ``bore_m`` [m] of the cylinder, ``pressure_pa`` [Pa] over the atmosphere, ``ratio`` i [1] of its
    toggle or intensifier (1: none), ``efficiency`` η [1]. Raises BadValue unless all are above zero
    and η is at most 1.
    """
    _require("cylinder_force_n", bore_m=bore_m, pressure_pa=pressure_pa, ratio=ratio)
    if not 0 < efficiency <= 1:
        raise BadValue(
            owner="cylinder_force_n",
            field="efficiency",
            value=efficiency,
            accepted="above 0, at most 1",
        )
    return pressure_pa * math.pi / 4 * bore_m**2 * ratio * efficiency


def judge_press(what: str, needed: Force, press: Press) -> Check:
    """Return whether the press has the force for a crimp; between both ends of it, a caution."""
    spare_n = press.force_n - needed.high_n
    wants = f"{_kilonewtons(needed.low_n)} to {_kilonewtons(needed.high_n)}"
    has = f"{press.code} has {_kilonewtons(press.force_n)} ({press.known})"
    if spare_n >= 0:
        outcome, told = Outcome.GOOD, f"{_kilonewtons(spare_n)} to spare"
    elif press.force_n >= needed.low_n:
        outcome, told = Outcome.CAUTION, "enough for soft metal, not for hard: try, and measure"
    else:
        outcome = Outcome.BAD
        told = f"{_kilonewtons(needed.low_n - press.force_n)} short: the die will not close"
    return Check(
        name=f"force on the {what}",
        outcome=outcome,
        sentence=f"the {what} asks for {wants}, {has}: {told}",
        source=Source(text=needed.basis, basis=Basis.COMMON_PRACTICE),
        value=needed.high_n / 1e3,
        limit=press.force_n / 1e3,
        margin=spare_n / 1e3,
        unit="kN",
    )


def best_press(presses: Iterable[Press]) -> Press | None:
    """Return the strongest press; ``None`` where there is none."""
    return max(presses, key=lambda each: (each.force_n, each.code), default=None)


def _kilonewtons(force_n: float) -> str:
    return show_in(force_n / 1e3, "kN", decimals=1)


def _require(owner: str, **values: float) -> None:
    for field, value in values.items():
        if not (math.isfinite(value) and value > 0):
            raise BadValue(owner=owner, field=field, value=value, accepted="above zero")
