"""The value every line is turned into: identities, digits, and what it refuses."""

import mpmath
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.line_parameters import LineParameters, from_series_and_shunt

FREQUENCY = np.geomspace(1.0, 2e10, 40)


def line(**change: object) -> LineParameters:
    """A line of 75 Ω with some loss."""
    values = {
        "frequency_hz": FREQUENCY,
        "resistance_ohm_per_m": 0.05,
        "inductance_h_per_m": 3e-7,
        "conductance_siemens_per_m": 1e-9,
        "capacitance_f_per_m": 54e-12,
    }
    return LineParameters(**{**values, **change})  # type: ignore[arg-type]


def test_propagation_holds_all_its_digits_in_both_parts() -> None:
    """Attenuation and phase agree with 50-digit arithmetic to 1e-14 from 1 Hz to 20 GHz."""
    ours = line()
    with mpmath.workdps(50):
        for place, frequency in enumerate(FREQUENCY):
            angular = 2 * mpmath.pi * mpmath.mpf(float(frequency))
            series = mpmath.mpc(mpmath.mpf(0.05), angular * mpmath.mpf(3e-7))
            shunt = mpmath.mpc(mpmath.mpf(1e-9), angular * mpmath.mpf(54e-12))
            gamma, impedance = mpmath.sqrt(series * shunt), mpmath.sqrt(series / shunt)
            assert abs(ours.gamma[place].real / gamma.real - 1) < 1e-14
            assert abs(ours.gamma[place].imag / gamma.imag - 1) < 1e-14
            assert abs(mpmath.mpc(complex(ours.impedance_ohm[place])) / impedance - 1) < 1e-14


@given(
    resistance=st.floats(0, 10),
    inductance=st.floats(1e-8, 1e-5),
    conductance=st.floats(0, 1e-3),
    capacitance=st.floats(1e-12, 1e-9),
)
def test_every_line_is_passive(
    resistance: float, inductance: float, conductance: float, capacitance: float
) -> None:
    """No line amplifies: attenuation and the real part of its impedance are never below zero."""
    ours = line(
        resistance_ohm_per_m=resistance,
        inductance_h_per_m=inductance,
        conductance_siemens_per_m=conductance,
        capacitance_f_per_m=capacitance,
    )
    assert (ours.gamma.real >= 0).all()
    assert (ours.gamma.imag > 0).all()
    assert (ours.impedance_ohm.real > 0).all()


def test_a_line_without_loss_has_the_textbook_values() -> None:
    """With R = G = 0 the impedance is √(L/C), the delay √(L·C), and nothing is lost."""
    ours = line(resistance_ohm_per_m=0.0, conductance_siemens_per_m=0.0)
    np.testing.assert_allclose(ours.impedance_ohm, np.sqrt(3e-7 / 54e-12), rtol=1e-14)
    np.testing.assert_allclose(ours.delay_s_per_m, np.sqrt(3e-7 * 54e-12), rtol=1e-14)
    assert (ours.loss_db_per_m == 0).all()


def test_series_and_shunt_come_back_as_they_were_given() -> None:
    """R + jωL and G + jωC of a line make the same line again."""
    ours = line()
    again = from_series_and_shunt(
        frequency_hz=FREQUENCY,
        series_ohm_per_m=ours.series_impedance_ohm_per_m,
        shunt_siemens_per_m=ours.admittance_siemens_per_m,
    )
    np.testing.assert_allclose(again.gamma, ours.gamma, rtol=1e-14)


def test_batches_keep_frequency_last() -> None:
    """Three cables at two temperatures give (3, 2, n), and one frequency can be taken out."""
    ours = line(resistance_ohm_per_m=np.ones((3, 2, 1)))
    assert ours.shape == ours.gamma.shape == (3, 2, 40)
    assert ours.gamma.flags.c_contiguous
    assert ours.at(float(FREQUENCY[7])).shape == (3, 2, 1)
    with pytest.raises(BadValue, match="frequency_hz"):
        ours.at(123.0)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("frequency_hz", np.array([0.0, 1.0])),
        ("frequency_hz", np.array([])),
        ("frequency_hz", np.array([1.0, np.nan])),
        ("resistance_ohm_per_m", -1e-9),
        ("inductance_h_per_m", 0.0),
        ("conductance_siemens_per_m", -1e-30),
        ("capacitance_f_per_m", np.inf),
        ("resistance_ohm_per_m", np.ones(7)),
    ],
)
def test_nonsense_is_refused_by_its_field(field: str, value: object) -> None:
    """A line that feeds itself, is not finite or does not fit its frequencies is not built."""
    with pytest.raises(BadValue, match=field) as refused:
        line(**{field: value})
    assert refused.value.accepted
