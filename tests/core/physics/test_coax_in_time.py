"""A coax from its dimensions, all the way to its eye and its pulse."""

import numpy as np
import pytest

from reelwright.core.materials.insulation import PE, foam_of
from reelwright.core.materials.metals import COPPER
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.coax_line import CoaxGeometry
from reelwright.core.physics.conductor import solid_wire
from reelwright.core.physics.line_parameters import LineParameters
from reelwright.core.physics.pulse import cursors
from reelwright.core.physics.screen import SMOOTH, solid_screen
from reelwright.core.physics.step import Band, TimeGrid, gaussian_edge, impulse_response_per_s
from reelwright.core.physics.terminations import voltage_ratio
from reelwright.core.physics.two_port import line

COAX = CoaxGeometry(
    conductor=solid_wire(COPPER, diameter_m=1.02e-3),
    insulation=foam_of(PE, name="foam", relative_permittivity=1.45),
    screen=solid_screen(
        COPPER, inside_diameter_m=4.57e-3, wall_m=50e-6, loss_factor=1.0, factor_origin=SMOOTH
    ),
)
BAND = Band(lowest_hz=1.0, highest_hz=20e9)


def _at(frequency_hz: FloatArray) -> LineParameters:
    return COAX.parameters(frequency_hz, temperature_celsius=20.0)


FRONT_S_PER_M = float(_at(np.array([20e9])).delay_s_per_m[0])


def test_nothing_arrives_before_the_front_of_a_real_coax() -> None:
    """100 m with exact skin effect and a causal foam: less than 1e-12 of the energy comes early."""

    def through(frequency_hz: FloatArray) -> ComplexArray:
        run = line(parameters=_at(frequency_hz), length_m=100.0, reference_ohm=75.0)
        ratio = voltage_ratio(run, source_ohm=75.0, load_ohm=75.0)
        return ratio * gaussian_edge(frequency_hz, rise_s=100e-12)

    grid = TimeGrid(start_s=100 * FRONT_S_PER_M - 10e-9, step_s=10e-12, sample_count=4096)
    direct = float(_at(np.array([1.0])).resistance_ohm_per_m[0])
    pulse = impulse_response_per_s(
        through, at_rest_ratio=75 / (150 + 100 * direct), grid=grid, band=BAND
    )
    early = grid.time_s[:-1] < 100 * FRONT_S_PER_M - 3 * 100e-12
    assert (pulse[early] ** 2).sum() < 1e-12 * (pulse**2).sum()


@pytest.mark.parametrize(("loss_db", "is_open"), [(10.50, True), (10.75, False)])
def test_a_bare_eye_closes_a_little_past_that_of_a_root_law(loss_db: float, is_open: bool) -> None:
    """At 270 Mb/s the worst eye closes near 10.63 dB at half clock, against 10.59 of √f."""
    # The first figure: simulated apart from this code, on the same dimensions.
    per_metre = float(_at(np.array([135e6])).loss_db_per_m[0])
    length_m = loss_db / per_metre
    found = cursors(
        lambda frequency_hz: np.exp(-_at(frequency_hz).gamma * length_m),
        at_rest_ratio=1.0,
        delay_s=FRONT_S_PER_M * length_m,
        bit_s=1 / 270e6,
        phase_count=128,
        before_count=2,
        after_count=100,
        band=BAND,
    )
    assert (found.worst_opening_ratio.max() > 0) == is_open
    assert abs(found.worst_opening_ratio.max()) < 0.02
