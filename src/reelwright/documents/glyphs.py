"""Which characters our font can print, and honest stand-ins for the others.

Typst gives no warning when a glyph is missing: the character would just not be there. So every
text goes through ``printable`` before it reaches a sheet.
"""

import re
import struct
import unicodedata
from functools import cache
from pathlib import Path

from reelwright.style import font_folder

# Characters people and programs write that the font lacks, and what prints instead.
TWINS = {
    "\u2009": "\u202f",  # thin space: the narrow no-break space is in the font
    "\u2002": " ",
    "\u2003": " ",
    "\u200a": "\u202f",
    "\u2010": "-",
    "\u2011": "-",
    "\u2300": "Ø",  # the diameter sign
    "\u2205": "Ø",
    "\u2715": "×",
    "\u2716": "×",
    "\u2717": "×",
    "\u2a2f": "×",
    "\u2714": "✓",
    "\u200b": "",
    "\u2060": "",
    "\ufeff": "",
    "\u00ad": "",
    "\t": " ",
    "\r": "",
}

_NUMERIC_REFERENCE = re.compile(r"&#(?:[xX]([0-9a-fA-F]+)|([0-9]+));")


def font_characters(font_file: Path) -> frozenset[int]:
    """The code points in a TrueType file's character table, from its format 12 subtable.

    Source: OpenType specification, table ``cmap``, format 12 (segmented coverage).
    """
    data = font_file.read_bytes()
    (n_tables,) = struct.unpack_from(">H", data, 4)
    for i in range(n_tables):
        tag, _, offset, _ = struct.unpack_from(">4sIII", data, 12 + 16 * i)
        if tag == b"cmap":
            break
    else:
        raise ValueError(f"{font_file.name} has no character table")
    found: set[int] = set()
    (n_subtables,) = struct.unpack_from(">H", data, offset + 2)
    for i in range(n_subtables):
        (at,) = struct.unpack_from(">I", data, offset + 8 + 8 * i)
        start = offset + at
        if struct.unpack_from(">H", data, start)[0] != 12:
            continue
        (n_groups,) = struct.unpack_from(">I", data, start + 12)
        for k in range(n_groups):
            first, last, _ = struct.unpack_from(">III", data, start + 16 + 12 * k)
            found.update(range(first, last + 1))
    return frozenset(found)


@cache
def paper_characters() -> frozenset[int]:
    """Code points that every weight of our font can print."""
    files = sorted(font_folder().glob("*.ttf"))
    tables = [font_characters(file) for file in files]
    return frozenset.intersection(*tables)


@cache
def _not_as_it_is() -> re.Pattern[str]:
    """Matches a character that ``printable`` does not let pass as it is."""
    passing = "".join(filter(_passes, map(chr, sorted(paper_characters()))))
    return re.compile(f"[^\\n{re.escape(passing)}]")


def _passes(character: str) -> bool:
    if character.isprintable():
        return True
    # The spaces that str.isprintable refuses.
    return character not in TWINS and not unicodedata.category(character).startswith("C")


def printable(text: str) -> str:
    """The same text with nothing in it that our font cannot print.

    A character without a twin becomes ``[U+65E5]``: the reader sees that something stood there, and
    what. Line feeds stay; other control characters go.
    """
    text = unicodedata.normalize("NFC", text)
    if text.isascii() and text.isprintable():
        return text
    # One expression over the whole: drawings hold a hundred thousand characters.
    return _not_as_it_is().sub(lambda match: _stand_in(match[0]), text)


def _stand_in(character: str) -> str:
    if character in TWINS:
        return TWINS[character]
    return "" if unicodedata.category(character) == "Cc" else f"[U+{ord(character):04X}]"


def printable_svg(svg: str) -> str:
    """A drawing's text with the same care, numeric character references included."""

    def _resolve(match: re.Match[str]) -> str:
        character = chr(int(match[1], 16) if match[1] else int(match[2]))
        return match[0] if character in "<>&\"'" else character

    return printable(_NUMERIC_REFERENCE.sub(_resolve, svg))
