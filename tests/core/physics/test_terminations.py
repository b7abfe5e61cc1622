"""A two-port between source and load, and mismatches in a row."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.chain import line_chain
from reelwright.core.physics.mismatch import (
    Mismatch,
    bounds,
    short_section_estimate,
    short_section_reflection,
)
from reelwright.core.physics.terminations import (
    NO_REFLECTION_DB,
    far_reflection,
    input_impedance_ohm,
    insertion_loss_db,
    near_reflection,
    return_loss,
    voltage_ratio,
)
from reelwright.core.physics.two_port import cascade, line, line_of, series, shunt
from tests.core.physics.network_world import band, small_coax

FREQUENCY = band(61)
resistances = st.floats(1.0, 1e4)


@given(resistances, resistances, st.floats(0.01, 100.0))
@settings(max_examples=50, deadline=None)
def test_the_ratio_of_voltages_is_that_of_the_chain(
    source_ohm: float, load_ohm: float, length_m: float
) -> None:
    """Waves agree with Zl/(A·Zl + B + C·Zs·Zl + D·Zs), the textbook formula of chains."""
    parameters = small_coax(FREQUENCY)
    chain = line_chain(parameters=parameters, length_m=length_m)
    expected = load_ohm / (
        chain.a * load_ohm
        + chain.b_ohm
        + chain.c_siemens * source_ohm * load_ohm
        + chain.d * source_ohm
    )
    two_port = line(parameters=parameters, length_m=length_m, reference_ohm=75.0)
    ratio = voltage_ratio(two_port, source_ohm=source_ohm, load_ohm=load_ohm)
    assert np.allclose(ratio, expected, rtol=1e-9, atol=1e-14)


@given(resistances, resistances)
@settings(max_examples=30, deadline=None)
def test_insertion_loss_is_the_same_both_ways(source_ohm: float, load_ohm: float) -> None:
    """Source and load exchanged with the two-port turned: the same loss, by reciprocity."""
    two_port = line(parameters=small_coax(FREQUENCY), length_m=20.0, reference_ohm=75.0).then(
        series(frequency_hz=FREQUENCY, impedance_ohm=8.0, reference_ohm=75.0)
    )
    forth = insertion_loss_db(two_port, source_ohm=source_ohm, load_ohm=load_ohm)
    back = insertion_loss_db(two_port.turned, source_ohm=load_ohm, load_ohm=source_ohm)
    assert np.allclose(forth, back, rtol=0, atol=1e-9)


def test_an_open_and_a_shorted_end_show_the_impedance_of_the_line() -> None:
    """√(Z open · Z short) is the characteristic impedance: the bridge measurement of every line."""
    parameters = small_coax(FREQUENCY)
    two_port = line(parameters=parameters, length_m=0.3, reference_ohm=75.0)
    opened = input_impedance_ohm(two_port, load_ohm=np.inf)
    shorted = input_impedance_ohm(two_port, load_ohm=0.0)
    assert np.allclose(opened * shorted, parameters.impedance_ohm**2, rtol=1e-8, atol=0)


def test_both_ends_have_their_own_return_loss() -> None:
    """A bad joint at the far end is masked from the near one by twice the loss of the line."""
    frequency = np.array([1e9])
    cable = line_of(
        frequency_hz=frequency, gamma=np.array([0.0115 + 25j]), impedance_ohm=75.0,
        length_m=100.0, reference_ohm=75.0,
    )  # fmt: skip
    joint = shunt(frequency_hz=frequency, admittance_siemens=0.005j, reference_ohm=75.0)
    run = cascade(cable, joint)
    near = return_loss(near_reflection(run, load_ohm=75.0))
    far = return_loss(far_reflection(run, source_ohm=75.0))
    one_way_db = 100 * 0.0115 * 20 / np.log(10)
    assert near - far == pytest.approx(2 * one_way_db, abs=1e-9)


def test_no_reflection_has_the_largest_figure() -> None:
    """Where nothing comes back the return loss is a stated number, not infinity."""
    assert return_loss(np.array([0j]))[0] == pytest.approx(NO_REFLECTION_DB)


def test_a_load_that_gives_power_is_refused() -> None:
    """A negative resistance is no load."""
    two_port = line(parameters=small_coax(FREQUENCY), length_m=1.0, reference_ohm=75.0)
    with pytest.raises(BadValue, match="impedance_ohm"):
        near_reflection(two_port, load_ohm=-5.0)


@given(st.floats(20.0, 200.0), st.floats(0.0, 1.57))
@settings(max_examples=50, deadline=None)
def test_a_short_section_is_estimated_from_above(section_ohm: float, angle_rad: float) -> None:
    """The exact reflection of a section is that of a line, and the estimate is never below it."""
    exact = short_section_reflection(section_ohm=section_ohm, line_ohm=75.0, angle_rad=angle_rad)
    as_line = line_of(
        frequency_hz=np.array([1e9]), gamma=np.array([1j * angle_rad]), impedance_ohm=section_ohm,
        length_m=1.0, reference_ohm=75.0,
    )  # fmt: skip
    estimate = short_section_estimate(section_ohm=section_ohm, line_ohm=75.0, angle_rad=angle_rad)
    assert complex(exact) == pytest.approx(complex(as_line.s11[0]), abs=1e-12)
    assert abs(complex(exact)) <= estimate + 1e-15


def test_a_small_mismatch_is_estimated_well() -> None:
    """5 % off and a tenth of a radian: the first-order figure is within half a percent."""
    exact = abs(short_section_reflection(section_ohm=78.75, line_ohm=75.0, angle_rad=0.1))
    estimate = short_section_estimate(section_ohm=78.75, line_ohm=75.0, angle_rad=0.1)
    assert float(estimate) == pytest.approx(float(exact), rel=0.005)


@given(st.floats(0.0, 0.5), st.floats(0.0, 0.5), st.floats(0.0, 20.0))
@settings(max_examples=40, deadline=None)
def test_the_worst_phase_is_reached_and_never_passed(
    first: float, second: float, loss_db: float
) -> None:
    """Two real steps with a line of every phase between: the maximum is the bound."""
    angle = np.linspace(0, np.pi, 2001)
    kept = 10 ** (-2 * loss_db / 20) * np.exp(-2j * angle)
    seen = np.abs((first + second * kept) / (1 + first * second * kept)).max()
    found = bounds(
        [
            Mismatch(own_reflection=first, loss_before_db=0.0),
            Mismatch(own_reflection=second, loss_before_db=loss_db),
        ]
    )
    assert seen <= found.worst_reflection + 1e-12
    assert seen == pytest.approx(found.worst_reflection, rel=1e-4, abs=1e-12)


def test_the_bound_of_two_is_the_formula_of_the_trade() -> None:
    """ρ1 + ρ2(1 − ρ1²)·10^(−2·loss/20) for two small ones, and the root of squares beside it."""
    found = bounds(
        [
            Mismatch(own_reflection=0.05, loss_before_db=0.0),
            Mismatch(own_reflection=0.06, loss_before_db=3.0),
        ]
    )
    kept = 10 ** (-6 / 20)
    assert found.worst_reflection == pytest.approx(0.05 + 0.06 * (1 - 0.0025) * kept, rel=1e-3)
    assert found.typical_reflection == pytest.approx(np.hypot(0.05, 0.06 * kept))
    assert found.worst_return_loss_db < found.typical_return_loss_db


@pytest.mark.parametrize(("losses", "field"), [((3.0, 0.0), "loss_before_db"), ((), "mismatches")])
def test_mismatches_out_of_order_are_refused(losses: tuple[float, ...], field: str) -> None:
    """Losses that fall along the line, or nothing at all, give no bound."""
    row = [Mismatch(own_reflection=0.1, loss_before_db=loss) for loss in losses]
    with pytest.raises(BadValue) as refused:
        bounds(row)
    assert refused.value.field == field


def test_a_total_reflection_is_no_small_mismatch() -> None:
    """A reflection of one is an open or a short, and is refused."""
    with pytest.raises(BadValue, match="own_reflection"):
        Mismatch(own_reflection=1.0, loss_before_db=0.0)
