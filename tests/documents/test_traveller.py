"""The traveller: one page, large numbers, true drawing, a code that reads."""

from dataclasses import replace

import pytest

from reelwright.core.errors import BadValue
from reelwright.documents.traveller import PinRow, render_traveller
from tests.documents import pdfs, sheets

MAGENTA = (255, 0, 255)


@pytest.mark.parametrize("dpi", [150, 300])
def test_the_code_reads_from_the_page(dpi: int) -> None:
    """The code of every traveller reads from its printed page and names that traveller."""
    pdf = render_traveller(sheets.travellers())
    assert pdfs.codes(pdf, 0, dpi=dpi) == ["RW:T:T-0010"]
    assert pdfs.codes(pdf, 1, dpi=dpi) == ["RW:T:T-0009"]


@pytest.mark.parametrize(
    "written", ["10.199", "10.177", "10.160", "1.60", "6.48", "6.52", "98", "14"]
)
@pytest.mark.parametrize("page", [0, 1])
def test_numbers_are_read_at_arms_length(written: str, page: int) -> None:
    """Figures that the bench sets by are 4 mm high or more, on roomy and on tight pages."""
    pdf = render_traveller(sheets.travellers())
    place = "\r\n" + written if written in {"98", "14"} else written
    heights = pdfs.digit_heights_mm(pdf, page, place)
    assert heights
    assert min(heights) >= 4.0


def test_different_ends_still_make_one_page() -> None:
    """Two ends with their drawings, dies, orders of work and cautions fit one page."""
    pages = pdfs.texts(render_traveller(sheets.travellers(sheets.rush())))
    assert len(pages) == 1
    assert "Shrunk" not in pages[0]
    for shown in ("End A", "End B", "T-02", "T-11", "F-70", "no nick", "shell – screen – shell"):
        assert shown in pages[0]


def test_two_long_ends_make_one_page() -> None:
    """A crimped and a compressed end, six cautions and steps that wrap still share one page."""
    steps = (
        "Slide boot and ferrule onto the cable, the ferrule's flare towards the end.",
        "Strip with the program; look at the conductor for nicks.",
        "Put on the pin until the conductor shows in the hole; press it.",
        "Flare the braid, push the body home between foil and braid until the pin clicks.",
        "Draw the ferrule up to the body; press it once.",
        "Gauge the pin; push the boot up.",
    )
    drawing = sheets.bar_svg(width_mm=60, height_mm=27)
    sheet = sheets.traveller(
        ends=tuple(
            sheets.end(which, strip_svg=drawing, order_of_work=steps, expected_height="1.62 ± 0.03")
            for which in "AB"
        ),
        cautions=("Blades cut and leave burrs: eyes protected, glove at the jacket, no rush.",) * 6,
    )
    pages = pdfs.texts(render_traveller(sheets.travellers(sheet)))
    assert len(pages) == 1
    assert "Shrunk" not in pages[0]
    assert pages[0].count("Gauge the pin") == 2


def test_a_batch_of_forty_makes_one_page() -> None:
    """Forty serials stand on the one page of their batch; what all begin with is said once."""
    serials = tuple(f"251125-{n:05d}" for n in range(101, 141))
    pages = pdfs.texts(render_traveller(sheets.travellers(sheets.traveller(serials=serials))))
    assert len(pages) == 1
    assert pages[0].count("251125-") == 1
    written = pages[0].partition("251125-")[2]
    assert written.split()[:40] == [serial.partition("-")[2] for serial in serials]


def test_serials_with_different_beginnings_stand_whole() -> None:
    """Where not all begin alike, each serial is written in full."""
    serials = ("251124-00013", "251125-00021", "251125-00039")
    pages = pdfs.texts(render_traveller(sheets.travellers(sheets.traveller(serials=serials))))
    assert all(serial in pages[0] for serial in serials)


def test_eight_ways_and_fourteen_serials_make_one_page() -> None:
    """A data cable's map of eight ways, the longest usual one, leaves its sheet one page."""
    ways = tuple(PinRow(end_a=str(n), conductor=f"white of {n}", end_b=str(n)) for n in range(1, 9))
    sheet = sheets.traveller(
        pin_map=ways,
        cautions=tuple(f"Caution {n}: eyes protected, glove at the jacket." for n in range(6)),
        serials=tuple(f"251125-{n:05d}" for n in range(101, 115)),
        sources=tuple(f"5 × R-{n} · lot L{n} · rack B{n}" for n in range(3)),
    )
    pages = pdfs.texts(render_traveller(sheets.travellers(sheet)))
    assert len(pages) == 1
    assert all(f"white of {n}" in pages[0] for n in range(1, 9))


@pytest.mark.parametrize("width_mm", [50, 76])
def test_the_strip_drawing_prints_true(width_mm: int) -> None:
    """A drawing of so many millimetres measures as many on the page, so a cable can lie on it."""
    sheet = sheets.traveller(
        ends=(sheets.end("A and B", strip_svg=sheets.bar_svg(width_mm=width_mm)),)
    )
    pdf = render_traveller(sheets.travellers(sheet))
    # One pixel of 600 dpi on either side.
    assert pdfs.coloured_width_mm(pdf, 0, MAGENTA) == pytest.approx(width_mm, abs=0.1)
    assert "Shrunk" not in pdfs.texts(pdf)[0]


def test_a_shrunk_drawing_says_so() -> None:
    """A drawing too wide for its place shrinks, and the sheet says that its scale does not hold."""
    sheet = sheets.traveller(ends=(sheets.end("A and B", strip_svg=sheets.bar_svg(width_mm=152)),))
    pdf = render_traveller(sheets.travellers(sheet))
    assert pdfs.coloured_width_mm(pdf, 0, MAGENTA) == pytest.approx(76, abs=0.1)
    assert "Shrunk to 50 %: the scale it states does not hold." in pdfs.texts(pdf)[0]


def test_each_traveller_counts_its_own_pages() -> None:
    """An overlong traveller takes two pages, numbered 1 and 2 of 2; the next begins at 1 of 1."""
    loom = tuple(PinRow(end_a=str(n), conductor=f"core {n}", end_b=str(n)) for n in range(1, 121))
    long = sheets.traveller("T-0007", pin_map=loom)
    pages = pdfs.texts(render_traveller(sheets.travellers(long, sheets.traveller())))
    told = [("T-0007", "page 1 of 2"), ("T-0007", "page 2 of 2"), ("T-0010", "page 1 of 1")]
    assert len(pages) == len(told)
    for text, (number, page) in zip(pages, told, strict=True):
        assert f"TR-1125 · {number}" in text
        assert page in text


def test_an_end_without_dies_shows_none() -> None:
    """A soldered end has no program, die or height, and the page has no empty fields for them."""
    soldered = sheets.end(
        "A and B", program="", dies=(), expected_height="", blade_set="", strip_svg=""
    )
    text = pdfs.texts(render_traveller(sheets.travellers(sheets.traveller(ends=(soldered,)))))[0]
    assert "Pull, at least" in text
    for absent in ("Strip program", "Die,", "Height", "Blades"):
        assert absent not in text


def test_nonsense_is_refused() -> None:
    """No pieces, no ends, three ends and an empty stack are refused when built."""
    with pytest.raises(BadValue, match="quantity"):
        sheets.traveller(quantity=0)
    with pytest.raises(BadValue, match="ends"):
        sheets.traveller(ends=())
    with pytest.raises(BadValue, match="ends"):
        sheets.traveller(ends=(sheets.end("A"),) * 3)
    with pytest.raises(BadValue, match="travellers"):
        replace(sheets.travellers(), travellers=())
