"""Steps and eyes in closed form, against the exact engines of steps, pulses and lines."""

from math import erfc, sqrt

import mpmath
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.pulse import cursors
from reelwright.core.physics.receiver import root_loss
from reelwright.core.physics.rod_rise import rise_over_turn
from reelwright.core.physics.root_line import (
    CROSSING_OVER_TAU,
    HALF_OVER_TAU,
    RISE_OVER_TAU,
    crossing_s,
    loss_for_opening_db,
    root_time_s,
    worst_opening_ratio,
)
from reelwright.core.physics.sheet_line import SheetLine
from reelwright.core.physics.step import Band, TimeGrid, gaussian_edge, step_response
from reelwright.core.physics.terminations import voltage_ratio
from reelwright.core.physics.two_port import line

OPEN_LOSSES = st.floats(min_value=0.05, max_value=11.0)


def crossing(rising: FloatArray, grid: TimeGrid, level: float) -> float:
    """Return when [s] a step passes that level."""
    after = int(np.argmax(rising >= level))
    between = (level - rising[after - 1]) / (rising[after] - rising[after - 1])
    return float(grid.time_s[after - 1] + between * grid.step_s)


@pytest.mark.parametrize("loss_db", [0.5, 3.0, 12.0])
def test_rise_and_middle_of_the_exact_step(loss_db: float) -> None:
    """The exact step of a √f line rises in 31.5 τ and passes its middle at 1.10 τ."""
    tau = float(root_time_s(loss_db=loss_db, frequency_hz=10e6))
    grid = TimeGrid(start_s=-tau, step_s=tau / 100, sample_count=8192)

    def line(frequency_hz: FloatArray) -> ComplexArray:
        through: ComplexArray = root_loss(frequency_hz, loss_db=loss_db, at_hz=10e6)
        through *= gaussian_edge(frequency_hz, rise_s=tau / 20)
        return through

    rising = step_response(line, at_rest_ratio=1.0, grid=grid)
    rise = crossing(rising, grid, 0.9) - crossing(rising, grid, 0.1)
    assert rise == pytest.approx(RISE_OVER_TAU * tau, rel=1e-4)
    assert crossing(rising, grid, 0.5) == pytest.approx(HALF_OVER_TAU * tau, rel=5e-4)


def test_the_slope_in_the_middle() -> None:
    """A thousandth of the swing moves the crossing by a thousandth of swing over slope."""

    def passes(level: float) -> float:
        low, high = 1.0, 1.2
        for _ in range(60):
            middle = (low + high) / 2
            below = erfc(sqrt(1 / (4 * middle))) < level
            low, high = (middle, high) if below else (low, middle)
        return low

    moved = (passes(0.501) - passes(0.499)) / 2
    assert moved == pytest.approx(1e-3 * CROSSING_OVER_TAU, rel=1e-4)
    assert float(crossing_s(tau_s=0.0, launched_s=8e-9)) == pytest.approx(10e-9)


def test_the_eye_closes_at_10_59_db() -> None:
    """With 40 digits the formula gives the same opening, and zero at 10.5885 dB."""
    with mpmath.workdps(40):

        def opening(loss_db: float) -> mpmath.mpf:
            neper = mpmath.mpf(loss_db) * mpmath.log(10) / 20
            root = neper * mpmath.sqrt(2 / mpmath.pi)

            def lone(time: mpmath.mpf) -> mpmath.mpf:
                late = mpmath.erfc(root / (2 * mpmath.sqrt(time - 1)))
                return mpmath.erfc(root / (2 * mpmath.sqrt(time))) - late

            def slope(time: mpmath.mpf) -> mpmath.mpf:
                return time ** mpmath.mpf("-1.5") * mpmath.exp(-(root**2) / (4 * time))

            peak = mpmath.findroot(
                lambda time: slope(time) - slope(time - 1),
                (1.001, 2.0),
                solver="bisect",
                maxsteps=200,
            )
            return 2 * lone(peak) - 1

        for loss_db in (6.0, 8.0, 10.5885):
            ours = worst_opening_ratio(loss_db, rise_ratio=0.0)
            assert ours == pytest.approx(float(opening(loss_db)), abs=1e-9)
    assert worst_opening_ratio(10.5885, rise_ratio=0.0) == pytest.approx(0.0, abs=1e-5)


@pytest.mark.parametrize("rise_ratio", [0.1, 0.57])
@pytest.mark.parametrize("loss_db", [1.0, 4.0, 9.0])
def test_the_closed_eye_agrees_with_the_exact_pulse(loss_db: float, rise_ratio: float) -> None:
    """Peak distortion of the exact pulse response gives the same opening."""

    def line(frequency_hz: FloatArray) -> ComplexArray:
        through: ComplexArray = root_loss(frequency_hz, loss_db=loss_db, at_hz=0.5)
        through *= gaussian_edge(frequency_hz, rise_s=rise_ratio)
        return through

    exact = cursors(
        line,
        at_rest_ratio=1.0,
        delay_s=0.0,
        bit_s=1.0,
        phase_count=128,
        before_count=3,
        after_count=200,
    )
    ours = worst_opening_ratio(loss_db, rise_ratio=rise_ratio)
    assert ours == pytest.approx(float(exact.worst_opening_ratio.max()), abs=1e-3)


@settings(max_examples=30, deadline=None)
@given(OPEN_LOSSES, st.floats(min_value=1.001, max_value=1.5), st.sampled_from([0.0, 0.3]))
def test_more_loss_closes_the_eye(loss_db: float, more: float, rise_ratio: float) -> None:
    """An eye never opens with more loss, and never lies above the level of a held one."""
    first = worst_opening_ratio(loss_db, rise_ratio=rise_ratio)
    assert worst_opening_ratio(more * loss_db, rise_ratio=rise_ratio) < first < 1


@settings(max_examples=25, deadline=None)
@given(st.floats(min_value=0.01, max_value=0.9), st.sampled_from([0.0, 0.5]))
def test_the_loss_for_an_opening_leads_back(opening_ratio: float, rise_ratio: float) -> None:
    """The loss that leaves an eye leaves that eye."""
    loss_db = loss_for_opening_db(opening_ratio, rise_ratio=rise_ratio)
    back = worst_opening_ratio(loss_db, rise_ratio=rise_ratio)
    assert back == pytest.approx(opening_ratio, abs=2e-6)


LINE = SheetLine(
    impedance_ohm=75.0,
    delay_s_per_m=4e-9,
    direct_ohm_per_m=0.045,
    skin_per_root_hz=5e-3,
    loss_tangent=1e-5,
    lowest_hz=1.0,
    highest_hz=20e9,
    fitted_low_hz=None,
    fitted_high_hz=None,
    relative_residuals=(),
)


@pytest.mark.parametrize("length_m", [20.0, 100.0, 300.0, 500.0])
def test_one_curve_holds_the_rise_of_the_exact_line(length_m: float) -> None:
    """Between ends of 75 Ω the step of the exact line rises as the curve says, within 4 %."""

    def through(frequency_hz: FloatArray) -> ComplexArray:
        parameters = LINE.parameters(frequency_hz, temperature_celsius=20.0)
        two_port = line(parameters=parameters, length_m=length_m, reference_ohm=75.0)
        result = 2 * voltage_ratio(two_port, source_ohm=75.0, load_ohm=75.0)
        result *= np.exp(2j * np.pi * frequency_hz * LINE.delay_s_per_m * length_m)
        result *= gaussian_edge(frequency_hz, rise_s=1e-9)
        return result

    neper = LINE.direct_ohm_per_m * length_m / (2 * LINE.impedance_ohm)
    ours = LINE.skin_per_root_hz**2 * float(rise_over_turn(np.array([neper]))[0])
    rests = 1 / (1 + neper)
    grid = TimeGrid(
        start_s=-3e-9, step_s=max(ours / 150, 0.1e-9), sample_count=4096 if ours < 1e-8 else 2048
    )
    band = Band(lowest_hz=100.0, highest_hz=20e9)
    rising = step_response(through, at_rest_ratio=rests, grid=grid, band=band) / rests
    exact = crossing(rising, grid, 0.9) - crossing(rising, grid, 0.1)
    assert ours == pytest.approx(exact, rel=0.04, abs=0.8e-9)


@given(
    st.floats(min_value=1e-6, max_value=30.0),
    st.floats(min_value=1.01, max_value=10.0),
)
def test_a_longer_line_rises_slower(neper: float, more: float) -> None:
    """The curve rises throughout, at most with the square of the length."""
    short, long = rise_over_turn(np.array([neper, more * neper]))
    assert short < long <= 1.0001 * more**2 * short


def test_a_short_line_rises_as_the_root_of_frequency_says() -> None:
    """At a thousandth of a neper at rest the two laws are 1.5 % apart."""
    tau = (1e-3 / 2) ** 2 / np.pi
    assert float(rise_over_turn(np.array([1e-3]))[0]) == pytest.approx(
        RISE_OVER_TAU * tau, rel=0.015
    )


def test_nonsense_is_refused() -> None:
    """Losses below zero, frequencies of zero, openings that no line has."""
    with pytest.raises(BadValue, match="loss_db"):
        root_time_s(loss_db=-1.0, frequency_hz=1e6)
    with pytest.raises(BadValue, match="frequency_hz"):
        root_time_s(loss_db=1.0, frequency_hz=0.0)
    with pytest.raises(BadValue, match="rise_ratio"):
        worst_opening_ratio(1.0, rise_ratio=-0.1)
    with pytest.raises(BadValue, match="rest_neper"):
        rise_over_turn(np.array([-0.1]))
    for opening in (0.0, 1.0, 1.5):
        with pytest.raises(BadValue, match="opening_ratio"):
            loss_for_opening_db(opening, rise_ratio=0.0)
