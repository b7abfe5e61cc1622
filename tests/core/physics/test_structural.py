"""Structural return loss and the limit of one mode: formulae against the exact line."""

from collections.abc import Callable

import mpmath
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.layers import layered_line
from reelwright.core.physics.line_parameters import LineParameters
from reelwright.core.physics.mode_limit import (
    highest_frequency_hz,
    te11_cutoff_hz,
    te11_estimate_hz,
)
from reelwright.core.physics.structural import (
    Ripple,
    bump_train_reflection,
    random_reflection_power,
    spike_frequency_hz,
    widest_step_hz,
)

VELOCITY_FACTOR = 0.8305


def foam_line(frequency_hz: np.ndarray) -> LineParameters:
    """A 75 Ω line of loss 0.00776 dB/m/√MHz and no dispersion, as its four parameters."""
    alpha = 0.00776 * np.log(10) / 20 * np.sqrt(frequency_hz / 1e6)
    delay = 1 / (VELOCITY_FACTOR * 299_792_458.0)
    flat = np.ones(frequency_hz.size)
    return LineParameters(
        frequency_hz=frequency_hz,
        resistance_ohm_per_m=75 * alpha,
        inductance_h_per_m=75 * delay * flat,
        conductance_siemens_per_m=alpha / 75,
        capacitance_f_per_m=delay / 75 * flat,
    )


@pytest.mark.parametrize(
    ("amplitude", "pitch_m", "length_m", "found_db"),
    [
        (0.002, 0.3, 100.0, (11.654, 11.605, 11.052)),
        (0.002, 0.3, 20.0, (16.695, 16.637, 16.549)),
        (0.001, 0.05, 100.0, (10.026, 9.980, 9.061)),
    ],
)
def test_a_ripple_gives_the_spike_of_coupled_modes(
    amplitude: float, pitch_m: float, length_m: float, found_db: tuple[float, float, float]
) -> None:
    """Exact cascade, coupled modes and first order come out as worked apart from this code."""
    exact_db, coupled_db, first_db = found_db
    per_pitch = 20
    spike = spike_frequency_hz(pitch_m=pitch_m, velocity_factor=VELOCITY_FACTOR, index=1)
    frequency = np.linspace(0.9995 * spike, 1.0005 * spike, 401)
    section_m = pitch_m / per_pitch
    count = round(length_m / section_m)
    line = layered_line(
        parameters=foam_line(frequency),
        section_m=section_m,
        relative_impedance_ratio=1
        + amplitude * np.sin(2 * np.pi * (np.arange(count) + 0.5) / per_pitch),
        reference_ohm=75.0,
    )
    ripple = Ripple(
        relative_amplitude=amplitude,
        pitch_m=pitch_m,
        length_m=length_m,
        loss_db_per_m=0.00776 * np.sqrt(spike / 1e6),
    )
    assert -20 * np.log10(np.abs(line.s11).max()) == pytest.approx(exact_db, abs=0.02)
    assert ripple.return_loss_db == pytest.approx(coupled_db, abs=0.0006)
    assert -20 * np.log10(ripple.first_order_reflection) == pytest.approx(first_db, abs=0.0006)


def test_the_spike_is_missed_by_a_step_wider_than_a_quarter_of_it() -> None:
    """At the widest step the best point lies within 0.5 dB of the top, at eight times not."""
    spike = spike_frequency_hz(pitch_m=0.3, velocity_factor=VELOCITY_FACTOR, index=1)
    step = widest_step_hz(
        loss_db_per_m=0.00776 * np.sqrt(spike / 1e6), velocity_factor=VELOCITY_FACTOR
    )
    # The worst luck: the top lies midway between two points.
    offsets = np.array([0.0, step / 2, 4 * step])
    line = layered_line(
        parameters=foam_line(spike + offsets),
        section_m=0.015,
        relative_impedance_ratio=1 + 0.0005 * np.sin(2 * np.pi * (np.arange(13333) + 0.5) / 20),
        reference_ohm=75.0,
    )
    top, near, far = -20 * np.log10(np.abs(line.s11))
    assert near - top < 0.5
    assert far - top > 3


@given(st.floats(1e-5, 0.02), st.floats(0.02, 3.0), st.floats(1.0, 500.0), st.floats(0.0, 1.0))
@settings(max_examples=100)
def test_a_spike_stays_below_all_that_is_sent(
    amplitude: float, pitch_m: float, length_m: float, loss_db_per_m: float
) -> None:
    """Coupled modes never reflect more than arrives, nor more than first order says."""
    ripple = Ripple(
        relative_amplitude=amplitude, pitch_m=pitch_m, length_m=length_m,
        loss_db_per_m=loss_db_per_m,
    )  # fmt: skip
    assert 0 < ripple.reflection <= 1
    assert ripple.reflection <= ripple.first_order_reflection * (1 + 1e-12)


@pytest.mark.parametrize(
    ("one", "chain", "within"), [(1e-4, 0.021755, 0.005), (1e-3, 0.2083, 0.05)]
)
def test_bumps_add_up_as_an_exact_chain_does(one: float, chain: float, within: float) -> None:
    """Lossless bumps 0.02 dB apart: the formula is 0.4 % off at 1e-4, and 4 to 5 % high at 1e-3."""
    turned = 10 ** (-0.04 / 20) * np.exp(1j * np.linspace(-0.01, 0.01, 4001))
    seen = np.zeros(turned.size, dtype=complex)
    for _ in range(6000):
        # A symmetric bump without loss reflects at right angles to what it lets through.
        seen = turned * (1j * one + (1 - one * one) * seen / (1 - 1j * one * seen))
    exact = np.abs(seen).max()
    assert exact == pytest.approx(chain, rel=0.005)
    formula = bump_train_reflection(one_reflection=one, loss_between_db=0.02)
    assert formula == pytest.approx(exact, rel=within)


def test_random_sections_scatter_about_the_derived_mean() -> None:
    """200 cables of 2,000 sections: the mean power lies within 4 standard errors of the formula."""
    frequency = np.array([1.0e9, 1.01e9])
    parameters = foam_line(frequency)
    chance = np.random.default_rng(17)
    power = []
    for _ in range(200):
        ratio = 1 + 0.002 * chance.standard_normal(2000)
        line = layered_line(
            parameters=parameters,
            section_m=0.05,
            relative_impedance_ratio=ratio,
            reference_ohm=75.0,
        )
        power.append(np.abs(line.s11[0]) ** 2)
    expected = random_reflection_power(
        relative_spread_ratio=0.002, section_m=0.05, section_count=2000, gamma=parameters.gamma
    )
    assert -10 * np.log10(expected[0]) == pytest.approx(31.92, abs=0.02)
    # |S11|² is spread like an exponential variable: one deviation is the mean itself.
    assert np.mean(power) == pytest.approx(expected[0], rel=4 / np.sqrt(200))
    assert np.std(power) == pytest.approx(expected[0], rel=0.3)


def test_without_loss_the_mean_power_grows_with_the_number_of_sections() -> None:
    """The limit of no loss is the sum itself, not a division by nothing."""
    gamma = np.array([30j, 1e-12 + 30j])
    power = random_reflection_power(
        relative_spread_ratio=0.001, section_m=0.05, section_count=1000, gamma=gamma
    )
    assert power[0] == pytest.approx(1e-6 / 4 * abs(1 - np.exp(-3j)) ** 2 * 1000)
    assert power[1] == pytest.approx(power[0], rel=1e-6)


@pytest.mark.parametrize("ratio", [1.001, 1.5, 2.3, 3.178, 3.6, 10.0, 200.0])
def test_the_cut_off_is_the_root_in_many_digits(ratio: float) -> None:
    """The exact TE11 cut-off is the lowest root of the Bessel cross product in 30 digits."""
    inner, outer = 1e-3, ratio * 1e-3
    ours = te11_cutoff_hz(inner_m=inner, outer_m=outer, relative_permittivity=1.0)
    k = 2 * np.pi * ours / 299_792_458.0
    with mpmath.workdps(30):
        a, b = mpmath.mpf(inner) / 2, mpmath.mpf(outer) / 2

        def crossed(x: mpmath.mpf) -> mpmath.mpf:
            return mpmath.besselj(1, x * a, 1) * mpmath.bessely(1, x * b, 1) - mpmath.besselj(
                1, x * b, 1
            ) * mpmath.bessely(1, x * a, 1)

        root = mpmath.findroot(crossed, k)
        assert k == pytest.approx(float(root), rel=1e-11)
        # The lowest: no change of sign below it.
        signs = {bool(crossed(k * fraction) > 0) for fraction in np.linspace(0.05, 0.999, 60)}
        assert len(signs) == 1


def test_the_limits_of_the_cut_off_are_those_of_a_gap_and_of_a_tube() -> None:
    """A narrow gap has one wavelength around its middle; a thin centre leaves the round guide."""
    narrow = te11_cutoff_hz(inner_m=1e-3, outer_m=1.0001e-3, relative_permittivity=1.0)
    estimate = te11_estimate_hz(inner_m=1e-3, outer_m=1.0001e-3, relative_permittivity=1.0)
    assert narrow == pytest.approx(estimate, rel=1e-8)
    thin = te11_cutoff_hz(inner_m=1e-8, outer_m=1e-2, relative_permittivity=1.0)
    assert thin == pytest.approx(1.8411837813 * 299_792_458.0 / (np.pi * 1e-2), rel=1e-6)
    used = highest_frequency_hz(inner_m=1e-3, outer_m=4.6e-3, relative_permittivity=1.45)
    assert used < te11_cutoff_hz(inner_m=1e-3, outer_m=4.6e-3, relative_permittivity=1.45)


@pytest.mark.parametrize(
    ("build", "field"),
    [
        (lambda: te11_cutoff_hz(inner_m=5e-3, outer_m=4e-3, relative_permittivity=2.0), "inner_m"),
        (lambda: te11_estimate_hz(inner_m=1e-3, outer_m=4e-3, relative_permittivity=0.5),
         "relative_permittivity"),
        (lambda: Ripple(relative_amplitude=1.5, pitch_m=1.0, length_m=1.0, loss_db_per_m=0.1),
         "relative_amplitude"),
        (lambda: Ripple(relative_amplitude=0.1, pitch_m=1.0, length_m=-1.0, loss_db_per_m=0.1),
         "length_m"),
        (lambda: spike_frequency_hz(pitch_m=0.3, velocity_factor=1.2, index=1), "pitch_m"),
        (lambda: bump_train_reflection(one_reflection=1e-4, loss_between_db=0.0),
         "loss_between_db"),
        (lambda: random_reflection_power(relative_spread_ratio=0.01, section_m=0.0,
                                         section_count=5, gamma=np.array([1j])), "section_m"),
    ],
)  # fmt: skip
def test_an_impossible_structure_is_refused(build: Callable[[], object], field: str) -> None:
    """Each impossible dimension is refused by its field."""
    with pytest.raises(BadValue) as refused:
        build()
    assert refused.value.field == field
