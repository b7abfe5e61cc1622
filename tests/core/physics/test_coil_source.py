"""Coils into capacitances: resonance and peak against a search, and against a chain of parts."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.coil_source import CoilSource
from reelwright.core.physics.terminations import voltage_ratio
from reelwright.core.physics.two_port import series, shunt

PICKUP = CoilSource(coil_henry=2.5, coil_ohm=6e3, own_f=110e-12, load_ohm=111e3)


def test_the_resonance_is_where_reactances_cancel() -> None:
    """At 1/(2π√(LC)), with C that of coil and cable, ωL equals 1/ωC."""
    resonance = float(PICKUP.resonance_hz(300e-12))
    angular = 2 * math.pi * resonance
    assert angular * 2.5 == pytest.approx(1 / (angular * 410e-12))


@given(
    coil_henry=st.floats(min_value=0.1, max_value=10),
    coil_ohm=st.floats(min_value=100, max_value=20e3),
    load_ohm=st.floats(min_value=20e3, max_value=2e6),
    added_pf=st.floats(min_value=1, max_value=5000),
)
def test_the_peak_is_the_highest_point_of_the_response(
    coil_henry: float, coil_ohm: float, load_ohm: float, added_pf: float
) -> None:
    """No frequency stands higher; where there is no peak the response only falls."""
    coil = CoilSource(coil_henry=coil_henry, coil_ohm=coil_ohm, own_f=50e-12, load_ohm=load_ohm)
    resonance = float(coil.resonance_hz(added_pf * 1e-12))
    frequency = resonance * np.geomspace(0.01, 10, 4001)
    response = coil.response_db(frequency, capacitance_f=added_pf * 1e-12)
    peak = coil.peak(added_pf * 1e-12)
    if peak is None:
        assert (np.diff(response) <= 1e-12).all()
        return
    where, height = peak
    assert where <= resonance
    assert response.max() <= height + 1e-9
    near = coil.response_db(where * np.array([0.999, 1.001]), capacitance_f=added_pf * 1e-12)
    assert (near <= height + 1e-12).all()


def test_the_response_is_that_of_its_parts_in_a_row() -> None:
    """A coil in series, capacitance and load across it: the same from scattering parameters."""
    frequency = np.geomspace(20, 20e3, 60)
    turning = 2j * np.pi * frequency
    chain = series(
        frequency_hz=frequency, impedance_ohm=6e3 + turning * 2.5, reference_ohm=600.0
    ).then(shunt(frequency_hz=frequency, admittance_siemens=turning * 410e-12, reference_ohm=600.0))
    ratio = voltage_ratio(chain, source_ohm=0.0, load_ohm=111e3)
    expected = 20 * np.log10(np.abs(ratio) * (111e3 + 6e3) / 111e3)
    ours = PICKUP.response_db(frequency, capacitance_f=300e-12)
    np.testing.assert_allclose(ours, expected, atol=1e-9)


def test_more_capacitance_lowers_the_resonance() -> None:
    """Four times the capacitance is half the frequency."""
    coil = CoilSource(coil_henry=0.5, coil_ohm=1e3, own_f=0.0, load_ohm=47e3)
    first, second = coil.resonance_hz([100e-12, 400e-12])
    assert first == pytest.approx(2 * second)


@pytest.mark.parametrize("field", ["coil_henry", "coil_ohm", "load_ohm"])
def test_coils_of_nothing_are_refused(field: str) -> None:
    """Coil, resistance and load are above zero, and some capacitance there must be."""
    parts = {"coil_henry": 1.0, "coil_ohm": 1.0, "own_f": 0.0, "load_ohm": 1.0}
    with pytest.raises(BadValue, match=field):
        CoilSource(**{**parts, field: 0.0})
    coil = CoilSource(**parts)
    for capacitance_f in (0.0, -1e-12, math.nan):
        with pytest.raises(BadValue):
            coil.resonance_hz(capacitance_f)
