"""The pages' custom properties are the constants of ``style.py``, so that paper and page agree."""

import re
from pathlib import Path

import pytest

import reelwright.web
from reelwright import style

CSS = Path(reelwright.web.__path__[0])
TOKENS = (CSS / "widgets/static/widgets/tokens.css").read_text(encoding="utf-8")
VALUES = dict(re.findall(r"--([a-z-]+):\s*([^;]+);", TOKENS))
COLOURS = (
    "PAPER",
    "SHEET",
    "INK",
    "GRAPHITE",
    "HAIRLINE",
    "COPPER",
    "COPPER_TINT",
    "GOOD",
    "GOOD_TINT",
    "CAUTION",
    "CAUTION_TINT",
    "BAD",
    "BAD_TINT",
)


@pytest.mark.parametrize("name", COLOURS)
def test_each_colour_is_the_one_of_paper_and_drawing(name: str) -> None:
    """A custom property has exactly the value of the constant of its name."""
    assert VALUES[name.lower().replace("_", "-")] == getattr(style, name)


def test_type_and_sizes_are_those_of_paper_and_drawing() -> None:
    """Font, weights, sizes and grid are the constants, in pixels."""
    assert VALUES["font"] == f'"{style.FONT_FAMILY}"'
    weights = (VALUES["regular"], VALUES["semibold"], VALUES["bold"])
    assert tuple(map(int, weights)) == (style.REGULAR, style.SEMIBOLD, style.BOLD)
    desk = tuple(VALUES[name] for name in ("small", "text", "lead", "answer"))
    assert desk == tuple(f"{size}px" for size in style.DESK_SIZES_PX)
    bench = tuple(VALUES[f"bench-{name}"] for name in ("small", "text", "lead", "number"))
    assert bench == tuple(f"{size}px" for size in style.BENCH_SIZES_PX)
    assert VALUES["grid"] == f"{style.GRID_PX}px"


def test_no_other_sheet_names_a_colour() -> None:
    """Colours stand in the tokens alone: every other rule asks for them by name."""
    for path in CSS.rglob("*.css"):
        if path.name != "tokens.css":
            assert not re.search(r"#[0-9A-Fa-f]{3,8}\b|rgb\(", path.read_text()), path


def test_every_property_that_is_asked_for_exists() -> None:
    """A misspelt custom property would fall back to nothing without a word."""
    for path in CSS.rglob("*.css"):
        asked = set(re.findall(r"var\(--([a-z-]+)", path.read_text()))
        assert asked <= set(VALUES), path
