"""The set-up sheet: two pages, drawings at their scale, its state said in words on every page."""

import io
from dataclasses import replace

import pytest
from PIL import Image, ImageOps

from reelwright.core.errors import BadValue
from reelwright.documents.pictures import photograph_svg
from reelwright.documents.set_up_sheet import (
    NOT_FOR_ORDERS,
    PhotographPrint,
    SetUpPaper,
    render_set_up_sheet,
)
from reelwright.drawings.check_bar import draw_check_bar
from tests.documents import pdfs, sheets
from tests.drawings.look import overlaps
from tests.photographs import jpeg

MAGENTA, GREEN, INK = (255, 0, 255), (0, 255, 0), (0x1D, 0x20, 0x23)


def drafted(**changes: object) -> SetUpPaper:
    """The same sheet while it lacks two things."""
    return sheets.set_up_sheet(
        state="drafted",
        state_mark="caution",
        released=False,
        missing_for="on trial",
        missing=("Missing: the pin die.", "Missing: the program of the stripper."),
        **changes,
    )


def test_all_that_an_end_needs_stands_on_two_pages() -> None:
    """Title block, strip, steps, machines, cautions with rules, looks, pulls, history, notes."""
    pages = pdfs.texts(render_set_up_sheet(sheets.set_up_sheet()))
    assert len(pages) == 2
    whole = " ".join(pages)
    for told in (
        "VID-60 in BNC-60",
        "17 Nov 2025, Mara",
        "4.25 ±0.10",
        "16.05",
        "Before anything else: Slide boot and ferrule onto the cable.",
        "Strip with the program.",
        "6.48 mm across flats",
        "Both hands on the press. guards: ISO 13851",
        "The machine's own instructions come first.",
        "one strand forward: a short",
        "0.91 to 1.01 mm",
        "The braid may be 0.1 mm short.",
        "The pin asks for 1.4 kN, PR-1 has 29.0 kN.",
        "1.615 ± 0.01 mm",
        "1.83 % of the pins land outside.",
        "5.47 mm to 5.77 mm",
        "The height laid down stays within.",
        "27 pulls show 188 N",
        "braid pulled out of the ferrule 27",
        "Good. The braid lies back.",
        "Bad. A strand at the conductor.",
        "withdrawn",
        "proven → released",
        "Notes",
    ):
        assert told in whole, told
    assert "Shrunk" not in whole
    assert NOT_FOR_ORDERS not in whole
    assert "Missing" not in whole


def test_an_order_laid_down_stands_under_the_steps() -> None:
    """Whose order it is and the operations in it; nothing of either where none is laid down."""
    sheet = sheets.set_up_sheet()
    assert "The operations" not in " ".join(pdfs.texts(render_set_up_sheet(sheet)))
    told = "This order is laid down by rev D; worked out it would be another."
    laid = replace(sheet, order_told=told, operations=("Strip.", "Thread the boot."))
    whole = " ".join(" ".join(pdfs.texts(render_set_up_sheet(laid))).split())
    assert "The operations 1 Strip. 2 Thread the boot." in whole
    assert told in whole


@pytest.mark.parametrize("state", ["drafted", "on trial", "proven", "withdrawn"])
def test_what_is_not_released_says_so_on_every_page(state: str) -> None:
    """In words, at full size and in ink, on the first page and on the last."""
    sheet = replace(drafted(), state=state)
    pages = pdfs.texts(render_set_up_sheet(sheet))
    assert len(pages) >= 2
    for page in pages:
        assert f"{state.capitalize()}. {NOT_FOR_ORDERS}" in page
    assert "Missing before it is on trial" in pages[0]
    assert "Missing: the program of the stripper." in pages[0]


def test_the_code_opens_the_revision() -> None:
    """The printed code reads as what a person would type into the search."""
    assert pdfs.codes(render_set_up_sheet(sheets.set_up_sheet()), 0, dpi=200) == ["T-02 rev D"]


def test_drawings_print_at_their_own_size() -> None:
    """150 mm and 40 mm stay so to a fifth of a millimetre, and 50 mm of the bar too."""
    pdf = render_set_up_sheet(sheets.set_up_sheet())
    assert pdfs.coloured_width_mm(pdf, 0, MAGENTA) == pytest.approx(150, abs=0.2)
    assert pdfs.coloured_width_mm(pdf, 0, GREEN) == pytest.approx(40, abs=0.2)


def test_the_check_bar_is_as_long_as_it_says() -> None:
    """On paper, end tick to end tick, 50 mm to a fifth of a millimetre; 80 mm too."""
    dpi = 600
    for length_mm in (50, 80):
        bar = draw_check_bar(length_mm)
        assert not overlaps(bar)
        sheet = sheets.set_up_sheet(strip_true_svg=sheets.bar_svg(width_mm=40), check_bar_svg=bar)
        image = pdfs.picture(render_set_up_sheet(sheet), 0, dpi=dpi).convert("L")
        # Its middle line is the one unbroken dark run of that length under the green bar.
        runs = [longest_dark_run(image, y) * 25.4 / dpi for y in range(0, image.height, 2)]
        assert any(abs(run - length_mm) < 0.3 for run in runs)


def longest_dark_run(image: Image.Image, y: int) -> int:
    """The longest row of dark pixels at height y, in pixels."""
    row = bytes(
        255 if value < 100 else 0 for value in image.crop((0, y, image.width, y + 1)).tobytes()
    )
    return max(map(len, row.split(b"\0")))


@pytest.mark.parametrize("length_mm", [0, 5, 55, -10])
def test_a_bar_of_no_whole_centimetres_is_refused(length_mm: int) -> None:
    """Its ticks stand every centimetre."""
    with pytest.raises(BadValue):
        draw_check_bar(length_mm)


@pytest.mark.parametrize("turned", range(1, 9))
def test_a_photograph_stands_the_way_that_another_program_turns_it(turned: int) -> None:
    """The blue quarter lies where Pillow's own turning by Exif puts it, for all eight ways up."""
    content = jpeg(turned=turned)
    upright = ImageOps.exif_transpose(Image.open(io.BytesIO(content))).convert("RGB")
    wide, high = upright.size
    sheet = sheets.set_up_sheet(
        photographs=(sheets.photograph("good", "Upright.", content, kind="jpeg", turned=turned),),
        strip_svg="",
        section_svg="",
    )
    pdf = render_set_up_sheet(sheet)
    dpi = 72
    (page,) = (n for n, text in enumerate(pdfs.texts(pdf)) if "Good. Upright." in text)
    image = pdfs.picture(pdf, page, dpi=dpi)
    pixels = image.load()
    assert pixels is not None
    blues = [
        (x, y)
        for y in range(image.height)
        for x in range(image.width)
        if pixels[x, y][2] > 200 and max(pixels[x, y][:2]) < 60
    ]
    left, right = min(x for x, _ in blues), max(x for x, _ in blues)
    top, bottom = min(y for _, y in blues), max(y for _, y in blues)
    # As large as the room of 82 × 62 mm takes it; half of each side is blue.
    scale = min(82 / wide, 62 / high) / 25.4 * dpi
    assert right - left + 1 == pytest.approx(wide / 2 * scale, abs=2)
    assert bottom - top + 1 == pytest.approx(high / 2 * scale, abs=2)

    def is_blue(x: int, y: int) -> bool:
        red, green, blue = upright.getpixel((x, y))
        return blue > 200 and max(red, green) < 60

    at_left = is_blue(5, 5) or is_blue(5, high - 6)
    at_top = is_blue(5, 5) or is_blue(wide - 6, 5)
    assert (left < 19 / 25.4 * dpi + wide * scale / 4) is at_left
    assert (bottom < caption_top(pdf, page, dpi=dpi) - high * scale / 4) is at_top


def caption_top(pdf: bytes, page: int, *, dpi: int) -> float:
    """Where the caption under the photograph begins, from the top of the page, in pixels."""
    with pdfs.opened(pdf) as document:
        sheet = document[page]
        words = sheet.get_textpage()
        place = words.get_text_range().index("Good. Upright.")
        _, _, _, top = words.get_charbox(place)
        height = sheet.get_height()
        words.close()
        sheet.close()
    return (height - top) * dpi / 72


@pytest.mark.parametrize(("kind", "turned"), [("gif", 1), ("jpeg", 0), ("png", 9)])
def test_an_unknown_kind_or_way_up_is_refused(kind: str, turned: int) -> None:
    """A photograph is JPEG or PNG and stands one of eight ways."""
    with pytest.raises(BadValue):
        photograph_svg(
            b"", kind=kind, width_px=9, height_px=9, turned=turned, title="x", room_mm=(9, 9)
        )


def test_twelve_photographs_and_a_long_history_flow_on() -> None:
    """Nothing is lost: every caption is printed, and pages count on."""
    base = sheets.set_up_sheet()
    many = tuple(
        replace(base.photographs[n % 2], caption=f"Look number {n} of the braid.")
        for n in range(12)
    )
    pages = pdfs.texts(render_set_up_sheet(replace(base, photographs=many, moves=base.moves * 40)))
    whole = " ".join(pages)
    assert all(f"Look number {n} of the braid." in whole for n in range(12))
    assert whole.count("proven → released") == 40
    assert f"page {len(pages)} of {len(pages)}" in pages[-1]


def test_an_end_without_strip_pulls_and_photographs_leaves_their_headings_out() -> None:
    """A first draft prints what there is, and what is missing."""
    sheet = drafted(strip_svg="", strip_true_svg="", strip_rows=(), pulls=None, photographs=())
    whole = " ".join(pdfs.texts(render_set_up_sheet(sheet)))
    for heading in ("1 : 1, to lay an end on", "Pulls", "Photographs"):
        assert heading not in whole
    assert "Missing: the pin die." in whole


def test_a_sheet_that_says_nothing_is_refused() -> None:
    """Without a state's mark that is known, a revision, a caption, none is built."""
    for changes in ({"state_mark": "fine"}, {"revisions": ()}, {"lead": " "}):
        with pytest.raises(BadValue):
            sheets.set_up_sheet(**changes)
    with pytest.raises(BadValue):
        PhotographPrint(mark="good", caption="", photograph_svg="<svg/>")
