"""Widths of texts are those of the font's own files."""

import pytest
from PIL import ImageFont

from reelwright.drawings.text_size import _ASCII, _OTHERS, text_width
from reelwright.style import BOLD, FONT_FILES, REGULAR, SEMIBOLD, font_folder


@pytest.mark.parametrize(
    ("weight", "name"), list(zip((REGULAR, SEMIBOLD, BOLD), FONT_FILES, strict=True))
)
def test_every_letter_is_as_wide_as_in_the_font(weight: int, name: str) -> None:
    """Each tabulated advance equals that of the TTF file, to the font's own thousandth."""
    font = ImageFont.truetype(font_folder() / name, 1000)
    letters = [chr(32 + place) for place in range(len(_ASCII[weight]))] + list(_OTHERS)
    assert len(letters) > 110
    for letter in letters:
        assert text_width(letter, size=1000, weight=weight) == round(font.getlength(letter)), letter


def test_a_line_is_never_narrower_than_set() -> None:
    """A whole line is at least as wide as the font sets it with kerning, and at most 3 % wider."""
    font = ImageFont.truetype(font_folder() / FONT_FILES[0], 1000)
    for line in ("Works, with 6.1\u202fdB to spare", "AV To Ty 4.25 ±0.10", "fits 9 of 10 orders"):
        ours, theirs = text_width(line, size=1000), font.getlength(line)
        assert theirs <= ours + 0.5
        assert ours <= 1.03 * theirs
