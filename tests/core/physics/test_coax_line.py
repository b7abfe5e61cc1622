"""Coaxes from geometry: figures worked out apart, limits, facts of the trade, refusals."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.materials.insulation import FOAM_PE, PE
from reelwright.core.materials.metals import COPPER
from reelwright.core.physics.braid import Braid
from reelwright.core.physics.coax_line import CoaxGeometry, coax_parameters
from reelwright.core.physics.conductor import solid_wire
from reelwright.core.physics.screen import Screen, braided_screen, solid_screen
from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S
from tests.core.physics.line_world import CLAD_COAX, coax, tube

WIDE = np.geomspace(1.0, 2e10, 60)


def test_audio_to_video_is_as_worked_out_apart() -> None:
    """Series 59 in foam of loss tangent 2e-4: loss, impedance and speed, computed apart."""
    foam = replace(
        FOAM_PE,
        dielectric=replace(FOAM_PE.dielectric, loss_tangent_low=2e-4, loss_tangent_high=2e-4),
    )
    line = coax(insulation=foam).parameters(
        [20.0, 1e3, 20e3, 1e5, 1e6, 3e6, 1e7], temperature_celsius=20.0
    )
    expected = np.array([0.0127, 0.0879, 0.290, 0.378, 0.799, 1.273, 2.329])
    half_a_digit = np.array([5e-5, 5e-5, 5e-4, 5e-4, 5e-4, 5e-4, 5e-4])
    assert (np.abs(100 * line.loss_db_per_m - expected) < half_a_digit).all()
    np.testing.assert_allclose(
        np.abs(line.impedance_ohm), [3060, 433, 107, 82.6, 77.4, 76.5, 75.9], rtol=0.003
    )
    np.testing.assert_allclose(
        np.degrees(np.angle(line.impedance_ohm)), [-45, -44, -28, -9, -2, -1, -0.6], atol=0.6
    )
    np.testing.assert_allclose(
        1 / line.delay_s_per_m / SPEED_OF_LIGHT_M_PER_S,
        [0.029, 0.20, 0.655, 0.763, 0.806, 0.815, 0.822],
        rtol=0.01,
    )


def test_at_audio_a_cable_is_resistance_and_capacitance() -> None:
    """At 20 Hz α is √(ωRC/2) and the impedance lies at −45°: never 75 Ω there."""
    line = coax().parameters([20.0], temperature_celsius=20.0)
    expected = np.sqrt(np.pi * 20.0 * line.resistance_ohm_per_m[0] * line.capacitance_f_per_m[0])
    assert line.gamma[0].real == pytest.approx(expected, rel=0.002)
    assert abs(line.impedance_ohm[0]) > 40 * 75


def test_the_low_end_is_the_two_resistances() -> None:
    """At 1 Hz R is that of the centre and of the screen at direct current."""
    for one in (coax(), CLAD_COAX):
        for celsius in (0.0, 50.0):
            direct = one.conductor.direct_resistance_ohm_per_m(
                celsius
            ) + one.screen.direct_resistance_ohm_per_m(celsius)
            ours = one.parameters([1.0], temperature_celsius=celsius).resistance_ohm_per_m[0]
            assert ours == pytest.approx(direct, rel=1e-5)


def test_the_high_end_is_the_textbook() -> None:
    """At 20 GHz R is Rs/π·(1/d + 1/D), and L·C is that of the dielectric within the skin."""
    line = coax(wall_m=0.3e-3).parameters([2e10], temperature_celsius=20.0)
    surface = np.sqrt(np.pi * 2e10 * 4e-7 * np.pi * COPPER.resistivity_ohm_m)
    textbook = surface / np.pi * (1 / 0.81e-3 + 1 / 3.66e-3)
    assert line.resistance_ohm_per_m[0] == pytest.approx(textbook, rel=0.002)
    permittivity = FOAM_PE.causal_at(20.0).permittivity(2e10).real
    delay = np.sqrt(line.inductance_h_per_m[0] * line.capacitance_f_per_m[0])
    assert delay * SPEED_OF_LIGHT_M_PER_S == pytest.approx(np.sqrt(permittivity), rel=0.001)


@given(
    inner_m=st.floats(0.2e-3, 3e-3),
    ratio=st.floats(1.3, 8),
    wall_m=st.floats(5e-6, 5e-4),
    celsius=st.floats(-30, 90),
)
def test_every_coax_is_passive_and_worse_when_higher_or_warmer(
    inner_m: float, ratio: float, wall_m: float, celsius: float
) -> None:
    """R and G are above zero, loss rises with frequency and, at high frequency, with heat."""
    one = coax(inner_m, inner_m * ratio, wall_m=wall_m)
    both = coax_parameters((one,), WIDE, temperatures_celsius=(celsius, celsius + 10))
    assert both.resistance_ohm_per_m.min() > 0
    assert both.conductance_siemens_per_m.min() > 0
    assert (np.diff(both.loss_db_per_m, axis=-1) > 0).all()
    assert (both.resistance_ohm_per_m[0, 1] > both.resistance_ohm_per_m[0, 0])[WIDE < 1e3].all()
    assert (both.loss_db_per_m[0, 1] > both.loss_db_per_m[0, 0])[WIDE > 1e8].all()


def test_many_at_once_are_each_by_itself() -> None:
    """Three coaxes at two temperatures in one call are bit for bit the six single ones."""
    coaxes = (coax(), CLAD_COAX, coax(1.63e-3, 7.11e-3, wall_m=9e-6, insulation=PE))
    together = coax_parameters(coaxes, WIDE, temperatures_celsius=(20.0, 40.0))
    assert together.shape == (3, 2, 60)
    for place, one in enumerate(coaxes):
        for other, celsius in enumerate((20.0, 40.0)):
            alone = one.parameters(WIDE, temperature_celsius=celsius)
            np.testing.assert_array_equal(together.gamma[place, other], alone.gamma)


def test_the_factor_of_a_braid_acts_at_the_high_end_only() -> None:
    """Twice the smooth screen's surface resistance at 1 GHz, the same at direct current."""
    smooth, rough = coax(), coax(factor=2.0)
    frequency = [1.0, 1e9]
    centre = smooth.conductor.internal_impedance_ohm_per_m(frequency, temperature_celsius=20.0)
    ours, other = (
        one.parameters(frequency, temperature_celsius=20.0).resistance_ohm_per_m - centre.real
        for one in (smooth, rough)
    )
    assert other[0] == pytest.approx(ours[0], rel=1e-4)
    assert other[1] == pytest.approx(2 * ours[1], rel=0.01)


def test_a_braid_and_the_tube_of_its_resistance_are_one_at_direct_current() -> None:
    """A screen made from a braid has the braid's own resistance."""
    braid = Braid(
        metal=COPPER,
        carriers=16,
        ends=7,
        strand_diameter_m=0.127e-3,
        under_diameter_m=3.66e-3,
        angle_deg=27.0,
    )
    screen = braided_screen(braid, loss_factor=1.5, factor_origin="the test")
    assert screen.direct_resistance_ohm_per_m(35.0) == pytest.approx(
        braid.direct_resistance_ohm_per_m(35.0)
    )


def test_thin_wire_in_foam_suits_unbalanced_audio() -> None:
    """Common practice, no published source: a thin centre in foam under a heavy screen has less
    capacitance than a thick one in solid dielectric, and the heavy screen less resistance.
    """
    good = coax(0.4e-3, 3.7e-3, insulation=FOAM_PE, wall_m=150e-6)
    poor = coax(0.8e-3, 3.7e-3, insulation=PE, wall_m=30e-6)
    fine, coarse = (one.parameters([20e3], temperature_celsius=20.0) for one in (good, poor))
    assert fine.capacitance_f_per_m[0] < 0.6 * coarse.capacitance_f_per_m[0]
    assert good.screen.direct_ohm_per_m < 0.25 * poor.screen.direct_ohm_per_m


def test_of_two_75_ohm_coaxes_the_thinner_loses_more() -> None:
    """Common practice, no published source: at every frequency from audio to 12 GHz."""
    thin, thick = (
        coax(size * 0.81e-3, size * 3.66e-3).parameters(
            np.geomspace(20, 12e9, 40), temperature_celsius=20.0
        )
        for size in (0.6, 1.2)
    )
    assert (thin.loss_db_per_m > thick.loss_db_per_m).all()


def test_a_conductor_wider_than_its_screen_is_refused() -> None:
    """Nothing fits into less than itself."""
    with pytest.raises(BadValue, match="bundle_diameter_m"):
        CoaxGeometry(
            conductor=solid_wire(COPPER, diameter_m=4e-3), insulation=PE, screen=tube(3.66e-3)
        )


def test_a_screen_better_than_smooth_or_without_wall_is_refused() -> None:
    """A factor below 1 and a wall of nothing name their field and what is accepted."""
    with pytest.raises(BadValue, match=r"loss_factor.*1 or more"):
        Screen(**{**vars(tube(1e-3)), "loss_factor": 0.9})
    with pytest.raises(BadValue, match="wall_m"):
        solid_screen(COPPER, inside_diameter_m=1e-3, wall_m=0.0, loss_factor=1.0, factor_origin="x")


def test_a_frequency_out_of_range_is_refused() -> None:
    """30 GHz is beyond what was checked."""
    with pytest.raises(BadValue, match="frequency_hz"):
        coax().parameters([3e10], temperature_celsius=20.0)
