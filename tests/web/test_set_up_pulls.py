"""The pulls on a set-up's page: drawn, split by how they gave way, with what to do next."""

import datetime as dt

from django.test import Client

from reelwright.shop.setups import selectors, services
from reelwright.shop.setups.states import FailureMode
from tests.day_world import DayWorld
from tests.small_world import TODAY


def section(lead: Client) -> str:
    """The section of the pulls, without the rest of the page."""
    told = lead.get("/set-ups/S-1").text
    start = told.index('aria-labelledby="pulls"')
    return told[start : told.index("</section>", start)]


def pull(
    world: DayWorld, mode: FailureMode, forces_n: tuple[float, ...], on: dt.date = TODAY
) -> None:
    """Record more pulls of the set-up."""
    sheet = selectors.set_up_sheets("S-1")[0]
    services.pulls_record(
        by=world.ben,
        revision_id=sheet.revision_id,
        pulls_n=[(force_n, mode) for force_n in forces_n],
        on=on,
    )


def test_the_pulls_are_drawn_against_the_shops_own_minimum(lead: Client) -> None:
    """One strip with its ten points, whose minimum it is, and that it names no rule set."""
    told = section(lead)
    svg = told[told.index("<svg xmlns") : told.index("</svg>", told.index("<svg xmlns"))]
    assert svg.count("<circle") == 10
    assert "at least 90\u202fN" in svg
    assert "the shop&#x27;s own" in told or "the shop's own" in told
    assert "counts here" not in told


def test_rule_sets_stand_side_by_side_and_never_as_one(lead: Client) -> None:
    """Each rule set has a row: what it asks of the middle conductor, or why it asks nothing."""
    told = section(lead)
    for words in (
        "commercial",
        "military",
        "IEC 60352-2",
        "NASA-STD-8739.4",
        "bars crimping solid",
    ):
        assert words in told
    assert "60\u202fN" in told
    assert "never mixed" in told


def test_proven_pulls_ask_for_no_more(lead: Client) -> None:
    """Nothing is to be pulled where all is shown."""
    assert "more pull" not in section(lead)


def test_another_way_of_giving_way_is_a_row_and_a_caution(
    lead: Client, day_world: DayWorld
) -> None:
    """Two ends that slipped stand on a line of their own, and are too few to judge."""
    pull(day_world, FailureMode.JACKET_SLIPPED, (112.0, 116.0))
    told = section(lead)
    assert "ends gave way in 2 ways".capitalize() in told
    assert "too few to judge alone" in told
    assert "jacket slipped (2)" in told


def test_a_stopped_pull_turns_the_answer_into_not_computed(
    lead: Client, day_world: DayWorld
) -> None:
    """What was stopped has no value, so no bound is drawn and the page says what would do."""
    pull(day_world, FailureMode.NOT_BROKEN, (130.0,))
    told = section(lead)
    assert "299" in told
    assert "bound" not in told
    assert 'class="unknown"' in told


def test_wide_pulls_are_told_that_no_number_will_do(lead: Client, day_world: DayWorld) -> None:
    """The page names the spread it would take, and does not ask for more pulls."""
    pull(day_world, FailureMode.CONDUCTOR_BROKE, (60.0, 190.0, 200.0, 95.0))
    told = section(lead)
    assert "No number of pulls will do" in told
    assert "more pulls may show it" not in told
