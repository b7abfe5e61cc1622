"""The reel as a bar: to scale, in order, labels apart."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.drawings.reel import (
    ReelCut,
    ReelFlaw,
    ReelGap,
    ReelView,
    draw_reel,
    reel_table,
)
from reelwright.style import JACKET_COLOURS
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

R_118 = ReelView(
    reel="R-118",
    title="R-118 · VID-60 blue",
    jacket="BU",
    items=(
        ReelCut(name="A31-1", length_mm=9_160, done=True),
        ReelCut(name="A31-2", length_mm=9_160),
        ReelCut(name="A40", length_mm=6_120),
        ReelFlaw(length_mm=600, name="flaw"),
        ReelCut(name="A37", length_mm=12_200),
    ),
    remnant_mm=11_900,
    remnant_note="fits 9 of 10 orders of this colour",
    standard_uncertainty_mm=400.0,
)


def _rects(svg: str, *, fill: str) -> list[tuple[float, float]]:
    return [
        (float(r.attrib["x"]), float(r.attrib["width"]))
        for r in parsed(svg).iter(f"{SVG}rect")
        if r.attrib.get("fill") == fill
    ]


@pytest.mark.parametrize("width_px", [640.0, 1120.0])
def test_a_millimetre_is_as_wide_everywhere(width_px: float) -> None:
    """Widths of pieces and remnant are in the ratio of their lengths, at any width of the sheet."""
    svg = draw_reel(R_118, width_px=width_px)
    blue = JACKET_COLOURS["BU"]
    pieces = [width for _, width in _rects(svg, fill=blue.fill)][:3]
    ((_, remnant),) = _rects(svg, fill=blue.pale)
    per_mm = remnant / 11_900
    for width, length_mm in zip(pieces, (9_160, 6_120, 12_200), strict=True):
        # Coordinates are written to a thousandth of a unit.
        assert abs(width - length_mm * per_mm) < 0.002
    assert_plain(svg)


def test_pieces_stand_in_cutting_order_from_the_free_end() -> None:
    """Names run from left to right in the order of the cuts, the free end left of all."""
    boxes = {box.text: box.left for box in text_boxes(draw_reel(R_118))}
    names = ["A31-1", "A31-2", "A40", "A37", "keep 11.90"]
    assert [boxes[name] for name in names] == sorted(boxes[name] for name in names)
    assert boxes["free end"] < boxes["A31-1"]


def test_flaw_uncertainty_and_what_was_cut_are_told_in_words() -> None:
    """The flaw says what is skipped, the inner end carries its figure, a done piece its tick."""
    shown = {box.text for box in text_boxes(draw_reel(R_118))}
    assert {"flaw, skip 0.60", "±0.40\u202fm", "9.16 ✓", "9.16"} <= shown


def test_the_table_says_what_the_bar_says() -> None:
    """Each stretch is a row with its length and where it begins, adding up to the whole."""
    rows = reel_table(R_118)
    assert rows[3] == ("flaw, skip", "0.60", "24.44")
    assert rows[-1] == ("remnant, fits 9 of 10 orders of this colour", "11.90", "37.24")
    assert sum(float(length) for _, length, _ in rows) == pytest.approx(R_118.length_mm / 1000)


def test_a_piece_too_short_for_its_name_is_numbered_and_listed() -> None:
    """Thirty short pieces are numbered on the bar and listed beneath, none lost."""
    view = ReelView(
        reel="R-111",
        title="R-111",
        jacket="BK",
        items=tuple(ReelCut(name=f"O-12-{n:02}", length_mm=3_060) for n in range(1, 31)),
        remnant_mm=213_200,
        remnant_note="general stock",
        standard_uncertainty_mm=1_830.0,
    )
    svg = draw_reel(view, width_px=900)
    shown = [box.text for box in text_boxes(svg)]
    assert all(f"O-12-{n:02} 3.06" in shown for n in range(1, 31))
    assert overlaps(svg) == []


def test_beside_a_table_the_list_is_left_out() -> None:
    """Without key no name is listed; a piece without room for its name shows its short one."""
    view = replace(
        R_118,
        items=tuple(
            ReelCut(name=f"O-12-{n}", length_mm=3_060, short=str(n)) for n in range(21, 51)
        ),
    )
    plain = {box.text for box in text_boxes(draw_reel(view, width_px=900, key=False))}
    assert not any("O-12" in text for text in plain)
    assert {"21", "50"} <= plain


def test_scrap_is_not_called_kept() -> None:
    """A stretch that is not kept is named scrap, on the bar and in the table."""
    view = ReelView(
        reel="R",
        title="R",
        jacket="RD",
        items=(ReelCut(name="A", length_mm=3_000), ReelGap(length_mm=1_500, note="", keep=False)),
        remnant_mm=1_600,
        remnant_note="",
        standard_uncertainty_mm=0.0,
        remnant_kept=False,
    )
    shown = {box.text for box in text_boxes(draw_reel(view))}
    assert {"scrap 1.50", "scrap 1.60"} <= shown
    assert not any(text.startswith("keep") for text in shown)
    assert [what for what, _, _ in reel_table(view)] == ["A", "scrap", "scrap"]


def test_an_empty_reel_is_refused() -> None:
    """A view with nothing on it is refused: there is nothing to draw to scale."""
    with pytest.raises(BadValue):
        ReelView(
            reel="R",
            title="R",
            jacket="RD",
            items=(),
            remnant_mm=0,
            remnant_note="",
            standard_uncertainty_mm=0.0,
        )


LENGTH = st.integers(min_value=200, max_value=60_000)
ITEM = st.one_of(
    st.builds(
        ReelCut,
        name=st.from_regex(r"[A-Z]{1,2}-[0-9]{1,3}-[0-9]", fullmatch=True),
        length_mm=LENGTH,
        done=st.booleans(),
    ),
    st.builds(
        ReelFlaw,
        name=st.sampled_from(("flaw", "dent", "print missing")),
        length_mm=st.integers(min_value=50, max_value=900),
    ),
    st.builds(ReelGap, note=st.sampled_from(("", "fits 3 of 10")), length_mm=LENGTH),
)


@settings(max_examples=80)
@given(
    st.lists(ITEM, min_size=1, max_size=40),
    st.integers(min_value=0, max_value=200_000),
    st.sampled_from(("", "scrap", "fits 9 of 10 orders of this colour")),
    st.sampled_from((480.0, 640.0, 1120.0)),
    st.sampled_from(sorted(JACKET_COLOURS)),
)
def test_no_reel_makes_labels_touch(items, remnant, note, width, letters) -> None:  # type: ignore[no-untyped-def]
    """Whatever lies on the reel, no two labels touch, none leaves the sheet, colours are ours."""
    view = ReelView(
        reel="R",
        title="R",
        jacket=letters,
        items=tuple(items),
        remnant_mm=remnant,
        remnant_note=note,
        standard_uncertainty_mm=400.0,
    )
    svg = draw_reel(view, width_px=width)
    assert overlaps(svg) == []
    assert outside(svg) == []
    assert colours(svg) <= style_colours()
