"""What people write at the bench of where an end gave way, of a part, of a force and a length."""

from dataclasses import replace
from decimal import Decimal

from reelwright.core.errors import UnreadableQuantity
from reelwright.core.quantities.dimension_text import ACCEPTED as DIMENSIONS
from reelwright.core.quantities.dimension_text import read_dimension
from reelwright.core.quantities.force_text import ACCEPTED as FORCES
from reelwright.core.quantities.force_text import read_force
from reelwright.shop.setups.readings.given import Problem
from reelwright.shop.setups.states import FailureMode, Part

PULL = "pull"
"""How a pull is named where the parts of an end are named."""

WHAT = (PULL, *(part.value for part in Part))
GAVE_WAY = ", ".join(mode.value for mode in FailureMode)

_FINEST_MM = Decimal("0.001")
_LONGEST_M = 1.0
_MODES = {
    "wire broke": FailureMode.CONDUCTOR_BROKE,
    "conductor broken": FailureMode.CONDUCTOR_BROKE,
    "conductor pulled out": FailureMode.CONDUCTOR_PULLED_OUT,
    "wire pulled out": FailureMode.CONDUCTOR_PULLED_OUT,
    "braid pulled out": FailureMode.BRAID_PULLED_OUT,
    "braid slipped": FailureMode.BRAID_PULLED_OUT,
    "jacket pulled out": FailureMode.JACKET_SLIPPED,
    "weld peeled": FailureMode.JOINT_PEELED,
    "peeled": FailureMode.JOINT_PEELED,
    "held": FailureMode.NOT_BROKEN,
    "not broken": FailureMode.NOT_BROKEN,
} | {mode.value: mode for mode in FailureMode}
_PARTS = {
    "pin": Part.PIN_CRIMP,
    "pin crimp height": Part.PIN_CRIMP,
    "growth": Part.PIN_GROWTH,
    "growth of the pin": Part.PIN_GROWTH,
    "ferrule": Part.FERRULE_CRIMP,
    "ferrule crimp height": Part.FERRULE_CRIMP,
} | {part.value: part for part in Part}


def read_failure(typed: str) -> FailureMode | None:
    """Return where an end gave way, or None for words that are not known."""
    return _MODES.get(_folded(typed))


def read_part(typed: str) -> Part | None:
    """Return which part of an end is named, or None for words that are not known."""
    return _PARTS.get(_folded(typed))


def is_pull(typed: str) -> bool:
    """Return whether the word names a pull."""
    return _folded(typed) == PULL


def read_value(typed: str, *, part: Part | None) -> tuple[float | Decimal | None, Problem | None]:
    """Return a pull in N (a float), or the length of a part in mm (to the micrometre).

    What cannot be read, or in two ways, comes back as a problem instead.
    """
    quantity, accepted = ("force", FORCES) if part is None else ("dimension", DIMENSIONS)
    try:
        value, question = _force(typed) if part is None else _length(typed)
    except UnreadableQuantity:
        value, question = None, f"this is not a {quantity}"
    else:
        question = question and f"this can be read in two ways: {question}"
    if value is not None:
        return value, None
    problem = question or "no gauge tells so little"
    if not typed:
        problem = "nothing is written"
    return None, Problem(field="value", value=typed or None, problem=problem, accepted=accepted)


def read_before(
    typed: str, *, part: Part | None, nothing: str
) -> tuple[Decimal | None, Problem | None]:
    """Return the length of a pin before its crimp in mm, None for what is no pin's growth.

    ``nothing``: what is said where it is needed and not there.
    """
    if part is not Part.PIN_GROWTH:
        if not typed:
            return None, None
        return None, Problem(
            field="before",
            value=typed,
            problem="only the growth of a pin has a length before",
            accepted="nothing",
        )
    value, problem = read_value(typed, part=part)
    if problem is None:
        assert isinstance(value, Decimal)  # a part is read as a length
        return value, None
    return None, replace(problem, field="before", problem=problem.problem if typed else nothing)


def _force(typed: str) -> tuple[float | None, str | None]:
    reading = read_force(typed)
    return reading.value, reading.question


def _length(typed: str) -> tuple[Decimal | None, str | None]:
    reading = read_dimension(typed, at_most_m=_LONGEST_M)
    if reading.value is None:
        return None, reading.question
    value = Decimal(repr(reading.value * 1000)).quantize(_FINEST_MM)
    return (value, None) if value > 0 else (None, None)


def _folded(text: str) -> str:
    return " ".join(text.casefold().split())
