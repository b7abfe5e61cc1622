"""Measured growth of pins: what is made of few and of many, and what it claims."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.dies.pin_growth import CONFIDENCE, COVERAGE, MeasuredGrowth
from reelwright.core.errors import BadValue
from reelwright.core.statistics.normal import chance_below
from reelwright.core.verdicts import Basis


def grown(*growths_mm: float, gauge_mm: float | None = None) -> MeasuredGrowth:
    """Pins that grew by so much."""
    return MeasuredGrowth(
        growths_m=tuple(each / 1e3 for each in growths_mm),
        gauge_uncertainty_m=None if gauge_mm is None else gauge_mm / 1e3,
    )


def test_the_interval_holds_what_it_claims() -> None:
    """Of 20 000 seeded samples of five, the interval holds 99.73 % in 95 of 100, ± 0.5."""
    draws = np.random.default_rng(1961).normal(size=(20_000, 5))
    factor = grown(0.01, 0.02, 0.03, 0.02, 0.02).factor
    held = 0
    for mean, s in zip(draws.mean(axis=1), draws.std(axis=1, ddof=1), strict=True):
        inside = chance_below(limit=mean + factor * s, mean=0.0, deviation=1.0) - chance_below(
            limit=mean - factor * s, mean=0.0, deviation=1.0
        )
        held += inside >= COVERAGE
    # Three standard deviations of a share of 0.95 by 20 000 samples are 0.0046.
    assert held / 20_000 == pytest.approx(CONFIDENCE, abs=0.0046)


def test_five_pins_are_the_least() -> None:
    """One to four leave the reckoned range and say how many there are."""
    pins = (0.04, 0.05, 0.06, 0.05, 0.04)
    for count in range(1, 5):
        assert grown(*pins[:count]).lacking == f"measured {count} of 5, the reckoned range stands"
    assert grown(*pins).lacking == ""


def test_pins_alike_to_the_last_digit_say_nothing_of_their_spread() -> None:
    """Without the gauge's uncertainty they do not count; with it √2·u is the spread."""
    assert "alike to the last digit" in grown(*[0.05] * 6).lacking
    known = grown(*[0.05] * 6, gauge_mm=0.004)
    assert known.lacking == ""
    assert known.tolerance_m == pytest.approx(known.factor * 2**0.5 * 0.004e-3)
    assert "of the gauge alone" in known.told


def test_what_is_told_names_pins_interval_and_claim() -> None:
    """By hand: mean 0.052 mm, s 5.339 µm, k 7.64, ± 0.041 mm."""
    told = grown(0.045, 0.050, 0.060, 0.052, 0.053).told.replace("\u202f", " ")
    assert told == (
        "5 measured pins grew by 0.052 mm ± 0.041 mm (s 0.0054 mm, k 7.64: 99.73 % of all "
        "pins lie within, with 95 % confidence)"
    )
    assert grown(0.05).source.basis is Basis.OWN_SHOP


@pytest.mark.parametrize(
    ("growths_m", "gauge_m"),
    [((), None), ((float("nan"),), None), ((0.1e-3,), 0.0), ((0.1e-3,), -1e-6)],
    ids=["none", "no number", "a gauge without doubt", "a gauge below zero"],
)
def test_nonsense_is_refused(growths_m: tuple[float, ...], gauge_m: float | None) -> None:
    """No pin, a growth that is no number, a gauge that is never off."""
    with pytest.raises(BadValue):
        MeasuredGrowth(growths_m=growths_m, gauge_uncertainty_m=gauge_m)


@given(st.lists(st.integers(-50, 300), min_size=5, max_size=9), st.integers(1, 20))
def test_a_coarser_gauge_never_narrows_the_interval(steps_um: list[int], gauge_um: int) -> None:
    """The spread is that of the pins or of the gauge, whichever is more."""
    growths_mm = [step / 1e3 for step in steps_um]
    alone = grown(*growths_mm, gauge_mm=gauge_um / 2e3)
    coarse = grown(*growths_mm, gauge_mm=gauge_um / 1e3)
    assert coarse.tolerance_m >= alone.tolerance_m
    assert coarse.tolerance_m >= coarse.factor * coarse.deviation_m
