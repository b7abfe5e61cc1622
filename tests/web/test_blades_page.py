"""Blades on the page of a set-up, and the strip that a drawing asks for where there is none."""

from dataclasses import replace

import pytest
from django.test import Client

from reelwright.core.ends.fit.grid import judge_cell
from reelwright.core.ends.strip.plan import StripPlan, WireStrip
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.verdicts import Reason
from reelwright.demo.cables import coax_entries
from reelwright.demo.connectors import connector_entries
from reelwright.shop.setups.pair import PairNow
from reelwright.shop.setups.shown.blades import blades_view
from reelwright.web.office import pair

COAX = {entry.cable.code: entry.cable for entry in coax_entries()}
ENDS = {entry.connector.code: entry.connector for entry in connector_entries()}


def pair_of(cable: Cable, connector: Connector) -> PairNow:
    """A pair without a set-up."""
    return PairNow(cable=cable, connector=connector, cell=judge_cell(cable, connector), sheet=None)


def test_a_set_up_tells_its_blades_and_the_reason_of_its_order(lead: Client) -> None:
    """Each cut with its closing and both chances, what they rest on, why each step comes when."""
    told = lead.get("/set-ups/S-1").text
    blades = told[told.index('id="blades"') :]
    for words in ("Usual closing", "Leaves uncut", "Of 100 strips", "What the chances rest on"):
        assert words in blades
    assert "Why in this order" in told


def test_a_pair_without_a_set_up_shows_the_strip_to_begin_with(
    lead: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Three levels from the drawing, each with its reason, and the blades for them."""
    cable, connector = COAX["VID-70"], ENDS["BNC-70"]
    now = pair_of(cable, connector)
    monkeypatch.setattr(pair, "pair_now", lambda *_: now)
    monkeypatch.setattr(pair, "jacket_letters", lambda _: "BK")
    told = lead.get("/grid/VID-70/BNC-70").text.replace("\u202f", " ")
    begin = told[told.index("Strip to begin with") :]
    assert "3 levels" in begin
    assert "4.25 ±0.10" in begin
    assert "barrel is 4.50 mm deep" in begin
    assert 'id="blades"' in begin


def test_layers_that_cannot_be_cut_are_told_and_not_drawn() -> None:
    """Where the cores are bared beyond the jacket there is a sentence in the place of blades."""
    wire = WireStrip(jacket_back_mm=5.0, bared_mm=8.0, tolerance_mm=0.5)
    view = blades_view(wire, COAX["VID-70"], ENDS["XLR3M"], jacket="BK", title="T", dies=None)
    assert "8.0" in view.refusal
    assert view.svg == ""
    assert view.worst == "bad"


def test_a_drawing_that_gives_too_little_proposes_nothing() -> None:
    """No drawing, or one without a stem: no strip is made up."""
    by_hand = pair_of(COAX["VID-70"], ENDS["XLR3M"]).proposed_strip
    assert isinstance(by_hand, Reason)
    assert by_hand.code == "strip_by_hand"
    drawing = ENDS["BNC-70"].drawing
    assert drawing is not None
    stemless = replace(
        drawing,
        stem_length_m=None,
        tolerances=replace(drawing.tolerances, stem_length_m=None),
    )
    connector = replace(ENDS["BNC-70"], drawing=stemless)
    lacking = pair_of(COAX["VID-70"], connector).proposed_strip
    assert isinstance(lacking, Reason)
    assert lacking.code == "strip_not_computed"


def test_fluoropolymer_wants_sharp_blades() -> None:
    """The plenum coax is told so, the PVC one is not."""
    told = {}
    for cable, end in (("VID-70P", "BNC-70P"), ("VID-70", "BNC-70")):
        strip = pair_of(COAX[cable], ENDS[end]).proposed_strip
        assert isinstance(strip, StripPlan)
        told[cable] = blades_view(
            strip, COAX[cable], ENDS[end], jacket="BK", title="T", dies=None
        ).sharp
    assert told == {"VID-70P": True, "VID-70": False}
