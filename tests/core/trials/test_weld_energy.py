"""The first guess of a weld's energy and how far it may be off."""

import math

import numpy as np
import pytest

from reelwright.core.errors import BadValue
from reelwright.core.trials.weld_energy import (
    FARTHEST_FACTOR,
    KnownGauge,
    fit_energy_law,
    guess_energy,
)


def gauge(area_mm2: float, energy_j: float) -> KnownGauge:
    """A known gauge."""
    return KnownGauge(area_m2=area_mm2 * 1e-6, energy_j=energy_j)


KNOWN = (gauge(1.31, 96.0), gauge(2.08, 149.0), gauge(3.31, 243.0), gauge(5.26, 378.0))


def test_the_band_holds_a_new_gauge_as_often_as_it_claims() -> None:
    """On 2000 seeded shops whose true law is known, 90 % bands hold nine new gauges in ten."""
    dice = np.random.default_rng(20)
    areas = np.array([1.31, 2.08, 3.31, 5.26])
    held = 0
    for _ in range(2000):
        energies = 73.0 * areas**0.99 * np.exp(0.05 * dice.standard_normal(4))
        law = fit_energy_law([gauge(a, e) for a, e in zip(areas, energies, strict=True)])
        band = law.band_j(area_m2=6.6e-6, confidence=0.90)
        assert band is not None
        held += band[0] <= 73.0 * 6.6**0.99 * math.exp(0.05 * dice.standard_normal()) <= band[1]
    # The share of 2000 draws itself spreads by 0.7 %.
    assert held / 2000 == pytest.approx(0.90, abs=0.021)


def test_far_beyond_the_known_gauges_nothing_is_guessed() -> None:
    """Just inside twice the largest it is, and says so; outside it says why not."""
    edge_m2 = 5.26e-6 * FARTHEST_FACTOR
    inside = guess_energy(KNOWN, area_m2=edge_m2 * 0.999, confidence=0.95)
    assert inside.energy_j is not None
    assert "beyond the gauges known" in inside.sentence
    outside = guess_energy(KNOWN, area_m2=edge_m2 * 1.001, confidence=0.95)
    assert outside.energy_j is None
    assert outside.law is not None
    assert "not guessed" in outside.sentence
    assert guess_energy(KNOWN, area_m2=1.31e-6 / 2.1, confidence=0.95).energy_j is None


def test_a_band_is_wider_the_farther_out() -> None:
    """Narrowest in the middle of the known gauges."""

    def width(area_mm2: float) -> float:
        band = fit_energy_law(KNOWN).band_j(area_m2=area_mm2 * 1e-6, confidence=0.95)
        assert band is not None
        return band[1] / band[0]

    assert width(2.6) < width(1.31) < width(0.8)
    assert width(2.6) < width(5.26) < width(8.0)


@pytest.mark.parametrize("known", [(), KNOWN[:1], KNOWN[:1] * 3], ids=["none", "one", "one thrice"])
def test_one_gauge_is_no_law(known: tuple[KnownGauge, ...]) -> None:
    """Fewer than two different gauges: not computed, with the reason."""
    guess = guess_energy(known, area_m2=2e-6, confidence=0.95)
    assert (guess.law, guess.energy_j) == (None, None)
    assert "a law needs two" in guess.sentence


def test_two_gauges_have_no_spread() -> None:
    """The law passes through both, so no band is claimed."""
    guess = guess_energy(KNOWN[:2], area_m2=2e-6, confidence=0.95)
    assert guess.energy_j == pytest.approx(143.5, abs=0.5)
    assert guess.low_j is None
    with pytest.raises(BadValue):
        fit_energy_law(KNOWN).band_j(area_m2=2e-6, confidence=1.0)
