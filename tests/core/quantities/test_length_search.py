"""Lengths in the sentences of the demo workshop's customers."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.quantities.length_search import find_lengths


@pytest.mark.parametrize(
    ("sentence", "lengths_m"),
    [
        ("Need 450' of your standard video cable with BNCs for 3G.", [137.16]),
        ("6 × 85 ft VID-70 blue BNC–BNC above an air-return ceiling, HD 1.485.", [25.908]),
        ("12 foot lead from the tape deck to the desk, RCA, the *thick flexible* one", [3.6576]),
        ("Matched RGBHV set, 15.2 m, VID-40, 1920×1200 at 154 MHz", [15.2]),
        ("220 ft to the first loudspeaker, then one every 20 ft, 14 gauge", [67.056, 6.096]),
        ("XLR-3F to 6.35 mm plug, 18 m trunk", [18.0]),
        ("1/4 inch jack to 1/4\" jack, twelve foot", [3.6576]),
        ("15 m optical audio.", [15.0]),
        ("VID-60 green BNC–BNC, 33 ft 4 in, 41.00 ns measured", [10.16]),
        ("Mic cable, 100 ft, XLR to RCA, *balanced*, on the 75-ohm coax", [30.48]),
        ("30 × 10 ft VID-60 red, ten per rack", [3.048]),
        ("2 in blue and 3 in red, please", []),
        ("the same as last time", []),
        ("1,200 mm [see drawing]", []),
        ("a 33'4\" lead (not 33 m!)", [10.16, 33.0]),
        ("70 V line, 8 x 15 W", []),
    ],
)  # fmt: skip
def test_lengths_are_found_and_other_figures_left_alone(
    sentence: str, lengths_m: list[float]
) -> None:
    """Each sentence gives its lengths of cable, and no gauge, size of plug, rate or model."""
    assert [found.length_m for found in find_lengths(sentence)] == lengths_m


@given(sentence=st.text(max_size=60))
def test_no_sentence_breaks_the_search(sentence: str) -> None:
    """Any sentence at all gives positive lengths or none."""
    assert all(found.length_m > 0 for found in find_lengths(sentence))
