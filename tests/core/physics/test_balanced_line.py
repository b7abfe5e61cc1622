"""Phantom supply and balance, against circuits solved node by node."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.balanced_line import LegUnbalance, PhantomSupply

SUPPLY = PhantomSupply(supply_v=48.0, feed_ohm=6.81e3)


def test_without_a_cable_half_of_one_feed_resistor_drops() -> None:
    """10 mA through 6.81 kΩ on each leg leave 13.95 V."""
    left = SUPPLY.microphone_v(
        current_a=0.01, leg_ohm_per_m=0.085, screen_ohm_per_m=0.03, length_m=0.0
    )
    assert float(left) == pytest.approx(48 - 0.01 * 6810 / 2)


@given(
    current_ma=st.floats(min_value=0.1, max_value=10),
    leg=st.floats(min_value=0.01, max_value=1),
    screen=st.floats(min_value=0.005, max_value=0.2),
    length_m=st.floats(min_value=0.1, max_value=2000),
)
def test_the_volts_solve_the_circuit(
    current_ma: float, leg: float, screen: float, length_m: float
) -> None:
    """Both legs, the screen and the microphone as node equations give the same voltage."""
    feed = 6810.0 + leg * length_m
    # Unknown: current of each leg, voltage at the microphone.
    matrix = np.array([[1.0, 1.0, 0.0], [feed, 0.0, 1.0], [0.0, feed, 1.0]])
    current = current_ma * 1e-3
    behind = 48.0 - current * screen * length_m
    solved = np.linalg.solve(matrix, np.array([current, behind, behind]))
    ours = SUPPLY.microphone_v(
        current_a=current, leg_ohm_per_m=leg, screen_ohm_per_m=screen, length_m=length_m
    )
    assert float(ours) == pytest.approx(solved[2], abs=1e-9)


@given(
    difference=st.floats(min_value=0.1, max_value=20),
    input_ohm=st.floats(min_value=5e3, max_value=100e3),
)
def test_the_rejection_is_that_of_two_dividers(difference: float, input_ohm: float) -> None:
    """Each leg divides the voltage between screens by its own resistance; the rest is signal."""
    legs = np.array([100.0, 100.0 + difference])
    divided = input_ohm / (input_ohm + legs)
    unbalance = LegUnbalance(
        resistance_ohm=difference, capacitance_f=0.0, source_ohm=200.0, input_ohm=input_ohm
    )
    # First order: the legs' own 100 Ω beside the input are left out, 2·120/5000 at the most.
    assert unbalance.converted_ratio(60.0) == pytest.approx(
        float(divided[0] - divided[1]), rel=0.05
    )


def test_capacitance_tells_at_the_top_only() -> None:
    """Unequal capacitance converts in proportion to frequency, and adds to resistance."""
    both = LegUnbalance(resistance_ohm=1.0, capacitance_f=100e-12, source_ohm=200.0, input_ohm=1e4)
    ratios = [both.converted_ratio(frequency) for frequency in (60.0, 20e3)]
    assert ratios[0] == pytest.approx(1e-4, rel=0.05)
    assert ratios[1] - 1e-4 == pytest.approx(2 * np.pi * 20e3 * 100e-12 * 100.0)


def test_legs_alike_reject_everything_and_nonsense_is_refused() -> None:
    """No difference is infinite rejection; negative figures are no figures."""
    alike = LegUnbalance(resistance_ohm=0.0, capacitance_f=0.0, source_ohm=200.0, input_ohm=1e4)
    assert alike.rejection_db(60.0) == float("inf")
    with pytest.raises(BadValue, match="input_ohm"):
        LegUnbalance(resistance_ohm=0.0, capacitance_f=0.0, source_ohm=0.0, input_ohm=0.0)
    with pytest.raises(BadValue):
        PhantomSupply(supply_v=0.0, feed_ohm=6810.0)
    with pytest.raises(BadValue):
        SUPPLY.microphone_v(current_a=-1.0, leg_ohm_per_m=0.1, screen_ohm_per_m=0.1, length_m=1.0)
