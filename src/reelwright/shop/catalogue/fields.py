"""The column types that several tables of the catalogue share."""

import enum
from typing import Any

from django.db import models


def words_of(kind: type[enum.StrEnum]) -> list[tuple[str, str]]:
    """Return the choices of a text column that holds one member of ``kind``."""
    return [(member.value, member.value) for member in kind]


def one_of(field: str, kind: type[enum.StrEnum], *, name: str) -> models.CheckConstraint:
    """Return the constraint that keeps ``field`` to the members of ``kind``."""
    values = [member.value for member in kind]
    return models.CheckConstraint(condition=models.Q(**{f"{field}__in": values}), name=name)


def above_zero(*fields: str, name: str) -> models.CheckConstraint:
    """Return the constraint that every given (not null) field is above zero."""
    condition = models.Q()
    for field in fields:
        condition &= models.Q(**{f"{field}__gt": 0}) | models.Q(**{f"{field}__isnull": True})
    return models.CheckConstraint(condition=condition, name=name)


def not_negative(*fields: str, name: str) -> models.CheckConstraint:
    """Return the constraint that every given (not null) field is zero or more."""
    condition = models.Q()
    for field in fields:
        condition &= models.Q(**{f"{field}__gte": 0}) | models.Q(**{f"{field}__isnull": True})
    return models.CheckConstraint(condition=condition, name=name)


def millimetres(**options: Any) -> "models.DecimalField[Any, Any]":
    """Return a column of millimetres to the micrometre, as a drawing gives them."""
    return models.DecimalField(max_digits=9, decimal_places=3, **options)


def money(**options: Any) -> "models.DecimalField[Any, Any]":
    """Return a column of money; four places, for a metre of cable costs little."""
    return models.DecimalField(max_digits=12, decimal_places=4, **options)
