"""Direct current: temperature, loops, and what is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.materials.metals import COPPER
from reelwright.core.physics.resistance import (
    loop_resistance_ohm,
    resistance_at_20_ohm_per_m,
    temperature_factor,
    wire_resistance_ohm_per_m,
)


@given(
    resistance_ohm_per_m=st.floats(min_value=1e-4, max_value=1.0),
    length_m=st.floats(min_value=0.1, max_value=1000),
    celsius=st.floats(min_value=-40, max_value=90),
)
def test_a_warm_measurement_leads_back_to_20_degrees(
    resistance_ohm_per_m: float, length_m: float, celsius: float
) -> None:
    """What a warm conductor measures gives back what it has at 20 °C."""
    measured = resistance_ohm_per_m * length_m * temperature_factor(celsius)
    back = resistance_at_20_ohm_per_m(
        measured_ohm=measured, length_m=length_m, temperature_celsius=celsius
    )
    assert back == pytest.approx(resistance_ohm_per_m)


def test_the_microphone_loom_of_the_demo_has_its_loop_resistance() -> None:
    """18.45 m of 85 Ω/km out and back have 3.14 Ω at 20 °C, and with 2 % of twist 3.20 Ω."""
    for length_m, wanted in ((18.45, 3.14), (18.45 * 1.02, 3.20)):
        loop = loop_resistance_ohm(
            conductor_ohm_per_m=0.085,
            return_ohm_per_m=0.085,
            length_m=length_m,
            temperature_celsius=20.0,
        )
        assert loop == pytest.approx(wanted, abs=0.005)


@pytest.mark.parametrize("celsius", [-101.0, 251.0])
def test_temperatures_off_the_straight_line_are_refused(celsius: float) -> None:
    """Nearly frozen gases and hot ovens are not covered."""
    with pytest.raises(BadValue):
        temperature_factor(celsius)


def test_a_wire_of_no_diameter_is_refused() -> None:
    """Zero diameter has no resistance to state."""
    with pytest.raises(BadValue):
        wire_resistance_ohm_per_m(diameter_m=0.0, metal=COPPER, lay_factor=1.0)
