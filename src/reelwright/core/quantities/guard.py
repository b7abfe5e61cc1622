"""Guards for value objects: each refuses one kind of nonsense, naming field, value, accepted."""

import math
from typing import Any

from reelwright.core.errors import BadValue


def _refuse(owner: Any, field: str, accepted: str) -> BadValue:
    return BadValue(
        owner=type(owner).__name__, field=field, value=getattr(owner, field), accepted=accepted
    )


def require_finite(owner: Any, *fields: str) -> None:
    """Raise BadValue unless each field is a finite number."""
    for field in fields:
        value = getattr(owner, field)
        if (
            isinstance(value, bool)
            or not isinstance(value, int | float)
            or not math.isfinite(value)
        ):
            raise _refuse(owner, field, "a finite number")


def require_positive(owner: Any, *fields: str) -> None:
    """Raise BadValue unless each field is a finite number above zero."""
    require_finite(owner, *fields)
    for field in fields:
        if getattr(owner, field) <= 0:
            raise _refuse(owner, field, "a number above zero")


def require_not_negative(owner: Any, *fields: str) -> None:
    """Raise BadValue unless each field is a finite number, zero or more."""
    require_finite(owner, *fields)
    for field in fields:
        if getattr(owner, field) < 0:
            raise _refuse(owner, field, "zero or more")


def require_between(owner: Any, field: str, *, low: float, high: float) -> None:
    """Raise BadValue unless low <= field <= high."""
    require_finite(owner, field)
    if not low <= getattr(owner, field) <= high:
        raise _refuse(owner, field, f"{low} to {high}")


def require_count(owner: Any, *fields: str, at_least: int = 0) -> None:
    """Raise BadValue unless each field is a whole number of at least ``at_least``."""
    for field in fields:
        value = getattr(owner, field)
        if isinstance(value, bool) or not isinstance(value, int) or value < at_least:
            raise _refuse(owner, field, f"a whole number, {at_least} or more")


def require_text(owner: Any, *fields: str) -> None:
    """Raise BadValue unless each field is text with something in it."""
    for field in fields:
        value = getattr(owner, field)
        if not isinstance(value, str) or not value.strip():
            raise _refuse(owner, field, "text that is not empty")


def require_given(owner: Any, *fields: str, positive: bool = True) -> None:
    """Apply require_positive (or require_not_negative) to the fields that are not None."""
    for field in fields:
        if getattr(owner, field) is not None:
            (require_positive if positive else require_not_negative)(owner, field)
