"""A search as it is written down: every fault is told at once, whatever else is missing."""

import copy
from collections.abc import Callable
from typing import Any

import pytest

from reelwright.core.errors import Fault, InputFaults
from reelwright.core.trials.search_text import read_search, read_search_tables

SETTING = {"name": "energy", "unit": "J", "low": 180, "high": 420, "step": 5, "drift": 4}
PEAK = {"kind": "peak", "setting": "energy", "ratio_factor": 1.5, "best_at": 300}
GAUGES = [[1.31, 96], [2.08, 149], [3.31, 243], [5.26, 378]]
RESPONSE = {"name": "pull", "unit": "N", "lower_limit": 223, "guess": PEAK}
DEMAND = {
    "coverage": 0.95,
    "confidence": 0.9,
    "unsafe_chance": 0.1,
    "expected_good_fraction": 0.95,
    "clear_drifts_ratio": 2,
}
Table = dict[str, Any]


def tables() -> Table:
    """A search without a fault."""
    good = {
        "name": "weld",
        "setting": [SETTING, {**SETTING, "name": "pressure", "unit": "kPa"}],
        "response": [RESPONSE],
        "looks": [{"name": "unburnt", "least_share": 0.6}],
        "demand": DEMAND,
    }
    return copy.deepcopy(good)


def faults(change: Callable[[Table], object]) -> list[Fault]:
    """What is told of a search after one change to its tables."""
    changed = tables()
    change(changed)
    with pytest.raises(InputFaults) as caught:
        read_search_tables(changed, file="weld.toml")
    assert {fault.file for fault in caught.value.faults} == {"weld.toml"}
    return list(caught.value.faults)


def fields(change: Callable[[Table], object]) -> list[str | None]:
    """The keys that are told of."""
    return [fault.field for fault in faults(change)]


def setting(*without: str, **changes: object) -> Callable[[Table], object]:
    """Change the first setting."""

    def change(whole: Table) -> None:
        one = whole["setting"][0]
        one.update(changes)
        for key in without:
            del one[key]

    return change


def test_a_search_without_a_fault_is_read() -> None:
    """The tables that the other tests spoil are good ones."""
    assert [one.name for one in read_search_tables(tables(), file="s").frame.settings] == [
        "energy",
        "pressure",
    ]


@pytest.mark.parametrize("missing", ["name", "unit", "low", "high", "drift"])
def test_a_missing_key_hides_nothing_of_the_same_setting(missing: str) -> None:
    """A step of nought and a negative drift are told beside whatever key is missing."""
    wrong = {key: value for key, value in {"step": 0, "drift": -1}.items() if key != missing}
    told = fields(setting(missing, **wrong))
    assert told == [f"setting 1 {key}" for key in (missing, *wrong)]


def test_without_a_step_a_range_the_wrong_way_round_is_told() -> None:
    """The missing step and the high below the low, which says nothing of steps."""
    missing, turned = faults(setting("step", low=420, high=180))
    assert (missing.field, turned.field) == ("setting 1 step", "setting 1 high")
    assert turned.accepted == "above 420"


def test_a_missing_end_of_the_range_is_not_told_as_a_range_too_narrow() -> None:
    """With low or high missing nothing else is wrong with the range."""
    assert fields(setting("low")) == ["setting 1 low"]
    assert fields(setting("high")) == ["setting 1 high"]
    assert fields(setting("low", "high", "step")) == [
        "setting 1 low",
        "setting 1 high",
        "setting 1 step",
    ]


def test_two_values_that_make_no_sense_are_told_together() -> None:
    """Neither waits until the other is put right."""
    assert fields(setting(step=-5, drift=-4)) == ["setting 1 step", "setting 1 drift"]
    assert fields(setting(low=float("nan"), step=0)) == ["setting 1 low", "setting 1 step"]


def test_a_response_tells_its_limits_its_guess_and_its_name_together() -> None:
    """No unit, limits the wrong way round, and a guess that loses nothing on either side."""

    def change(whole: Table) -> None:
        one = whole["response"][0]
        del one["unit"]
        one.update(upper_limit=100, guess={**PEAK, "ratio_factor": 1, "best_at": -3})

    assert set(fields(change)) == {
        "response 1 unit",
        "response 1 lower_limit",
        "response 1 guess ratio_factor",
        "response 1 guess best_at",
    }


def test_a_limit_that_is_no_number_is_not_told_as_missing_too() -> None:
    """One fault for one slip."""

    def change(whole: Table) -> None:
        whole["response"][0]["lower_limit"] = "high"

    assert fields(change) == ["response 1 lower_limit"]


def test_the_gauges_of_a_guess_are_judged_without_the_area_too() -> None:
    """No area and two gauges of one area: both are told, and the factor besides."""

    def change(whole: Table) -> None:
        guess = {"kind": "peak", "setting": "energy", "ratio_factor": 0.5}
        whole["response"][0]["guess"] = {**guess, "gauges": [[1.31, 96], [1.31, 99]]}

    assert set(fields(change)) == {
        "response 1 guess area_mm2",
        "response 1 guess gauges",
        "response 1 guess ratio_factor",
    }


@pytest.mark.parametrize("area", [0, -4.17, float("inf"), 40])
def test_an_area_that_no_law_reaches_is_told(area: float) -> None:
    """Nought, less than nought, without end, and far beyond the gauges."""

    def change(whole: Table) -> None:
        guess = {"kind": "peak", "setting": "energy", "ratio_factor": 1.5}
        whole["response"][0]["guess"] = {**guess, "gauges": GAUGES, "area_mm2": area}

    assert fields(change) == ["response 1 guess area_mm2"]


def test_each_number_of_the_demand_is_told() -> None:
    """One missing, two out of range, one too timid: four faults."""

    def change(whole: Table) -> None:
        del whole["demand"]["unsafe_chance"]
        whole["demand"].update(coverage=0.2, confidence=0.3, clear_drifts_ratio=-1)

    assert fields(change) == [
        "demand unsafe_chance",
        "demand clear_drifts_ratio",
        "demand coverage",
        "demand confidence",
    ]


def test_what_does_not_go_together_is_told_beside_a_missing_key() -> None:
    """A setting there twice and a guess on none, with a drift missing and without."""

    def doubled(whole: Table) -> None:
        whole["setting"][1]["name"] = "energy"
        whole["response"][0]["guess"]["setting"] = "force"

    def without(whole: Table) -> None:
        doubled(whole)
        del whole["setting"][1]["drift"]

    assert fields(doubled) == ["setting", "pull"]
    # What the guess rests on is judged once every setting can be read.
    assert fields(without) == ["setting 2 drift", "setting"]


def test_how_many_there_are_is_told_beside_a_missing_key() -> None:
    """Six settings, one of them without its unit; nothing that says what a good part is."""

    def change(whole: Table) -> None:
        whole["setting"] = [{**SETTING, "name": f"knob {place}"} for place in range(6)]
        del whole["setting"][5]["unit"]
        whole["response"], whole["looks"] = [], []

    assert fields(change) == ["setting 6 unit", "settings", "responses"]


def test_a_list_that_is_none_is_told_once() -> None:
    """``setting = 3`` is no list of tables, and nothing is said of how many there are."""

    def change(whole: Table) -> None:
        whole["setting"] = 3

    assert fields(change) == ["setting"]


def test_a_text_that_is_no_toml_is_told_as_that() -> None:
    """One fault, of the whole file."""
    with pytest.raises(InputFaults, match="this is not TOML"):
        read_search("name = ", file="s.toml")
