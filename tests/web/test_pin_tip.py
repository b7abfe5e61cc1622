"""The section of a set-up's page that says where the pin tip lands, from the demo's set-ups."""

import datetime as dt
from dataclasses import replace

from django.template.loader import render_to_string

from reelwright.demo.cables import coax_entries
from reelwright.demo.connectors import connector_entries
from reelwright.demo.other_cables import other_entries
from reelwright.demo.set_ups import set_up_entries
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


def section(of: SetUpSheet) -> str:
    """The section as it is sent, without its marks of space."""
    tip = pin_tip_view(of, CABLES[of.cable_code], CONNECTORS[of.connector_code])
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
    assert pin_tip_view(of, CABLES[of.cable_code], CONNECTORS[of.connector_code]) is None
