"""Photographs on a sheet: attached, shown, taken back by a second entry, and never removed."""

import hashlib
from pathlib import Path

import pytest
from django.conf import settings
from django.db import DatabaseError, connection, transaction

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.people.models import Person
from reelwright.shop.setups.models import Photograph
from reelwright.shop.setups.photographs import (
    MOST_ON_A_SHEET,
    PhotographValue,
    photograph_attach,
    photograph_file,
    photograph_take_back,
    photographs,
    standing_photographs,
)
from tests.photographs import SECRETS, jpeg, png
from tests.shop.refusals import refused
from tests.small_world import TODAY, SmallWorld


def attach(by: Person, revision: int, content: bytes, **other: str) -> PhotographValue:
    """Put one photograph on a revision."""
    told = {"shows": "good", "caption": "The clamp on the jacket."} | other
    return photograph_attach(by=by, revision_id=revision, content=content, on=TODAY, **told)


def test_what_is_attached_can_be_read_back_without_its_secrets(
    world: SmallWorld, drafted: int
) -> None:
    """Who, when, what it shows; the file lies under its own digest and tells no place."""
    made = attach(world.ben, drafted, jpeg(turned=6), caption="  The clamp on the jacket. ")
    (found,) = standing_photographs(drafted)
    assert found == made
    assert (found.by, found.on, found.caption) == ("Ben", TODAY, "The clamp on the jacket.")
    assert (found.width_px, found.height_px, found.upright_px) == (160, 120, (120, 160))
    kind, content = photograph_file(found.file_name)
    assert kind == "jpeg"
    assert hashlib.sha256(content).hexdigest() == found.digest
    assert not any(secret in content for secret in SECRETS)
    assert (Path(settings.PHOTOGRAPHS_FOLDER) / found.file_name).read_bytes() == content


def test_taken_back_it_is_gone_from_the_sheet_and_kept_in_the_records(
    world: SmallWorld, drafted: int
) -> None:
    """The second entry says who and why; file and first entry stay; it may be attached anew."""
    made = attach(world.ben, drafted, png())
    photograph_take_back(by=world.ada, number=made.number, reason="Another end.", on=TODAY)
    assert standing_photographs(drafted) == ()
    (found,) = photographs(drafted)
    assert found.taken_back == "Taken back 2027-03-02 by Ada: Another end."
    with pytest.raises(UnknownCode):
        photograph_file(found.file_name)
    assert (Path(settings.PHOTOGRAPHS_FOLDER) / found.file_name).is_file()
    assert attach(world.ben, drafted, png()).digest == made.digest
    assert photograph_file(found.file_name)[0] == "png"


def test_who_may_attach_and_who_may_take_back(world: SmallWorld, drafted: int) -> None:
    """Bench and lead attach; the lead alone takes back; a viewer does neither."""
    made = attach(world.ben, drafted, png())
    with refused("not_allowed"):
        attach(world.vic, drafted, jpeg())
    for person in (world.ben, world.vic):
        with refused("not_allowed"):
            photograph_take_back(by=person, number=made.number, reason="No.", on=TODAY)
    assert standing_photographs(drafted) == (made,)


@pytest.mark.parametrize(
    ("content", "told", "code"),
    [
        (b"hello", {}, "photograph_kind"),
        (jpeg()[:900], {}, "photograph_broken"),
        (png(), {"caption": " "}, "caption_missing"),
        (png(), {"caption": "x" * 201}, "caption_long"),
        (png(), {"shows": "better"}, "shows_unknown"),
    ],
)
def test_what_cannot_be_shown_or_says_nothing_is_refused(
    world: SmallWorld, drafted: int, content: bytes, told: dict[str, str], code: str
) -> None:
    """Nothing is written, neither row nor file."""
    folder = Path(settings.PHOTOGRAPHS_FOLDER)
    before = set(folder.iterdir()) if folder.is_dir() else set()
    with refused(code):
        attach(world.ben, drafted, content, **told)
    assert not Photograph.objects.exists()
    assert (set(folder.iterdir()) if folder.is_dir() else set()) == before


def test_the_same_twice_and_one_too_many_are_refused(world: SmallWorld, drafted: int) -> None:
    """A picture stands once on a sheet, and a sheet takes twelve."""
    for width in range(100, 100 + MOST_ON_A_SHEET):
        attach(world.ben, drafted, png(width))
    with refused("photograph_there"):
        attach(world.ben, drafted, png(100))
    with refused("photographs_many"):
        attach(world.ben, drafted, png(99))
    with pytest.raises(UnknownCode):
        attach(world.ben, drafted + 99, png(98))


@pytest.mark.parametrize("reason", ["", "  ", "x" * 301])
def test_taking_back_says_why_once(world: SmallWorld, drafted: int, reason: str) -> None:
    """No reason, too long a one, a second time, and one that is not there are refused."""
    made = attach(world.ben, drafted, png())
    with refused("reason_long" if reason.strip() else "reason_missing"):
        photograph_take_back(by=world.ada, number=made.number, reason=reason, on=TODAY)
    photograph_take_back(by=world.ada, number=made.number, reason="Blurred.", on=TODAY)
    with refused("taken_back"):
        photograph_take_back(by=world.ada, number=made.number, reason="Blurred.", on=TODAY)
    with pytest.raises(UnknownCode):
        photograph_take_back(by=world.ada, number=made.number + 99, reason="Why.", on=TODAY)


def test_a_file_that_was_lost_or_changed_is_told_by_its_caption(
    world: SmallWorld, drafted: int
) -> None:
    """Changed bytes are never shown as the photograph that was attached."""
    made = attach(world.ben, drafted, png(150))
    path = Path(settings.PHOTOGRAPHS_FOLDER) / made.file_name
    whole = path.read_bytes()
    path.write_bytes(whole[:-1])
    with refused("photograph_lost") as caught:
        photograph_file(made.file_name)
    assert made.caption in caught.value.sentence
    path.unlink()
    with refused("photograph_lost"):
        photograph_file(made.file_name)


def test_a_name_that_leads_elsewhere_is_unknown(world: SmallWorld, drafted: int) -> None:
    """No path, no other ending, no part of a digest opens a file."""
    made = attach(world.ben, drafted, png(140))
    for name in (
        "../workshop.sqlite3",
        f"{made.digest}.jpg",
        f"{made.digest}.png/..",
        made.digest,
        f"{made.digest[:10]}.png",
        "",
    ):
        with pytest.raises(UnknownCode):
            photograph_file(name)


def test_an_entry_is_never_changed_or_removed(world: SmallWorld, drafted: int) -> None:
    """The model refuses, and so does the database where the model is gone round."""
    made = attach(world.ben, drafted, png())
    photograph_take_back(by=world.ada, number=made.number, reason="Blurred.", on=TODAY)
    with pytest.raises(ShopRuleBroken):
        Photograph.objects.get().delete()
    for table in ("setups_photograph", "setups_photographtakenback"):
        for statement in (f"UPDATE {table} SET id = id + 1", f"DELETE FROM {table}"):
            with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
                cursor.execute(statement)
    assert Photograph.objects.count() == 1
