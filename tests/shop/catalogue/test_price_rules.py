"""Price rules hold from a day on and are never edited."""

import datetime as dt
from decimal import Decimal

import pytest

from reelwright.core.errors import UnknownCode
from reelwright.shop.catalogue import selectors, services
from tests.shop.refusals import refused
from tests.small_world import TODAY, SmallWorld


def set_rules(world: SmallWorld, *, from_day: dt.date, labour: str) -> None:
    """Set price rules that differ in their labour rate."""
    services.price_rules_add(
        by=world.ada,
        valid_from=from_day,
        labour_per_hour=Decimal(labour),
        order_handling=Decimal("4.20"),
        rush_floor=Decimal(25),
        first_pass_yield=Decimal("0.97"),
        gross_margin=Decimal("0.42"),
    )


def test_the_newest_rules_by_that_day_hold(world: SmallWorld) -> None:
    """A quote of yesterday keeps yesterday's rate; the currency is the workshop's."""
    set_rules(world, from_day=TODAY - dt.timedelta(days=30), labour="36.00")
    set_rules(world, from_day=TODAY, labour="38.00")
    before = selectors.pricing_on(TODAY - dt.timedelta(days=1))
    now = selectors.pricing_on(TODAY)
    assert before.rates.labour_per_hour == Decimal("36.00")
    assert now.rates.labour_per_hour == Decimal("38.00")
    assert now.rates.currency == "EUR"


def test_rules_are_superseded_not_edited(world: SmallWorld) -> None:
    """A second set for the same day is refused."""
    set_rules(world, from_day=TODAY, labour="38.00")
    with refused("price_rules_exist"):
        set_rules(world, from_day=TODAY, labour="40.00")


def test_without_rules_there_is_no_price(world: SmallWorld) -> None:
    """Nothing stands in for rules that were never set."""
    with pytest.raises(UnknownCode):
        selectors.pricing_on(TODAY)
