"""The two-term law of loss: what it gives back, where it refuses."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import LossPoint
from reelwright.core.physics.loss_law import LossLaw, fit_loss_law
from reelwright.core.verdicts import Reason
from tests.signal_world import VID_60

FREQUENCIES_HZ = (10e6, 100e6, 500e6, 1000e6)


def points(*pairs: tuple[float, float]) -> tuple[LossPoint, ...]:
    """Return loss points from (MHz, dB/m)."""
    return tuple(LossPoint(frequency_hz=f * 1e6, loss_db_per_m=loss) for f, loss in pairs)


@given(
    root=st.floats(min_value=1e-6, max_value=1e-4), linear=st.floats(min_value=0, max_value=1e-9)
)
def test_a_law_is_found_again_from_its_own_points(root: float, linear: float) -> None:
    """Points made by k1·√f + k2·f give k1 and k2 back, with no residual."""
    made = tuple(
        LossPoint(frequency_hz=f, loss_db_per_m=root * f**0.5 + linear * f) for f in FREQUENCIES_HZ
    )
    law = fit_loss_law(made)
    # A linear part of nothing may come out a hair below zero, which is refused: both are right.
    if isinstance(law, Reason):
        assert linear * FREQUENCIES_HZ[-1] < 1e-9 * root * FREQUENCIES_HZ[-1] ** 0.5
        return
    asked = np.array([3e6, 6e9])
    wanted = root * np.sqrt(asked) + linear * asked
    np.testing.assert_allclose(
        law.loss_db_per_m(asked, temperature_celsius=20.0), wanted, rtol=1e-7
    )
    assert law.worst_residual < 1e-9


def law_of_vid_60() -> LossLaw:
    """Return the law of the demo workshop's 6 mm coax."""
    law = fit_loss_law(VID_60.sheet.loss_points)
    assert isinstance(law, LossLaw)
    return law


def test_only_the_conductor_part_follows_temperature() -> None:
    """At 40 °C the loss rises by √1.0786 in its conductor part and not at all in the other."""
    law = law_of_vid_60()
    frequency = 1485e6
    conductor = law.conductor_db_per_m_per_root_hz * frequency**0.5
    cold = float(law.loss_db_per_m(frequency, temperature_celsius=20.0))
    warm = float(law.loss_db_per_m(frequency, temperature_celsius=40.0))
    assert warm - cold == pytest.approx(conductor * (1.0786**0.5 - 1), rel=1e-9)


@pytest.mark.parametrize("frequency_hz", [20e3, 1e6, 2.99e6])
def test_the_law_is_never_asked_below_3_mhz(frequency_hz: float) -> None:
    """Audio and everything else below 3 MHz is refused, not answered wrongly."""
    with pytest.raises(BadValue, match="R and C decide"):
        law_of_vid_60().loss_db_per_m(frequency_hz, temperature_celsius=20.0)


def test_it_says_when_it_goes_beyond_its_points() -> None:
    """Above the highest point the law extrapolates; at it and below it does not."""
    law = law_of_vid_60()
    assert law.extrapolates(1486e6)
    assert not law.extrapolates(1485e6)


def test_points_below_3_mhz_do_not_count() -> None:
    """Three points of which one lies at 1 MHz are two, and too few."""
    answer = fit_loss_law(points((1, 0.008), (100, 0.07), (1000, 0.24)))
    assert isinstance(answer, Reason)
    assert answer.code == "loss-points-missing"
    assert "2 usable" in answer.sentence


def test_points_that_bend_the_wrong_way_give_a_reason() -> None:
    """Losses that grow slower than √f need a negative part, so there is no law."""
    answer = fit_loss_law(points((10, 0.03), (100, 0.07), (1000, 0.15)))
    assert isinstance(answer, Reason)
    assert answer.code == "loss-points-do-not-fit"


def test_a_wrong_unit_in_one_point_shows_in_the_residual() -> None:
    """One point pasted in dB/100 ft among points in dB/100 m leaves a residual above 2 %."""
    stated = points((10, 0.0241), (135, 0.0902 / 3.28084), (742.5, 0.2185), (1485, 0.3162))
    law = fit_loss_law(stated)
    assert not isinstance(law, LossLaw) or law.worst_residual > 0.02
