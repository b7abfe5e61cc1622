"""What is missing for the next state, and what a sheet becomes for the engines: no database."""

import dataclasses
import datetime as dt
from decimal import Decimal

import pytest

from reelwright.core.ends.strip.plan import StripPlan, WireStrip
from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Method
from reelwright.shop.setups.rules import missing_for_next, missing_for_proof, missing_for_trial
from reelwright.shop.setups.sheet import Numbers, SetUpSheet
from reelwright.shop.setups.states import State
from tests.ends_world import SPK_14
from tests.shop.setups.conftest import COMPLETE, GOOD_PULLS_N

CRIMPED = dataclasses.replace(
    COMPLETE,
    levels=3,
    strip_conductor_mm=Decimal("4.25"),
    strip_conductor_tolerance_mm=Decimal("0.10"),
    strip_dielectric_mm=Decimal("5.00"),
    strip_dielectric_tolerance_mm=Decimal("0.10"),
    strip_braid_mm=Decimal("7.70"),
    strip_braid_tolerance_mm=Decimal("0.15"),
    pin_die_mm=Decimal("1.60"),
    ferrule_die_mm=Decimal("8.23"),
    crimp_height_mm=Decimal("1.62"),
    program="11",
    blade_set="PVC",
)


def sheet(code: str, number: int, method: Method, numbers: Numbers) -> SetUpSheet:
    """A released sheet around some numbers."""
    return SetUpSheet(
        revision_id=number,
        code=code,
        letter="A",
        cable_code="C",
        connector_code="K",
        method=method,
        state=State.RELEASED,
        drafted_on=dt.date(2027, 3, 2),
        drafted_by="Ben",
        approved_on=None,
        approved_by=None,
        numbers=numbers,
    )


@pytest.mark.parametrize("method", list(Method))
def test_an_empty_draft_lacks_something_for_every_method(method: Method) -> None:
    """No method of making an end goes on trial on nothing."""
    empty = Numbers(levels=1, press_min_per_end=Decimal(1))
    codes = {reason.code for reason in missing_for_trial(method, empty)}
    assert {"missing_steps", "missing_minimum_pull_n", "missing_test_adapter"} <= codes


def test_a_dielectric_of_zero_length_is_given() -> None:
    """A compressed end shows no dielectric: 0 mm is a number, not a gap."""
    numbers = dataclasses.replace(CRIMPED, strip_dielectric_mm=Decimal(0))
    assert missing_for_trial(Method.COMPRESSION, numbers) == ()


def test_a_crimped_end_needs_its_dies() -> None:
    """Without the ferrule die there is no trial."""
    numbers = dataclasses.replace(CRIMPED, ferrule_die_mm=None)
    reasons = missing_for_trial(Method.CRIMP_CRIMP, numbers)
    assert [reason.code for reason in reasons] == ["missing_ferrule_die_mm"]


def test_a_weld_needs_what_its_machine_is_set_to() -> None:
    """Energy, pressure and amplitude are each named as missing; an energy of nothing is refused."""
    codes = {reason.code for reason in missing_for_trial(Method.WELD, COMPLETE)}
    assert codes >= {
        "missing_weld_energy_j",
        "missing_weld_pressure_kpa",
        "missing_weld_amplitude_um",
    }
    welded = dataclasses.replace(
        COMPLETE, weld_energy_j=149.0, weld_pressure_kpa=230.0, weld_amplitude_um=40.0
    )
    assert not any(
        reason.code.startswith("missing_weld_") and reason.code != "missing_weld_horn"
        for reason in missing_for_trial(Method.WELD, welded)
    )
    with pytest.raises(BadValue):
        dataclasses.replace(COMPLETE, weld_energy_j=0.0)


def test_the_gauges_that_are_welded_come_from_released_set_ups() -> None:
    """Two makes of one conductor are one gauge; a trial, or a cable of no area, is none."""
    from reelwright.shop.setups.to_core import welded_gauges

    def welded(code: str, cable: str, energy_j: float | None) -> SetUpSheet:
        numbers = dataclasses.replace(COMPLETE, weld_energy_j=energy_j)
        return dataclasses.replace(sheet(code, 1, Method.WELD, numbers), cable_code=cable)

    def spk(area_mm2: float | None) -> Cable:
        area_m2 = None if area_mm2 is None else area_mm2 * 1e-6
        stated = dataclasses.replace(SPK_14.sheet, conductor_area_m2=area_m2)
        return dataclasses.replace(SPK_14, sheet=stated)

    cables = {"A": spk(2.08), "B": spk(2.09), "C": spk(3.31), "D": spk(None)}
    sheets = [
        welded("T-4", "C", 243.0),
        welded("T-2", "B", 160.0),
        welded("T-1", "A", 140.0),
        welded("T-5", "D", 100.0),
        welded("T-6", "C", None),
        dataclasses.replace(welded("T-7", "C", 300.0), state=State.ON_TRIAL),
    ]
    one, two = welded_gauges(sheets, cables)
    assert one.set_ups == ("T-1", "T-2")
    assert one.gauge.energy_j == pytest.approx((140 * 160) ** 0.5)
    assert one.gauge.area_m2 == pytest.approx(2.085e-6)
    assert (two.set_ups, two.gauge.energy_j) == (("T-4",), pytest.approx(243.0))


def test_pulls_are_held_against_the_tolerance_limit() -> None:
    """Ten pulls of mean 248 N and s 13.5 N claim 194.25 N (99 %/95 %): 194 N proven, 195 N not.

    k = 3.9811 for n = 10, from the tables of one-sided normal tolerance factors (NIST/SEMATECH
    e-Handbook 7.2.6.3 gives the formula).
    """
    # Symmetric about 248 with a sample deviation of 13.5: 248 ± d, five of each, d = 13.5·√(9/10).
    d = 13.5 * (9 / 10) ** 0.5
    pulls = [248 - d, 248 + d] * 5
    assert missing_for_proof(194.0, pulls) == ()
    assert [reason.code for reason in missing_for_proof(195.0, pulls)] == ["pull_not_proven"]


def test_nothing_follows_on_release() -> None:
    """A released revision lacks nothing, as there is no next state."""
    assert (
        missing_for_next(state=State.RELEASED, method=Method.SOLDER, numbers=COMPLETE, pulls_n=())
        == ()
    )


def test_a_minimum_needs_its_source() -> None:
    """A least pull that nobody stands behind cannot be drafted."""
    with pytest.raises(BadValue):
        dataclasses.replace(COMPLETE, minimum_pull_source=None)


def test_a_negative_length_is_refused() -> None:
    """No strip is shorter than nothing."""
    with pytest.raises(BadValue):
        dataclasses.replace(CRIMPED, strip_braid_mm=Decimal("-0.1"))


def test_two_ends_made_in_one_go_are_one_setting() -> None:
    """Programs, dies and adapters of both; what they share stands once."""
    from reelwright.shop.setups.to_core import setting_value

    one = sheet("T-01", 1, Method.CRIMP_CRIMP, dataclasses.replace(CRIMPED, test_adapter="BNC"))
    other = sheet(
        "T-11",
        2,
        Method.COMPRESSION,
        dataclasses.replace(
            CRIMPED, pin_die_mm=None, ferrule_die_mm=None, program="21", test_adapter="F"
        ),
    )
    setting = setting_value([other, one, one])
    assert setting.program == "11+21"
    assert setting.blade_set == "PVC"
    assert setting.dies == {"1.60", "8.23"}
    assert setting.test_adapters == {"BNC", "F"}
    assert setting.weld_horn is None


def test_a_strip_follows_the_method() -> None:
    """A coax end in three lengths, any other by jacket and cores, and None where one is missing."""
    from reelwright.shop.setups.to_core import strip_value

    coax = strip_value(sheet("T-01", 1, Method.CRIMP_CRIMP, CRIMPED))
    assert isinstance(coax, StripPlan)
    assert coax.cuts_mm == pytest.approx((4.25, 9.25, 16.95))
    assert not coax.folds_braid
    wire = strip_value(sheet("T-12", 2, Method.SOLDER, COMPLETE))
    assert wire == WireStrip(jacket_back_mm=20.0, bared_mm=5.0, tolerance_mm=0.5)
    gap = dataclasses.replace(CRIMPED, strip_braid_tolerance_mm=None)
    assert strip_value(sheet("T-01", 1, Method.CRIMP_CRIMP, gap)) is None


def test_the_tester_is_kept_clear_of_the_minimum() -> None:
    """The bound of 103.9 N holds 100 N alone and with a tester of 1 N; not with one of 3 N."""
    for uncertainty_n, holds in ((None, True), (1.0, True), (3.0, False)):
        missing = missing_for_proof(100.0, GOOD_PULLS_N, None, uncertainty_n)
        assert (missing == ()) is holds
    assert "cannot be told apart" in missing[0].sentence
