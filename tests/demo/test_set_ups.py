"""Every set-up of the demo can be made, and what cannot be made has none."""

import pytest

from reelwright.core.ends.fit.compatibility import Dies, judge_fit
from reelwright.core.ends.strip.checks import check_strip
from reelwright.core.ends.strip.plan import MACHINE_STRIP_TOLERANCES, StripPlan, plan_strip
from reelwright.core.parts.connector import Method
from reelwright.core.verdicts import Outcome
from reelwright.demo.bins import bin_entries
from reelwright.demo.cables import coax_entries
from reelwright.demo.connectors import connector_entries
from reelwright.demo.other_cables import other_entries
from reelwright.demo.set_ups import SetUpEntry, set_up_entries
from reelwright.demo.tools import BLADE_SETS, CAVITIES
from reelwright.shop.setups.rules import missing_for_trial
from reelwright.shop.setups.states import State

CABLES = {entry.cable.code: entry.cable for entry in (*coax_entries(), *other_entries())}
CONNECTORS = {entry.connector.code: entry.connector for entry in connector_entries()}
SET_UPS = tuple(set_up_entries())
PAIRS = {(entry.cable_code, entry.connector_code) for entry in SET_UPS}


def name(entry: SetUpEntry) -> str:
    """A test is named after its set-up."""
    return entry.code


def dies_of(entry: SetUpEntry) -> Dies:
    """The hexagons of a set-up in metres."""
    pin, ferrule = entry.numbers.pin_die_mm, entry.numbers.ferrule_die_mm
    return Dies(
        pin_across_flats_m=None if pin is None else float(pin) / 1e3,
        ferrule_across_flats_m=None if ferrule is None else float(ferrule) / 1e3,
    )


@pytest.mark.parametrize("entry", SET_UPS, ids=name)
def test_the_end_fits_with_its_dies(entry: SetUpEntry) -> None:
    """Every dimension passes at the worst of its tolerance, both dies close within their aim."""
    fit = judge_fit(CABLES[entry.cable_code], CONNECTORS[entry.connector_code], dies=dies_of(entry))
    assert fit.possible, [reason.sentence for reason in fit.reasons]
    assert {check.outcome for check in fit.checks} == {Outcome.GOOD}


@pytest.mark.parametrize("entry", SET_UPS, ids=name)
def test_the_sheet_is_complete(entry: SetUpEntry) -> None:
    """Nothing is missing for a trial: numbers, steps, least pull with its source."""
    method = CONNECTORS[entry.connector_code].method
    assert missing_for_trial(method, entry.numbers) == ()


@pytest.mark.parametrize(
    "entry", [each for each in SET_UPS if CONNECTORS[each.connector_code].drawing], ids=name
)
def test_strip_lengths_follow_from_the_drawing(entry: SetUpEntry) -> None:
    """a, b and c are those the drawing asks for: seen in the hole, clear of the bottom."""
    connector = CONNECTORS[entry.connector_code]
    assert connector.drawing is not None
    plan = plan_strip(
        connector.drawing, tolerances=MACHINE_STRIP_TOLERANCES, method=connector.method
    )
    assert isinstance(plan, StripPlan)
    numbers = entry.numbers
    assert (plan.conductor_mm, plan.dielectric_mm, plan.braid_mm) == (
        float(numbers.strip_conductor_mm or -1),
        float(-1 if numbers.strip_dielectric_mm is None else numbers.strip_dielectric_mm),
        float(numbers.strip_braid_mm or -1),
    )
    assert all(check.outcome is Outcome.GOOD for check in check_strip(plan, connector.drawing))


def test_the_phono_plug_refuses_the_thick_cable_by_its_bore() -> None:
    """Jacket 7.62 mm against a bore of 6.30 mm: 1.32 mm too thick, in those words."""
    fit = judge_fit(CABLES["VID-70F"], CONNECTORS["RCA-60"])
    assert not fit.possible
    first = fit.reasons[0].sentence.replace("\u202f", " ")
    assert "7.62 mm > bore 6.30 mm by 1.32 mm" in first


@pytest.mark.parametrize(
    ("cable", "connectors"),
    [
        ("VID-70", {"BNC-70", "F-70"}),
        ("VID-60", {"BNC-60", "RCA-60"}),
        ("VID-40", {"BNC-40", "RCA-40"}),
        ("VID-28", {"BNC-28"}),
        ("VID-70P", {"BNC-70P"}),
        ("VID-60P", {"BNC-60P"}),
        ("VID-70F", {"BNC-70F"}),
        ("PHO-61", {"RCA-60"}),
    ],
)
def test_a_coax_takes_its_own_connectors_and_no_others(cable: str, connectors: set[str]) -> None:
    """Of the crimped and compressed ones: a dimension refuses every other pair."""
    crimped = [
        connector
        for connector in CONNECTORS.values()
        if connector.method in (Method.CRIMP_CRIMP, Method.COMPRESSION)
    ]
    found = {each.code for each in crimped if judge_fit(CABLES[cable], each).possible}
    assert found == connectors
    assert {pair[1] for pair in PAIRS if pair[0] == cable} == connectors


def test_no_set_up_where_the_workshop_has_none() -> None:
    """XLR on a coax, BNC on a data cable, phono on a jacket above its bore: none is drafted."""
    for cable, connector in PAIRS:
        if connector.startswith(("XLR", "PLUG")):
            assert cable == "AUD-BP"
        if connector.startswith(("BNC", "RCA", "F-")):
            assert cable.startswith(("VID", "PHO"))


def test_one_set_up_is_still_on_trial() -> None:
    """Not everything that fits may be sold: the thinnest coax is not proven yet."""
    unreleased = [entry.code for entry in SET_UPS if entry.state is not State.RELEASED]
    assert unreleased == ["T-04"]


def test_every_set_up_has_its_dies_blades_and_bin() -> None:
    """Cavities in service, blade sets on hand, a bin for every connector."""
    cavities = {(cavity.use, cavity.across_flats_mm) for cavity in CAVITIES}
    blades = {code for code, _, _ in BLADE_SETS}
    bins = {entry.connector_code for entry in bin_entries()}
    for entry in SET_UPS:
        for use, die in (
            ("pin", entry.numbers.pin_die_mm),
            ("ferrule", entry.numbers.ferrule_die_mm),
        ):
            assert die is None or (use, str(die)) in cavities
        assert entry.numbers.blade_set in blades | {""}
        assert entry.connector_code in bins
