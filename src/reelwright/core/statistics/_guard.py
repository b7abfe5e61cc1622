"""Guards for the arguments of plain functions."""

import math

from reelwright.core.errors import BadValue


def require_chance(owner: str, **values: float) -> None:
    """Raise BadValue unless each value lies above 0 and below 1."""
    for field, value in values.items():
        if not 0 < value < 1:
            raise BadValue(owner=owner, field=field, value=value, accepted="above 0 and below 1")


def require_whole(owner: str, *, at_least: int, **values: int) -> None:
    """Raise BadValue unless each value is a whole number of at least ``at_least``."""
    for field, value in values.items():
        if isinstance(value, bool) or not isinstance(value, int) or value < at_least:
            raise BadValue(
                owner=owner,
                field=field,
                value=value,
                accepted=f"a whole number, {at_least} or more",
            )


def require_positive_number(owner: str, **values: float) -> None:
    """Raise BadValue unless each value is a finite number above zero."""
    for field, value in values.items():
        if not (math.isfinite(value) and value > 0):
            raise BadValue(
                owner=owner, field=field, value=value, accepted="a finite number above zero"
            )
