"""Lots and reels come in."""

import math
from typing import Any

import pytest
from django.db import IntegrityError, transaction

from reelwright.core.errors import UnknownCode
from reelwright.shop.reels import services
from reelwright.shop.reels.models import Lot
from reelwright.shop.reels.selectors import lots, reel_ledger, reel_now, stock_by_item
from tests.shop.refusals import refused
from tests.small_world import FULL, TODAY, SmallWorld


def lot(world: SmallWorld, **other: Any) -> Lot:
    """Receive a lot, good unless ``other`` says otherwise."""
    fields: dict[str, Any] = {
        "by": world.ada,
        "code": "L-9",
        "cable_code": "SW-60",
        "colour": "RD",
        "received_on": TODAY,
        "delay_s_per_m": None,
        "delay_relative_uncertainty": None,
    }
    return services.lot_receive(**(fields | other))


def reel(world: SmallWorld, **other: Any) -> None:
    """Receive a reel, good unless ``other`` says otherwise."""
    fields: dict[str, Any] = {
        "by": world.ben,
        "code": "R-9",
        "lot_code": "L-1",
        "length_mm": 305_000,
        "standard_uncertainty_mm": 1500.0,
        "on": TODAY,
    }
    services.reel_receive(**(fields | other))


def test_a_lot_and_its_reel_come_in(world: SmallWorld) -> None:
    """The reel holds what it came with, its ledger opens with who received it."""
    lot(world, code="L-3", delay_s_per_m=4e-9, delay_relative_uncertainty=0.002)
    reel(world, lot_code="L-3")
    now = reel_now("R-9")
    assert (now.length_mm, now.standard_uncertainty_mm, now.colour) == (305_000, 1500.0, "RD")
    (opening,) = reel_ledger("R-9")
    assert (opening.kind, opening.by, opening.left_mm) == ("received", "Ben", 305_000)
    assert [row.code for row in lots(cable_code="SW-60")] == ["L-1", "L-2", "L-3"]


@pytest.mark.parametrize(
    ("other", "code"),
    [
        ({"code": "L-1"}, "lot_exists"),
        ({"code": " L-3"}, "code_bad"),
        ({"delay_s_per_m": 4e-9}, "delay_bad"),
        ({"delay_s_per_m": -4e-9, "delay_relative_uncertainty": 0.1}, "delay_bad"),
    ],
)
def test_a_bad_lot_is_refused(world: SmallWorld, other: dict[str, Any], code: str) -> None:
    """Each by its code, and no lot more is there."""
    before = len(lots())
    with refused(code):
        lot(world, **other)
    assert len(lots()) == before


@pytest.mark.parametrize(
    ("other", "code"),
    [
        ({"code": FULL}, "reel_exists"),
        ({"code": ""}, "code_bad"),
        ({"length_mm": 0}, "length_bad"),
        ({"length_mm": 12.5}, "length_bad"),
        ({"standard_uncertainty_mm": -1.0}, "uncertainty_bad"),
        ({"standard_uncertainty_mm": math.nan}, "uncertainty_bad"),
        ({"outside_end": "C"}, "end_bad"),
    ],
)
def test_a_bad_reel_is_refused(world: SmallWorld, other: dict[str, Any], code: str) -> None:
    """Each by its code, and the rack holds what it held."""
    before = stock_by_item()
    with refused(code):
        reel(world, **other)
    assert stock_by_item() == before


def test_unknown_names_are_named(world: SmallWorld) -> None:
    """Cable, colour and lot that nobody knows."""
    for call in (
        lambda: lot(world, cable_code="SW-61"),
        lambda: lot(world, colour="XX"),
        lambda: reel(world, lot_code="L-7"),
    ):
        with pytest.raises(UnknownCode):
            call()


def test_a_viewer_receives_nothing(world: SmallWorld) -> None:
    """Neither lot nor reel."""
    with refused("not_allowed"):
        lot(world, by=world.vic)
    with refused("not_allowed"):
        reel(world, by=world.vic)


def test_moving_a_reel(world: SmallWorld) -> None:
    """The bench moves it, a viewer does not."""
    services.reel_move(by=world.ben, reel_code=FULL, location="rack 4")
    assert reel_now(FULL).location == "rack 4"
    with refused("not_allowed"):
        services.reel_move(by=world.vic, reel_code=FULL, location="rack 5")


def test_the_database_refuses_half_a_measurement(world: SmallWorld) -> None:
    """A delay without its uncertainty cannot be stored past the service either."""
    row = Lot.objects.get(code="L-2")
    row.delay_s_per_m = 4e-9
    with pytest.raises(IntegrityError), transaction.atomic():
        row.save()


def test_stock_by_item_sums_reels(world: SmallWorld) -> None:
    """Two lots of one cable and colour are one line."""
    (item,) = stock_by_item()
    assert (item.cable_code, item.colour, item.reels, item.length_mm) == (
        "SW-60",
        "BK",
        3,
        100_000 + 41_000 + 5_000,
    )
