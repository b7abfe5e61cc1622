"""The workshop, people, qualifications. Personal data of workers stands in ``Person`` only."""

import datetime as dt
from typing import ClassVar

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.core.validators import RegexValidator
from django.db import models
from django.db.models import F, Q

from reelwright.shop.people.permissions import Role


class Workshop(models.Model):
    """The one workshop of this database.

    ``fixed_today`` is the working day that the invented workshop stands still on; a real one uses
    the clock of its time zone.
    """

    only_one = models.PositiveSmallIntegerField(default=1, unique=True, editable=False)
    name = models.CharField(max_length=80)
    currency = models.CharField(max_length=3)
    time_zone = models.CharField(max_length=64)
    is_demo = models.BooleanField()
    fixed_today = models.DateField(null=True)

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(condition=Q(only_one=1), name="workshop_only_one"),
            models.CheckConstraint(condition=~Q(name=""), name="workshop_named"),
            models.CheckConstraint(
                condition=Q(currency__regex=r"^[A-Z]{3}$"), name="workshop_currency_letters"
            ),
            models.CheckConstraint(
                condition=Q(is_demo=True, fixed_today__isnull=False)
                | Q(is_demo=False, fixed_today__isnull=True),
                name="workshop_fixed_day_in_demo_only",
            ),
        ]

    def __str__(self) -> str:
        return self.name


class PersonManager(BaseUserManager["Person"]):
    """Finds people by the name they sign in with."""


class Person(AbstractBaseUser):
    """Somebody who works here. Evidence points to a person by number, so that one can be erased."""

    user_name = models.CharField(
        max_length=40,
        unique=True,
        validators=[RegexValidator(r"^[a-z0-9][a-z0-9._\-]*$")],
    )
    display_name = models.CharField(max_length=80)
    role = models.CharField(max_length=10, choices=[(role.value, role.value) for role in Role])
    is_active = models.BooleanField(default=True)
    erased_on = models.DateField(null=True)

    objects: ClassVar[PersonManager] = PersonManager()

    USERNAME_FIELD = "user_name"
    REQUIRED_FIELDS: ClassVar[list[str]] = ["display_name", "role"]

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(role__in=[role.value for role in Role]), name="person_role_known"
            ),
            models.CheckConstraint(
                condition=~Q(user_name="") & ~Q(display_name=""), name="person_named"
            ),
            models.CheckConstraint(
                condition=Q(erased_on__isnull=True) | Q(is_active=False),
                name="person_erased_is_gone",
            ),
        ]

    def __str__(self) -> str:
        return self.display_name


class Qualification(models.Model):
    """That a person may work at a station, or end cables by a method, from a day on.

    Exactly one of ``station_code`` and ``method`` is given. ``until`` is the last day it holds.
    """

    person = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="qualifications")
    station_code = models.CharField(max_length=40, blank=True)
    method = models.CharField(max_length=40, blank=True)
    since = models.DateField()
    until = models.DateField(null=True)

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=(Q(station_code="") & ~Q(method=""))
                | (~Q(station_code="") & Q(method="")),
                name="qualification_for_one_thing",
            ),
            models.CheckConstraint(
                condition=Q(until__isnull=True) | Q(until__gte=F("since")),
                name="qualification_days_in_order",
            ),
            models.UniqueConstraint(
                fields=["person", "station_code", "method", "since"], name="qualification_once"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.person_id}: {self.station_code or self.method} since {self.since}"

    def holds_on(self, day: dt.date) -> bool:
        """Return whether it holds on that day."""
        return self.since <= day and (self.until is None or day <= self.until)
