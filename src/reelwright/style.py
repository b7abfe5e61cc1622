"""Colours, type and sizes: the one source for page, chart, drawing and paper.

Every pair of a text colour and its ground keeps WCAG 2.2 contrast AA (4.5 : 1); edges of fields
keep 3 : 1 (WCAG 1.4.11), which the hairline does not: it only rules sheets.
"""

import os
import shutil
import tempfile
from dataclasses import dataclass
from pathlib import Path

from reelwright.core.errors import UnknownCode
from reelwright.core.parts.colour import COLOUR_NAMES, read_colour

PAPER = "#FAF8F4"
SHEET = "#FFFFFF"
INK = "#1D2023"
GRAPHITE = "#565B60"
HAIRLINE = "#DAD5CB"
COPPER = "#9A4A1F"
COPPER_TINT = "#F3E6DC"
GOOD = "#1E6B4F"
GOOD_TINT = "#E4F0EA"
CAUTION = "#8A5A00"
CAUTION_TINT = "#FBF0D9"
BAD = "#A32020"
BAD_TINT = "#F8E3E1"

# Materials on drawings: what a layer looks like on the bench, kept light enough for ink on top.
BARE_COPPER = "#C87B45"
PLATED = "#C9CDD1"
FOIL = "#E3E6E8"
PLASTIC = "#F3F0E9"
CLEAR_FIBRE = "#DCE9EE"

FONT_FAMILY = "Source Sans Pro"
REGULAR, SEMIBOLD, BOLD = 400, 600, 700
DESK_SIZES_PX = (14, 16, 20, 36)
BENCH_SIZES_PX = (20, 30, 44, 92)
GRID_PX = 8

# None of these three is in the font: a drawing draws them as shapes, a page as its own icon.
MISSING_FROM_FONT = ("\u2009", "\u2300", "\u2715")


@dataclass(frozen=True, kw_only=True)
class JacketColour:
    """One jacket colour: its IEC 60757 letters, its plain name and how it is drawn.

    ``ink`` is the text colour that is readable on ``fill``; ``pale`` is the remnant's tint, always
    readable in ``INK``. ``stripes`` are the angles in degrees, from the cable's axis, of the fine
    lines that tell colours apart in black and white; no two colours share their stripes and tone.
    """

    letters: str
    name: str
    fill: str
    ink: str
    pale: str
    edge: str
    stripes: tuple[int, ...]


def _jacket(letters: str, fill: str, pale: str, stripes: tuple[int, ...]) -> JacketColour:
    dark_text = contrast(fill, INK) >= contrast(fill, SHEET)
    return JacketColour(
        letters=letters,
        name=COLOUR_NAMES[letters],
        fill=fill,
        ink=INK if dark_text else SHEET,
        pale=pale,
        edge=GRAPHITE if dark_text else fill,
        stripes=stripes,
    )


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio (1 to 21) of two ``#RRGGBB`` colours, by WCAG 2.2."""

    def luminance(colour: str) -> float:
        parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
        red, green, blue = (
            part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
        )
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


# Letters: IEC 60757 (from memory). Stripes follow the old engravers' hatching where it has one:
# red upright, blue level, green falling, violet rising, black both ways, white none.
JACKET_COLOURS: dict[str, JacketColour] = {
    colour.letters: colour
    for colour in (
        _jacket("BK", "#26292C", "#D5D7D9", (0, 90)),
        _jacket("BN", "#6B4326", "#E3D5CA", (0, 45)),
        _jacket("RD", "#B3261E", "#F3D3D0", (90,)),
        _jacket("OG", "#E2791B", "#FAE0C8", (90, 45)),
        _jacket("YE", "#EFC81E", "#FBF1C4", (60, 120)),
        _jacket("GN", "#2C7A45", "#CFE5D6", (45,)),
        _jacket("BU", "#2F5C9A", "#C9D8EA", (0,)),
        _jacket("VT", "#6A4596", "#DFD3EC", (135,)),
        _jacket("GY", "#8B9096", "#E1E3E5", (45, 135)),
        _jacket("WH", "#FFFFFF", "#F4F2EE", ()),
        _jacket("PK", "#E79BB3", "#FAE5EC", (60,)),
        _jacket("GD", "#B79246", "#EFE5CF", (30, 150)),
        _jacket("TQ", "#17777A", "#CBE7E7", (30,)),
        _jacket("SR", "#C3C8CD", "#ECEEF0", (150,)),
    )
}


def jacket_colour(named: str) -> JacketColour:
    """Return the colour of these IEC 60757 letters or of this plain name; raise UnknownCode."""
    letters = read_colour(named)
    if letters is None:
        raise UnknownCode(kind="jacket colour", code=named, near=COLOUR_NAMES.values())
    return JACKET_COLOURS[letters]


FONT_FILES = ("SourceSansPro-Regular.ttf", "SourceSansPro-Semibold.ttf", "SourceSansPro-Bold.ttf")


def font_folder(target: Path | None = None) -> Path:
    """Return a folder that holds our three font files and nothing else of the font's package.

    The package mixes OTF and TTF of one face, and so would every paper made from its folder; the
    three TTF are copied, unaltered, once. ``target``: the folder to use; without it a folder in
    the user's cache (``XDG_CACHE_HOME``, else ``~/.cache``), or in the temporary folder where that
    cannot be written. Raises OSError where ``target`` cannot be written.
    """
    import font_source_sans_pro  # type: ignore[import-untyped]  # it ships no types

    source = Path(font_source_sans_pro.font_directory)
    if target is not None:
        return _copy_fonts(source, target)
    cache = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    try:
        return _copy_fonts(source, cache / "reelwright" / "fonts")
    except OSError:
        return _copy_fonts(source, Path(tempfile.gettempdir()) / f"reelwright-fonts-{os.getuid()}")


def _copy_fonts(source: Path, target: Path) -> Path:
    target.mkdir(parents=True, exist_ok=True)
    for name in FONT_FILES:
        wanted, there = source / name, target / name
        if there.is_file() and there.stat().st_size == wanted.stat().st_size:
            continue
        # Another process may read the folder now: a file appears whole or not at all.
        handle, half = tempfile.mkstemp(dir=target, suffix=".part")
        os.close(handle)
        shutil.copyfile(wanted, half)
        Path(half).chmod(0o644)
        os.replace(half, there)
    return target
