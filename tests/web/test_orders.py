"""Ask, orders, offers and the day: what is typed becomes what is promised."""

from collections.abc import Callable

import pytest
from django.test import Client

from reelwright.shop.day.services import day_run
from reelwright.shop.orders.models import OrderLine
from reelwright.shop.orders.selectors import line_by_id
from reelwright.shop.work.selectors import newest_cut_plan
from tests.day_world import DayWorld, good_row, order_file
from tests.small_world import TODAY
from tests.web.addresses import ASKED, REFUSED
from tests.web.conftest import Taken


def heading(html: str) -> str:
    """The first heading of a page without its marks."""
    start = html.index("<h1")
    return html[start : html.index("</h1>", start)]


def test_a_run_that_works_is_answered_first_with_its_margin(lead: Client) -> None:
    """The heading says that it works and by how much; chart and checks follow, limits named."""
    told = lead.get(ASKED).text
    assert "works, with" in heading(told)
    assert "dB to spare" in heading(told).replace("\u202f", " ")
    assert told.index("<h1") < told.index("What is to spare, by length") < told.index("Limit: ")


def test_a_run_that_does_not_work_says_no_and_why(lead: Client) -> None:
    """900 m of that signal is refused in the heading, with the numbers that refuse."""
    told = lead.get(REFUSED).text
    assert "No" in heading(told)
    assert "too much" in told


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("190 ft", "190\u202fft = 57.912\u202fm"),
        ("33'4\"", "10.160\u202fm"),
        ("soon", "Not a length yet."),
        ("", ""),
    ],
)
def test_a_length_is_read_back_while_it_is_typed(lead: Client, typed: str, words: str) -> None:
    """What the field would be read as comes back beside it, without a page."""
    told = lead.get("/ask/length", {"length": typed}).text
    assert words in told.replace(" ft", "\u202fft")
    assert "<html" not in told


def test_what_cannot_be_read_is_marked_at_its_field(lead: Client) -> None:
    """A unit nobody knows and a cable nobody has are each told where they stand."""
    told = lead.get(
        "/ask",
        {
            "length": "3 parsecs",
            "signal": "serial video 1.485 Gb/s",
            "cable": "SW-99",
            "end_a": "SW-PLUG",
            "end_b": "SW-PLUG",
        },
    ).text
    assert told.count('aria-invalid="true"') == 2
    assert "3 parsecs" in told
    assert "not in the catalogue" in told


def test_a_run_taken_as_an_order_is_accepted_priced_and_planned(lead: Client) -> None:
    """The order line stands in the books, its pieces on a reel, and its page says so."""
    answer = lead.post("/ask/take", good_row(order="W-5", customer="Ilse Brand"))
    line = OrderLine.objects.get(order__number="W-5")
    assert answer.headers["Location"] == f"/orders/{line.pk}"
    told = lead.get(f"/orders/{line.pk}").text
    assert "Accepted: works" in heading(told)
    view = line_by_id(line.pk)
    assert view.answer.price is not None
    assert view.answer.price.unit_price in told
    assert "W-5-1" in told
    plan = newest_cut_plan(on=TODAY)
    assert plan is not None
    assert any(
        part["piece"] == "W-5-2" for reel in plan.content["reels"] for part in reel["segments"]
    )


def test_an_order_without_a_number_is_sent_back_whole(lead: Client) -> None:
    """The verdict stays, the missing number is marked, what was typed is kept, nothing is taken."""
    answer = lead.post("/ask/take", good_row(order="", customer="Ilse Brand"))
    assert 'value="Ilse Brand"' in answer.text
    assert 'aria-invalid="true"' in answer.text
    assert "works" in heading(answer.text)
    assert not OrderLine.objects.exists()


def test_a_line_shows_what_was_typed_beside_what_it_was_read_as(lead: Client, taken: Taken) -> None:
    """The customer's words, every column and its reading stand on the page of the line."""
    told = lead.get(f"/orders/{taken.line_id}").text
    for words in ("two leads of 3 m, black", "3 m", "SW-60", "black", "Copy the answer"):
        assert words in told
    for code in taken.pieces:
        assert code in told


def test_the_traveller_and_the_pack_are_papers(
    signed_in: Callable[[str], Client], taken: Taken
) -> None:
    """Traveller and every file of the pack come as what their names say; viewers may look too."""
    client = signed_in("vic")
    paper = client.get(f"/orders/{taken.line_id}/traveller.pdf")
    assert paper.content.startswith(b"%PDF-")
    assert paper.headers["Content-Type"] == "application/pdf"
    assert client.get(f"/runs/{taken.run_id}/summary.pdf").content.startswith(b"%PDF-")
    table = client.get(f"/runs/{taken.run_id}/cut-list.csv")
    assert table.text.splitlines()[1].count(taken.pieces[0]) == 1
    assert "attachment" in table.headers["Content-Disposition"]
    assert client.get(f"/runs/{taken.run_id}/secret.key").status_code == 404


@pytest.fixture
def offered(day_world: DayWorld) -> OrderLine:
    """A line in red, of which the rack has none, so that another colour is offered."""
    content = order_file(good_row(colour="red", typed="two leads of 3 m, red"))
    day_run(by=day_world.olga, name="o.csv", content=content, on=TODAY)
    return OrderLine.objects.get()


def test_an_offer_taken_up_becomes_a_line_of_its_own_once(lead: Client, offered: OrderLine) -> None:
    """The offer's line is accepted and points back; the first line offers no button any more."""
    told = lead.get(f"/orders/{offered.pk}").text
    assert "Take up this offer" in told
    answer = lead.post(f"/orders/{offered.pk}/offers/1", follow=True)
    assert "W-1/2" in answer.text
    taken = OrderLine.objects.get(number=2)
    assert (taken.state, taken.follows_id) == ("accepted", offered.pk)
    again = lead.get(f"/orders/{offered.pk}").text
    assert "Take up this offer" not in again
    assert "An offer for it was taken up" in again
    assert lead.post(f"/orders/{offered.pk}/offers/1").status_code == 409
    assert OrderLine.objects.count() == 2
    assert "1 settled by an offer taken up" in lead.get("/").text


def test_the_office_is_not_shown_what_it_cannot_enter(lead: Client, offered: OrderLine) -> None:
    """An offer that needs an answer first has words in place of a button."""
    offers = line_by_id(offered.pk).answer.offers
    told = lead.get(f"/orders/{offered.pk}").text
    buttons = sum(offer.cells is not None for offer in offers)
    assert told.count("Take up this offer<") == buttons
    assert told.count("Can be entered once") == len(offers) - buttons


def test_today_counts_what_came_in_and_leads_to_it(lead: Client, offered: OrderLine) -> None:
    """The large sentence counts by state, and the held question links to its line."""
    told = lead.get("/").text
    assert "1 line in: 0 accepted, 1 held, 0 refused" in heading(told)
    assert "Look first at" in told
    assert f'href="/orders/{offered.pk}"' in told


def test_an_empty_day_says_what_will_be_there(lead: Client) -> None:
    """Before any order, today, cut list and search say what will stand there."""
    assert "No orders are in yet" in lead.get("/").text
    assert "No cuts are planned today" in lead.get("/cut-list").text
    assert "Type or scan" in lead.get("/search").text


def test_planning_again_after_a_flaw_moves_on_to_a_new_plan(lead: Client, taken: Taken) -> None:
    """The second plan of the day is in force and says that it is the second."""
    assert lead.post("/plan", follow=True).redirect_chain == [("/cut-list", 302)]
    assert "plan 2 of the day" in lead.get("/cut-list").text


@pytest.mark.parametrize(
    ("typed", "leads_to"),
    [
        ("R-1", "/reels/R-1"),
        ("r-2", "/reels/R-2"),
        ("S-1", "/set-ups/S-1"),
        ("s-1 rev a", "/set-ups/S-1?rev=A"),
        ("SW-60", "/cables/SW-60"),
        ("W-1", "/orders/{line}"),
        ("W-1/1", "/orders/{line}"),
        ("{piece}", "/bench/cut/R-1"),
        ("{serial}", "/bench/cut/R-1"),
        ("{traveller}", "/orders/{line}"),
    ],
)
def test_a_scanned_code_jumps_straight_there(
    lead: Client, taken: Taken, typed: str, leads_to: str
) -> None:
    """An exact code of any kind, in any case, leads to its page."""
    from reelwright.shop.work.selectors import piece, travellers_of_lines

    names = {
        "piece": taken.pieces[0],
        "serial": piece(taken.pieces[0]).serial,
        "traveller": travellers_of_lines([taken.line_id])[taken.line_id].number,
        "line": taken.line_id,
    }
    answer = lead.get("/search", {"q": typed.format(**names)})
    assert answer.status_code == 302
    assert answer.headers["Location"] == leads_to.format(**names)


def test_part_of_a_name_lists_what_holds_it(lead: Client, taken: Taken) -> None:
    """A customer's surname finds the order; nonsense finds nothing and says what was tried."""
    told = lead.get("/search?q=farrow").text
    assert f"/orders/{taken.line_id}" in told
    assert "Nothing holds" in lead.get("/search?q=zzzz").text


def test_a_viewer_who_scans_a_piece_comes_to_its_line(
    signed_in: Callable[[str], Client], taken: Taken
) -> None:
    """The bench page is not for a viewer, so the same scan leads to the order line."""
    answer = signed_in("vic").get("/search", {"q": taken.pieces[0]})
    assert answer.headers["Location"] == f"/orders/{taken.line_id}"
