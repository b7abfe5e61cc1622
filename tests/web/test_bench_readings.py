"""Readings at the bench and the desk: one touch keeps one, one touch takes it back, files whole."""

import dataclasses
from collections.abc import Callable
from decimal import Decimal

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from reelwright.shop.setups import services
from reelwright.shop.setups.readings.selectors import dimensions_read, files_read, pulls_read
from reelwright.shop.setups.selectors import pulls, set_up_sheets
from reelwright.shop.tools.services import instrument_add
from tests.day_world import DayWorld
from tests.small_world import TODAY

PART = {"HX-Request": "true"}
PULLS = "/bench/pulls/S-1"


@pytest.fixture
def ben(signed_in: Callable[[str], Client]) -> Client:
    """Ben at the bench."""
    return signed_in("ben")


@pytest.fixture
def revision(day_world: DayWorld) -> int:
    """The released revision of S-1, which was pulled ten times last week."""
    return set_up_sheets("S-1")[0].revision_id


def today_s(revision: int) -> list[tuple[str, float, str]]:
    """End, force and ending of each pull of today that counts."""
    return [
        (row.end, row.force_n, str(row.failure_mode))
        for row in pulls_read(revision)
        if row.on == TODAY and not row.withdrawn
    ]


def test_the_page_says_which_end_and_how_much_it_must_hold(ben: Client, revision: int) -> None:
    """The first heading names the end and the least pull; six ways of giving way are offered."""
    told = ben.get(PULLS).text
    heading = told[told.index("<h1") : told.index("</h1>")]
    assert "Pull end <b>1</b> of S-1 rev A" in heading
    assert "at least 90\u202fN" in heading
    assert told.count('name="choice"') == 1 + 6
    assert "10 pulls, mean 120\u202fN, lowest 114\u202fN: they hold the least pull." in told


def test_one_touch_keeps_a_reading_and_counts_on(ben: Client, revision: int) -> None:
    """The number typed and the button touched are all; the next page asks for end 2."""
    told = ben.post(PULLS, {"value": "118,5", "choice": "jacket slipped|1"}, headers=PART).text
    assert today_s(revision) == [("1", 118.5, "jacket slipped")]
    assert "End 1: 118.5\u202fN, jacket slipped." in told
    assert "Pull end <b>2</b>" in told
    assert "<html" not in told


def test_a_second_touch_keeps_nothing_more(ben: Client, revision: int) -> None:
    """Without script the page reloads; the same button of a page left open is refused in words."""
    form = {"value": "118", "choice": "jacket slipped|1"}
    assert ben.post(PULLS, form).status_code == 302
    again = ben.post(PULLS, form)
    assert again.status_code == 422
    assert "end 1 stands there with the same pull already" in again.text
    assert len(today_s(revision)) == 1


def test_a_weak_pull_is_kept_and_told(ben: Client, revision: int) -> None:
    """A pull under the least is evidence: it is kept, and the page says what it is under."""
    told = ben.post(PULLS, {"value": "71", "choice": "joint peeled|1"}, headers=PART).text
    assert "That is under the least pull of 90\u202fN. It is kept." in told
    assert today_s(revision) == [("1", 71.0, "joint peeled")]


@pytest.mark.parametrize(
    ("value", "words"),
    [
        ("", "nothing is written"),
        ("soon", "not a force"),
        ("1200", "more than 5 times the least pull of 90\u202fN"),
    ],
)
def test_what_cannot_be_kept_is_told_and_stays_typed(
    ben: Client, revision: int, value: str, words: str
) -> None:
    """What is wrong stands large, what was typed stays in its field, nothing is kept."""
    told = ben.post(PULLS, {"value": value, "choice": "jacket slipped|1"}, headers=PART).text
    assert words in told
    assert f'name="value" value="{value}"' in told
    assert today_s(revision) == []


def test_enter_alone_asks_where_it_gave_way(ben: Client, revision: int) -> None:
    """The number stays, and the first of the buttons has the focus for the keyboard."""
    told = ben.post(PULLS, {"value": "118", "choice": ""}, headers=PART).text
    assert "Where did it give way? Touch one." in told
    assert 'name="value" value="118"' in told
    assert "autofocus>Conductor broke" in told
    assert today_s(revision) == []


@pytest.mark.parametrize("serial", ["W-1-2", "270302-014-5", "2703020145"])
def test_a_scanned_end_is_the_end_of_the_next_reading(
    ben: Client, revision: int, serial: str
) -> None:
    """A serial scanned into the field becomes the end, and the reading that follows is its."""
    told = ben.post(PULLS, {"value": serial, "choice": ""}, headers=PART).text
    assert f"End {serial}: now its turn." in told
    assert f'name="end" value="{serial}"' in told
    form = {"value": "118", "end": serial, "choice": "held|1"}
    ben.post(PULLS, form, headers=PART)
    assert today_s(revision) == [(serial, 118.0, "pulled to the limit and held")]


def test_one_touch_takes_a_reading_back(ben: Client, revision: int) -> None:
    """It no longer counts and stays on the set-up's page with who took it back."""
    ben.post(PULLS, {"value": "118", "choice": "jacket slipped|1"})
    (row,) = [row for row in pulls_read(revision) if row.on == TODAY]
    page = ben.get(PULLS).text
    assert "Take back end 1: 118\u202fN, jacket slipped" in page
    told = ben.post(f"{PULLS}/take-back", {"reading": f"pull-{row.number}"}, headers=PART).text
    assert "It is taken back, and no longer counts." in told
    assert len(pulls(revision)) == 10
    assert "Taken back by Ben: taken back at the bench" in ben.get("/set-ups/S-1").text
    again = ben.post(f"{PULLS}/take-back", {"reading": f"pull-{row.number}"})
    assert again.status_code == 422
    assert "was taken back already" in again.text
    assert ben.post(f"{PULLS}/take-back", {"reading": "pull-x"}).status_code == 404


def test_strips_are_measured_part_by_part(ben: Client, revision: int) -> None:
    """The parts of a soldered end are offered with what is laid down, and none outside goes by."""
    page = ben.get("/bench/strips/S-1").text
    assert "5.00 ± 0.50\u202fmm" in page
    told = ben.post(
        "/bench/strips/S-1", {"value": "5.6", "choice": "cores bared|1"}, headers=PART
    ).text
    assert "Cores bared 5.60\u202fmm. That is outside 5.00 ± 0.50\u202fmm. It is kept." in told
    (row,) = dimensions_read(revision)
    assert (row.end, str(row.part), float(row.length_mm)) == ("1", "cores bared", 5.6)
    assert "such an end has nothing of the kind" in ben.get("/bench/heights/S-1").text.lower()


PINS = "/bench/pins/S-1?rev=B"
PIN = {"before": "17.900", "value": "17,962", "choice": "pin growth|1", "instrument": "I-2"}


@pytest.fixture
def crimped(day_world: DayWorld) -> int:
    """Revision B of S-1 with a pin die, on trial, and a gauge to read its pins with."""
    sheet = set_up_sheets("S-1")[0]
    number: int = services.revision_draft(
        by=day_world.ben,
        set_up_code="S-1",
        letter="B",
        numbers=dataclasses.replace(sheet.numbers, pin_die_mm=Decimal("1.60")),
        on=TODAY,
    ).pk
    services.revision_try(by=day_world.ben, revision_id=number, on=TODAY)
    instrument_add(
        by=day_world.ada, code="I-2", name="Gauge", measures="length", calibration_due=TODAY
    )
    return number


def test_a_pin_is_measured_before_and_after_and_taken_back(ben: Client, crimped: int) -> None:
    """Two lengths and one touch; how far it has come is told; a touch takes it back."""
    page = ben.get(PINS).text
    assert "Measure the pin of end <b>1</b> of S-1 rev B before and after its crimp" in page
    assert "No pin so far; 5 take the place of the reckoned growth." in page
    assert '<option value="I-2" selected>' in page
    told = ben.post(PINS, PIN, headers=PART).text
    assert "End 1: 17.90\u202fmm to 17.962\u202fmm, grown by 0.062\u202fmm." in told
    assert "Measured 1 of 5, the reckoned range stands." in told
    (row,) = dimensions_read(crimped)
    assert f'name="reading" value="dimension-{row.number}"' in told
    back = "/bench/pins/S-1/take-back?rev=B"
    assert (
        "no longer counts"
        in ben.post(back, {"reading": f"dimension-{row.number}"}, headers=PART).text
    )
    assert "No pin so far" in ben.get(PINS).text


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"before": ""}, "the length before the crimp is not written"),
        ({"before": "long"}, "this is not a dimension"),
        ({"before": "18.962"}, "1.000\u202fmm shorter than before its crimp"),
        ({"instrument": ""}, "no instrument is named"),
        ({"value": ""}, "nothing is written"),
    ],
    ids=["none before", "no length", "exchanged", "no gauge", "none after"],
)
def test_a_wrong_pin_is_told_and_what_was_typed_stays(
    ben: Client, crimped: int, wrong: dict[str, str], words: str
) -> None:
    """Nothing is kept, and both fields still hold what was typed."""
    answer = ben.post(PINS, PIN | wrong)
    assert answer.status_code == 422
    assert words in answer.text
    for name in ("before", "value"):
        assert f'name="{name}" value="{(PIN | wrong)[name]}"' in answer.text
    assert dimensions_read(crimped) == ()


def test_enter_after_the_first_length_leads_to_the_second(ben: Client, crimped: int) -> None:
    """Enter alone keeps nothing: the length stays, the cursor stands in the other field."""
    told = ben.post(PINS, {"before": "17.9", "value": "", "choice": ""}, headers=PART).text
    assert "Are both lengths typed?" in told
    field = told[told.index('id="value"') :]
    assert "autofocus" in field[: field.index(">")]
    scanned = ben.post(PINS, {"before": "W-1-2", "choice": ""}, headers=PART).text
    assert "Measure the pin of end <b>W-1-2</b>" in scanned


def test_the_start_leads_to_what_was_scanned(ben: Client, revision: int) -> None:
    """A set-up to its pulls, a reel to its cuts, in small letters too; others are told."""
    assert ben.get("/bench?scan=s-1").headers["Location"] == "/bench/pulls/S-1"
    assert ben.get("/bench?scan=R-1").headers["Location"] == "/bench/cut/R-1"
    unknown = ben.get("/bench?scan=X-9")
    assert unknown.status_code == 404
    assert "No set-up and no reel is called X-9." in unknown.text
    start = ben.get("/bench").text
    assert "/bench/strips/S-1" in start
    assert "/bench/heights/S-1" not in start


def test_a_revision_that_is_not_in_use_is_not_measured(ben: Client, revision: int) -> None:
    """A letter that is not there is told with those that are."""
    answer = ben.get(f"{PULLS}?rev=Z")
    assert answer.status_code == 404
    assert "A" in answer.text


def send(client: Client, content: bytes) -> str:
    """Send a file of readings; return the page that follows."""
    form = {"readings": SimpleUploadedFile("r.csv", content)}
    return client.post("/bench/files", form, follow=True).text


HEADER = b"set_up,revision,date,end,what,value,gave_way\n"
ROW = b"S-1,A,2027-03-02,7,pull,118 N,jacket slipped\n"


def test_a_file_is_read_once_and_told_the_second_time(ben: Client, revision: int) -> None:
    """What it brought is said and listed; the same again says who read it and when."""
    first = send(ben, HEADER + ROW)
    assert "r.csv: 1 reading taken in." in first
    again = send(ben, HEADER + ROW)
    assert "was read on 2027-03-02 by Ben already; nothing changed." in again
    assert [file.name for file in files_read(most=5)] == ["r.csv"]
    assert today_s(revision) == [("7", 118.0, "jacket slipped")]


def test_the_faults_of_a_file_are_shown_and_nothing_is_kept(ben: Client, revision: int) -> None:
    """Row, column, value and what is accepted in a table; the good row is not kept."""
    bad = b"S-1,A,2027-03-02,8,pull,far,exploded\n"
    answer = ben.post("/bench/files", {"readings": SimpleUploadedFile("r.csv", HEADER + ROW + bad)})
    assert answer.status_code == 422
    assert "2 things to mend, nothing was taken in" in answer.text
    for words in ("gave_way", "exploded", "far", "43.6 lbf"):
        assert words in answer.text
    assert today_s(revision) == []


def test_the_empty_file_to_fill_is_one_that_is_read(ben: Client, revision: int) -> None:
    """Its header with one row below it is taken in."""
    empty = ben.get("/bench/files/readings.csv")
    assert empty.headers["Content-Disposition"] == 'attachment; filename="readings.csv"'
    row = ROW.strip() + b",,,,,,\r\n"
    assert "1 reading taken in." in send(ben, empty.content + row)
    none = ben.post("/bench/files", follow=True)
    assert "Choose a file first" in none.text


def test_the_lead_takes_back_at_the_desk_with_a_reason(
    signed_in: Callable[[str], Client], revision: int
) -> None:
    """Older readings are the lead's to take back; without a reason nothing changes."""
    ada, number = signed_in("ada"), pulls_read(revision)[0].number
    form = {"reading": f"pull-{number}", "rev": "A", "reason": " "}
    none = ada.post("/set-ups/S-1/take-back", form, follow=True)
    assert "Say why it no longer counts. Nothing was changed." in none.text
    done = ada.post("/set-ups/S-1/take-back", form | {"reason": "jerked"}, follow=True)
    assert "it stays, and no longer counts" in done.text
    assert "Taken back by Ada: jerked" in done.text
    assert len(pulls(revision)) == 9


@pytest.mark.parametrize(("name", "shown"), [("ben", True), ("ada", True), ("vic", False)])
def test_recording_is_offered_to_who_may(
    signed_in: Callable[[str], Client], revision: int, name: str, shown: bool
) -> None:
    """The ways to the bench stand on the set-up's page for lead and bench only."""
    told = signed_in(name).get("/set-ups/S-1").text
    assert ("/bench/pulls/S-1?rev=A" in told) is shown
    assert ("/bench/files" in told) is shown
