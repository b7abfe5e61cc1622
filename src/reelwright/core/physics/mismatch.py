"""Several small mismatches in a row: the worst that their phases allow, and what is typical."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.reflection import return_loss_db
from reelwright.core.quantities.guard import require_not_negative


@dataclass(frozen=True, kw_only=True)
class Mismatch:
    """One reflection [1] seen on the spot, behind ``loss_before_db`` [dB] of cable one way."""

    own_reflection: float
    loss_before_db: float

    def __post_init__(self) -> None:
        require_not_negative(self, "own_reflection", "loss_before_db")
        if self.own_reflection >= 1:
            raise BadValue(
                owner="Mismatch",
                field="own_reflection",
                value=self.own_reflection,
                accepted="0 or more, below 1",
            )


@dataclass(frozen=True, kw_only=True)
class ReflectionBounds:
    """Largest and typical reflection [1] seen from the near end."""

    worst_reflection: float
    typical_reflection: float

    @property
    def worst_return_loss_db(self) -> float:
        """Return loss [dB] where all phases add up."""
        return return_loss_db(self.worst_reflection)

    @property
    def typical_return_loss_db(self) -> float:
        """Return loss [dB] where phases are at random."""
        return return_loss_db(self.typical_reflection)


def short_section_reflection(
    *, section_ohm: float, line_ohm: float, angle_rad: npt.ArrayLike
) -> ComplexArray:
    """Return the reflection [1], complex, of a section ``angle_rad`` [rad] long in a line [Ω].

    Exact and without loss: with u = Zs/Z0, Γ = j(u − 1/u)·sin θ/(2 cos θ + j(u + 1/u)·sin θ).
    Source: the input impedance of a line, any text.
    """
    if section_ohm <= 0 or line_ohm <= 0:
        raise BadValue(
            owner="short_section_reflection",
            field="section_ohm",
            value=section_ohm,
            accepted="impedances above zero",
        )
    angle = np.asarray(angle_rad, dtype=np.float64)
    ratio = section_ohm / line_ohm
    across = np.sin(angle)
    exact: ComplexArray = (
        1j * (ratio - 1 / ratio) * across / (2 * np.cos(angle) + 1j * (ratio + 1 / ratio) * across)
    )
    return exact


def short_section_estimate(
    *, section_ohm: float, line_ohm: float, angle_rad: npt.ArrayLike
) -> FloatArray:
    """Return the size [1] of the same, to first order: ½·|Zs/Z0 − Z0/Zs|·|sin θ|.

    ``section_ohm`` and ``line_ohm`` [Ω], ``angle_rad`` [rad]. Never below the exact one.
    """
    ratio = section_ohm / line_ohm
    estimate: FloatArray = abs(ratio - 1 / ratio) / 2 * np.abs(np.sin(np.asarray(angle_rad)))
    return estimate


def bounds(mismatches: Sequence[Mismatch]) -> ReflectionBounds:
    """Return what mismatches, ordered from the near end, give at that end.

    Worst: every one in phase, each seen through the ones before it: from the far end,
    Γ ← (ρ + Γe²)/(1 + ρΓe²), which for two is ρ1 + ρ2(1 − ρ1²)e² to third order and holds all
    re-reflections: it can be reached, and nothing exceeds it. Typical: root of the sum of squares
    of ρ·e². ``loss_before_db`` counts from the near end. Raises BadValue for none, or for losses
    that fall along the line.
    """
    if not mismatches:
        raise BadValue(owner="bounds", field="mismatches", value=(), accepted="one or more")
    losses = [mismatch.loss_before_db for mismatch in mismatches]
    if losses != sorted(losses):
        raise BadValue(
            owner="bounds",
            field="loss_before_db",
            value=losses,
            accepted="losses that grow from the near end",
        )
    worst = 0.0
    for place in range(len(mismatches) - 1, -1, -1):
        seen = mismatches[place].own_reflection
        worst = (seen + worst) / (1 + seen * worst)
        before = losses[place - 1] if place else 0.0
        worst *= 10 ** (-2 * (losses[place] - before) / 20)
    typical = math.hypot(
        *(
            mismatch.own_reflection * 10 ** (-2 * mismatch.loss_before_db / 20)
            for mismatch in mismatches
        )
    )
    return ReflectionBounds(worst_reflection=worst, typical_reflection=typical)
