"""Who may see and do what: every page and every button, for every role."""

from collections.abc import Callable

import pytest
from django.test import Client

from reelwright.shop.orders.models import OrderLine
from reelwright.shop.reels.selectors import reel_now
from tests.day_world import good_row, order_file
from tests.web.addresses import ASKED, EVERYBODY, pages
from tests.web.conftest import Taken


def test_every_page_is_for_its_roles_and_refused_in_words_to_others(
    signed_in: Callable[[str], Client], taken: Taken
) -> None:
    """Each page answers 200 to who may see it and a page of words with 403 to who may not."""
    for name in sorted(EVERYBODY):
        client = signed_in(name)
        for address, allowed in pages(taken).items():
            answer = client.get(address)
            assert answer.status_code == (200 if name in allowed else 403), (name, address)
            if name not in allowed:
                assert "This is not yours to do" in answer.text


def test_who_is_not_signed_in_is_sent_to_sign_in_and_back(client: Client, taken: Taken) -> None:
    """Every page leads to the sign-in page, which knows where to go on."""
    for address in pages(taken):
        answer = client.get(address)
        assert answer.status_code == 302
        assert answer.headers["Location"].startswith("/sign-in?next=/")


def test_a_part_asked_for_without_being_signed_in_sends_the_whole_page(
    client: Client, taken: Taken
) -> None:
    """The script of a page left open over a sign-out is told to go to the sign-in page."""
    answer = client.post(f"/bench/cut/{taken.reel}/confirm", headers={"HX-Request": "true"})
    assert answer.headers["HX-Redirect"] == "/sign-in"


@pytest.mark.parametrize(
    ("name", "shown"), [("ada", True), ("olga", True), ("ben", False), ("vic", False)]
)
def test_what_may_not_be_done_is_not_shown(
    signed_in: Callable[[str], Client], taken: Taken, name: str, shown: bool
) -> None:
    """Taking orders and planning are offered to lead and office only."""
    client = signed_in(name)
    today, asked, cuts = (client.get(page).text for page in ("/", ASKED, "/cut-list"))
    assert ("Take in the orders" in today) is shown
    assert ("Plan the cuts again" in today) is shown
    assert ("Take the order" in asked) is shown
    assert ("Plan the cuts again" in cuts) is shown


@pytest.mark.parametrize(("name", "shown"), [("ben", True), ("ada", True), ("vic", False)])
def test_the_bench_is_offered_to_who_may_cut(
    signed_in: Callable[[str], Client], taken: Taken, name: str, shown: bool
) -> None:
    """The way from the cut list to the bench is there for lead and bench only."""
    assert (f"/bench/cut/{taken.reel}" in signed_in(name).get("/cut-list").text) is shown


def test_a_forced_action_is_refused_and_changes_nothing(
    signed_in: Callable[[str], Client], taken: Taken
) -> None:
    """A viewer who sends the forms by hand gets 403 each time, and no row moves."""
    client, before = signed_in("vic"), OrderLine.objects.count()
    left_mm = reel_now(taken.reel).length_mm
    forced = {
        "/plan": {},
        "/ask/take": good_row(order="W-9"),
        "/orders/upload": {},
        f"/orders/{taken.line_id}/offers/1": {},
        f"/bench/cut/{taken.reel}/confirm": {"scan": taken.pieces[0]},
        f"/bench/cut/{taken.reel}/take-back": {"piece": taken.pieces[0]},
        f"/bench/cut/{taken.reel}/flaw": {"start": "1 m", "length": "1 m", "note": "x"},
        f"/bench/cut/{taken.reel}/count": {"length": "1 m", "note": "x"},
        "/bench/pulls/S-1": {"value": "120", "choice": "conductor broke|1"},
        "/bench/pulls/S-1/take-back": {"reading": "pull-1"},
        "/bench/files": {},
        "/set-ups/S-1/draft": {"letter": "B", "levels": "2", "press_min_per_end": "3"},
        "/grid/SW-60/SW-PLUG/open": {"code": "S-2", "levels": "2", "press_min_per_end": "3"},
        "/set-ups/S-1/take-back": {"reading": "pull-1", "reason": "x"},
        "/dies/cavities": {"code": "P-9"},
        "/dies/presses": {"code": "PR-9"},
        "/dies/presses/PR-1": {"reason": "x"},
        "/dies/cavities/F-6.48/gauge": {"width": "6.5"},
        "/dies/cavities/F-6.48/move": {"to": "rest", "reason": "x"},
        "/dies/cavities/F-6.48/take-back": {"gauging": "1", "reason": "x"},
    }
    for address, data in forced.items():
        assert client.post(address, data).status_code == 403, address
    assert OrderLine.objects.count() == before
    assert reel_now(taken.reel).length_mm == left_mm


def test_a_form_without_its_token_is_refused_in_words(
    taken: Taken, signed_in: Callable[[str], Client]
) -> None:
    """A form from elsewhere, or from before a sign-out, changes nothing and says why."""
    client = Client(enforce_csrf_checks=True)
    client.cookies = signed_in("ada").cookies
    answer = client.post("/plan")
    assert answer.status_code == 403
    assert "had grown old" in answer.text


def test_the_office_takes_in_a_file_that_a_bench_may_not(
    signed_in: Callable[[str], Client], taken: Taken
) -> None:
    """The same upload is refused to the bench and taken from the office."""
    from django.core.files.uploadedfile import SimpleUploadedFile

    def file() -> SimpleUploadedFile:
        return SimpleUploadedFile("p.csv", order_file(good_row(order="W-7")))

    assert signed_in("ben").post("/orders/upload", {"orders": file()}).status_code == 403
    assert not OrderLine.objects.filter(order__number="W-7").exists()
    assert signed_in("olga").post("/orders/upload", {"orders": file()}).status_code == 302
    assert OrderLine.objects.filter(order__number="W-7").exists()
