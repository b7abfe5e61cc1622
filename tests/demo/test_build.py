"""The demo workshop as built: through services, to the millimetre of its evening count."""

import statistics

import pytest

from reelwright.core.ends.dies.press import COMMON_BENCH_PRESS_N
from reelwright.demo.build import DemoFound, build_or_find
from reelwright.demo.calendar import EVE, OPENING, WORKING_DAY, history_days
from reelwright.demo.history_plan import reel_plans
from reelwright.demo.stock import REELS
from reelwright.demo.tools import CAVITIES
from reelwright.shop.catalogue.selectors import (
    cables,
    connectors,
    find_cable,
    find_connectors,
    pricing_on,
)
from reelwright.shop.people.models import Workshop
from reelwright.shop.people.selectors import qualified_people, today, workshop
from reelwright.shop.reels.selectors import reel_ledger, reels_now
from reelwright.shop.reels.to_core import lot_values, stock_for_plan
from reelwright.shop.setups import selectors as setups
from reelwright.shop.setups.shown.weld import weld_view
from reelwright.shop.setups.states import State
from reelwright.shop.tools.gauging import cavity_values
from reelwright.shop.tools.machines import presses
from reelwright.shop.tools.selectors import cavities, wheel_calibration
from reelwright.shop.trials.gauges import shop_gauges
from tests.shop.refusals import refused

# Reel, cable, colour, lot, metres left, their uncertainty: the stock ledger of the demo's morning.
LEDGER = (
    ("R-101", "VID-70", "BK", "L2401", 212.0, 1.9),
    ("R-102", "VID-70", "BU", "L2403", 88.5, 1.1),
    ("R-111", "VID-60", "BK", "L2402", 305.0, 1.83),
    ("R-112", "VID-60", "OG", "L2377", 18.6, 0.15),
    ("R-113", "VID-60", "RD", "L2391", 41.0, 0.25),
    ("R-114", "VID-60", "RD", "L2406", 60.0, 0.4),
    ("R-115", "VID-60", "GN", "L2405", 132.0, 0.9),
    ("R-131", "VID-70P", "WH", "L2399", 140.0, 0.9),
    ("R-132", "VID-70P", "BK", "L2410", 37.0, 0.3),
    ("R-141", "VID-70F", "BK", "L2408", 54.0, 0.5),
    ("R-151", "PHO-61", "BK", "L2380", 96.0, 0.6),
    ("R-161", "AUD-BP", "BK", "L2411", 410.0, 4.1),
    ("R-171", "SPK-14x2W", "WH", "L2366", 150.0, 1.2),
)


def test_the_workshop_stands_still_on_its_day(demo: DemoFound) -> None:
    """It says that it is invented, and today is its Tuesday."""
    assert demo.built
    assert workshop().is_demo
    assert today(workshop()) == WORKING_DAY == demo.working_day
    assert WORKING_DAY.strftime("%A") == "Tuesday"


def test_the_ledger_of_the_morning(demo: DemoFound) -> None:
    """Every reel holds what was counted, to the millimetre, with the count's uncertainty."""
    now = {reel.code: reel for reel in reels_now()}
    for code, cable, colour, lot, left_m, spread_m in LEDGER:
        reel = now[code]
        assert (reel.cable_code, reel.colour, reel.lot_code) == (cable, colour, lot)
        assert reel.length_mm == round(left_m * 1000)
        assert reel.standard_uncertainty_mm == pytest.approx(spread_m * 1000)
    assert set(now) == {reel.code for reel in REELS}


def test_the_flawed_reel_gives_two_stretches(demo: DemoFound) -> None:
    """12.2 m before the flaw and 28.6 m behind it."""
    (stock,) = [reel for reel in stock_for_plan() if reel.id == "R-113"]
    assert [(each.start_mm, each.length_mm) for each in stock.stretches] == [
        (0, 12_200),
        (12_400, 28_600),
    ]


def test_lots_carry_their_measured_delay(demo: DemoFound) -> None:
    """1/(0.8265·c) for the green lot; the one before it is used up but still on record."""
    lots = lot_values()
    for code, delay_s_per_m in (("L2405", 4.0359e-9), ("L2371", 4.0237e-9)):
        measured = lots[code].delay_s_per_m
        assert measured is not None
        assert measured.value == pytest.approx(delay_s_per_m, rel=1e-4)
    (used_up,) = [reel for reel in reels_now() if reel.lot_code == "L2371"]
    assert used_up.length_mm == 0


def test_reels_were_used_before_they_were_counted(demo: DemoFound) -> None:
    """Cuts on several days, then one evening count which corrected what the ledger said."""
    lines = reel_ledger("R-101")
    assert lines[0].kind == "received"
    assert lines[0].on == OPENING
    assert [line.kind for line in lines[1:-1]] == ["cut"] * 9
    assert len({line.on for line in lines[1:-1]}) > 1
    assert (lines[-1].kind, lines[-1].on, lines[-1].left_mm) == ("counted", EVE, 212_000)


def test_set_ups_are_released_by_the_lead(demo: DemoFound) -> None:
    """All but the one on trial, which says what it lacks."""
    newest = setups.newest_set_ups()
    assert len(newest) == 22
    for sheet in newest.values():
        if sheet.code == "T-04":
            assert sheet.state is State.ON_TRIAL
            assert [each.code for each in setups.next_state(sheet).missing] == ["too_few_pulls"]
        else:
            assert (sheet.state, sheet.approved_by) == (State.RELEASED, "Mara")
    assert [(each.letter, each.state) for each in setups.set_up_sheets("T-02")] == [
        ("D", State.RELEASED),
        ("C", State.WITHDRAWN),
    ]


def test_pulls_of_the_worn_cavity_drift_down(demo: DemoFound) -> None:
    """A straight line over closings falls, by three times its own uncertainty at least."""
    pulls = [
        pull for sheet in setups.set_up_sheets("T-02") for pull in setups.pulls(sheet.revision_id)
    ]
    counts = [float(pull.tool_count or 0) for pull in pulls]
    forces = [pull.force_n for pull in pulls]
    slope, start = statistics.linear_regression(counts, forces)
    left = [force - start - slope * count for count, force in zip(counts, forces, strict=True)]
    spread = (sum(each**2 for each in left) / (len(pulls) - 2)) ** 0.5
    error = spread / (statistics.pstdev(counts) * len(pulls) ** 0.5)
    assert slope < -3 * error
    assert min(forces) > 180
    assert max(counts) == 41_000


def test_tools_stand_as_this_morning(demo: DemoFound) -> None:
    """Closings add up to the morning's counts; the wheel was last checked on the eve."""
    now = {cavity.code: cavity.closings for cavity in cavities()}
    assert now == {cavity.code: cavity.closings for cavity in CAVITIES}
    wheel = wheel_calibration(on=WORKING_DAY)
    assert (wheel.on, wheel.set_mm, wheel.delivered_mm) == (EVE, 10_000.0, 9_958.0)


def test_people_are_qualified_for_their_benches(demo: DemoFound) -> None:
    """Ana crimps, Bo solders and welds, Cy cuts and packs and ends no cable."""

    def who(**asked: str) -> list[str]:
        return [each.display_name for each in qualified_people(on=WORKING_DAY, **asked)]

    assert who(method="pin and ferrule crimped") == ["Ana"]
    assert who(method="welded") == ["Bo"]
    assert "Cy" in who(station_code="cut")
    assert "Cy" not in who(station_code="press")


def test_customers_words_are_known(demo: DemoFound) -> None:
    """The words of the night's orders find their cables and families of connectors."""
    assert find_cable("the thick flexible one") == "VID-70F"
    assert find_cable("standard video cable") == "VID-60"
    assert find_connectors("RCA") == find_connectors("phono") == ("RCA-40", "RCA-60")
    assert len(find_connectors("BNC")) == 7


def test_prices_are_in_force(demo: DemoFound) -> None:
    """The rates of the day, in the workshop's currency."""
    pricing = pricing_on(WORKING_DAY)
    assert (str(pricing.labour_per_hour), pricing.currency) == ("38.0000", "EUR")


def test_order_files_lie_in_the_workshop(demo: DemoFound) -> None:
    """Both, where the commands look for them."""
    assert demo.orders.read_bytes().startswith(b"order,line,customer,")
    assert demo.late_orders.is_file()
    assert demo.to_json()["orders"] == str(demo.orders)


def test_a_second_build_changes_nothing(demo: DemoFound) -> None:
    """What stands there is found, not built again."""
    before = [reel_ledger(reel.code) for reel in reels_now()]
    again = build_or_find()
    assert not again.built
    assert [reel_ledger(reel.code) for reel in reels_now()] == before


def test_a_real_workshop_is_left_alone(demo: DemoFound) -> None:
    """The demo refuses a folder in which somebody works."""
    Workshop.objects.update(is_demo=False, fixed_today=None)
    try:
        with refused("other_workshop"):
            build_or_find()
    finally:
        Workshop.objects.update(is_demo=True, fixed_today=WORKING_DAY)


def test_the_same_seed_gives_the_same_history() -> None:
    """Two plans of the reels' history are equal, and no cut is before the set-ups' release."""
    assert reel_plans() == reel_plans()
    for plan in reel_plans():
        assert all(cut.day >= history_days()[2] for cut in plan.cuts)
        spent = sum(cut.cut_mm for cut in plan.cuts) + plan.scrapped_mm + plan.reel.left_mm
        assert abs(plan.received_mm - spent) <= 5 * plan.reel.uncertainty_mm


def test_the_welds_follow_one_law_up_to_10_awg(demo: DemoFound) -> None:
    """Energies of released welds give the law, welder and plug the largest gauge; all is drawn."""
    assert demo.built
    sheet = setups.set_up_sheets("T-15")[0]
    view = weld_view(sheet, cables()["SPK-14"], connectors()["BANANA"], shop_gauges())
    assert view is not None
    assert view.answer == (
        "The set-up welds with 149\u202fJ; the law through the shop's own gauges says 151\u202fJ."
    )
    good = [row.gauge for row in view.gauges if row.outcome == "good"]
    assert good == [f"{awg}\u202fAWG" for awg in (16, 14, 12, 10)]
    assert view.chart is not None
    assert [row.what for row in view.chart.table] == [
        "T-20",
        "T-15, T-21",
        "T-18",
        "T-19",
        "SPK-14",
    ]


def test_the_watched_cavity_is_worn_and_still_inside_its_window(demo: DemoFound) -> None:
    """Gauged two hundredths wider than engraved; the press has about three tonnes."""
    assert demo.built
    (worn,) = (each for each in cavity_values() if each.reading is not None)
    assert worn.code == "F-6.48"
    assert worn.across_flats_m == pytest.approx(6.50e-3)
    (press,) = presses()
    assert press.force_n == pytest.approx(COMMON_BENCH_PRESS_N, rel=0.02)
