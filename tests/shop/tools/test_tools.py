"""Stations, cavities, blades, instruments, the wheel."""

import datetime as dt
import math
from decimal import Decimal
from typing import Any

import pytest
from django.db import IntegrityError, connection, transaction

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.tools import resting, selectors, services
from reelwright.shop.tools.models import Cavity, CavityMove
from reelwright.shop.tools.to_core import wheel_on
from tests.shop.refusals import refused
from tests.small_world import TODAY, SmallWorld


@pytest.fixture
def tools(world: SmallWorld) -> SmallWorld:
    """The small world with a cutting bench and two ferrule cavities."""
    services.station_add(
        by=world.ada, code="CUT-1", name="Cutting bench", kind="cut", cost_per_hour=Decimal("38")
    )
    for code, size, closings in (("D-8.23", "8.23", 9_000), ("D-6.48", "6.48", 41_000)):
        services.cavity_add(
            by=world.ada,
            code=code,
            use="ferrule",
            across_flats_mm=Decimal(size),
            closings=closings,
            service_after=60_000,
        )
    return world


def rest(tools: SmallWorld, **other: Any) -> None:
    """Lay the smaller cavity to rest."""
    given: dict[str, Any] = {
        "by": tools.ada,
        "code": "D-6.48",
        "reason": "pulls drift",
        "on": TODAY,
    }
    resting.cavity_rest(**(given | other))


def back(tools: SmallWorld, **other: Any) -> None:
    """Put the smaller cavity back, serviced."""
    given: dict[str, Any] = {
        "by": tools.ada,
        "code": "D-6.48",
        "reason": "reground",
        "on": TODAY,
        "serviced": True,
    }
    resting.cavity_return(**(given | other))


def test_cavities_in_service_by_size(tools: SmallWorld) -> None:
    """Smallest first, each with what is left until its service."""
    found = selectors.cavities(use="ferrule")
    assert [(c.code, c.closings_left) for c in found] == [("D-6.48", 19_000), ("D-8.23", 51_000)]
    assert found[0].across_flats_mm == Decimal("6.480")
    assert selectors.cavities(use="pin") == []


def test_closings_are_counted_in_service_only(tools: SmallWorld) -> None:
    """Counted by the bench; not while it rests; from nought after its service."""
    services.cavity_use_book(by=tools.ben, code="D-6.48", closings=60)
    assert selectors.cavities()[0].closings == 41_060
    with refused("in_service"):
        back(tools)
    rest(tools)
    assert [c.code for c in selectors.cavities()] == ["D-8.23"]
    assert len(selectors.cavities(in_service=None)) == 2
    for call in (
        lambda: services.cavity_use_book(by=tools.ben, code="D-6.48", closings=1),
        lambda: rest(tools),
    ):
        with refused("not_in_service"):
            call()
    back(tools)
    assert selectors.cavities()[0].closings == 0


def test_a_cavity_rests_and_comes_back_for_a_reason(tools: SmallWorld) -> None:
    """Both entries stay, with what had been counted; put back unserviced, it counts on."""
    for reason in ("", "  ", "x" * 201):
        with refused("reason_missing"):
            rest(tools, reason=reason)
    rest(tools, reason=" pulls drift ")
    back(tools, serviced=False, reason="the drift was the cable's")
    assert selectors.cavities()[0].closings == 41_000
    rest(tools)
    back(tools)
    told = [
        (m.into_service, m.serviced, m.closings_then, m.by) for m in resting.cavity_moves("D-6.48")
    ]
    assert told == [
        (True, True, 41_000, "Ada"),
        (False, False, 41_000, "Ada"),
        (True, False, 41_000, "Ada"),
        (False, False, 41_000, "Ada"),
    ]
    assert resting.cavity_moves("D-6.48")[-1].reason == "pulls drift"
    assert resting.cavity_moves("D-8.23") == ()
    with pytest.raises(UnknownCode, match="D-0"):
        rest(tools, code="D-0")
    with pytest.raises(UnknownCode, match="D-0"):
        back(tools, code="D-0")
    with pytest.raises(ShopRuleBroken):
        CavityMove.objects.update(reason="x")
    with pytest.raises(IntegrityError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("UPDATE tools_cavitymove SET reason = 'x'")


def test_who_may_not(tools: SmallWorld) -> None:
    """A viewer counts no closings, the bench enters no tools."""
    with refused("not_allowed"):
        services.cavity_use_book(by=tools.vic, code="D-6.48", closings=1)
    with refused("not_allowed"):
        rest(tools, by=tools.ben)
    with refused("not_allowed"):
        services.blade_set_add(by=tools.ben, code="BL-1", ends=0, service_after=8_000)
    assert selectors.cavities()[0].closings == 41_000


@pytest.mark.parametrize(
    ("other", "code"),
    [
        ({"code": "D-8.23"}, "cavity_exists"),
        ({"code": ""}, "code_bad"),
        ({"code": "D/1"}, "code_bad"),
        ({"code": ".."}, "code_bad"),
        ({"code": "D\n1"}, "code_bad"),
        ({"use": "boot"}, "kind_unknown"),
        ({"across_flats_mm": Decimal(0)}, "size_bad"),
        ({"across_flats_mm": Decimal("NaN")}, "size_bad"),
        ({"closings": -1}, "count_bad"),
        ({"service_after": 0}, "count_bad"),
    ],
    ids=str,
)
def test_a_bad_cavity_is_refused(tools: SmallWorld, other: dict[str, Any], code: str) -> None:
    """Each by its code; the good one beside it is taken."""
    good: dict[str, Any] = {
        "by": tools.ada,
        "code": "D-1.60",
        "use": "pin",
        "across_flats_mm": Decimal("1.60"),
        "closings": 0,
        "service_after": 60_000,
    }
    with refused(code):
        services.cavity_add(**(good | other))
    services.cavity_add(**good)


def test_unknown_tools(tools: SmallWorld) -> None:
    """A cavity and a station that are not there are named."""
    with pytest.raises(UnknownCode, match="D-0"):
        services.cavity_use_book(by=tools.ben, code="D-0", closings=1)
    with pytest.raises(UnknownCode, match="CUT-9"):
        wheel(tools, station_code="CUT-9")


def test_stations_blades_and_instruments(tools: SmallWorld) -> None:
    """Entered once each; an instrument is out of calibration the day after its last."""
    with refused("station_exists"):
        services.station_add(
            by=tools.ada, code="CUT-1", name="x", kind="cut", cost_per_hour=Decimal(1)
        )
    with refused("kind_unknown"):
        services.station_add(
            by=tools.ada, code="X-1", name="x", kind="knit", cost_per_hour=Decimal(1)
        )
    assert [row.code for row in selectors.stations(kind="cut")] == ["CUT-1"]
    services.blade_set_add(by=tools.ada, code="BL-1", ends=6_100, service_after=8_000)
    assert selectors.blade_sets()[0].ends == 6_100
    for code, due in (("I-1", TODAY), ("I-2", None)):
        services.instrument_add(
            by=tools.ada, code=code, name="Bridge", measures="resistance", calibration_due=due
        )
    assert [i.code for i in selectors.instruments_out_of_calibration(on=TODAY)] == ["I-2"]
    tomorrow = TODAY + dt.timedelta(days=1)
    assert len(selectors.instruments_out_of_calibration(on=tomorrow)) == 2


def wheel(tools: SmallWorld, **other: Any) -> None:
    """Record a calibration: 10 m set gave 10.023 m."""
    good: dict[str, Any] = {
        "by": tools.ada,
        "station_code": "CUT-1",
        "set_mm": 10_000.0,
        "delivered_mm": 10_023.0,
        "fixed_uncertainty_mm": 3.0,
        "relative_uncertainty": 0.001,
        "on": TODAY,
    }
    services.wheel_calibration_record(**(good | other))


def test_the_newest_calibration_by_that_day_holds(tools: SmallWorld) -> None:
    """Not one made later, and none is said so."""
    with refused("wheel_not_calibrated"):
        wheel_on(TODAY)
    wheel(tools)
    wheel(tools, on=TODAY + dt.timedelta(days=3), delivered_mm=9_990.0)
    assert wheel_on(TODAY).delivered_mm == 10_023.0
    assert wheel_on(TODAY).setting_mm(10_023.0) == pytest.approx(10_000.0)
    assert wheel_on(TODAY + dt.timedelta(days=5)).delivered_mm == 9_990.0


@pytest.mark.parametrize(
    "other",
    [{"set_mm": 0.0}, {"delivered_mm": math.nan}, {"relative_uncertainty": -0.1}],
    ids=str,
)
def test_a_bad_calibration_is_refused(tools: SmallWorld, other: dict[str, Any]) -> None:
    """Lengths of nothing, and uncertainties below it."""
    with refused("calibration_bad"):
        wheel(tools, **other)


def test_the_database_refuses_a_size_of_nothing(tools: SmallWorld) -> None:
    """A cavity of no width cannot be stored past the service."""
    with pytest.raises(IntegrityError), transaction.atomic():
        Cavity.objects.update(across_flats_mm=0)
