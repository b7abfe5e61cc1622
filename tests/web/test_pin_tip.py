"""The section of a set-up's page that says where the pin tip lands, from the demo's set-ups."""

import datetime as dt
from dataclasses import replace

from django.template.loader import render_to_string

from reelwright.core.ends.dies.pin_growth import MeasuredGrowth
from reelwright.demo.cables import coax_entries
from reelwright.demo.connectors import connector_entries
from reelwright.demo.other_cables import other_entries
from reelwright.demo.set_ups import set_up_entries
from reelwright.shop.setups.paper_results import tip
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.shown.pin_tip import pin_tip_view

CABLES = {entry.cable.code: entry.cable for entry in (*coax_entries(), *other_entries())}
CONNECTORS = {entry.connector.code: entry.connector for entry in connector_entries()}
SET_UPS = {entry.code: entry for entry in set_up_entries()}


def sheet(code: str) -> SetUpSheet:
    """The sheet of a set-up of the demo workshop."""
    entry = SET_UPS[code]
    return SetUpSheet(
        revision_id=1,
        code=code,
        letter=entry.letter,
        cable_code=entry.cable_code,
        connector_code=entry.connector_code,
        method=CONNECTORS[entry.connector_code].method,
        state=entry.state,
        drafted_on=dt.date(2026, 1, 5),
        drafted_by="Mara",
        approved_on=None,
        approved_by=None,
        numbers=entry.numbers,
    )


def section(of: SetUpSheet, growth: MeasuredGrowth | None = None) -> str:
    """The section as it is sent, without its marks of space."""
    tip = pin_tip_view(of, CABLES[of.cable_code], CONNECTORS[of.connector_code], growth=growth)
    told = render_to_string("office/set_up_pin_tip.html", {"tip": tip})
    return told.replace("\u202f", " ")


def test_a_crimped_pin_is_told_with_its_gauge_and_what_is_worth_working_on() -> None:
    """The share, the limits of the gauge, the one part to work on, the table beside the drawing."""
    told = section(sheet("T-02"))
    assert "accept 5.47 mm to 5.77 mm" in told
    assert "Worth working on:</b> growth of the pin in the crimp: halved" in told
    assert "of the pins land outside: gauge every pin" in told
    assert "<svg" in told
    assert told.count("<tr>") == 1 + 5
    assert "not known, so any part from none to all" in told
    assert "common practice, no published source" in told


def test_a_compressed_end_lands_well_inside() -> None:
    """Its window is that of the face and says that it is from memory."""
    told = section(sheet("T-11"))
    assert "Allowed 1.59 mm to 6.35 mm: IEC 61169-24, 1/16 to 1/4 in (from memory)" in told
    assert "Worth working on:</b> nothing: Cpk" in told
    assert "gauge every pin" not in told


def test_measured_pins_are_named_as_the_basis_and_too_few_are_counted() -> None:
    """T-03: five pins bring Cpk from 0.54 to 0.73 or so; four leave it and say "4 of 5"."""
    growths_m = (0.058e-3, 0.062e-3, 0.066e-3, 0.060e-3, 0.064e-3)
    full = MeasuredGrowth(growths_m=growths_m, gauge_uncertainty_m=0.001e-3)
    told = section(sheet("T-03"), full)
    assert "5 measured pins grew by 0.062 mm ± 0.024 mm" in told
    assert "99.73 % of all pins lie within, with 95 % confidence" in told
    assert "5 pins measured before and after the crimp" in told
    assert "any part from none to all" not in told
    few = MeasuredGrowth(growths_m=growths_m[:4], gauge_uncertainty_m=0.001e-3)
    told = section(sheet("T-03"), few)
    assert "measured 4 of 5, the reckoned range stands" in told
    assert "Worth working on:</b> growth of the pin in the crimp" in told
    # An end whose drawing gives no barrel is told at last.
    assert "no bore and outside" not in section(sheet("T-08"), full)


def test_paper_says_the_same_basis_as_the_page() -> None:
    """Measured, too few, none: each in the sheet's list under the tip."""
    of = sheet("T-03")
    cable, connector = CABLES[of.cable_code], CONNECTORS[of.connector_code]
    full = MeasuredGrowth(growths_m=(58e-6, 62e-6, 66e-6, 60e-6, 64e-6), gauge_uncertainty_m=None)
    few = MeasuredGrowth(growths_m=full.growths_m[:2], gauge_uncertainty_m=None)
    for growth, words in (
        (full, "5 measured pins grew by 0.062\u202fmm"),
        (few, "measured 2 of 5, the reckoned range stands"),
        (None, "measure 5 pins before and after"),
    ):
        printed = tip(of, cable, connector, growth=growth)
        assert printed is not None
        assert any(words in row.sentence for row in printed.told)


def test_what_is_missing_is_named() -> None:
    """No barrel where two pins come in the bag, no strip where none is laid down yet."""
    assert "no bore and outside of the pin&#x27;s barrel" in section(sheet("T-08"))
    bare = replace(sheet("T-02"), numbers=replace(sheet("T-02").numbers, strip_conductor_mm=None))
    assert "does not give its strip yet: not computed" in section(bare)


def test_the_same_page_twice_is_the_same() -> None:
    """The draws have a fixed seed: a share that changes at each look would be no answer."""
    assert section(sheet("T-03")) == section(sheet("T-03"))


def test_an_end_without_a_pin_has_no_such_section() -> None:
    """Soldered and welded ends are joined, not placed."""
    soldered = next(
        each for each in SET_UPS.values() if CONNECTORS[each.connector_code].drawing is None
    )
    of = sheet(soldered.code)
    cable, connector = CABLES[of.cable_code], CONNECTORS[of.connector_code]
    assert pin_tip_view(of, cable, connector, growth=None) is None
