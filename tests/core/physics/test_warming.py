"""How warm a bundle gets: the balance of heat, its limits, and what is refused."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.warming import HeatedBundle


def bundle(current_a: float, cables: int = 24, ohm_per_m: float = 0.0938) -> HeatedBundle:
    """Return a bundle of data cables with all eight conductors carrying ``current_a`` [A]."""
    return HeatedBundle(
        cable_diameter_m=5.5e-3,
        cable_count=cables,
        conductors=8,
        conductor_ohm_per_m=ohm_per_m,
        current_a=current_a,
    )


@given(
    st.floats(min_value=0.0, max_value=1.0),
    st.integers(min_value=1, max_value=100),
    st.floats(min_value=-20, max_value=60),
)
def test_heat_in_is_heat_out(current_a: float, cables: int, ambient: float) -> None:
    """The rise is what the heat of copper so warm drives out, or there is none."""
    one = bundle(current_a, cables)
    rise = one.rise_k(ambient_celsius=ambient)
    per_kelvin = one.heat_resistance_k_m_per_w * one.heat_w_per_m * 0.00393
    if rise is None:
        assert per_kelvin >= 1
        return
    hot = one.heat_w_per_m * (1 + 0.00393 * (ambient + rise - 20))
    assert rise == pytest.approx(one.heat_resistance_k_m_per_w * hot, rel=1e-9, abs=1e-12)


@given(st.floats(min_value=0.01, max_value=40), st.floats(min_value=-20, max_value=60))
def test_current_and_rise_undo_each_other(rise_k: float, ambient: float) -> None:
    """The current for a rise brings that rise."""
    current = bundle(0.1).current_for_rise_a(rise_k=rise_k, ambient_celsius=ambient)
    assert bundle(current).rise_k(ambient_celsius=ambient) == pytest.approx(rise_k)


def test_warmth_grows_with_cables_current_and_resistance() -> None:
    """Nothing in it cools: each of the three makes the middle warmer; no current, no warmth."""
    usual = bundle(0.3).rise_k(ambient_celsius=20)
    assert usual is not None
    for more in (bundle(0.4), bundle(0.3, cables=48), bundle(0.3, ohm_per_m=0.13)):
        rise = more.rise_k(ambient_celsius=20)
        assert rise is not None
        assert rise > usual
    assert bundle(0.0).rise_k(ambient_celsius=40) == 0


def test_heat_that_feeds_itself_has_no_end() -> None:
    """Where warm copper makes heat faster than it gets away, there is no rise to tell."""
    assert bundle(5.0, cables=100).rise_k(ambient_celsius=20) is None


def test_one_cable_is_a_cylinder_of_its_own_size() -> None:
    """Surface and inside in series: 1/(π·D·h) + 1/(4π·k), worked out for 5.5 mm."""
    one = bundle(0.3, cables=1)
    paper = 1 / (math.pi * 5.5e-3 * 8) + 1 / (4 * math.pi * 0.15)
    assert one.heat_resistance_k_m_per_w == pytest.approx(paper)


@pytest.mark.parametrize(
    "change",
    [
        {"cable_diameter_m": 0.0},
        {"cable_count": 0},
        {"conductors": 0},
        {"conductor_ohm_per_m": -1.0},
        {"current_a": -0.1},
        {"current_a": math.nan},
    ],
)
def test_nonsense_is_refused(change: dict[str, float]) -> None:
    """No cable, no conductor, negative values."""
    values: dict[str, float] = {
        "cable_diameter_m": 5.5e-3,
        "cable_count": 24,
        "conductors": 8,
        "conductor_ohm_per_m": 0.0938,
        "current_a": 0.3,
    }
    with pytest.raises(BadValue):
        HeatedBundle(**(values | change))  # type: ignore[arg-type]
    with pytest.raises(BadValue):
        bundle(0.3).current_for_rise_a(rise_k=-1.0, ambient_celsius=20)
