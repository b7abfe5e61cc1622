"""One law of energy: the form of a search, the page of a set-up and the command say the same."""

import re

import pytest

from reelwright.core.trials.guess import Peak
from reelwright.core.trials.search_text import read_search_tables
from reelwright.core.trials.weld_energy import guess_energy
from reelwright.demo.build import DemoFound
from reelwright.demo.windows import open_tables
from reelwright.shop.catalogue.selectors import cables, connectors
from reelwright.shop.setups.selectors import released_set_ups
from reelwright.shop.setups.shown.weld import weld_view
from reelwright.shop.trials.begin_with import begin_with
from reelwright.shop.trials.gauges import known_gauges, shop_gauges
from reelwright.shop.trials.states import Process


def test_each_gauge_of_the_demo_counts_once(demo: DemoFound) -> None:
    """Four areas from five released welds; the window found for one of them adds no fifth."""
    found = shop_gauges()
    assert [one.set_ups for one in found] == [("T-20",), ("T-15", "T-21"), ("T-18",), ("T-19",)]
    assert all(one.known_on is None for one in found)


@pytest.mark.parametrize("code", ["SPK-16", "SPK-14", "SPK-12", "SPK-10"])
def test_form_page_and_command_give_one_first_guess(demo: DemoFound, code: str) -> None:
    """The same joules to the last digit that each shows, by whatever way they are asked for."""
    sheet, cable = released_set_ups()[code, "BANANA"], cables()[code]
    area_m2 = cable.sheet.conductor_area_m2
    assert area_m2 is not None
    gauges = known_gauges()
    by_hand = guess_energy(gauges, area_m2=area_m2, confidence=0.95).energy_j
    assert by_hand is not None

    cells = begin_with(Process.WELD, cable, sheet, gauges).cells
    assert float(cells["response-1-guess-best_at"]) == pytest.approx(by_hand, abs=0.05)

    view = weld_view(sheet, cable, connectors()["BANANA"], shop_gauges())
    assert view is not None
    told = re.search(r"gauges says (\d+)", view.answer)
    assert told is not None
    assert int(told[1]) == round(by_hand)

    tables = open_tables()
    responses = tables["response"]
    assert isinstance(responses, list)
    guess = {key: value for key, value in responses[0]["guess"].items() if key != "best_at"}
    guess["area_mm2"] = area_m2 * 1e6
    guess["gauges"] = [[one.area_m2 * 1e6, one.energy_j] for one in gauges]
    tables["response"] = [responses[0] | {"guess": guess}]
    read = read_search_tables(tables, file="demo").frame.responses[0].guess
    assert isinstance(read, Peak)
    assert read.best_at == pytest.approx(by_hand, rel=1e-12)
