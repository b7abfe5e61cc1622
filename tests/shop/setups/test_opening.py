"""A set-up opened with its first revision in one step, and what stands before it."""

import dataclasses
from decimal import Decimal

import pytest

from reelwright.core.ends.fit.grid import judge_cell
from reelwright.core.ends.strength.pull_rules import PullRules
from reelwright.core.errors import UnknownCode
from reelwright.demo.cables import coax_entries
from reelwright.demo.connectors import connector_entries
from reelwright.shop.catalogue import services as catalogue
from reelwright.shop.setups import services
from reelwright.shop.setups.models import Revision, SetUp
from reelwright.shop.setups.opening import (
    code_after,
    free_code,
    set_up_of,
    set_up_opened,
    why_not_open,
)
from reelwright.shop.setups.overrides import fit_override_record
from reelwright.shop.setups.pair import PairNow
from reelwright.shop.setups.selectors import revision_sheet
from reelwright.shop.setups.states import State
from tests.day_world import LIGHT_PLUG
from tests.shop.refusals import refused
from tests.shop.setups.conftest import COMPLETE
from tests.small_world import CABLE, CONNECTOR, SHEET, TODAY, SmallWorld

COAX = {entry.cable.code: entry.cable for entry in coax_entries()}
ENDS = {entry.connector.code: entry.connector for entry in connector_entries()}


def opened(world: SmallWorld, code: str = "S-1", connector: str = CONNECTOR.code) -> int:
    """The pair of the small world, opened by Ben."""
    return services.set_up_open(
        by=world.ben,
        code=code,
        cable_code=CABLE.code,
        connector_code=connector,
        numbers=COMPLETE,
        on=TODAY,
    ).pk


def light_plug(world: SmallWorld) -> str:
    """A plug in the catalogue that no cable of the small world can meet."""
    catalogue.connector_add(
        by=world.ada,
        connector=LIGHT_PLUG,
        price=Decimal("3.00"),
        loss_db=1.0,
        loss_source=SHEET,
    )
    return LIGHT_PLUG.code


def say(world: SmallWorld, connector: str, answer: str) -> None:
    """Ada says something of the cable with a connector."""
    fit_override_record(
        by=world.ada,
        cable_code=CABLE.code,
        connector_code=connector,
        answer=answer,
        reason="Three were tried by hand.",
        on=TODAY,
    )


def test_a_set_up_is_opened_with_its_first_revision(world: SmallWorld) -> None:
    """Rev A is drafted with all its numbers, and the set-up names the pair."""
    sheet = revision_sheet(opened(world))
    assert (sheet.name, sheet.state, sheet.numbers) == ("S-1 rev A", State.DRAFTED, COMPLETE)
    assert set_up_of(CABLE.code, CONNECTOR.code) == "S-1"
    assert set_up_opened("S-1").next_letter == "B"


def test_a_refused_revision_leaves_no_set_up_behind(world: SmallWorld) -> None:
    """59 N under the 60 N of IEC 60352-2: neither revision nor set-up is there."""
    numbers = dataclasses.replace(COMPLETE, pull_rules=PullRules.IEC, minimum_pull_n=59.0)
    with refused("pull_under_rules"):
        services.set_up_open(
            by=world.ben,
            code="S-1",
            cable_code=CABLE.code,
            connector_code=CONNECTOR.code,
            numbers=numbers,
            on=TODAY,
        )
    assert (SetUp.objects.count(), Revision.objects.count()) == (0, 0)


@pytest.mark.parametrize("code", ["", "t-23", "T 23", "T/23", "T-1234567890123", "-1"])
def test_a_code_that_no_label_could_carry_is_refused(world: SmallWorld, code: str) -> None:
    """Capital letters, digits and hyphens, at most twelve: they stand in addresses and scans."""
    with refused("code_unusable"):
        opened(world, code)
    assert SetUp.objects.count() == 0


def test_a_pair_is_opened_once(world: SmallWorld) -> None:
    """A code in use is refused with the next free one, a second set-up of a pair with the first."""
    opened(world)
    with refused("code_unusable") as caught:
        opened(world)
    assert "S-2 is free" in caught.value.sentence
    with refused("set_up_exists"):
        opened(world, "S-2")


def test_an_impossible_pair_is_opened_only_where_a_lead_says_so(world: SmallWorld) -> None:
    """What is computed against it is told; with a lead's word it may be opened all the same."""
    plug = light_plug(world)
    with refused("pair_not_possible") as caught:
        opened(world, connector=plug)
    assert "Impossible" in caught.value.sentence
    say(world, plug, "possible")
    opened(world, connector=plug)
    assert set_up_of(CABLE.code, plug) == "S-1"


def test_a_pair_that_a_lead_calls_impossible_is_not_opened(world: SmallWorld) -> None:
    """The lead's reason is the refusal; taken back, the computed answer counts again."""
    say(world, CONNECTOR.code, "impossible")
    with refused("pair_not_possible") as caught:
        opened(world)
    assert "Three were tried by hand." in caught.value.sentence
    say(world, CONNECTOR.code, "as computed")
    opened(world)


def test_who_may_not_draft_opens_nothing(world: SmallWorld) -> None:
    """A viewer is refused before anything else is looked at."""
    with refused("not_allowed"):
        services.set_up_open(
            by=world.vic,
            code="",
            cable_code="nothing",
            connector_code="nothing",
            numbers=COMPLETE,
            on=TODAY,
        )


def test_unknown_parts_are_told(world: SmallWorld) -> None:
    """A cable or a set-up that is not in the records is no empty page."""
    with pytest.raises(UnknownCode):
        services.set_up_open(
            by=world.ben,
            code="S-1",
            cable_code="nothing",
            connector_code=CONNECTOR.code,
            numbers=COMPLETE,
            on=TODAY,
        )
    with pytest.raises(UnknownCode):
        set_up_opened("S-9")


def test_a_set_up_without_a_revision_begins_at_a(world: SmallWorld) -> None:
    """One that was only opened is found, and its first letter is A."""
    services.set_up_add(
        by=world.ben, code="S-1", cable_code=CABLE.code, connector_code=CONNECTOR.code
    )
    found = set_up_opened("S-1")
    assert (found.sheets, found.next_letter) == ((), "A")
    services.revision_draft(by=world.ben, set_up_code="S-1", letter="Z", numbers=COMPLETE, on=TODAY)
    assert set_up_opened("S-1").next_letter is None


@pytest.mark.parametrize(
    ("codes", "expected"),
    [
        ((), "T-01"),
        (("T-01", "T-22", "T-09"), "T-23"),
        (("T-99",), "T-100"),
        (("S-1", "S-2", "T-07"), "S-3"),
        (("PROVE", "old one"), "T-01"),
    ],
)
def test_the_next_code_goes_on_from_those_in_use(codes: tuple[str, ...], expected: str) -> None:
    """The commonest letters, the highest number and one more, as wide as the widest."""
    assert code_after(codes) == expected


def test_the_first_code_of_an_empty_workshop_is_free(world: SmallWorld) -> None:
    """Nothing is opened yet: it begins with T-01."""
    assert free_code() == "T-01"


def test_not_known_is_not_possible() -> None:
    """A drawing that is not in the records leaves the pair unknown, and nothing is opened on it."""
    cable, connector = COAX["VID-70"], dataclasses.replace(ENDS["BNC-70"], drawing=None)
    now = PairNow(cable=cable, connector=connector, cell=judge_cell(cable, connector), sheet=None)
    assert "Not known" in why_not_open(now, None)
