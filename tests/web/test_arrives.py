"""How the signal arrives: pictures under the answer, fetched after it."""

import re

from django.test import Client

from tests.web.addresses import ARRIVES, ASKED

HTMX = {"HX-Request": "true"}


def test_the_answer_stands_before_its_pictures(lead: Client) -> None:
    """The page of an answer holds the address of its pictures, and a link for a reader without."""
    told = lead.get(ASKED).text
    assert "<h1" in told
    found = re.search(r'hx-get="([^"]+)" hx-trigger="load"', told)
    assert found is not None
    address = found[1].replace("&amp;", "&")
    assert address.startswith("/ask/arrives?")
    assert f'<a href="{found[1]}"' in told
    assert lead.get(address, headers=HTMX).status_code == 200


def test_the_part_holds_each_picture_with_its_table_and_its_words(lead: Client) -> None:
    """Loss and its residuals are drawn, each drawing with a table; it is no page of its own."""
    told = lead.get(ARRIVES, headers=HTMX).text
    assert "<html" not in told
    assert "Loss over frequency" in told
    assert told.count('class="drawing') == told.count("<svg") >= 1
    assert told.count("The same as a table") == told.count("<h2")
    assert "lies at most" in told


def test_without_scripts_it_is_a_page_with_a_way_back(lead: Client) -> None:
    """The same address opened as a page has the frame, a heading and the way to the answer."""
    told = lead.get(ARRIVES).text
    assert "<html" in told
    assert "How the signal arrives</h1>" in told
    assert 'href="/ask?length=' in told


def test_what_has_no_pictures_says_so(lead: Client) -> None:
    """No run, nonsense, and a run nobody can make: one sentence instead of a fault."""
    for address in (
        "/ask/arrives",
        ARRIVES.replace("3+m", "3+parsecs"),
        ARRIVES.replace("serial+video+1.485+Gb%2Fs", "loudspeaker+8+ohm"),
    ):
        answer = lead.get(address, headers=HTMX)
        assert answer.status_code == 200
        assert "nothing to draw" in answer.text


def test_a_run_that_is_no_coax_has_no_place_for_pictures(lead: Client) -> None:
    """The page of an answer without a judged run on coax does not ask for any."""
    told = lead.get("/ask?length=3+m&signal=loudspeaker+8+ohm&end_a=SW-PLUG").text
    assert "/ask/arrives" not in told


def test_the_far_end_and_what_is_possible_stand_beside_the_checks(lead: Client) -> None:
    """What the far end needs is told, and how far physics would go is called not promised."""
    told = lead.get(ASKED).text
    assert "whose equaliser makes up" in told
    assert told.index("Not promised") > told.index('id="why"')
