"""The line of a set-up's page that tells what the body of its end sends back."""

from django.test import Client

from reelwright.shop.setups.shown.body import body_shown
from tests.day_world import DayWorld
from tests.small_world import CABLE, CONNECTOR


def test_the_page_says_it_under_the_section_of_the_cable(lead: Client, day_world: DayWorld) -> None:
    """The sentence of page, sheet and command; here that no body is drawn."""
    told = lead.get("/set-ups/S-1").text
    start = told.index('aria-labelledby="section"')
    section = told[start : told.index("</section>", start)]
    assert "not computed: the drawing gives no body section." in section
    assert body_shown(CABLE, CONNECTOR) in section
