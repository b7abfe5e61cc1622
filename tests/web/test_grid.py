"""The grid as pages: every pair with its word, its reasons, and what a lead says beside."""

from collections.abc import Callable
from dataclasses import replace

from django.test import Client

from reelwright.core.ends.fit.grid import judge_cell
from reelwright.core.parts.connector import Band
from reelwright.shop.setups.models import FitOverride
from reelwright.web.office.grid_words import short_words
from tests.ends_world import BNC_60, BNC_70, RCA_60, VID_60, VID_70, VID_70F, XLR_F

SAYING = {"answer": "impossible", "reason": "The boot splits on it."}


def test_the_grid_shows_a_pair_with_its_word_and_the_way_to_its_reasons(lead: Client) -> None:
    """The one released pair stands there by word and opens its own page."""
    told = lead.get("/grid").text
    assert 'href="/grid/SW-60/SW-PLUG"' in told
    assert "SW-60 in SW-PLUG: released, S-1" in told
    assert "pairs released" in told


def test_a_filter_leaves_out_what_was_not_asked_for(lead: Client) -> None:
    """Another kind of cable hides the coax; a kind that is not there is told so."""
    assert "SW-60 in" not in lead.get("/grid?family=plastic+fibre").text
    assert "No such pair" in lead.get("/grid?mating=none+such").text


def test_a_signal_that_the_pair_cannot_carry_makes_it_impossible(lead: Client) -> None:
    """A coax carries no phantom power, and the cell says that it is the signal."""
    told = lead.get("/grid?carry=microphone").text
    assert "SW-60 in SW-PLUG: impossible, not for this signal" in told


def test_a_pair_shows_its_checks_its_section_and_its_set_up(lead: Client) -> None:
    """Dimensions in millimetres, the drawing of the cable, the way to the set-up."""
    told = lead.get("/grid/SW-60/SW-PLUG").text
    assert "Possible, and S-1 rev A is released" in told
    assert "jacket 6.00\u202fmm passes bore 6.30\u202fmm with 0.30\u202fmm to spare" in told
    assert 'href="/set-ups/S-1"' in told
    assert "Section of SW-60" in told


def test_what_a_lead_says_stands_beside_what_is_computed(lead: Client) -> None:
    """Written down, it is on both pages, and the computed word is still there."""
    answer = lead.post("/grid/SW-60/SW-PLUG", SAYING, follow=True)
    assert "It is written down" in answer.text
    assert "Ada says: impossible" in answer.text
    assert "Possible, and S-1 rev A is released" in answer.text
    told = lead.get("/grid").text
    assert "SW-60 in SW-PLUG: released, S-1; Ada says impossible" in told


def test_a_saying_without_a_reason_is_told_at_its_field(lead: Client) -> None:
    """Nothing is written, and the choice stays in the form."""
    answer = lead.post("/grid/SW-60/SW-PLUG", {"answer": "impossible", "reason": " "})
    assert answer.status_code == 422
    assert "Say why" in answer.text
    assert '<option value="impossible" selected>' in answer.text
    assert not FitOverride.objects.exists()


def test_who_may_not_release_sees_no_form_and_is_refused(
    signed_in: Callable[[str], Client],
) -> None:
    """Office, bench and viewer read the pair; a form sent by hand is refused."""
    for name in ("olga", "ben", "vic"):
        client = signed_in(name)
        assert "Write it down" not in client.get("/grid/SW-60/SW-PLUG").text
        assert client.post("/grid/SW-60/SW-PLUG", SAYING).status_code == 403
    assert not FitOverride.objects.exists()


def test_an_unknown_pair_is_told_with_what_is_near(lead: Client) -> None:
    """A code that is not in the catalogue is refused in words."""
    for address, near in (("/grid/SW-61/SW-PLUG", "SW-60"), ("/grid/SW-60/SW-PLUGS", "SW-PLUG")):
        answer = lead.get(address)
        assert answer.status_code == 404
        assert near in answer.text


def test_a_cell_tells_what_decides_in_few_words() -> None:
    """Past the limit by its size, past it by its tolerance, too thin, by counting, by kind."""
    tight = replace(BNC_60, accepts_jacket=Band(low_m=5.7e-3, high_m=6.10e-3))
    told = {
        short_words(judge_cell(cable, connector))
        for cable, connector in (
            (VID_70F, RCA_60),
            (VID_60, BNC_70),
            (VID_60, tight),
            (VID_60, XLR_F),
            (VID_70, replace(BNC_70, code="OTHER")),
        )
    }
    worst = (VID_60.jacket.largest_m - 6.10e-3) * 1e3
    assert worst > 0
    assert "jacket 7.62 > 6.30" in told
    assert f"jacket at most {6.10 + worst:.2f} > 6.10" in told
    assert f"jacket {VID_60.jacket.outside_diameter_m * 1e3:.2f} < 6.60" in told
    assert "conductors and contacts" in told
    assert "" in told
