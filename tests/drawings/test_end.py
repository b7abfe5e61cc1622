"""The stripped end: to scale, legible at every scale, the same figures as its table."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.ends.strip.plan import (
    MACHINE_STRIP_TOLERANCES,
    StripPlan,
    WireStrip,
    plan_strip,
)
from reelwright.core.errors import BadValue, UnknownCode
from reelwright.core.parts.connector import Connector
from reelwright.drawings.end import EndView, draw_end, end_table
from reelwright.style import JACKET_COLOURS, jacket_colour
from tests.drawings.look import (
    SVG,
    assert_plain,
    colours,
    outside,
    overlaps,
    parsed,
    style_colours,
    text_boxes,
)
from tests.ends_world import (
    AUD_BP,
    BNC_60,
    BNC_70,
    DAT_6,
    F_70,
    POF_22,
    SPK_14,
    VID_28,
    VID_60,
    VID_70,
)


def _planned(connector: Connector) -> StripPlan:
    assert connector.drawing is not None
    plan = plan_strip(
        connector.drawing, tolerances=MACHINE_STRIP_TOLERANCES, method=connector.method
    )
    assert isinstance(plan, StripPlan)
    return plan


def _coax(a: float, b: float, c: float) -> StripPlan:
    return StripPlan(
        conductor_mm=a,
        dielectric_mm=b,
        braid_mm=c,
        tolerances=MACHINE_STRIP_TOLERANCES,
        folds_braid=False,
    )


T_02 = EndView(title="T-02", cable=VID_60, strip=_planned(BNC_60), jacket="BU")
VIEWS = [
    T_02,
    EndView(title="T-01", cable=VID_70, strip=_planned(BNC_70), jacket="BK"),
    EndView(title="T-11", cable=VID_70, strip=_planned(F_70), jacket="RD"),
    EndView(title="T-04", cable=VID_28, strip=_coax(3.4, 3.6, 5.5), jacket="OG"),
    EndView(title="T-08", cable=VID_60, strip=_coax(5.5, 3.0, 6.5), jacket="PK"),
    EndView(
        title="T-15",
        cable=SPK_14,
        strip=WireStrip(jacket_back_mm=40, bared_mm=12, tolerance_mm=0.5),
        jacket="WH",
    ),
    EndView(
        title="T-12",
        cable=AUD_BP,
        strip=WireStrip(jacket_back_mm=None, bared_mm=4, tolerance_mm=0.5),
        jacket="BK",
    ),
    EndView(
        title="T-14",
        cable=DAT_6,
        strip=WireStrip(jacket_back_mm=22, bared_mm=0, tolerance_mm=1),
        jacket="YE",
    ),
    EndView(
        title="T-16",
        cable=POF_22,
        strip=WireStrip(jacket_back_mm=None, bared_mm=7, tolerance_mm=0.5),
        jacket="BK",
    ),
]
SCALES = (1.0, 2.0, 5.0)


@pytest.mark.parametrize("scale", SCALES)
@pytest.mark.parametrize("view", VIEWS, ids=lambda view: view.title)
def test_every_kind_of_end_is_plain_and_legible_at_every_scale(view: EndView, scale: float) -> None:
    """No two labels touch and none leaves the sheet, at 1 : 1 as at 5 : 1; only house colours."""
    svg = draw_end(view, scale=scale)
    assert_plain(svg)
    assert overlaps(svg) == []
    assert outside(svg) == []
    assert colours(svg) <= style_colours()
    assert f"{scale:g} : 1" in svg


@pytest.mark.parametrize("scale", SCALES)
def test_lengths_and_diameters_are_to_scale(scale: float) -> None:
    """Each layer's outline is its length × scale by its diameter × scale, in mm of paper."""
    svg = draw_end(T_02, scale=scale)
    outlines = {
        (round(float(r.attrib["width"]), 3), round(float(r.attrib["height"]), 3))
        for r in parsed(svg).iter(f"{SVG}rect")
        if r.attrib.get("stroke")
    }
    for length_mm, diameter_mm in ((4.25, 0.812), (4.60, 3.66), (7.20, 4.40)):
        assert (round(length_mm * scale, 3), round(diameter_mm * scale, 3)) in outlines
    assert parsed(svg).attrib["width"].endswith("mm")


def test_width_and_view_box_agree_so_that_a_unit_is_a_millimetre() -> None:
    """The viewBox is as wide and high as the printed millimetres: nothing rescales the drawing."""
    root = parsed(draw_end(T_02, scale=1.0))
    _, _, width, height = root.attrib["viewBox"].split()
    assert root.attrib["width"] == f"{width}mm"
    assert root.attrib["height"] == f"{height}mm"


def test_smaller_text_needs_less_room_and_leaves_the_cable_to_scale() -> None:
    """With text of 2.6 mm the drawing is narrower, its jacket as thick as before."""
    usual, small = draw_end(T_02, scale=1.0), draw_end(T_02, scale=1.0, text_mm=2.6)
    widths = [float(parsed(svg).attrib["width"].removesuffix("mm")) for svg in (usual, small)]
    assert widths[1] < widths[0]
    for svg in (usual, small):
        outlines = {round(float(r.attrib["height"]), 2) for r in parsed(svg).iter(f"{SVG}rect")}
        assert 6.05 in outlines


@pytest.mark.parametrize("scale", SCALES)
def test_the_figures_drawn_are_the_figures_of_the_table(scale: float) -> None:
    """Every length with its tolerance and every cut position of the table stands on the drawing."""
    shown = {box.text for box in text_boxes(draw_end(T_02, scale=scale))}
    for row in end_table(T_02):
        assert {row.told, row.position} <= shown
    assert [row.told for row in end_table(T_02)] == ["4.25 ±0.10", "4.60 ±0.10", "7.20 ±0.15"]
    assert [row.position for row in end_table(T_02)] == ["4.25", "8.85", "16.05"]


def test_an_end_without_dielectric_step_shows_no_such_length() -> None:
    """The compressed end lists conductor and folded braid, and no b of zero."""
    assert [(row.letter, row.name) for row in end_table(VIEWS[2])] == [
        ("a", "conductor"),
        ("c", "braid folded back"),
    ]


def test_what_is_not_fixed_is_said_and_not_drawn_as_a_figure() -> None:
    """A jacket taken back as far as the job asks has words for its length and no cut position."""
    (_, core) = end_table(VIEWS[6])
    assert core.told == "as the job asks"
    assert core.position == ""


@pytest.mark.parametrize("letters", sorted(JACKET_COLOURS))
def test_every_jacket_is_drawn_in_its_colour_with_its_letters(letters: str) -> None:
    """The jacket's fill is that of its letters, and the letters stand beside it."""
    svg = draw_end(EndView(title="T", cable=VID_60, strip=_coax(4.25, 4.6, 7.2), jacket=letters))
    colour = jacket_colour(letters)
    assert f'fill="{colour.fill}"' in svg
    assert any(box.text.startswith(f"{letters} {colour.name}") for box in text_boxes(svg))


def test_nonsense_is_refused() -> None:
    """A scale or text of zero and a colour that has no letters are refused."""
    with pytest.raises(BadValue, match="scale"):
        draw_end(T_02, scale=0)
    with pytest.raises(BadValue, match="text_mm"):
        draw_end(T_02, text_mm=0)
    with pytest.raises(UnknownCode):
        draw_end(EndView(title="T", cable=VID_60, strip=T_02.strip, jacket="tartan"))


def test_a_title_with_markup_stays_text() -> None:
    """Angle brackets and quotes in a title are written, not obeyed."""
    svg = draw_end(EndView(title='<b>"T" & co</b>', cable=VID_60, strip=T_02.strip, jacket="BU"))
    assert_plain(svg)
    assert "<b>" not in svg
    assert re.search(r"<title>&lt;b&gt;", svg)


LENGTHS = st.floats(min_value=1.0, max_value=15.0)


@settings(max_examples=60)
@given(LENGTHS, LENGTHS, LENGTHS, st.sampled_from((1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 8.0)))
def test_no_strip_makes_labels_touch(a: float, b: float, c: float, scale: float) -> None:
    """Whatever the strip and the scale, no two labels touch and none leaves the sheet."""
    svg = draw_end(EndView(title="T", cable=VID_60, strip=_coax(a, b, c), jacket="GN"), scale=scale)
    assert overlaps(svg) == []
    assert outside(svg) == []
