"""What a lead says of a pair: written once, newest first, never beside its reason."""

import pytest
from django.db import DatabaseError, IntegrityError, transaction

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.people.models import Person
from reelwright.shop.setups.models import FitOverride
from reelwright.shop.setups.overrides import (
    fit_override_history,
    fit_override_record,
    fit_overrides,
)
from reelwright.shop.setups.states import FitAnswer
from tests.shop.refusals import refused
from tests.small_world import CABLE, CONNECTOR, TODAY, SmallWorld

PAIR = (CABLE.code, CONNECTOR.code)


def say(by: Person, answer: str, reason: str = "Three were tried.") -> None:
    """Write down one thing of the one pair."""
    fit_override_record(
        by=by,
        cable_code=CABLE.code,
        connector_code=CONNECTOR.code,
        answer=answer,
        reason=reason,
        on=TODAY,
    )


def test_the_newest_stands_and_all_are_kept(world: SmallWorld) -> None:
    """A second answer stands before the first, "as computed" takes it back, nothing is lost."""
    say(world.ada, "impossible")
    say(world.ada, "possible", " The sleeve was opened by hand. ")
    standing = fit_overrides()[PAIR]
    assert standing.answer is FitAnswer.POSSIBLE
    assert (standing.reason, standing.said_by, standing.said_on) == (
        "The sleeve was opened by hand.",
        "Ada",
        TODAY,
    )
    say(world.ada, "as computed")
    assert fit_overrides() == {}
    assert [str(each.answer) for each in fit_override_history(*PAIR)] == [
        "as computed",
        "possible",
        "impossible",
    ]


def test_only_who_may_release_set_ups_may_say_it(world: SmallWorld) -> None:
    """Bench and viewer are refused, and nothing is written."""
    for person in (world.ben, world.vic):
        with refused("not_allowed"):
            say(person, "possible")
    assert not FitOverride.objects.exists()


@pytest.mark.parametrize(
    ("answer", "reason", "code"),
    [
        ("possible", "  ", "reason_missing"),
        ("possible", "x" * 301, "reason_long"),
        ("perhaps", "Tried.", "answer_unknown"),
        ("as computed", "Tried.", "nothing_to_take_back"),
    ],
)
def test_what_says_nothing_is_refused(
    world: SmallWorld, answer: str, reason: str, code: str
) -> None:
    """No reason, too long a one, an unknown answer, nothing to take back: none is written."""
    with refused(code):
        say(world.ada, answer, reason)
    assert not FitOverride.objects.exists()


def test_an_unknown_part_is_refused_by_name(world: SmallWorld) -> None:
    """The cable or the connector that is not in the catalogue is named."""
    for cable, connector in ((CABLE.code, "NONE"), ("NONE", CONNECTOR.code)):
        with pytest.raises(UnknownCode, match="NONE"):
            fit_override_record(
                by=world.ada,
                cable_code=cable,
                connector_code=connector,
                answer="possible",
                reason="Tried.",
                on=TODAY,
            )


def test_an_entry_is_never_changed_or_removed(world: SmallWorld) -> None:
    """The model refuses, and so does the database where the model is gone round."""
    from django.db import connection

    say(world.ada, "possible")
    row = FitOverride.objects.get()
    with pytest.raises(ShopRuleBroken):
        row.delete()
    with pytest.raises(ShopRuleBroken):
        FitOverride.objects.update(reason="other")
    for statement in (
        "UPDATE setups_fitoverride SET reason = 'other'",
        "DELETE FROM setups_fitoverride",
    ):
        with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
            cursor.execute(statement)
    assert FitOverride.objects.get().reason == "Three were tried."


def test_the_database_keeps_no_entry_without_a_reason(world: SmallWorld) -> None:
    """Past the service the constraint still holds."""
    say(world.ada, "possible")
    row = FitOverride.objects.get()
    with pytest.raises(IntegrityError), transaction.atomic():
        FitOverride.objects.create(
            cable=row.cable,
            connector=row.connector,
            answer="possible",
            reason="",
            said_on=TODAY,
            said_by=world.ada,
        )
