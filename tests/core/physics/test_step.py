"""Steps: right at the front, right in the tail, and nothing before the delay."""

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.reflectometer import at_rest_reflection, own_slope, trace
from reelwright.core.physics.step import (
    RISE_IN_DEVIATIONS,
    Band,
    TimeGrid,
    gaussian_edge,
    impulse_response_per_s,
    step_of_samples,
    step_response,
)
from reelwright.core.physics.terminations import near_reflection, voltage_ratio
from reelwright.core.physics.two_port import line
from tests.core.physics.network_world import DELAY_S_PER_M, small_coax

normal_below = np.vectorize(lambda x: 0.5 * math.erfc(-x / math.sqrt(2)))
erfc = np.vectorize(math.erfc)


def _root_line(strength: float, rise_s: float) -> Callable[[FloatArray], ComplexArray]:
    def spectrum(frequency: FloatArray) -> ComplexArray:
        fall = np.exp(-strength * np.sqrt(2j * np.pi * frequency))
        return fall * gaussian_edge(frequency, rise_s=rise_s)

    return spectrum


@given(st.floats(0.5, 5.0), st.floats(0.03, 0.3))
@settings(max_examples=25, deadline=None)
def test_a_pure_delay_gives_the_edge_itself(delay_s: float, rise_s: float) -> None:
    """Delayed without loss, a normal edge is the normal distribution, to 1e-12."""
    grid = TimeGrid(start_s=-1.0, step_s=8 / 2048, sample_count=2048)
    shown = step_response(
        lambda f: gaussian_edge(f, rise_s=rise_s) * np.exp(-2j * np.pi * f * delay_s),
        at_rest_ratio=1.0,
        grid=grid,
    )
    deviation = rise_s / RISE_IN_DEVIATIONS
    assert np.abs(shown - normal_below((grid.time_s - delay_s) / deviation)).max() < 1e-11


@pytest.mark.parametrize("window_s", [8.0, 64.0])
@pytest.mark.parametrize("strength", [0.5, 1.0, 3.0])
def test_a_line_of_root_loss_gives_erfc_and_its_whole_tail(
    strength: float, window_s: float
) -> None:
    """exp(−k√s) answers with erfc(k/2√t), though its tail is far longer than the window."""
    grid = TimeGrid(start_s=-window_s / 8, step_s=window_s / 8192, sample_count=8192)
    rise = 8 * grid.step_s
    shown = step_response(_root_line(strength, rise), at_rest_ratio=1.0, grid=grid)
    late = grid.time_s > 0.5
    # The edge smooths what it shows: its mean over a normal spread, by Gauss-Hermite points.
    points, weights = np.polynomial.hermite_e.hermegauss(21)
    smeared = grid.time_s[late][:, None] - rise / RISE_IN_DEVIATIONS * points
    exact = erfc(strength / 2 / np.sqrt(smeared)) @ weights / np.sqrt(2 * np.pi)
    assert np.abs(shown[late] - exact).max() < 2e-7


def test_a_one_pole_network_gives_its_exponential() -> None:
    """1/(1 + jωτ) answers with 1 − exp(−t/τ) and nothing before."""
    grid = TimeGrid(start_s=-2.0, step_s=10 / 4096, sample_count=4096)
    shown = step_response(
        lambda f: gaussian_edge(f, rise_s=0.02) / (1 + 2j * np.pi * f), at_rest_ratio=1.0, grid=grid
    )
    after = grid.time_s > 0.1
    deviation = 0.02 / RISE_IN_DEVIATIONS
    widened = np.exp(deviation**2 / 2)
    assert np.abs(shown[after] - (1 - widened * np.exp(-grid.time_s[after]))).max() < 1e-9
    assert np.abs(shown[grid.time_s < -0.1]).max() < 1e-9


def test_samples_of_one_window_give_the_same_step_where_nothing_is_folded() -> None:
    """A one-pole network sampled at even frequencies steps as the full method does, to 1e-4."""
    step_hz, count = 1 / 40, 4000
    frequency = step_hz * np.arange(1, count + 1)
    spectrum = gaussian_edge(frequency, rise_s=0.1) / (1 + 2j * np.pi * frequency)
    grid = TimeGrid(start_s=-2.0, step_s=1 / (2 * count * step_hz), sample_count=2000)
    before = round(2.0 / grid.step_s)
    sampled = step_of_samples(
        spectrum, at_rest_ratio=1.0, frequency_step_hz=step_hz, before_count=before
    )
    full = step_response(
        lambda f: gaussian_edge(f, rise_s=0.1) / (1 + 2j * np.pi * f), at_rest_ratio=1.0, grid=grid
    )
    assert np.abs(sampled[:2000] - full).max() < 1e-4


def test_a_spectrum_known_in_a_band_only_gives_the_same_step() -> None:
    """Asked for nothing below 1 kHz or above 20 GHz, 100 m of coax steps the same to 1e-6."""
    asked: list[FloatArray] = []
    whole = _through(100.0, 100e-12)

    def watched(frequency: FloatArray) -> ComplexArray:
        asked.append(frequency)
        return whole(frequency)

    grid = TimeGrid(start_s=100 * DELAY_S_PER_M - 5e-9, step_s=10e-12, sample_count=4096)
    band = Band(lowest_hz=1e3, highest_hz=20e9)
    inside = step_response(watched, at_rest_ratio=75 / 155.0, grid=grid, band=band)
    everywhere = step_response(whole, at_rest_ratio=75 / 155.0, grid=grid)
    assert np.abs(inside - everywhere).max() < 1e-6
    assert min(part.min() for part in asked) >= 1e3
    assert max(part.max() for part in asked) <= 20e9


def _through(length_m: float, rise_s: float) -> Callable[[FloatArray], ComplexArray]:
    def spectrum(frequency: FloatArray) -> ComplexArray:
        run = line(parameters=small_coax(frequency), length_m=length_m, reference_ohm=75.0)
        ratio = voltage_ratio(run, source_ohm=75.0, load_ohm=75.0)
        return ratio * gaussian_edge(frequency, rise_s=rise_s)

    return spectrum


def test_no_energy_arrives_before_the_delay() -> None:
    """100 m of coax: before its front less one edge, less than 1e-12 of the pulse's energy."""
    rise = 100e-12
    front = 100 * DELAY_S_PER_M
    grid = TimeGrid(start_s=front - 10e-9, step_s=20e-12, sample_count=4096)
    pulse = impulse_response_per_s(_through(100.0, rise), at_rest_ratio=75 / (150 + 5.0), grid=grid)
    early = grid.time_s[:-1] < front - 3 * rise
    assert (pulse[early] ** 2).sum() < 1e-12 * (pulse**2).sum()
    assert pulse.max() > 1e8


def test_the_step_ends_at_the_divider_of_direct_current() -> None:
    """After 30 µs a matched 100 m line shows the level that its resistance leaves, to 0.1 %."""
    grid = TimeGrid(start_s=-1e-6, step_s=4e-9, sample_count=8192)
    shown = step_response(_through(100.0, 20e-9), at_rest_ratio=75 / 155.0, grid=grid)
    assert shown[-1] == pytest.approx(75 / 155.0, rel=1e-3)
    assert shown[300] < 0.98 * shown[-1]


def test_the_sum_of_the_impulse_is_the_rise_of_the_step() -> None:
    """The impulse response is the slope of the step: its area is what the step has risen by."""
    grid = TimeGrid(start_s=-1.0, step_s=0.01, sample_count=512)
    spectrum = _root_line(1.0, 0.1)
    rising = step_response(spectrum, at_rest_ratio=1.0, grid=grid)
    impulse = impulse_response_per_s(spectrum, at_rest_ratio=1.0, grid=grid)
    assert impulse.sum() * 0.01 == pytest.approx(rising[-1] - rising[0], rel=1e-12)


def _seen_from_end_a(load_ohm: float) -> Callable[[FloatArray], ComplexArray]:
    def reflection(frequency: FloatArray) -> ComplexArray:
        first = line(parameters=small_coax(frequency), length_m=20.0, reference_ohm=75.0)
        crushed = line(
            parameters=small_coax(frequency, ratio=0.8), length_m=0.5, reference_ohm=75.0
        )
        return near_reflection(first.then(crushed).then(first), load_ohm=load_ohm)

    return reflection


def test_a_trace_shows_where_and_how_much() -> None:
    """A crushed half metre at 20 m shows there as a dip to its impedance, less the loss to it."""
    grid = TimeGrid(start_s=-5e-9, step_s=0.1e-9, sample_count=8192)
    at_rest = at_rest_reflection(resistance_ohm=75 + 0.05 * 40.5, reference_ohm=75.0)
    shown = trace(
        _seen_from_end_a(75.0),
        at_rest_reflection=at_rest,
        rise_s=0.5e-9,
        grid=grid,
        reference_ohm=75.0,
    )
    slope = own_slope(
        lambda f: small_coax(f).impedance_ohm, rise_s=0.5e-9, grid=grid, reference_ohm=75.0
    )
    velocity = 1 / (DELAY_S_PER_M * 299_792_458.0)
    distance = shown.distance_m(velocity_factor=velocity)
    place = int(np.argmin(shown.impedance_ohm[grid.time_s < 300e-9]))
    assert 20.0 <= distance[place] <= 20.6
    dip = slope.impedance_ohm[place] - shown.impedance_ohm[place]
    assert 12.0 < dip < 0.2 * 74.54
    # In front of the fault the trace is the cable's own, slope and all.
    before = (grid.time_s > 2e-9) & (distance < 19.8)
    assert np.abs(shown.impedance_ohm[before] - slope.impedance_ohm[before]).max() < 0.01
    assert slope.impedance_ohm[before][-1] - slope.impedance_ohm[before][0] > 0.2


def test_open_and_shorted_ends_step_up_and_down() -> None:
    """Twice the delay later the trace rises for an open end and falls for a short."""
    grid = TimeGrid(start_s=-5e-9, step_s=0.2e-9, sample_count=4096)
    back_s = 2 * 40.5 * DELAY_S_PER_M
    for load, at_rest in ((np.inf, 1.0), (0.0, at_rest_reflection(resistance_ohm=2.025,
                                                                reference_ohm=75.0))):  # fmt: skip
        shown = trace(
            _seen_from_end_a(load),
            at_rest_reflection=at_rest,
            rise_s=1e-9,
            grid=grid,
            reference_ohm=75.0,
        )
        step = np.interp([back_s - 5e-9, back_s + 30e-9], grid.time_s, shown.seen_reflection)
        assert np.sign(step[1] - step[0]) == (1 if load else -1)
        assert abs(step[1] - step[0]) > 0.6


def test_resolution_is_half_the_way_of_the_rise() -> None:
    """100 ps at velocity factor 0.83 tell apart what lies 12.4 mm apart."""
    grid = TimeGrid(start_s=-1e-9, step_s=20e-12, sample_count=256)
    shown = trace(
        lambda f: 0.1 * np.ones(f.size, dtype=complex),
        at_rest_reflection=0.1,
        rise_s=100e-12,
        grid=grid,
        reference_ohm=50.0,
    )
    assert shown.resolution_m(velocity_factor=0.83) == pytest.approx(0.01244, rel=1e-3)
    assert shown.impedance_ohm[-1] == pytest.approx(50 * 1.1 / 0.9)


def _trace_with(level: float = 0.0, **changed: object) -> object:
    given_ = {
        "at_rest_reflection": 0.0, "rise_s": 1e-9, "reference_ohm": 75.0,
        "grid": TimeGrid(start_s=0.0, step_s=1e-10, sample_count=64), **changed,
    }  # fmt: skip
    return trace(lambda f: np.full(f.size, level + 0j), **given_)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("build", "field"),
    [
        (lambda: _trace_with(rise_s=1e-10), "step_s"),
        (lambda: _trace_with(rise_s=-1e-9), "rise_s"),
        (lambda: _trace_with(at_rest_reflection=1.5), "at_rest_reflection"),
        (lambda: TimeGrid(start_s=0.0, step_s=0.0, sample_count=64), "step_s"),
        (lambda: TimeGrid(start_s=0.0, step_s=1.0, sample_count=2), "sample_count"),
        (lambda: at_rest_reflection(resistance_ohm=-1.0, reference_ohm=75.0), "resistance_ohm"),
        (lambda: step_response(lambda f: f[:3] + 0j, at_rest_ratio=1.0,
                               grid=TimeGrid(start_s=0.0, step_s=1.0, sample_count=64)),
         "spectrum"),
        (lambda: Band(lowest_hz=1.0, highest_hz=1.0), "highest_hz"),
        (lambda: _trace_with(band=Band(lowest_hz=1.0, highest_hz=1e8), level=0.1), "band"),
        (lambda: step_of_samples(np.ones(8, dtype=complex), at_rest_ratio=1.0,
                                 frequency_step_hz=0.0, before_count=0), "samples"),
    ],
)  # fmt: skip
def test_what_cannot_be_shown_is_refused(build: Callable[[], object], field: str) -> None:
    """A grid too coarse for the edge, a gain at rest, a spectrum of another size: all refused."""
    with pytest.raises(BadValue) as refused:
        build()
    assert refused.value.field == field
