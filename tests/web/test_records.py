"""Reels and set-ups as pages: what the records hold, drawn and told."""

import re

from django.test import Client

from reelwright.shop.reels.selectors import reels_now
from tests.small_world import FLAWED, FULL, SHORT
from tests.web.conftest import Taken


def test_every_reel_is_a_bar_on_one_scale(lead: Client) -> None:
    """The list draws each reel, and a reel half as long has a bar half as wide."""
    told = lead.get("/reels").text
    widths = {}
    for code in (FULL, FLAWED, SHORT):
        start = told.index(f"/reels/{code}")
        svg = told[told.index("<svg", told.index("drawing bar", start)) :]
        svg = svg[: svg.index("</svg>")]
        pale = re.findall(r'<rect x="([\d.]+)" y="30" width="([\d.]+)" height="34"', svg)
        left = min(float(x) for x, _ in pale)
        # The fading end is drawn after the cable, and begins where the cable stops.
        right = max(float(x) + float(w) for x, w in pale if float(w) > 27)
        widths[code] = right - left
    lengths = {reel.code: reel.length_mm for reel in reels_now()}
    assert (
        widths[FLAWED] / widths[FULL] == lengths[FLAWED] / lengths[FULL] * 1.0
        or abs(widths[FLAWED] / widths[FULL] - lengths[FLAWED] / lengths[FULL]) < 0.002
    )


def test_a_filter_leaves_only_what_was_asked_for(lead: Client) -> None:
    """A colour nobody has gives words, not an empty page."""
    assert "No such reel in the rack" in lead.get("/reels?colour=RD").text
    assert FULL in lead.get("/reels?cable=SW-60&colour=BK").text


def test_a_reel_shows_every_entry_of_its_ledger(lead: Client, taken: Taken) -> None:
    """Received and cut stand in order with what was left after each, and by whom."""
    lead.post(f"/bench/cut/{taken.reel}/confirm", {"scan": taken.pieces[0]})
    told = lead.get(f"/reels/{taken.reel}").text
    ledger = told[told.index('id="ledger"') :]
    assert ledger.index("received") < ledger.index(f"cut {taken.pieces[0]}")
    assert "+100.000\u202fm" in ledger
    assert "96.990\u202fm" in ledger
    assert "Ada" in ledger


def test_a_flaw_is_named_on_its_reel(lead: Client) -> None:
    """The flaw's own words and its place stand on the drawing and in the table beside it."""
    told = lead.get(f"/reels/{FLAWED}").text
    assert "crushed, skip 0.20" in told
    assert "12.20" in told


def test_a_set_up_sheet_holds_drawing_order_of_work_and_proof(lead: Client) -> None:
    """The strip is drawn, steps and cautions are listed, the pulls are held against the minimum."""
    told = lead.get("/set-ups/S-1").text
    for words in ("stripped end", "Solder by the map.", "Fume extraction on.", "10 pulls show"):
        assert words in told
    assert "rev A" in told


def test_the_strip_alone_prints_at_its_true_size(lead: Client) -> None:
    """One unit of either drawing is one millimetre of paper, and the bar is 50 of them long."""
    told = lead.get("/set-ups/S-1/strip").text
    assert "1 : 1" in told
    strip, bar = (
        told[found.start() : told.index("</svg>", found.start())]
        for found in re.finditer("<svg", told[: told.index("</section>")])
        if "one-to-one" in told[found.start() - 200 : found.start()]
    )
    for drawn in (strip, bar):
        size = re.search(
            r'viewBox="0 0 ([\d.]+) ([\d.]+)" width="([\d.]+)mm" height="([\d.]+)mm"', drawn
        )
        assert size
        assert size[1] == size[3]
        assert size[2] == size[4]
    lines = re.findall(r'<line x1="([\d.]+)" y1="([\d.]+)" x2="([\d.]+)" y2="([\d.]+)"', bar)
    level = [float(x2) - float(x1) for x1, y1, x2, y2 in lines if y1 == y2]
    assert level == [50.0]
    upright = [float(x1) for x1, y1, x2, y2 in lines if x1 == x2]
    assert [at - upright[0] for at in upright] == [0.0, 10.0, 20.0, 30.0, 40.0, 50.0]
