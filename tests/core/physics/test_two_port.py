"""Two-ports: what must hold of every passive row of lines and joints."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.chain import chain_of, line_chain, two_port_of
from reelwright.core.physics.joint import LumpedJoint, ShortSection
from reelwright.core.physics.sections import sectioned_line
from reelwright.core.physics.two_port import (
    TwoPort,
    cascade,
    greatest_gain,
    line,
    line_of,
    series,
    shunt,
)
from tests.core.physics.network_world import band, small_coax

FREQUENCY = band()
REFERENCE = 75.0

lines = st.builds(
    lambda length, ratio: line(
        parameters=small_coax(FREQUENCY, ratio=ratio), length_m=length, reference_ohm=REFERENCE
    ),
    st.floats(0.0, 300.0),
    st.floats(0.2, 5.0),
)
joints = st.builds(
    lambda ohm, nano, pico: LumpedJoint(
        contact_ohm=ohm, inductance_h=nano * 1e-9, capacitance_f=pico * 1e-12
    ).two_port(frequency_hz=FREQUENCY, reference_ohm=REFERENCE),
    st.floats(0.0, 10.0),
    st.floats(0.0, 20.0),
    st.floats(0.0, 20.0),
)
parts = st.one_of(lines, joints)


def _away(first: TwoPort, second: TwoPort) -> float:
    return max(
        float(np.abs(getattr(first, name) - getattr(second, name)).max())
        for name in ("s11", "s21", "s22")
    )


@given(st.lists(parts, min_size=1, max_size=6))
@settings(max_examples=40, deadline=None)
def test_no_row_of_passive_parts_gains(row: list[TwoPort]) -> None:
    """The largest singular value of S is at most one for any row of lines and joints."""
    assert greatest_gain(cascade(*row)).max() <= 1 + 1e-12


@given(parts, parts, parts)
@settings(max_examples=40, deadline=None)
def test_it_does_not_matter_which_pair_is_joined_first(
    first: TwoPort, second: TwoPort, third: TwoPort
) -> None:
    """Joining is associative, and turning a row turns its order."""
    left, right = first.then(second).then(third), first.then(second.then(third))
    assert _away(left, right) < 1e-12
    assert _away(left.turned, cascade(third.turned, second.turned, first.turned)) < 1e-12


@given(parts)
@settings(max_examples=40, deadline=None)
def test_nothing_joined_changes_nothing(part: TwoPort) -> None:
    """A line of no length in front leaves a two-port as it is."""
    nothing = line(parameters=small_coax(FREQUENCY), length_m=0.0, reference_ohm=REFERENCE)
    assert _away(nothing.then(part), part) < 1e-14


@given(st.floats(0.001, 100.0), st.floats(0.2, 5.0), joints)
@settings(max_examples=40, deadline=None)
def test_chain_parameters_say_the_same(length_m: float, ratio: float, joint: TwoPort) -> None:
    """Waves and cosh/sinh agree, and AD − BC is one: the row has no direction."""
    parameters = small_coax(FREQUENCY, ratio=ratio)
    chain = line_chain(parameters=parameters, length_m=length_m) @ chain_of(joint)
    waves = line(parameters=parameters, length_m=length_m, reference_ohm=REFERENCE).then(joint)
    assert _away(two_port_of(chain, reference_ohm=REFERENCE), waves) < 1e-9
    size = np.abs(chain.a * chain.d) + np.abs(chain.b_ohm * chain.c_siemens)
    assert np.abs(chain.determinant - 1).max() < 1e-12 * size.max()


def test_two_halves_are_a_whole_and_the_ends_look_alike() -> None:
    """A uniform line is symmetric, and equals its two halves joined; lengths go in as a batch."""
    parameters = small_coax(FREQUENCY)
    both = line(parameters=parameters, length_m=[30.0, 60.0], reference_ohm=50.0)
    assert both.s21.shape == (2, FREQUENCY.size)
    half = line(parameters=parameters, length_m=30.0, reference_ohm=50.0)
    whole = line(parameters=parameters, length_m=60.0, reference_ohm=50.0)
    assert _away(half.then(half), whole) < 1e-13
    assert np.array_equal(whole.s11, whole.s22)
    assert np.allclose(both.s21[1], whole.s21, rtol=1e-14, atol=0)


def test_a_matched_line_loses_what_it_loses_and_sends_nothing_back() -> None:
    """Between ends of its own impedance a line has |S21| = exp(−αL) and no S11."""
    frequency = np.array([1e9])
    matched = line_of(
        frequency_hz=frequency,
        gamma=np.array([0.01 + 30j]),
        impedance_ohm=75.0,
        length_m=100.0,
        reference_ohm=75.0,
    )
    assert abs(matched.s21[0]) == pytest.approx(np.exp(-1.0), rel=1e-14)
    assert matched.s11[0] == 0


def test_a_lossless_line_keeps_all_energy() -> None:
    """Without loss |S11|² + |S21|² is one at every frequency, whatever the mismatch."""
    frequency = np.linspace(1e6, 1e9, 101)
    lossless = line_of(
        frequency_hz=frequency,
        gamma=2j * np.pi * frequency * 4e-9,
        impedance_ohm=110.0,
        length_m=3.0,
        reference_ohm=50.0,
    )
    energy = np.abs(lossless.s11) ** 2 + np.abs(lossless.s21) ** 2
    assert np.allclose(energy, 1, rtol=0, atol=1e-13)


def test_a_short_line_at_a_low_frequency_is_its_resistance() -> None:
    """One metre at 1 Hz is a resistor of its direct-current resistance, to ten digits."""
    frequency = np.array([1e-3])
    short = line(parameters=small_coax(frequency), length_m=1.0, reference_ohm=75.0)
    resistor = series(frequency_hz=frequency, impedance_ohm=0.05, reference_ohm=75.0)
    assert short.s11[0] == pytest.approx(resistor.s11[0], rel=1e-9)


def test_a_very_long_line_neither_overflows_nor_gains() -> None:
    """A million metres give S21 of zero and an S11 that is the mismatch of the line itself."""
    parameters = small_coax(FREQUENCY)
    endless = line(parameters=parameters, length_m=1e6, reference_ohm=75.0)
    impedance = parameters.impedance_ohm
    assert np.allclose(endless.s11, (impedance - 75) / (impedance + 75), rtol=1e-12, atol=0)
    assert np.abs(endless.s21[-1]) < 1e-100


def test_a_short_section_is_a_line_and_small_parts_are_lumped() -> None:
    """A 50 Ω section of 20 ps in 75 Ω looks like its own inductance and capacitance at 100 MHz."""
    frequency = np.array([1e8])
    section = ShortSection(impedance_ohm=50.0, delay_s=20e-12, loss_at_1_ghz_db=0.0)
    lumped = LumpedJoint(contact_ohm=0.0, inductance_h=50 * 20e-12, capacitance_f=20e-12 / 50)
    as_line = section.two_port(frequency_hz=frequency, reference_ohm=75.0)
    as_parts = lumped.two_port(frequency_hz=frequency, reference_ohm=75.0)
    assert as_parts.s11[0] == pytest.approx(as_line.s11[0], rel=1e-4)
    assert abs(as_line.s11[0]) > 1e-3


def test_a_lossy_joint_loses_by_the_root_of_frequency() -> None:
    """A matched section of 0.1 dB at 1 GHz has 0.2 dB at 4 GHz."""
    section = ShortSection(impedance_ohm=75.0, delay_s=30e-12, loss_at_1_ghz_db=0.1)
    two_port = section.two_port(frequency_hz=np.array([1e9, 4e9]), reference_ohm=75.0)
    assert -20 * np.log10(np.abs(two_port.s21)) == pytest.approx([0.1, 0.2])


def test_sections_of_any_length_equal_their_cascade() -> None:
    """The sectioned line agrees with joining its sections one by one."""
    chance = np.random.default_rng(5)
    parameters = small_coax(FREQUENCY)
    ratio, length = 1 + 0.1 * chance.standard_normal(30), 0.05 + 0.05 * chance.random(30)
    at_once = sectioned_line(
        frequency_hz=FREQUENCY,
        gamma=parameters.gamma,
        impedance_ohm=parameters.impedance_ohm * ratio[:, None],
        length_m=length,
        reference_ohm=75.0,
    )
    one_by_one = cascade(
        *(
            line_of(
                frequency_hz=FREQUENCY,
                gamma=parameters.gamma,
                impedance_ohm=parameters.impedance_ohm * each,
                length_m=metres,
                reference_ohm=75.0,
            )
            for each, metres in zip(ratio, length, strict=True)
        )
    )
    assert _away(at_once, one_by_one) < 1e-12


def _line_with(**changed: object) -> TwoPort:
    given = {
        "parameters": small_coax(FREQUENCY), "length_m": 1.0, "reference_ohm": 75.0, **changed
    }  # fmt: skip
    return line(**given)  # type: ignore[arg-type]


_ONE = np.ones(FREQUENCY.size, dtype=complex)


@pytest.mark.parametrize(
    ("build", "field"),
    [
        (lambda: _line_with(length_m=-1.0), "length_m"),
        (lambda: _line_with(length_m=np.nan), "length_m"),
        (lambda: _line_with(reference_ohm=0.0), "reference_ohm"),
        (cascade, "parts"),
        (lambda: _line_with().then(_line_with(reference_ohm=50.0)), "reference_ohm"),
        (lambda: _line_with().then(_line_with(parameters=small_coax(band(7)))), "frequency_hz"),
        (lambda: line_chain(parameters=small_coax(FREQUENCY), length_m=1e6), "length_m"),
        (lambda: series(frequency_hz=-FREQUENCY, impedance_ohm=1.0, reference_ohm=75.0),
         "frequency_hz"),
        (lambda: shunt(frequency_hz=FREQUENCY, admittance_siemens=np.nan, reference_ohm=75.0),
         "admittance_siemens"),
        (lambda: series(frequency_hz=FREQUENCY, impedance_ohm=-1.0, reference_ohm=75.0),
         "impedance_ohm"),
        (lambda: line_of(frequency_hz=FREQUENCY, gamma=-_ONE, impedance_ohm=75.0, length_m=1.0,
                         reference_ohm=75.0), "gamma"),
        (lambda: sectioned_line(frequency_hz=FREQUENCY, gamma=_ONE, impedance_ohm=[75.0],
                                length_m=[1.0, 2.0], reference_ohm=75.0), "impedance_ohm"),
        (lambda: ShortSection(impedance_ohm=0.0, delay_s=1e-12, loss_at_1_ghz_db=0.0),
         "impedance_ohm"),
        (lambda: LumpedJoint(contact_ohm=-1.0, inductance_h=0.0, capacitance_f=0.0),
         "contact_ohm"),
    ],
)  # fmt: skip
def test_what_makes_no_sense_is_refused_with_its_field(
    build: Callable[[], object], field: str
) -> None:
    """Each impossible line, joint or row is refused, and the field is named."""
    with pytest.raises(BadValue) as refused:
        build()
    assert refused.value.field == field
    assert refused.value.accepted
