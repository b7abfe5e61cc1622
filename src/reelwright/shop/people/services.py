"""Writes: begin the workshop; add, change and erase people; record what they are trained for."""

import datetime as dt
import re
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from axes.models import AccessAttempt
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError

from reelwright.core.errors import ShopRuleBroken
from reelwright.shop.people.models import Person, Qualification, Workshop
from reelwright.shop.people.permissions import Action, Role, require_may
from reelwright.shop.transactions import write_transaction

_USER_NAME = re.compile(r"[a-z0-9][a-z0-9._\-]{0,39}")
_LONGEST_NAME = 80


def workshop_begin(
    *,
    name: str,
    currency: str,
    time_zone: str,
    lead_user_name: str,
    lead_display_name: str,
    lead_password: str | None,
    demo_day: dt.date | None = None,
) -> tuple[Workshop, Person]:
    """Open the workshop of this database and make its first lead.

    ``demo_day`` makes it the invented workshop, standing still on that day. A lead without a
    password cannot sign in to the pages.

    Raises:
        ShopRuleBroken: ``workshop_exists``, ``currency_unknown``, ``time_zone_unknown``,
            ``name_bad`` or what ``person_add`` raises.
    """
    _require_name(name)
    if not re.fullmatch(r"[A-Z]{3}", currency):
        raise ShopRuleBroken(
            "currency_unknown",
            f"{currency!r} is not a currency. Accepted: three capital letters, as in ISO 4217.",
            currency=currency,
        )
    try:
        ZoneInfo(time_zone)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise ShopRuleBroken(
            "time_zone_unknown",
            f"{time_zone!r} is not a time zone. Accepted: a name such as Europe/Vienna or UTC.",
            time_zone=time_zone,
        ) from None
    with write_transaction():
        if Workshop.objects.exists():
            raise ShopRuleBroken("workshop_exists", "This database already holds a workshop.")
        workshop = Workshop.objects.create(
            name=name.strip(),
            currency=currency,
            time_zone=time_zone,
            is_demo=demo_day is not None,
            fixed_today=demo_day,
        )
        lead = _person_make(
            user_name=lead_user_name,
            display_name=lead_display_name,
            role=Role.LEAD,
            password=lead_password,
        )
    return workshop, lead


def person_add(
    *, by: Person, user_name: str, display_name: str, role: Role, password: str | None
) -> Person:
    """Add somebody who works here; without a password they cannot sign in yet.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``user_name_bad``, ``user_name_taken``, ``name_bad`` or
            ``password_weak``.
    """
    require_may(by, Action.KEEP_PEOPLE)
    with write_transaction():
        return _person_make(
            user_name=user_name, display_name=display_name, role=role, password=password
        )


def person_set_password(*, by: Person, person: Person, password: str) -> None:
    """Set a password: one's own, or anybody's by who keeps people.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``person_gone`` or ``password_weak``.
    """
    if by.pk != person.pk:
        require_may(by, Action.KEEP_PEOPLE)
    with write_transaction():
        current = Person.objects.select_for_update().get(pk=person.pk)
        if not current.is_active:
            raise ShopRuleBroken("person_gone", f"{current.display_name} no longer works here.")
        _require_password(password, current)
        current.set_password(password)
        current.save(update_fields=["password"])


def person_erase(*, by: Person, person: Person, on: dt.date) -> Person:
    """Erase who somebody was; what they did still stands under their number.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``already_erased`` or ``last_lead``.
    """
    require_may(by, Action.KEEP_PEOPLE)
    with write_transaction():
        current = Person.objects.select_for_update().get(pk=person.pk)
        if current.erased_on is not None:
            raise ShopRuleBroken("already_erased", "This person is erased already.")
        # All leads are locked in one order: two leads who erase each other must not both succeed.
        leads = list(
            Person.objects.select_for_update()
            .filter(role=Role.LEAD.value, is_active=True)
            .order_by("pk")
        )
        if [lead.pk for lead in leads] == [current.pk]:
            raise ShopRuleBroken(
                "last_lead", "This is the only lead. Make another lead first, then erase this one."
            )
        # The failed sign-ins of that name, and from where, are personal data as well.
        AccessAttempt.objects.filter(username=current.user_name).delete()
        current.user_name = f"erased-{current.pk}"
        current.display_name = f"Person {current.pk}"
        current.set_unusable_password()
        current.last_login = None
        current.is_active = False
        current.erased_on = on
        current.save()
    return current


def qualification_record(
    *,
    by: Person,
    person: Person,
    station_code: str = "",
    method: str = "",
    since: dt.date,
    until: dt.date | None,
) -> Qualification:
    """Record that a person is trained for one station, or for one method of making ends.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``qualification_bad`` or ``qualification_known``.
    """
    require_may(by, Action.KEEP_PEOPLE)
    if bool(station_code) == bool(method):
        raise ShopRuleBroken(
            "qualification_bad", "A qualification is for a station or for a method: give one."
        )
    if until is not None and until < since:
        raise ShopRuleBroken(
            "qualification_bad", "A qualification cannot end before it begins.", until=until
        )
    with write_transaction():
        row, made = Qualification.objects.get_or_create(
            person=person,
            station_code=station_code,
            method=method,
            since=since,
            defaults={"until": until},
        )
        if not made:
            raise ShopRuleBroken(
                "qualification_known",
                f"{person.display_name} has this qualification since {since:%Y-%m-%d} already.",
            )
    return row


def _require_name(name: str) -> None:
    if not name.strip() or len(name) > _LONGEST_NAME:
        raise ShopRuleBroken(
            "name_bad", f"{name!r} cannot be a name. Accepted: 1 to {_LONGEST_NAME} characters."
        )


def _require_password(password: str, person: Person) -> None:
    try:
        validate_password(password, person)
    except ValidationError as problem:
        raise ShopRuleBroken("password_weak", " ".join(problem.messages)) from None


def _person_make(*, user_name: str, display_name: str, role: Role, password: str | None) -> Person:
    """Make a person; a write transaction must be open."""
    _require_name(display_name)
    if not _USER_NAME.fullmatch(user_name) or user_name.startswith("erased-"):
        raise ShopRuleBroken(
            "user_name_bad",
            f"{user_name!r} cannot be a sign-in name. Accepted: up to 40 small letters, digits, "
            "dots, hyphens and underscores, with a letter or digit first.",
            user_name=user_name,
        )
    if Person.objects.filter(user_name=user_name).exists():
        raise ShopRuleBroken(
            "user_name_taken", f"Somebody signs in as {user_name} already.", user_name=user_name
        )
    person = Person(user_name=user_name, display_name=display_name.strip(), role=role.value)
    if password is None:
        person.set_unusable_password()
    else:
        _require_password(password, person)
        person.set_password(password)
    person.save()
    return person
