"""Delays made alike."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.delay import match_delays, skew_s

delays = st.dictionaries(
    st.sampled_from("RGBHV"), st.floats(min_value=3.5e-9, max_value=5e-9), min_size=1
)


@given(delay_s_per_m=delays, nominal_m=st.floats(min_value=0.5, max_value=100))
def test_matched_lengths_have_one_delay_and_are_moved_least(
    delay_s_per_m: dict[str, float], nominal_m: float
) -> None:
    """Every leg gets the target delay, which lies midway between the extremes of equal lengths."""
    match = match_delays(nominal_m=nominal_m, delay_s_per_m=delay_s_per_m)
    matched = {leg: match.length_m[leg] * delay for leg, delay in delay_s_per_m.items()}
    assert skew_s(matched) < 1e-18
    equal = [nominal_m * delay for delay in delay_s_per_m.values()]
    assert max(equal) - match.target_s == pytest.approx(match.target_s - min(equal), abs=1e-18)


def test_a_repeat_from_a_slower_lot() -> None:
    """The demo's repeat order: +124 ps at the same length, or 10.119 m at the same delay."""
    old, new = (1 / (factor * 299_792_458.0) for factor in (0.8290, 0.8265))
    assert 10.150 * (new - old) == pytest.approx(124e-12, abs=0.5e-12)
    assert 10.150 * old / new == pytest.approx(10.119, abs=0.0005)


def test_no_legs_and_no_length_are_refused() -> None:
    """There is nothing to match."""
    with pytest.raises(BadValue):
        match_delays(nominal_m=1.0, delay_s_per_m={})
    with pytest.raises(BadValue):
        match_delays(nominal_m=0.0, delay_s_per_m={"R": 4e-9})
    with pytest.raises(BadValue):
        skew_s({})
