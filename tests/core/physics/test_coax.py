"""A coax from its dimensions: identities of the formulae, and the demo's loss from geometry."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.materials.metals import COPPER
from reelwright.core.physics import coax
from reelwright.core.physics.skin import skin_depth_m, surface_resistance_ohm
from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S

diameters = st.floats(min_value=1e-4, max_value=5e-3)
ratios = st.floats(min_value=1.05, max_value=20)
factors = st.floats(min_value=0.5, max_value=1.0)


@given(inner_m=diameters, ratio=ratios, velocity_factor=factors)
def test_inductance_times_capacitance_is_the_square_of_the_delay(
    inner_m: float, ratio: float, velocity_factor: float
) -> None:
    """L·C = delay² and Z0 = √(L/C) when the dielectric is not magnetic: L does not know it."""
    outer_m = inner_m * ratio
    inductance = coax.inductance_h_per_m(inner_m=inner_m, outer_m=outer_m)
    capacitance = coax.capacitance_f_per_m(
        inner_m=inner_m, outer_m=outer_m, velocity_factor=velocity_factor
    )
    delay = coax.delay_s_per_m(velocity_factor=velocity_factor)
    impedance = coax.impedance_ohm(
        inner_m=inner_m, outer_m=outer_m, velocity_factor=velocity_factor
    )
    assert inductance * capacitance == pytest.approx(delay**2, rel=1e-9)
    assert np.sqrt(inductance / capacitance) == pytest.approx(impedance, rel=1e-9)


def test_a_line_filled_with_vacuum_has_the_delay_of_light() -> None:
    """At velocity factor 1 a metre takes 1/c."""
    assert coax.delay_s_per_m(velocity_factor=1.0) * SPEED_OF_LIGHT_M_PER_S == pytest.approx(1)


@pytest.mark.parametrize(("inner_m", "outer_m"), [(0.0, 1e-3), (2e-3, 1e-3), (1e-3, 1e-3)])
def test_a_conductor_that_does_not_fit_its_screen_is_refused(
    inner_m: float, outer_m: float
) -> None:
    """Zero, larger and equal diameters have no impedance."""
    with pytest.raises(BadValue):
        coax.impedance_ohm(inner_m=inner_m, outer_m=outer_m, velocity_factor=0.8)


@pytest.mark.parametrize("factor", [0.0, -0.5, 1.01])
def test_a_speed_above_light_or_of_nothing_is_refused(factor: float) -> None:
    """A velocity factor lies above 0 and at most at 1."""
    with pytest.raises(BadValue):
        coax.delay_s_per_m(velocity_factor=factor)


def test_loss_grows_as_the_root_and_the_first_power_of_frequency() -> None:
    """Four times the frequency doubles the conductor part and quadruples the dielectric part."""
    frequencies = np.array([100e6, 400e6])
    conductor = coax.conductor_loss_db_per_m(
        frequencies,
        inner_m=1e-3,
        outer_m=4.5e-3,
        velocity_factor=0.83,
        metal=COPPER,
        inner_factor=1.0,
        outer_factor=1.25,
    )
    dielectric = coax.dielectric_loss_db_per_m(
        frequencies, velocity_factor=0.83, loss_tangent=1.5e-4
    )
    assert conductor[1] / conductor[0] == pytest.approx(2)
    assert dielectric[1] / dielectric[0] == pytest.approx(4)


def test_surface_resistance_is_resistivity_over_skin_depth() -> None:
    """Rs·δ = ρ at every frequency, and both keep the shape they were asked in."""
    frequencies = np.array([[1e6, 1e8], [1e9, 1e10]])
    depth = skin_depth_m(frequencies, metal=COPPER)
    resistance = surface_resistance_ohm(frequencies, metal=COPPER)
    assert depth.shape == (2, 2)
    np.testing.assert_allclose(depth * resistance, COPPER.resistivity_ohm_m)


# Centre, dielectric (mm), velocity factor, factors of strands and of foil and braid, loss tangent.
GEOMETRY = {
    "VID-70": (1.024, 4.57, 0.830, 1.00, 1.25, 1.5e-4),
    "VID-60": (0.812, 3.66, 0.830, 1.00, 1.25, 1.5e-4),
    "VID-40": (0.584, 2.59, 0.830, 1.00, 1.25, 1.5e-4),
    "VID-28": (0.405, 1.80, 0.825, 1.00, 1.30, 1.5e-4),
    "VID-70P": (1.024, 4.50, 0.840, 1.00, 1.25, 4.5e-4),
    "VID-60P": (0.812, 3.56, 0.840, 1.00, 1.25, 4.5e-4),
    "VID-70F": (1.100, 4.90, 0.825, 1.18, 1.35, 2.0e-4),
    "PHO-61": (0.575, 4.57, 0.800, 1.00, 1.30, 2.0e-4),
}
PRINTED_DB_PER_100M = {
    "VID-70": (1.9, 7.3, 17.7, 25.8),
    "VID-60": (2.4, 9.0, 21.9, 31.6),
    "VID-40": (3.4, 12.6, 30.3, 43.6),
    "VID-28": (4.9, 18.3, 43.7, 62.6),
    "VID-70P": (2.0, 7.7, 20.2, 30.6),
    "VID-60P": (2.5, 9.6, 24.5, 36.8),
    "VID-70F": (2.1, 7.9, 19.6, 28.6),
    "PHO-61": (2.3, 8.8, 21.7, 31.7),
}


@pytest.mark.parametrize("code", GEOMETRY)
def test_the_demo_workshops_losses_follow_from_geometry(code: str) -> None:
    """The printed losses of the invented cables come out of the formulae to the digit printed."""
    inner_mm, outer_mm, velocity_factor, inner_factor, outer_factor, tangent = GEOMETRY[code]
    frequencies = np.array([10e6, 135e6, 742.5e6, 1485e6])
    loss = coax.conductor_loss_db_per_m(
        frequencies,
        inner_m=inner_mm / 1e3,
        outer_m=outer_mm / 1e3,
        velocity_factor=velocity_factor,
        metal=COPPER,
        inner_factor=inner_factor,
        outer_factor=outer_factor,
    ) + coax.dielectric_loss_db_per_m(
        frequencies, velocity_factor=velocity_factor, loss_tangent=tangent
    )
    # Half the last digit printed.
    np.testing.assert_allclose(100 * loss, PRINTED_DB_PER_100M[code], rtol=0, atol=0.05)
