"""The bench: the right piece booked once, wrong scans refused in words, one touch to take back."""

from collections.abc import Callable

import pytest
from django.test import Client

from reelwright.shop.reels.selectors import reel_ledger, reel_now
from reelwright.shop.reels.services import reel_scrap_book
from reelwright.shop.work.selectors import piece
from tests.day_world import DayWorld
from tests.small_world import TODAY
from tests.web.conftest import Taken

PART = {"HX-Request": "true"}


@pytest.fixture
def ben(signed_in: Callable[[str], Client]) -> Client:
    """Ben at the bench."""
    return signed_in("ben")


def test_the_next_piece_and_the_wheel_are_what_the_page_says_first(
    ben: Client, taken: Taken
) -> None:
    """The first heading names the piece and the setting of the wheel, not the cut length."""
    told = ben.get(f"/bench/cut/{taken.reel}").text
    heading = told[told.index("<h1") : told.index("</h1>")]
    first = piece(taken.pieces[0])
    assert first.code in heading
    assert f"{first.wheel_setting_mm / 1000:.3f}\u202fm" in heading
    assert first.wheel_setting_mm != first.cut_length_mm


def test_a_scanned_piece_is_booked_and_the_reel_shrinks(ben: Client, taken: Taken) -> None:
    """Scanning the code and then the serial of the next one takes both off the reel."""
    before = reel_now(taken.reel).length_mm
    first, second = (piece(code) for code in taken.pieces)
    address = f"/bench/cut/{taken.reel}/confirm"
    told = ben.post(address, {"scan": first.code.lower()}, headers=PART).text
    assert f"{first.code} is booked as cut." in told
    assert f"<b>{second.code}</b>" in told
    assert reel_now(taken.reel).length_mm == before - first.cut_length_mm
    done = ben.post(address, {"scan": second.serial}, headers=PART).text
    assert "is done: all 2 pieces cut" in done
    assert reel_now(taken.reel).length_mm == before - first.cut_length_mm - second.cut_length_mm


def test_the_button_alone_books_the_piece_that_the_page_named(ben: Client, taken: Taken) -> None:
    """Without a scanner the touch is enough; a second touch of a page left open books nothing."""
    address, form = f"/bench/cut/{taken.reel}/confirm", {"scan": "", "expected": taken.pieces[0]}
    assert ben.post(address, form).status_code == 302
    again = ben.post(address, form)
    assert again.status_code == 409
    assert "was cut and booked already" in again.text
    assert [line.kind for line in reel_ledger(taken.reel)].count("cut") == 1


def test_the_drawing_loses_the_piece_that_was_cut(ben: Client, taken: Taken) -> None:
    """The bar holds both pieces before the first cut, and the second alone after it."""

    def drawn() -> str:
        told = ben.get(f"/bench/cut/{taken.reel}").text
        return told[told.index("<svg") + 1 :]

    assert f"{taken.pieces[0]} " in drawn()
    ben.post(f"/bench/cut/{taken.reel}/confirm", {"scan": taken.pieces[0]})
    svg = drawn()
    desc = svg[svg.index("<desc>") : svg.index("</desc>")]
    assert taken.pieces[0] not in desc
    assert taken.pieces[1] in desc


@pytest.mark.parametrize(
    ("scanned", "words"),
    [
        ("W-1-2", "W-1-1 comes off reel R-1 first, then W-1-2."),
        ("W-9-9", "No piece is called W-9-9. Scan it again."),
        ("", "Nothing was scanned."),
    ],
)
def test_a_wrong_scan_is_refused_in_plain_words(
    ben: Client, taken: Taken, scanned: str, words: str
) -> None:
    """Out of turn, unknown and empty scans book nothing and say what is right."""
    assert taken.reel == "R-1"
    before = reel_now("R-1").length_mm
    answer = ben.post("/bench/cut/R-1/confirm", {"scan": scanned}, headers=PART)
    assert answer.status_code == 200
    assert words in answer.text
    assert reel_now("R-1").length_mm == before
    plain = ben.post("/bench/cut/R-1/confirm", {"scan": scanned})
    assert plain.status_code == 409
    assert words in plain.text


def test_a_piece_of_another_reel_shows_the_way_there(ben: Client, taken: Taken) -> None:
    """Scanned at the wrong stand, a piece names its reel and links to it."""
    told = ben.post("/bench/cut/R-2/confirm", {"scan": taken.pieces[0]}, headers=PART).text
    assert f"{taken.pieces[0]} comes off reel R-1, not R-2." in told
    assert 'href="/bench/cut/R-1"' in told


def test_one_touch_takes_the_last_cut_back(ben: Client, taken: Taken) -> None:
    """The ledger keeps both entries, the reel is as long as before, the piece is next again."""
    before = reel_now(taken.reel).length_mm
    ben.post(f"/bench/cut/{taken.reel}/confirm", {"scan": taken.pieces[0]})
    told = ben.get(f"/bench/cut/{taken.reel}").text
    assert f"Take back {taken.pieces[0]}" in told
    back = ben.post(
        f"/bench/cut/{taken.reel}/take-back", {"piece": taken.pieces[0]}, headers=PART
    ).text
    assert f"{taken.pieces[0]} is taken back" in back
    assert f"<b>{taken.pieces[0]}</b>" in back
    assert reel_now(taken.reel).length_mm == before
    assert [line.kind for line in reel_ledger(taken.reel)][-2:] == ["cut", "reversal"]
    ledger = ben.get(f"/reels/{taken.reel}").text
    assert "taken back at the bench" in ledger


def test_a_flaw_is_recorded_as_it_was_typed(ben: Client, taken: Taken) -> None:
    """Feet and centimetres are read with their units, and the flaw lies where it was found."""
    form = {"start": "40 ft", "length": "20 cm", "note": "crushed"}
    answer = ben.post(f"/bench/cut/{taken.reel}/flaw", form, follow=True)
    assert "The flaw is recorded." in answer.text
    (flaw,) = reel_now(taken.reel).flaws
    assert (flaw.start_mm, flaw.length_mm, flaw.note) == (12_192, 200, "crushed")


@pytest.mark.parametrize(
    ("form", "words"),
    [
        ({"start": "12", "length": "20 cm", "note": "x"}, "12"),
        ({"start": "1 m", "length": "soon", "note": "x"}, "This is not a length."),
        ({"start": "500 m", "length": "1 m", "note": "x"}, "is not on it"),
        ({"start": "1 m", "length": "1 m", "note": ""}, "why"),
    ],
)
def test_a_flaw_that_makes_no_sense_is_sent_back_with_what_was_typed(
    ben: Client, taken: Taken, form: dict[str, str], words: str
) -> None:
    """What is wrong stands beside its field, nothing typed is lost, nothing is recorded."""
    answer = ben.post(f"/bench/cut/{taken.reel}/flaw", form)
    assert answer.status_code == 422
    assert words in answer.text
    assert f'value="{form["start"]}"' in answer.text
    assert not reel_now(taken.reel).flaws


def test_a_count_sets_the_ledger_and_asks_for_a_new_plan(ben: Client, taken: Taken) -> None:
    """The reel holds what was counted, known to one in a hundred."""
    form = {"length": "96.4 m", "note": "by its marks"}
    answer = ben.post(f"/bench/cut/{taken.reel}/count", form, follow=True)
    assert "Plan the cuts again." in answer.text
    reel = reel_now(taken.reel)
    assert (reel.length_mm, reel.standard_uncertainty_mm) == (96_400, pytest.approx(964.0))


def test_what_to_cut_away_before_a_piece_is_told(
    ben: Client, lead: Client, taken: Taken, day_world: DayWorld
) -> None:
    """With a flaw too near the end for a piece, the bench says how much to cut away first."""
    for other in {"R-1", "R-2", "R-3"} - {taken.reel}:
        reel_scrap_book(
            by=day_world.ben,
            reel_code=other,
            scrapped_mm=reel_now(other).length_mm,
            standard_uncertainty_mm=0.0,
            on=TODAY,
            reason="so that the plan must stay on one reel",
        )
    form = {"start": "3.2 m", "length": "300 mm", "note": "crushed"}
    ben.post(f"/bench/cut/{taken.reel}/flaw", form)
    assert lead.post("/plan").status_code == 302
    told = ben.get(f"/bench/cut/{taken.reel}").text
    assert "Before it, cut away" in told
    assert "3.50\u202fm, the flaw in it" in told
    before = reel_now(taken.reel).length_mm
    ben.post(f"/bench/cut/{taken.reel}/confirm", {"scan": taken.pieces[0]})
    assert reel_now(taken.reel).length_mm == before - 3_500 - piece(taken.pieces[0]).cut_length_mm
    assert "cut away" not in ben.get(f"/bench/cut/{taken.reel}").text


def test_a_reel_without_a_plan_says_so(ben: Client, taken: Taken) -> None:
    """Nothing is asked of a reel that the plan leaves alone, and the next one is named."""
    told = ben.get("/bench/cut/R-3").text
    assert "Nothing is planned on R-3 now" in told
    assert 'name="scan"' not in told
    assert f"/bench/cut/{taken.reel}" in told
