"""A set-up's page where things are done: its state moved, photographs attached and taken back."""

import re
from collections.abc import Callable
from dataclasses import replace

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from reelwright.shop.setups import services
from reelwright.shop.setups.models import Photograph, StateMove
from reelwright.shop.setups.selectors import chosen_sheet
from reelwright.shop.setups.states import FailureMode, State
from tests.day_world import DayWorld
from tests.photographs import SECRETS, jpeg, png
from tests.shop.setups.conftest import COMPLETE, GOOD_PULLS_N
from tests.small_world import TODAY

Sign = Callable[[str], Client]


def draft(world: DayWorld, **changes: object) -> int:
    """Revision B of S-1, drafted complete unless told."""
    return services.revision_draft(
        by=world.ben,
        set_up_code="S-1",
        letter="B",
        numbers=replace(COMPLETE, **changes),  # type: ignore[arg-type]
        on=TODAY,
    ).pk


def state(letter: str = "B") -> State:
    """Where a revision stands."""
    return chosen_sheet("S-1", letter)[1].state


def move(client: Client, to: str, seen: str, **more: str) -> object:
    """Send one of the page's buttons."""
    return client.post("/set-ups/S-1/move", {"rev": "B", "to": to, "seen": seen} | more)


def test_a_revision_goes_its_way_by_the_pages_buttons(day_world: DayWorld, signed_in: Sign) -> None:
    """Bench takes it to trial; the lead declares it proven and releases it; rev A is withdrawn."""
    number = draft(day_world)
    ben, ada = signed_in("ben"), signed_in("ada")
    assert "Take to trial" in ben.get("/set-ups/S-1?rev=B").text
    assert move(ben, "on trial", "drafted").status_code == 302  # type: ignore[attr-defined]
    told = ada.get("/set-ups/S-1?rev=B").text
    assert "Declare proven" not in told
    assert "0 pulls of 10: 10 more are needed." in told
    services.pulls_record(
        by=day_world.ben,
        revision_id=number,
        pulls_n=[(force, FailureMode.JACKET_SLIPPED) for force in GOOD_PULLS_N],
        on=TODAY,
    )
    assert "Declare proven" not in ben.get("/set-ups/S-1?rev=B").text
    assert "A lead may do that." in ben.get("/set-ups/S-1?rev=B").text
    assert "Declare proven" in ada.get("/set-ups/S-1?rev=B").text
    move(ada, "proven", "on trial")
    assert "Release set-up" in ada.get("/set-ups/S-1?rev=B").text
    answer = ada.post(
        "/set-ups/S-1/move", {"rev": "B", "to": "released", "seen": "proven"}, follow=True
    )
    assert "S-1 rev B is released now." in answer.text
    assert (state("B"), state("A")) == (State.RELEASED, State.WITHDRAWN)


def test_what_lacks_something_shows_it_and_has_no_button(
    day_world: DayWorld, signed_in: Sign
) -> None:
    """A form sent by hand is told what is missing, on the page itself, and nothing moves."""
    draft(day_world, test_adapter="")
    ada = signed_in("ada")
    told = ada.get("/set-ups/S-1?rev=B").text
    assert "Take to trial" not in told
    assert "Missing: the test adapter." in told
    answer = move(ada, "on trial", "drafted")
    assert answer.status_code == 409  # type: ignore[attr-defined]
    assert "cannot be on trial yet" in answer.text  # type: ignore[attr-defined]
    assert state() is State.DRAFTED


def test_a_button_of_an_old_page_is_told_what_the_state_is_now(
    day_world: DayWorld, signed_in: Sign
) -> None:
    """Somebody else was quicker: 409, the state as it is, and nothing is done twice."""
    draft(day_world)
    ada = signed_in("ada")
    move(ada, "on trial", "drafted")
    moves = StateMove.objects.count()
    for to, seen in (("on trial", "drafted"), ("withdrawn", "drafted"), ("proven", "")):
        answer = move(ada, to, seen, reason="Late.")
        assert answer.status_code == 409  # type: ignore[attr-defined]
        assert "S-1 rev B is on trial now" in answer.text  # type: ignore[attr-defined]
    assert StateMove.objects.count() == moves


def test_withdrawing_asks_why(day_world: DayWorld, signed_in: Sign) -> None:
    """Without a reason it is told at its field; with one it is done and stands in the history."""
    draft(day_world)
    ada = signed_in("ada")
    answer = move(ada, "withdrawn", "drafted", reason=" ")
    assert answer.status_code == 422  # type: ignore[attr-defined]
    assert "Say why this revision is withdrawn." in answer.text  # type: ignore[attr-defined]
    move(ada, "withdrawn", "drafted", reason="The connector changed.")
    assert state() is State.WITHDRAWN
    told = ada.get("/set-ups/S-1?rev=B").text
    assert "The connector changed." in told
    assert "Withdraw set-up" not in told


@pytest.mark.parametrize("to", ["released again", "", "drafted"])
def test_a_state_that_nobody_knows_is_refused(
    day_world: DayWorld, signed_in: Sign, to: str
) -> None:
    """Only the states ahead and withdrawing can be asked for."""
    draft(day_world)
    assert move(signed_in("ada"), to, "drafted").status_code == 404  # type: ignore[attr-defined]
    assert state() is State.DRAFTED


def test_who_may_not_is_refused_and_sees_no_button(day_world: DayWorld, signed_in: Sign) -> None:
    """Office and viewer move nothing, attach nothing; the bench takes nothing back."""
    draft(day_world)
    for name in ("olga", "vic"):
        client = signed_in(name)
        told = client.get("/set-ups/S-1?rev=B").text
        for words in ("Take to trial", "Withdraw set-up", "Attach a photograph"):
            assert words not in told
        assert move(client, "on trial", "drafted").status_code == 403  # type: ignore[attr-defined]
        assert upload(client, png()).status_code == 403  # type: ignore[attr-defined]
    assert move(signed_in("ben"), "withdrawn", "drafted", reason="x").status_code == 403  # type: ignore[attr-defined]
    assert state() is State.DRAFTED
    assert not Photograph.objects.exists()


def upload(client: Client, content: bytes, name: str = "end.jpg", **more: str) -> object:
    """Send a photograph of the page's form."""
    told = {"rev": "A", "shows": "good", "caption": "The clamp holds."} | more
    file = SimpleUploadedFile(name, content, content_type="image/jpeg")
    return client.post("/set-ups/S-1/photographs", told | {"file": file})


def test_a_photograph_is_shown_served_and_taken_back(day_world: DayWorld, signed_in: Sign) -> None:
    """On the page with its caption; its bytes tell no place; taken back it is gone, and told."""
    ada = signed_in("ada")
    assert upload(ada, jpeg()).status_code == 302  # type: ignore[attr-defined]
    row = Photograph.objects.get()
    address = f"/photographs/{row.digest}.jpg"
    told = ada.get("/set-ups/S-1").text
    assert f'src="{address}"' in told
    assert "The clamp holds." in told
    answer = signed_in("vic").get(address)
    assert answer.headers["Content-Type"] == "image/jpeg"
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert "script-src 'self'" in answer.headers["Content-Security-Policy"]
    assert not any(secret in answer.content for secret in SECRETS)
    assert Client().get(address).status_code == 302
    data = {"rev": "A", "take_back": str(row.pk)}
    assert ada.post("/set-ups/S-1/photographs", data).status_code == 422
    assert signed_in("ben").post("/set-ups/S-1/photographs", data).status_code == 403
    ada.post("/set-ups/S-1/photographs", data | {"reason": "Another end."})
    told = ada.get("/set-ups/S-1").text
    assert address not in told
    assert "Another end." in told
    assert ada.get(address).status_code == 404


@pytest.mark.parametrize(
    ("content", "name", "words"),
    [
        (b"a text, not a picture", "end.jpg", "neither a JPEG nor a PNG"),
        (jpeg()[:700], "end.jpg", "broken off or damaged"),
        (jpeg() + bytes(8_000_000), "end.jpg", "too large"),
        (b"<svg onload='x'/>", "end.svg", "neither a JPEG nor a PNG"),
    ],
)
def test_a_bad_upload_is_told_at_its_field_and_keeps_what_was_typed(
    day_world: DayWorld, signed_in: Sign, content: bytes, name: str, words: str
) -> None:
    """422, told at the top too, with what is accepted; the caption stays; nothing is kept."""
    answer = upload(signed_in("ben"), content, name)
    assert answer.status_code == 422  # type: ignore[attr-defined]
    assert words in answer.text  # type: ignore[attr-defined]
    assert "Accepted: a JPEG or PNG picture" in answer.text  # type: ignore[attr-defined]
    assert '<a href="#file">' in answer.text  # type: ignore[attr-defined]
    assert 'value="The clamp holds."' in answer.text  # type: ignore[attr-defined]
    assert not Photograph.objects.exists()


def test_no_file_and_no_caption_are_told(day_world: DayWorld, signed_in: Sign) -> None:
    """Each at its own field."""
    ben = signed_in("ben")
    answer = ben.post("/set-ups/S-1/photographs", {"rev": "A", "shows": "good", "caption": "x"})
    assert (answer.status_code, "Choose a file." in answer.text) == (422, True)
    answer = upload(ben, png(), caption=" ")
    assert "Say what is to be seen on it." in answer.text  # type: ignore[attr-defined]


def test_the_sheet_is_sent_as_a_pdf(day_world: DayWorld, signed_in: Sign) -> None:
    """Whoever may look may print it; an unknown revision is told."""
    vic = signed_in("vic")
    answer = vic.get("/set-ups/S-1/sheet.pdf?rev=A")
    assert answer.headers["Content-Type"] == "application/pdf"
    assert 'filename="S-1-rev-A.pdf"' in answer.headers["Content-Disposition"]
    assert answer.content.startswith(b"%PDF-")
    assert vic.get("/set-ups/S-1/sheet.pdf?rev=Q").status_code == 404


@pytest.mark.parametrize("typed", ["S-1 rev A", "s-1 REV a"])
def test_the_code_on_a_sheet_leads_to_the_very_revision(
    day_world: DayWorld, signed_in: Sign, typed: str
) -> None:
    """What the sheet's code says opens its revision, also an older one; the set-up alone opens the
    newest, and a letter that no revision has opens none."""
    draft(day_world)
    ada = signed_in("ada")
    answer = ada.get("/search", {"q": typed})
    assert answer.headers["Location"] == "/set-ups/S-1?rev=A"
    assert ada.get("/search", {"q": "s-1"}).headers["Location"] == "/set-ups/S-1"
    assert "Nothing holds" in ada.get("/search", {"q": "S-1 rev Q"}).text


def test_the_line_under_the_head_names_the_sections_that_are_there(
    day_world: DayWorld, signed_in: Sign
) -> None:
    """Each of its links leads to a heading of the page, in the page's order; no id stands twice."""
    told = signed_in("ada").get("/set-ups/S-1").text
    nav = told[told.index('class="on-page"') :]
    anchors = re.findall(r'href="#([\w-]+)"', nav[: nav.index("</nav>")])
    assert {"strip", "order", "machine", "pulls", "heights", "photographs"} <= set(anchors)
    assert "pin-tip" not in anchors
    headings = re.findall(r'<h2 id="([\w-]+)"', told)
    assert [each for each in headings if each in anchors] == anchors
    ids = re.findall(r'\sid="([^"]+)"', told)
    assert len(ids) == len(set(ids))
