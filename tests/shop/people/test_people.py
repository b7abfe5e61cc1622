"""The workshop and its people, through services."""

import datetime as dt

import pytest
from django.db import IntegrityError, transaction

from reelwright.core.errors import UnknownCode
from reelwright.shop.people import selectors, services
from reelwright.shop.people.models import Person, Workshop
from reelwright.shop.people.permissions import Role
from reelwright.shop.reels.selectors import reel_ledger
from tests.shop.refusals import refused
from tests.small_world import FULL, TODAY, SmallWorld

GOOD = {
    "name": "A workshop",
    "currency": "EUR",
    "time_zone": "Pacific/Auckland",
    "lead_user_name": "lee",
    "lead_display_name": "Lee",
    "lead_password": "a long enough one",
}


def test_a_real_workshop_uses_the_clock_of_its_zone(
    db: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    """At 23:30 UTC it is tomorrow in Auckland; the demo's day stands still instead."""
    late = dt.datetime(2027, 3, 1, 23, 30, tzinfo=dt.UTC)
    monkeypatch.setattr("django.utils.timezone.now", lambda: late)
    workshop, lead = services.workshop_begin(**GOOD)  # type: ignore[arg-type]
    assert selectors.today(workshop) == dt.date(2027, 3, 2)
    assert lead.check_password("a long enough one")
    workshop.fixed_today = dt.date(2020, 1, 1)
    assert selectors.today(workshop) == dt.date(2020, 1, 1)


@pytest.mark.parametrize(
    ("field", "value", "code"),
    [
        ("currency", "euro", "currency_unknown"),
        ("time_zone", "Mars/Olympus", "time_zone_unknown"),
        ("time_zone", "../etc/passwd", "time_zone_unknown"),
        ("name", "  ", "name_bad"),
        ("lead_user_name", "Lee Smith", "user_name_bad"),
        ("lead_user_name", "erased-1", "user_name_bad"),
        ("lead_password", "short", "password_weak"),
    ],
)
def test_a_bad_beginning_leaves_nothing(db: None, field: str, value: str, code: str) -> None:
    """Each wrong field is refused by its code, and neither workshop nor person is left behind."""
    with refused(code):
        services.workshop_begin(**(GOOD | {field: value}))  # type: ignore[arg-type]
    assert selectors.workshop_or_none() is None
    assert selectors.people() == []


def test_a_database_holds_one_workshop(world: SmallWorld) -> None:
    """A second one is refused by the service, and by the database where someone goes around it."""
    with refused("workshop_exists"):
        services.workshop_begin(**GOOD)  # type: ignore[arg-type]
    with pytest.raises(IntegrityError), transaction.atomic():
        Workshop.objects.create(name="x", currency="EUR", time_zone="UTC", is_demo=False)


def test_only_the_demo_may_stand_still(world: SmallWorld) -> None:
    """The database refuses a fixed day in a real workshop."""
    with pytest.raises(IntegrityError), transaction.atomic():
        Workshop.objects.update(is_demo=False)


def test_no_workshop_says_how_to_begin(db: None) -> None:
    """Before the beginning the selector tells which command helps."""
    with pytest.raises(Exception, match="reelwright demo"):
        selectors.workshop()


def test_adding_people(world: SmallWorld) -> None:
    """The lead adds one; a taken name is refused; the bench may not add."""
    added = services.person_add(
        by=world.ada, user_name="cy", display_name="Cy", role=Role.OFFICE, password=None
    )
    assert selectors.person("cy") == added
    assert not added.has_usable_password()
    with refused("user_name_taken"):
        services.person_add(
            by=world.ada, user_name="cy", display_name="Other", role=Role.BENCH, password=None
        )
    with refused("not_allowed"):
        services.person_add(
            by=world.ben, user_name="dee", display_name="Dee", role=Role.LEAD, password=None
        )
    with pytest.raises(UnknownCode):
        selectors.person("dee")


def test_passwords(world: SmallWorld) -> None:
    """Everybody sets their own; the lead anybody's; nobody else another's."""
    services.person_set_password(by=world.ben, person=world.ben, password="copper and tin 9")
    assert selectors.person("ben").check_password("copper and tin 9")
    services.person_set_password(by=world.ada, person=world.ben, password="silver and tin 9")
    assert selectors.person("ben").check_password("silver and tin 9")
    with refused("not_allowed"):
        services.person_set_password(by=world.ben, person=world.ada, password="copper and tin 9")
    with refused("password_weak"):
        services.person_set_password(by=world.ben, person=world.ben, password="1234")


def test_erasing_a_person_keeps_the_evidence(world: SmallWorld) -> None:
    """Name and sign-in are gone from the table, the ledger still points to the number."""
    services.person_add(
        by=world.ada, user_name="eve", display_name="Eve", role=Role.LEAD, password=None
    )
    eve = selectors.person("eve")
    number = world.ada.pk
    erased = services.person_erase(by=eve, person=world.ada, on=TODAY)
    assert erased.pk == number
    row = Person.objects.get(pk=number)
    assert "ada" not in f"{row.user_name} {row.display_name} {row.password}".lower()
    assert not row.is_active
    assert {line.by for line in reel_ledger(FULL)} == {f"Person {number}"}
    with refused("already_erased"):
        services.person_erase(by=eve, person=world.ada, on=TODAY)


def test_the_last_lead_stays(world: SmallWorld) -> None:
    """Nobody could keep the workshop if its only lead were erased."""
    with refused("last_lead"):
        services.person_erase(by=world.ada, person=world.ada, on=TODAY)
    services.person_erase(by=world.ada, person=world.ben, on=TODAY)


def test_qualifications_hold_for_their_days(world: SmallWorld) -> None:
    """From the first to the last day and not outside; for a station or a method, never both."""
    services.qualification_record(
        by=world.ada,
        person=world.ben,
        method="soldered",
        since=TODAY,
        until=TODAY + dt.timedelta(days=10),
    )
    services.qualification_record(
        by=world.ada, person=world.ben, station_code="bench-1", since=TODAY, until=None
    )
    for day, holds in ((-1, False), (0, True), (10, True), (11, False)):
        on = TODAY + dt.timedelta(days=day)
        assert selectors.qualified_people(on=on, method="soldered") == [world.ben][: int(holds)]
    assert selectors.qualified_people(on=TODAY, method="soldered", station_code="bench-1") == [
        world.ben
    ]
    assert selectors.qualified_people(on=TODAY, method="welded") == []
    with refused("qualification_known"):
        services.qualification_record(
            by=world.ada, person=world.ben, method="soldered", since=TODAY, until=None
        )
    with refused("qualification_bad"):
        services.qualification_record(by=world.ada, person=world.ben, since=TODAY, until=None)
    with refused("qualification_bad"):
        services.qualification_record(
            by=world.ada,
            person=world.ben,
            method="welded",
            since=TODAY,
            until=TODAY - dt.timedelta(days=1),
        )
    with refused("not_allowed"):
        services.qualification_record(
            by=world.ben, person=world.ben, method="welded", since=TODAY, until=None
        )
