"""Every no and every fault is a page in plain words, in the look of all pages."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from reelwright.shop.orders.models import OrderLine
from reelwright.shop.people.models import Workshop
from tests.day_world import good_row, order_file
from tests.web.conftest import Taken


@pytest.mark.parametrize(
    ("address", "words"),
    [
        ("/reels/R-99", "There is no reel R-99."),
        ("/set-ups/S-9", "Perhaps you meant S-1."),
        ("/set-ups/S-1?rev=Q", "There is no revision of S-1 Q."),
        ("/orders/999", "There is no order line 999."),
        ("/orders/999/traveller.pdf", "There is no traveller"),
        ("/runs/999/summary.pdf", "There is no run of the day 999."),
        ("/bench/cut/R-99", "There is no reel R-99."),
        ("/nowhere", "There is no such page"),
    ],
)
def test_what_is_not_there_is_told_with_what_is_near(
    lead: Client, address: str, words: str
) -> None:
    """An unknown code and an address that leads nowhere answer 404 in words."""
    answer = lead.get(address)
    assert answer.status_code == 404
    assert words in answer.text
    assert "Reelwright" in answer.text


def test_all_faults_of_a_file_are_told_and_nothing_is_taken_in(lead: Client) -> None:
    """Each fault stands in the table with its row, column, value and what would be accepted."""
    rows = order_file(
        good_row(length="10 parsecs"), good_row(order="W-2", cable="SW-99"), good_row(order="W-3")
    )
    answer = lead.post("/orders/upload", {"orders": SimpleUploadedFile("bad.csv", rows)})
    assert answer.status_code == 422
    for words in ("2 things to mend", "bad.csv", "10 parsecs", "SW-99", ">2<", ">3<", "length"):
        assert words in answer.text
    assert not OrderLine.objects.exists()


def test_an_upload_without_a_file_asks_for_one(lead: Client) -> None:
    """The button pressed with no file chosen says what to choose."""
    assert "Choose an order file first" in lead.post("/orders/upload", follow=True).text


def test_the_same_file_twice_says_that_nothing_changed(lead: Client) -> None:
    """The second time is told apart from the first."""

    def send() -> str:
        file = SimpleUploadedFile("o.csv", order_file(good_row()))
        return lead.post("/orders/upload", {"orders": file}, follow=True).text

    assert "1 accepted" in send()
    assert "nothing changed" in send()
    assert OrderLine.objects.count() == 1


def test_a_broken_rule_of_the_shop_is_told_with_its_sentence(lead: Client) -> None:
    """Planning when there is nothing to plan says so and answers 409."""
    answer = lead.post("/plan")
    assert answer.status_code == 409
    assert "nothing to plan" in answer.text


def test_a_fault_of_ours_is_told_without_the_database(
    lead: Client, taken: Taken, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A page that breaks answers 500 with words, and shows nobody its inside."""
    lead.raise_request_exception = False

    def breaks(*_args: object, **_more: object) -> None:
        raise ZeroDivisionError("of the inside")

    monkeypatch.setattr("reelwright.web.office.reels.reels_now", breaks)
    answer = lead.get("/reels")
    assert answer.status_code == 500
    assert "A fault of ours" in answer.text
    assert "of the inside" not in answer.text


def test_without_a_workshop_the_sign_in_page_says_how_to_begin(db: None, client: Client) -> None:
    """A fresh database answers with the two commands instead of breaking."""
    assert not Workshop.objects.exists()
    assert "reelwright demo" in client.get("/sign-in").text
