"""Minutes quoted at the stations, and the minutes to change a machine over."""

import datetime as dt
from decimal import Decimal

import pytest

from reelwright.core.bench.problem import Station
from reelwright.core.errors import UnknownCode
from reelwright.core.parts.cable import Family
from reelwright.shop.setups import selectors, services
from tests.shop.refusals import refused
from tests.small_world import TODAY, SmallWorld


def set_over(world: SmallWorld, *, from_day: dt.date, die: str) -> None:
    """Set change-over times that differ in the minutes of a die."""
    services.change_over_times_add(
        by=world.ada,
        valid_from=from_day,
        first_article_min=Decimal(3),
        program_min=Decimal(2),
        blade_set_min=Decimal(6),
        die_min=Decimal(die),
        test_adapters_min=Decimal(4),
        weld_horn_min=Decimal(10),
    )


def test_minutes_come_out_by_family(world: SmallWorld) -> None:
    """For each cable by station, and once for a line where the station has a set-up."""
    for station, once, each, per_metre in (
        (Station.CUT, "0", "0.6", "0.02"),
        (Station.STRIP, "6", "0.5", "0"),
    ):
        services.work_time_set(
            by=world.ada,
            family=Family.COAX,
            station=station,
            set_up_min=Decimal(once),
            per_cable_min=Decimal(each),
            per_metre_min=Decimal(per_metre),
        )
    times = selectors.family_times()
    assert list(times) == [Family.COAX]
    cut, strip = times[Family.COAX].each
    assert (cut.station, cut.each_min, cut.per_m_min) == ("cut", Decimal("0.6"), Decimal("0.02"))
    assert strip.each_min == Decimal("0.5")
    assert times[Family.COAX].set_up_min == {Station.STRIP: 6.0}


def test_the_newest_change_over_times_hold(world: SmallWorld) -> None:
    """In whole seconds, and superseded rather than edited."""
    set_over(world, from_day=TODAY - dt.timedelta(days=9), die="2.0")
    set_over(world, from_day=TODAY, die="1.5")
    assert selectors.change_over_rule_on(TODAY).die_s == 90
    assert selectors.change_over_rule_on(TODAY - dt.timedelta(days=1)).die_s == 120
    with refused("change_over_exists"):
        set_over(world, from_day=TODAY, die="1.0")
    with pytest.raises(UnknownCode):
        selectors.change_over_rule_on(TODAY - dt.timedelta(days=10))
