"""Least pulls by rule set: rows as printed, nothing between them, nothing mixed."""

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.strength.pull_rules import (
    PullMinimum,
    PullRules,
    Wire,
    WireMetal,
    gauge_of,
    rule_set,
    side_by_side,
    wire_of,
)
from reelwright.core.ends.strength.pull_rules.commercial import COMMERCIAL
from reelwright.core.ends.strength.pull_rules.iec import IEC
from reelwright.core.ends.strength.pull_rules.military import MILITARY
from reelwright.core.ends.strength.pull_rules.rule_set import Row, TableRules
from reelwright.core.ends.strength.pull_rules.wire import metal_named
from reelwright.core.errors import BadValue
from reelwright.core.quantities.convert import awg_area_m2
from reelwright.core.verdicts import Basis, Reason
from reelwright.demo.cables import coax_entries
from reelwright.demo.other_cables import other_entries

CABLES = {entry.cable.code: entry.cable for entry in (*coax_entries(), *other_entries())}
COPPER = Wire(
    metal=WireMetal.COPPER,
    awg=14,
    area_m2=2.08e-6,
    solid=False,
    coax=False,
    grounding_lead=False,
    break_n=None,
)


def of(**changes: object) -> Wire:
    """The 14 AWG wire with something else about it."""
    return dataclasses.replace(COPPER, **changes)  # type: ignore[arg-type]


def asked_n(rules: PullRules, wire: Wire, *, barred: bool = True) -> float:
    """The least pull, in N; fails where there is none."""
    found = rule_set(rules, solid_wire_barred=barred).minimum_for(wire)
    assert isinstance(found, PullMinimum), found
    return found.minimum_n


def refused(rules: PullRules, wire: Wire, *, barred: bool = True) -> Reason:
    """Why there is no least pull; fails where there is one."""
    found = rule_set(rules, solid_wire_barred=barred).minimum_for(wire)
    assert isinstance(found, Reason), found
    return found


def test_one_wire_is_asked_for_differently_by_each_rule_set_and_told_so() -> None:
    """14 AWG: 222.5, 311.5 and 200 N, each with its own rule set and source, never one of both."""
    found = side_by_side(COPPER)
    assert set(found) == set(PullRules)
    minima = {rules: one for rules, one in found.items() if isinstance(one, PullMinimum)}
    assert {
        rules: one.minimum_n for rules, one in minima.items() if rules is not PullRules.NASA
    } == {
        PullRules.COMMERCIAL: 222.5,
        PullRules.MILITARY: 311.5,
        PullRules.IEC: 200.0,
    }
    assert all(one.rule_set == rules for rules, one in minima.items())
    assert len({one.source.text for one in minima.values()}) == len(minima)


def test_iec_says_itself_that_it_is_from_memory() -> None:
    """A row that was remembered carries that with it, so that no customer takes it for read."""
    found = IEC.minimum_for(COPPER)
    assert isinstance(found, PullMinimum)
    assert found.source.basis is Basis.FROM_MEMORY


def test_a_size_between_two_rows_has_none_and_names_both() -> None:
    """2.5 mm² lies between 14 and 12 AWG of the commercial column: not tabulated, not 251 N."""
    reason = refused(PullRules.COMMERCIAL, of(awg=None, area_m2=2.5e-6))
    assert reason.code == "not_tabulated"
    for words in (
        "14\u202fAWG",
        "222.5\u202fN",
        "12\u202fAWG",
        "311.5\u202fN",
        "nothing is interpolated",
    ):
        assert words in reason.sentence
    assert asked_n(PullRules.IEC, of(awg=None, area_m2=2.5e-6)) == 230.0


@pytest.mark.parametrize(("area_m2", "words"), [(20e-6, "thickest"), (0.01e-6, "thinnest")])
def test_a_size_beyond_the_table_names_its_last_row(area_m2: float, words: str) -> None:
    """Nothing is extended past the ends of a table either."""
    reason = refused(PullRules.IEC, of(awg=None, area_m2=area_m2))
    assert reason.code == "not_tabulated"
    assert words in reason.sentence


@given(st.integers(0, 2000))
def test_nothing_is_ever_interpolated(step: int) -> None:
    """Whatever the area, an answer is a printed row and is that of a size within 1 %."""
    area_m2 = 0.04e-6 * 1.004**step
    for table in (COMMERCIAL, MILITARY, IEC):
        found = table.minimum_for(of(awg=gauge_of(area_m2), area_m2=area_m2))
        if isinstance(found, PullMinimum):
            row = next(row for row in table.rows if row.minimum_n == found.minimum_n)
            # The gauge that IEC prints beside an area may lie 10 % from it: 26 AWG beside 0.12 mm².
            assert row.size_m2 == pytest.approx(area_m2, rel=0.10 if row.awg else 0.0101)


@pytest.mark.parametrize(
    ("material", "metal"),
    [
        ("bare copper, solid", WireMetal.COPPER),
        ("tinned copper braid", WireMetal.COPPER),
        ("copper-clad steel", WireMetal.CLAD),
        ("CCA", WireMetal.CLAD),
        ("phosphor bronze", WireMetal.OTHER),
        ("acrylic fibre", WireMetal.UNKNOWN),
    ],
)
def test_only_copper_is_taken_for_copper(material: str, metal: WireMetal) -> None:
    """Clad wire is not copper, and what is not named is not guessed."""
    assert metal_named(material) is metal


@pytest.mark.parametrize(
    "rules", [rules for rules in PullRules if rules is not PullRules.CABLE_RETENTION]
)
@pytest.mark.parametrize("metal", [WireMetal.CLAD, WireMetal.OTHER, WireMetal.UNKNOWN])
def test_no_table_answers_for_another_metal(rules: PullRules, metal: WireMetal) -> None:
    """The tables are for copper wire; for any other there is a reason in place of a number."""
    reason = refused(rules, of(metal=metal))
    assert reason.code == "not_copper"
    assert str(metal) in reason.sentence


def test_the_bar_on_solid_wire_is_a_switch() -> None:
    """A solid wire is refused with what would lift it, and answered where the bar is lifted."""
    solid = of(solid=True)
    reason = refused(PullRules.NASA, solid)
    assert reason.code == "solid_wire_barred"
    assert "bar lifted" in reason.sentence
    assert asked_n(PullRules.NASA, solid, barred=False) == asked_n(PullRules.NASA, COPPER)
    assert refused(PullRules.NASA, of(solid=None)).code == "solid_wire_barred"


def test_only_its_own_rule_set_bars_solid_wire() -> None:
    """The switch moves nothing in the other rule sets."""
    for rules in (PullRules.COMMERCIAL, PullRules.MILITARY, PullRules.IEC):
        assert asked_n(rules, of(solid=True)) == asked_n(rules, of(solid=True), barred=False)


def test_what_is_not_tabulated_by_nasa_is_three_fifths_of_the_wire() -> None:
    """60 % of a measured strength; without one, of the most that soft copper of that area holds."""
    assert asked_n(PullRules.NASA, of(break_n=500.0)) == pytest.approx(300.0)
    assert asked_n(PullRules.NASA, COPPER) == pytest.approx(0.6 * 2.08 * 250)
    assert asked_n(PullRules.NASA, of(metal=WireMetal.CLAD, break_n=100.0)) == pytest.approx(60.0)
    assert refused(PullRules.NASA, of(awg=None, area_m2=None)).code == "size_unknown"


def test_a_grounding_lead_has_its_row_and_a_signal_wire_of_the_same_gauge_has_not() -> None:
    """24 AWG: 36 N as the lead of a screen, the floor as any other wire."""
    wire = of(awg=24, area_m2=awg_area_m2(24))
    assert asked_n(PullRules.NASA, dataclasses.replace(wire, grounding_lead=True)) == 36.0
    assert asked_n(PullRules.NASA, wire) == pytest.approx(0.6 * 250e6 * awg_area_m2(24))


def test_the_hold_of_a_coax_is_no_pull_of_a_wire() -> None:
    """45 lbf for a coax in its connector; a loudspeaker wire has no such thing."""
    assert asked_n(PullRules.CABLE_RETENTION, of(coax=True)) == pytest.approx(200.2, abs=0.05)
    assert refused(PullRules.CABLE_RETENTION, COPPER).code == "not_coax"


@pytest.mark.parametrize(
    ("code", "awg", "solid"),
    [("SPK-14", 14, False), ("SPK-10", 10, False), ("VID-60", 20, True), ("VID-28", 26, True)],
)
def test_a_cable_tells_its_wire(code: str, awg: int, solid: bool) -> None:
    """Gauge, metal and form come from the layers and the sheet."""
    wire = wire_of(CABLES[code])
    assert isinstance(wire, Wire)
    assert (wire.awg, wire.solid, wire.metal) == (awg, solid, WireMetal.COPPER)
    assert wire.coax == code.startswith("VID")


def test_a_wire_of_no_gauge_is_given_none() -> None:
    """0.584 mm lies between 23 and 22 AWG, 0.1407 mm² between 26 and 25: neither is rounded."""
    for code in ("VID-40", "DAT-6"):
        wire = wire_of(CABLES[code])
        assert isinstance(wire, Wire)
        assert wire.awg is None
        assert refused(PullRules.COMMERCIAL, wire).code == "not_tabulated"


def test_a_fibre_has_no_wire() -> None:
    """No rule set is asked about light."""
    found = wire_of(CABLES["POF-22"])
    assert isinstance(found, Reason)
    assert found.code == "no_wire"


@pytest.mark.parametrize("awg", range(-3, 57))
def test_every_gauge_is_found_by_its_own_area_and_by_no_other(awg: int) -> None:
    """A sheet's area, printed to three digits, names one gauge."""
    assert gauge_of(float(f"{awg_area_m2(awg):.3g}")) == awg
    assert gauge_of(awg_area_m2(awg) * 1.12) is None


def test_a_table_that_falls_is_refused() -> None:
    """A thicker wire that would be asked for less is a slip of the pen."""
    with pytest.raises(BadValue):
        TableRules(
            rules=PullRules.COMMERCIAL,
            rows=(
                Row(awg=14, area_m2=None, minimum_n=222.5),
                Row(awg=12, area_m2=None, minimum_n=31.15),
            ),
            source=COMMERCIAL.source,
        )
    with pytest.raises(BadValue):
        Row(awg=None, area_m2=None, minimum_n=1.0)
    with pytest.raises(BadValue):
        of(awg=57)
