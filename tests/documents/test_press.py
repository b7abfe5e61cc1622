"""The press and its helpers: faults, glyphs, sizes of drawings."""

import unicodedata
from pathlib import Path

import pytest
from PIL import ImageFont

from reelwright.core.errors import BadValue
from reelwright.documents import press
from reelwright.documents.glyphs import font_characters, paper_characters, printable
from reelwright.documents.pictures import read_picture
from reelwright.style import font_folder


def _template(monkeypatch: pytest.MonkeyPatch, folder: Path, text: str) -> None:
    (folder / "paper.typ").write_text(text, encoding="utf-8")
    monkeypatch.setattr(press, "_FOLDER", folder)


def test_a_warning_is_an_error(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A template that only earns a warning (here an unknown font) prints nothing."""
    _template(monkeypatch, tmp_path, '#set text(font: "Nowhere Sans")\nHello')
    with pytest.raises(press.PaperFault, match="unknown font family"):
        press.print_pdf("paper.typ", {})


def test_a_broken_template_says_what_is_wrong(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """The fault names the template and carries what the typesetter said."""
    _template(monkeypatch, tmp_path, '#panic("no such thing")')
    with pytest.raises(press.PaperFault, match=r"paper\.typ: .*no such thing"):
        press.print_pdf("paper.typ", {})


def test_content_that_is_no_text_is_refused() -> None:
    """Only text, numbers and drawings reach a sheet: an object is a mistake of ours."""
    with pytest.raises(TypeError, match="when"):
        press.print_pdf("summary/summary.typ", {"when": object()})


@pytest.mark.parametrize("file", sorted(font_folder().glob("*.ttf")), ids=lambda file: file.stem)
def test_the_character_table_agrees_with_freetype(file: Path) -> None:
    """Our reading of the table agrees with FreeType: a glyph where we say so, none where not."""
    face = ImageFont.truetype(str(file), 40, layout_engine=ImageFont.Layout.BASIC)
    table = font_characters(file)
    assert len(table) > 1000

    def drawn(code_point: int) -> tuple[object, object]:
        mask, offset = face.getmask2(chr(code_point))
        return bytes(mask), (mask.size, offset)

    nothing = drawn(0xFFFF)
    visible = [c for c in sorted(table)[::7] if unicodedata.category(chr(c))[0] in "LNSP"]
    assert len(visible) > 100
    assert all(drawn(c) != nothing for c in visible)
    for missing in (0x2009, 0x2300, 0x2715, 0x65E5, 0x1F50C, 0x2717):
        assert missing not in table
        assert drawn(missing) == nothing


@pytest.mark.parametrize("character", "Ø×−≤≥±Ωµ°½′″…·–“”→∞√²³✓\u202f")
def test_the_characters_of_the_trade_are_in_the_font(character: str) -> None:
    """The signs our sheets are full of print as they are."""
    assert ord(character) in paper_characters()
    assert printable(character) == character


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("6\u2009mm", "6\u202fmm"),
        ("\u230012", "Ø12"),
        ("3\u27154", "3×4"),
        ("a\u200bb\u2060c", "abc"),
        ("tab\there", "tab here"),
        ("bell\x07", "bell"),
        ("two\nlines", "two\nlines"),
        ("日", "[U+65E5]"),
        ("e\u0301", "é"),
        ("\u2126", "Ω"),
    ],
)
def test_what_the_font_lacks_is_replaced_or_named(typed: str, shown: str) -> None:
    """Twins stand in, invisible characters go, and the rest is named by its code point."""
    assert printable(typed) == shown


@pytest.mark.parametrize(
    ("root", "size_mm"),
    [
        ('width="62mm" height="26mm" viewBox="0 0 1 1"', (62.0, 26.0)),
        ("width='2cm' height='1in'", (20.0, 25.4)),
        ('width="96" height="48px"', (25.4, 12.7)),
        ('viewBox="0 0 960 480"', (254.0, 127.0)),
        ('viewBox="-5,-5,96,96" width="100%" height="100%"', (25.4, 25.4)),
    ],
)
def test_a_drawing_is_as_large_as_it_says(root: str, size_mm: tuple[float, float]) -> None:
    """Sizes are read in each unit of SVG (96 px to the inch), else from the viewBox."""
    picture = read_picture(f"<svg {root}><title>A &amp; B</title></svg>")
    assert (picture.width_mm, picture.height_mm) == pytest.approx(size_mm)
    assert picture.title == "A & B"


@pytest.mark.parametrize("svg", ["a reel", "<svg></svg>", '<svg viewBox="0 0 1">'])
def test_what_is_no_drawing_is_refused(svg: str) -> None:
    """Text that is no SVG, or an SVG without any size, is refused."""
    with pytest.raises(BadValue):
        read_picture(svg)
