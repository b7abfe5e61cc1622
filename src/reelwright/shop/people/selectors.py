"""Reads: the workshop and its day, people, who is qualified."""

import datetime as dt
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from django.db.models import Q
from django.utils import timezone

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.people.models import Person, Qualification, Workshop
from reelwright.shop.people.permissions import Role


def workshop_or_none() -> Workshop | None:
    """Return the workshop, or None before it has begun."""
    return Workshop.objects.first()


def workshop() -> Workshop:
    """Return the workshop.

    Raises:
        ShopRuleBroken: ``no_workshop`` before it has begun.
    """
    found = workshop_or_none()
    if found is None:
        raise ShopRuleBroken(
            "no_workshop",
            "There is no workshop here yet. Build the invented one with: reelwright demo.",
        )
    return found


def today(of: Workshop) -> dt.date:
    """Return the working day: the demo's fixed one, else the calendar day in its time zone."""
    if of.fixed_today is not None:
        return of.fixed_today
    return timezone.localdate(timezone=ZoneInfo(of.time_zone))


def people() -> list[Person]:
    """Return who works here, by name."""
    return list(Person.objects.filter(is_active=True).order_by("display_name", "pk"))


def person(user_name: str) -> Person:
    """Return the person of that sign-in name.

    Raises:
        UnknownCode: nobody signs in by that name.
    """
    found = Person.objects.filter(user_name=user_name).first()
    if found is None:
        raise UnknownCode(kind="person", code=user_name)
    return found


def qualified_people(
    *, on: dt.date, station_code: str | None = None, method: str | None = None
) -> list[Person]:
    """Return who may, that day, work at the station and by the method; None asks for neither."""
    holds = Qualification.objects.filter(since__lte=on).filter(
        Q(until__isnull=True) | Q(until__gte=on)
    )
    found = Person.objects.filter(is_active=True)
    if station_code is not None:
        found = found.filter(pk__in=holds.filter(station_code=station_code).values("person"))
    if method is not None:
        found = found.filter(pk__in=holds.filter(method=method).values("person"))
    return list(found.order_by("display_name", "pk"))


@dataclass(frozen=True, kw_only=True)
class PersonSkills:
    """What a person is qualified for on a day: stations by code, methods by name."""

    display_name: str
    station_codes: frozenset[str]
    methods: frozenset[str]


def skills_on(day: dt.date) -> list[PersonSkills]:
    """Return everybody who is qualified for something on a day, by name; one query."""
    stations: dict[str, set[str]] = {}
    methods: dict[str, set[str]] = {}
    rows = Qualification.objects.filter(person__is_active=True).select_related("person")
    for row in rows:
        if not row.holds_on(day):
            continue
        name = row.person.display_name
        stations.setdefault(name, set())
        methods.setdefault(name, set())
        if row.station_code:
            stations[name].add(row.station_code)
        else:
            methods[name].add(row.method)
    return [
        PersonSkills(
            display_name=name,
            station_codes=frozenset(stations[name]),
            methods=frozenset(methods[name]),
        )
        for name in sorted(stations)
    ]


def acting_lead() -> Person:
    """Return the lead in whose name a command acts: whoever may read the database may do all.

    Raises ShopRuleBroken ``no_lead``.
    """
    found = Person.objects.filter(is_active=True, role=Role.LEAD.value).order_by("pk").first()
    if found is None:
        raise ShopRuleBroken("no_lead", "Nobody leads this workshop: add a lead first.")
    return found
