"""Reels and lots as the engines take them."""

from typing import Any

from reelwright.core.parts.cable import LotMeasure
from reelwright.shop.reels.selectors import item_of, reels_now
from reelwright.shop.reels.to_core import lot_values, stock_for_plan
from tests.shop.reels.test_booking import cut
from tests.small_world import FLAWED, FULL, SHORT, SmallWorld


def test_stock_for_a_plan(world: SmallWorld) -> None:
    """Each reel with its stretches from the outer end; the older lot ranks before the younger."""
    cut(world, "P-1", 2_200, reel_code=FLAWED)
    full, flawed, short = stock_for_plan()
    assert (full.id, flawed.id, short.id) == (FULL, FLAWED, SHORT)
    assert full.item == flawed.item == item_of("SW-60", "BK")
    assert (full.age_rank, flawed.age_rank, short.age_rank) == (0, 1, 1)
    assert [(s.start_mm, s.length_mm) for s in flawed.stretches] == [(0, 10_000), (10_200, 28_600)]
    assert {s.standard_uncertainty_mm for s in full.stretches} == {600.0}
    assert full.location == "rack 1"


def test_an_empty_reel_is_no_stock(world: SmallWorld) -> None:
    """Nor is a reel of another item than asked."""
    cut(world, "P-1", 5_000, reel_code=SHORT)
    assert [reel.id for reel in stock_for_plan()] == [FULL, FLAWED]
    assert stock_for_plan(items=["SW-60 RD"]) == ()


def test_lots_carry_what_was_measured(world: SmallWorld) -> None:
    """The measured delay with its uncertainty, or none."""
    values = lot_values()
    assert values["L-1"].delay_s_per_m == LotMeasure(value=4.02e-9, relative_uncertainty=0.001)
    assert values["L-2"].delay_s_per_m is None
    assert values["L-2"].cable_code == "SW-60"


def test_reading_all_reels_takes_three_queries(
    world: SmallWorld, django_assert_num_queries: Any
) -> None:
    """However many reels there are."""
    with django_assert_num_queries(3):
        assert len(reels_now()) == 3
    cut(world, "P-1", 1_000)
    with django_assert_num_queries(3):
        reels_now(cable_code="SW-60", colour="BK")
