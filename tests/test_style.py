"""One source of colours and type: contrast, letters, fonts."""

import itertools
from pathlib import Path

import pytest

from reelwright import style
from reelwright.core.errors import UnknownCode

TEXTS = (style.INK, style.GRAPHITE, style.COPPER, style.GOOD, style.CAUTION, style.BAD)
GROUNDS = (style.PAPER, style.SHEET)


@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("text", TEXTS)
def test_text_colours_keep_contrast_on_paper_and_sheet(text: str, ground: str) -> None:
    """Every text colour has 4.5 : 1 on both grounds (WCAG 2.2, 1.4.3)."""
    assert style.contrast(text, ground) >= 4.5


@pytest.mark.parametrize(
    ("text", "tint"),
    [
        (style.GOOD, style.GOOD_TINT),
        (style.CAUTION, style.CAUTION_TINT),
        (style.BAD, style.BAD_TINT),
        (style.COPPER, style.COPPER_TINT),
    ],
)
def test_states_are_readable_on_their_own_tint(text: str, tint: str) -> None:
    """A state's word on its tint has 4.5 : 1."""
    assert style.contrast(text, tint) >= 4.5


def test_contrast_is_that_of_the_guideline() -> None:
    """Black on white is 21 : 1, a colour on itself 1 : 1, and grey #767676 just passes on white."""
    assert style.contrast("#000000", "#FFFFFF") == pytest.approx(21.0, abs=1e-9)
    assert style.contrast("#123456", "#123456") == 1.0
    assert style.contrast("#767676", "#FFFFFF") == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize("colour", style.JACKET_COLOURS.values(), ids=lambda c: c.letters)
def test_names_are_readable_on_every_jacket(colour: style.JacketColour) -> None:
    """A name on its jacket colour and on the remnant's tint keeps 4.5 : 1, its edge 3 : 1."""
    assert style.contrast(colour.ink, colour.fill) >= 4.5
    assert style.contrast(style.INK, colour.pale) >= 4.5
    assert style.contrast(colour.edge, style.SHEET) >= 3.0


def test_jackets_are_told_apart_without_colour() -> None:
    """No two colours have the same stripes, and their fourteen letters differ."""
    stripes = [colour.stripes for colour in style.JACKET_COLOURS.values()]
    assert len(style.JACKET_COLOURS) == 14
    assert all(one != other for one, other in itertools.combinations(stripes, 2))


def test_a_jacket_is_found_by_letters_and_by_name() -> None:
    """Letters in either case and the plain name find the colour; anything else is refused."""
    assert style.jacket_colour("bu") is style.jacket_colour("blue") is style.JACKET_COLOURS["BU"]
    with pytest.raises(UnknownCode):
        style.jacket_colour("mauve-ish")


def test_the_font_folder_holds_three_unaltered_files(tmp_path: Path) -> None:
    """Exactly our three TTF, byte for byte those of the package; a damaged copy is replaced."""
    import font_source_sans_pro

    folder = style.font_folder(tmp_path / "fonts")
    assert sorted(p.name for p in folder.iterdir()) == sorted(style.FONT_FILES)
    (folder / style.FONT_FILES[0]).write_bytes(b"half")
    style.font_folder(folder)
    source = Path(font_source_sans_pro.font_directory)
    for name in style.FONT_FILES:
        assert (folder / name).read_bytes() == (source / name).read_bytes()


def test_jacket_colours_carry_the_letters_of_the_standard() -> None:
    """The fourteen letters of IEC 60757 that name one colour (from memory), and no others."""
    standard = "BK BN RD OG YE GN BU VT GY WH PK GD TQ SR"
    assert set(style.JACKET_COLOURS) == set(standard.split())
