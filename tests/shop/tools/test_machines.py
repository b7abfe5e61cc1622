"""Presses, welders, and cavities as they were gauged."""

import datetime as dt
import math
from decimal import Decimal
from typing import Any

import pytest
from django.db import IntegrityError, connection, transaction

from reelwright.core.ends.dies.press import ForceKnown
from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.tools import gauging, machines, resting, services
from reelwright.shop.tools.models import CavityGauging, Press, PressChange
from tests.shop.refusals import refused
from tests.small_world import TODAY, SmallWorld


@pytest.fixture
def tools(world: SmallWorld) -> SmallWorld:
    """The small world with a press station, a welding station, a cavity and two gauges."""
    for code, kind in (("PRS", "press"), ("WLD", "weld")):
        services.station_add(
            by=world.ada, code=code, name=code, kind=kind, cost_per_hour=Decimal("38")
        )
    services.cavity_add(
        by=world.ada,
        code="F-6.48",
        use="ferrule",
        across_flats_mm=Decimal("6.48"),
        closings=41_000,
        service_after=60_000,
    )
    for code, due in (("I-6", TODAY), ("I-9", None)):
        services.instrument_add(
            by=world.ada, code=code, name="Height gauge", measures="height", calibration_due=due
        )
    return world


def cylinder(tools: SmallWorld, **other: Any) -> None:
    """Enter a plain cylinder of 100 mm at 6 bar."""
    good: dict[str, Any] = {
        "by": tools.ada,
        "code": "PR-2",
        "station_code": "PRS",
        "bore_mm": 100.0,
        "pressure_kpa": 600.0,
        "ratio": 1.0,
        "efficiency": 1.0,
    }
    machines.press_add_cylinder(**(good | other))


def gauge(tools: SmallWorld, **other: Any) -> None:
    """Gauge the cavity at 6.50 mm."""
    good: dict[str, Any] = {
        "by": tools.ben,
        "code": "F-6.48",
        "across_flats_mm": Decimal("6.500"),
        "uncertainty_mm": Decimal("0.003"),
        "instrument_code": "I-6",
        "on": TODAY,
    }
    gauging.cavity_gauge_record(**(good | other))


def serviced(tools: SmallWorld) -> None:
    """Lay the cavity to rest and put it back serviced, today."""
    resting.cavity_rest(by=tools.ada, code="F-6.48", reason="worn", on=TODAY)
    resting.cavity_return(by=tools.ada, code="F-6.48", reason="reground", on=TODAY, serviced=True)


def test_a_press_is_known_by_its_maker_or_by_its_cylinder(tools: SmallWorld) -> None:
    """Stated 29 kN stays that; 100 mm at 600 kPa is 4712 N, nowhere near."""
    machines.press_add(
        by=tools.ada, code="PR-1", station_code="PRS", known="stated by its maker", force_n=29_000.0
    )
    cylinder(tools)
    stated, plain = machines.presses()
    assert (stated.force_n, stated.known) == (29_000.0, ForceKnown.STATED)
    assert (round(plain.force_n, 1), plain.known) == (4712.4, ForceKnown.COMPUTED)


@pytest.mark.parametrize(
    ("other", "code"),
    [
        ({"bore_mm": 0.0}, "limit_bad"),
        ({"pressure_kpa": math.inf}, "limit_bad"),
        ({"efficiency": 1.2}, "limit_bad"),
        ({"station_code": "WLD"}, "station_kind"),
        ({"code": " "}, "code_bad"),
    ],
    ids=str,
)
def test_a_bad_press_is_refused(tools: SmallWorld, other: dict[str, Any], code: str) -> None:
    """Each by its code; the good one beside it is taken, once."""
    with refused(code):
        cylinder(tools, **other)
    cylinder(tools)
    with refused("press_exists"):
        cylinder(tools)
    with refused("kind_unknown"):
        machines.press_add(
            by=tools.ada, code="PR-3", station_code="PRS", known="guessed", force_n=1.0
        )
    with pytest.raises(UnknownCode, match="PRS-9"):
        cylinder(tools, code="PR-4", station_code="PRS-9")
    with refused("not_allowed"):
        cylinder(tools, by=tools.ben, code="PR-5")


def test_a_press_is_changed_for_a_reason_and_what_was_known_is_kept(tools: SmallWorld) -> None:
    """A load cell shows less than the cylinder says: that counts, and the cylinder stays told."""
    cylinder(tools)
    before = machines.press_now("PR-2")
    measured = machines.PressFacts(known=ForceKnown.MEASURED, force_n=4_400.0)
    for_now: dict[str, Any] = {
        "by": tools.ada,
        "code": "PR-2",
        "facts": measured,
        "in_use": True,
        "reason": "load cell",
        "on": TODAY,
    }
    half = machines.PressFacts(known=ForceKnown.COMPUTED, bore_mm=100.0, force_n=4_400.0)
    for other, code in (
        ({"reason": ""}, "reason_missing"),
        ({"by": tools.ben}, "not_allowed"),
        ({"facts": before.facts}, "nothing_changed"),
        ({"facts": half}, "limit_bad"),
        ({"facts": machines.PressFacts(known=ForceKnown.STATED, force_n=-1.0)}, "limit_bad"),
    ):
        with refused(code):
            machines.press_change(**(for_now | other))
    with pytest.raises(UnknownCode, match="PR-7"):
        machines.press_change(**(for_now | {"code": "PR-7"}))
    assert (machines.press_now("PR-2"), machines.press_changes("PR-2")) == (before, ())
    machines.press_change(**for_now)
    assert machines.presses()[0].force_n == 4_400.0
    machines.press_change(**(for_now | {"in_use": False, "reason": "sold"}))
    assert machines.presses() == ()
    assert not machines.press_now("PR-2").in_use
    sold, celled = machines.press_changes("PR-2")
    assert (sold.facts, sold.in_use, sold.reason) == (measured, True, "sold")
    assert (celled.facts, celled.reason, celled.by) == (before.facts, "load cell", "Ada")
    with pytest.raises(ShopRuleBroken):
        PressChange.objects.update(reason="x")


@pytest.mark.parametrize(
    "row",
    [
        {"known": "computed from its cylinder", "bore_mm": 100.0},
        {"known": "stated by its maker"},
        {"known": "measured", "force_n": 1.0, "bore_mm": 100.0},
        {"known": "guessed", "force_n": 1.0},
    ],
    ids=str,
)
def test_the_database_wants_one_way_of_knowing(tools: SmallWorld, row: dict[str, Any]) -> None:
    """Half a cylinder, no force, both, or neither known way are refused past the service."""
    cylinder(tools)
    station = Press.objects.get().station
    with pytest.raises(IntegrityError), transaction.atomic():
        Press.objects.create(code="PR-9", station=station, **row)


def test_a_welder_has_its_limits(tools: SmallWorld) -> None:
    """Entered once at a welding station; a limit of nothing is refused."""
    good: dict[str, Any] = {
        "by": tools.ada,
        "code": "W-1",
        "station_code": "WLD",
        "most_energy_j": 500.0,
        "most_power_w": 1500.0,
        "longest_s": 1.0,
    }
    for other, code in (
        ({"most_power_w": 0.0}, "limit_bad"),
        ({"station_code": "PRS"}, "station_kind"),
    ):
        with refused(code):
            machines.welder_add(**(good | other))
    machines.welder_add(**good)
    (welder,) = machines.welders()
    assert (welder.reach_j, welder.longest_s) == (500.0, 1.0)
    with refused("welder_exists"):
        machines.welder_add(**good)


def test_a_worn_cavity_is_known_by_its_newest_reading(tools: SmallWorld) -> None:
    """As engraved until it is gauged, then as gauged last."""
    (cavity,) = gauging.cavity_values()
    assert cavity.across_flats_m == pytest.approx(6.48e-3)
    gauge(tools, across_flats_mm=Decimal("6.520"), on=TODAY - dt.timedelta(days=1))
    gauge(tools)
    (cavity,) = gauging.cavity_values()
    assert cavity.across_flats_m == pytest.approx(6.50e-3)
    assert (cavity.closings_count, cavity.left_count) == (41_000, 19_000)


def test_what_was_gauged_before_a_service_no_longer_counts(tools: SmallWorld) -> None:
    """Not even when the count has passed the old one again."""
    gauge(tools)
    serviced(tools)
    services.cavity_use_book(by=tools.ben, code="F-6.48", closings=50_000)
    (cavity,) = gauging.cavity_values()
    assert cavity.reading is None
    gauge(tools, across_flats_mm=Decimal("6.490"))
    (cavity,) = gauging.cavity_values()
    assert cavity.across_flats_m == pytest.approx(6.49e-3)


@pytest.mark.parametrize(
    ("other", "code"),
    [
        ({"across_flats_mm": Decimal("8.23")}, "not_this_cavity"),
        ({"across_flats_mm": Decimal(0)}, "size_bad"),
        ({"uncertainty_mm": Decimal("NaN")}, "size_bad"),
        ({"across_flats_mm": Decimal("6.50001")}, "size_bad"),
        ({"uncertainty_mm": Decimal("1e9")}, "size_bad"),
        ({"uncertainty_mm": Decimal("0.065")}, "too_coarse"),
        ({"instrument_code": "I-9"}, "not_calibrated"),
        ({"on": TODAY + dt.timedelta(days=1)}, "not_calibrated"),
    ],
    ids=str,
)
def test_a_bad_reading_is_refused(tools: SmallWorld, other: dict[str, Any], code: str) -> None:
    """Another cavity's width, no size, a gauge whose calibration does not hold that day."""
    with refused(code):
        gauge(tools, **other)
    gauge(tools)
    assert CavityGauging.objects.count() == 1
    with refused("not_allowed"):
        gauge(tools, by=tools.vic)
    for unknown in ({"code": "F-0"}, {"instrument_code": "I-0"}):
        with pytest.raises(UnknownCode):
            gauge(tools, **unknown)


def test_a_reading_only_grows(tools: SmallWorld) -> None:
    """Neither the model nor the database lets a reading be changed."""
    gauge(tools)
    with pytest.raises(ShopRuleBroken):
        CavityGauging.objects.update(across_flats_mm=6)
    with pytest.raises(IntegrityError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("UPDATE tools_cavitygauging SET across_flats_mm = 6")


def test_a_gauging_is_taken_back_and_the_one_before_it_counts(tools: SmallWorld) -> None:
    """By the lead, once, with a reason; each says why it does or does not count."""
    gauge(tools, across_flats_mm=Decimal("6.520"), on=TODAY - dt.timedelta(days=1))
    gauge(tools)
    slip = gauging.gaugings_of("F-6.48")[0]
    back: dict[str, Any] = {
        "by": tools.ada,
        "code": "F-6.48",
        "number": slip.number,
        "reason": "die not closed",
        "on": TODAY,
    }
    with refused("reason_missing"):
        gauging.cavity_gauging_take_back(**(back | {"reason": " "}))
    with refused("not_allowed"):
        gauging.cavity_gauging_take_back(**(back | {"by": tools.ben}))
    for other in ({"number": 0}, {"code": "F-0"}):
        with pytest.raises(UnknownCode):
            gauging.cavity_gauging_take_back(**(back | other))
    gauging.cavity_gauging_take_back(**back)
    with refused("already_taken_back"):
        gauging.cavity_gauging_take_back(**back)
    told = [(g.counts, g.why_not, g.taken_back) for g in gauging.gaugings_of("F-6.48")]
    assert told == [(False, "taken back", "Ada: die not closed"), (True, "", "")]
    assert gauging.cavity_values()[0].across_flats_m == pytest.approx(6.52e-3)
    serviced(tools)
    assert gauging.gaugings_of("F-6.48")[1].why_not == "before its last service"
    with refused("before_service"):
        gauge(tools, on=TODAY - dt.timedelta(days=1))
