"""The drawing of a pin's tip in its window, and its table."""

import re
from dataclasses import replace

import pytest

from reelwright.core.errors import BadValue
from reelwright.drawings.tip import TipPart, TipView, draw_tip, tip_table
from reelwright.style import BAD_TINT, COPPER_TINT

VIEW = TipView(
    title="Where the pin tip of T-02 rev D lands",
    least_m=5.45e-3,
    most_m=5.79e-3,
    mean_m=5.60e-3,
    worst_least_m=5.30e-3,
    worst_most_m=5.90e-3,
    shares_from_m=5.40e-3,
    shares_to_m=5.80e-3,
    shares=(0.1, 0.2, 0.4, 0.2, 0.1),
    parts=(
        TipPart(name="creep", tolerance_m=0.12e-3, spread_share=0.56, keeper="workshop"),
        TipPart(name="seating", tolerance_m=0.08e-3, spread_share=0.25, keeper="workshop"),
        TipPart(name="pin", tolerance_m=0.005e-3, spread_share=0.19, keeper="maker"),
    ),
)


def polygons(svg: str, fill: str) -> list[list[tuple[float, float]]]:
    """The corners of every polygon of that fill."""
    return [
        [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+),(-?[\d.]+)", points)]
        for points in re.findall(rf'<polygon points="([^"]+)" fill="{fill}"', svg)
    ]


def test_the_table_says_what_the_bars_say() -> None:
    """Names, tolerances to the micrometre where finer, shares in whole percent, whose it is."""
    rows = tip_table(VIEW)
    assert [row.share for row in rows] == ["56\u202f%", "25\u202f%", "19\u202f%"]
    assert rows[2].tolerance == "± 0.005\u202fmm"
    assert rows[2].keeper == "maker"
    svg = draw_tip(VIEW)
    assert all(row.name in svg and row.share in svg for row in rows)


def test_what_lies_outside_is_cut_off_at_the_window() -> None:
    """One piece inside, one on either side, and they meet exactly at the limits."""
    svg = draw_tip(VIEW)
    (inside,) = polygons(svg, COPPER_TINT)
    low, high = polygons(svg, BAD_TINT)
    assert max(x for x, _ in low) == min(x for x, _ in inside)
    assert max(x for x, _ in inside) == min(x for x, _ in high)


def test_a_spread_within_its_window_has_nothing_outside() -> None:
    """No red piece where no pin lands outside."""
    wide = replace(VIEW, least_m=5.0e-3, most_m=6.2e-3)
    assert polygons(draw_tip(wide), BAD_TINT) == []


def test_everything_stays_on_the_sheet() -> None:
    """However far the mean lies off, marks and texts begin inside the drawing's width."""
    for mean_m in (5.30e-3, 5.90e-3):
        svg = draw_tip(replace(VIEW, mean_m=mean_m), width_px=480)
        xs = [float(x) for x in re.findall(r' x[12]?="(-?[\d.]+)"', svg)]
        assert min(xs) >= 0
        assert max(xs) <= 480


def test_it_says_in_words_what_it_shows() -> None:
    """Its description tells window, mean, worst case and shares."""
    told = re.search(r"<desc>(.*)</desc>", draw_tip(VIEW))
    assert told is not None
    for part in ("5.45\u202fmm to 5.79\u202fmm", "mean 5.60\u202fmm", "creep 56\u202f%"):
        assert part in told.group(1)


def test_a_window_that_is_shut_and_a_spread_of_nothing_are_refused() -> None:
    """Neither can be drawn."""
    with pytest.raises(BadValue):
        replace(VIEW, least_m=6e-3)
    with pytest.raises(BadValue):
        replace(VIEW, shares=(0.0, 0.0))
    with pytest.raises(BadValue):
        replace(VIEW, parts=())
