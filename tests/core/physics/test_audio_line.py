"""Audio lines by their chain matrix, hum: against two-ports, circuit laws and at their limits."""

import cmath
import math

import mpmath
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.audio import droop_db, hum_db, hum_v
from reelwright.core.physics.audio_line import open_line_loss_db
from reelwright.core.physics.line_parameters import from_series_and_shunt
from reelwright.core.physics.terminations import voltage_ratio
from reelwright.core.physics.two_port import line

TURNING = 2 * math.pi * 20e3
SERIES = 0.0759 + 1j * TURNING * 0.41e-6
SHUNT = 1j * TURNING * 41.9e-12


@pytest.mark.parametrize("source_ohm", [0.0, 100.0, 1000.0, 47e3, 600 + 3000j])
def test_the_loss_is_that_of_the_two_port_into_an_open_end(source_ohm: complex) -> None:
    """The closed form agrees with the line as scattering parameters between source and no load."""
    lengths = np.array([0.1, 3.66, 40.0, 2000.0])
    two_port = line(
        parameters=from_series_and_shunt(
            frequency_hz=[20e3], series_ohm_per_m=[SERIES], shunt_siemens_per_m=[SHUNT]
        ),
        length_m=lengths,
        reference_ohm=600.0,
    )
    ratio = voltage_ratio(two_port, source_ohm=source_ohm, load_ohm=np.inf)[:, 0]
    ours = open_line_loss_db(
        source_ohm=source_ohm,
        series_ohm_per_m=SERIES,
        shunt_siemens_per_m=SHUNT,
        length_m=lengths,
    )
    np.testing.assert_allclose(ours, -20 * np.log10(np.abs(ratio)), rtol=1e-9, atol=1e-11)


@given(
    source_ohm=st.floats(min_value=0, max_value=1e5),
    resistance=st.floats(min_value=1e-3, max_value=1.0),
    capacitance_pf=st.floats(min_value=10, max_value=500),
    length_m=st.floats(min_value=0.01, max_value=5000),
)
def test_the_loss_holds_its_digits(
    source_ohm: float, resistance: float, capacitance_pf: float, length_m: float
) -> None:
    """Against cosh and sinh in 40 digits, from centimetres to kilometres."""
    shunt = 1j * TURNING * capacitance_pf * 1e-12
    series = resistance + 1j * TURNING * 0.5e-6
    with mpmath.workdps(40):
        gamma = mpmath.sqrt(mpmath.mpc(series) * mpmath.mpc(shunt))
        through = gamma * length_m
        divided = mpmath.cosh(through) + source_ohm * shunt / gamma * mpmath.sinh(through)
        exact = float(20 * mpmath.log10(abs(divided)))
    ours = open_line_loss_db(
        source_ohm=source_ohm,
        series_ohm_per_m=series,
        shunt_siemens_per_m=shunt,
        length_m=length_m,
    )
    assert float(ours) == pytest.approx(exact, rel=1e-9, abs=1e-13)


def test_a_cable_without_resistance_is_a_capacitance() -> None:
    """As R and L vanish, the droop of a source into a capacitor is left."""
    lengths = np.array([1.0, 30.0, 100.0])
    ours = open_line_loss_db(
        source_ohm=1000.0, series_ohm_per_m=1e-12, shunt_siemens_per_m=SHUNT, length_m=lengths
    )
    droop = droop_db(source_ohm=1000.0, capacitance_f=41.9e-12 * lengths, frequency_hz=20e3)
    np.testing.assert_allclose(ours, droop, rtol=1e-9)


def test_the_resistance_of_the_cable_only_adds_and_100_km_do_not_overflow() -> None:
    """More R is more loss, and far along the line a metre loses what γ says."""
    lengths = np.array([100e3, 101e3])
    low, high = (
        open_line_loss_db(
            source_ohm=1000.0,
            series_ohm_per_m=resistance + SERIES,
            shunt_siemens_per_m=SHUNT,
            length_m=lengths,
        )
        for resistance in (0.0, 0.1)
    )
    assert (high > low).all()
    per_km = 1000 * 20 / math.log(10) * cmath.sqrt(SERIES * SHUNT).real
    assert low[1] - low[0] == pytest.approx(per_km, rel=1e-6)


@pytest.mark.parametrize(
    "change",
    [
        {"source_ohm": -1.0},
        {"series_ohm_per_m": 0.0},
        {"series_ohm_per_m": -0.1},
        {"shunt_siemens_per_m": 0.0},
        {"length_m": -1.0},
        {"length_m": math.nan},
    ],
)
def test_lines_that_cannot_be_are_refused(change: dict[str, float]) -> None:
    """No negative resistance, no line without R + jωL or G + jωC, no negative length."""
    given_line = {
        "source_ohm": 1.0,
        "series_ohm_per_m": SERIES,
        "shunt_siemens_per_m": SHUNT,
        "length_m": 1.0,
        **change,
    }
    with pytest.raises(BadValue):
        open_line_loss_db(**given_line)  # type: ignore[arg-type]


def test_hum_rises_with_length_from_what_the_contacts_give() -> None:
    """A run of no length hums by its two contacts; each metre adds the same voltage."""
    hum = hum_v(current_a=1e-3, screen_ohm_per_m=0.01, length_m=[0.0, 10.0, 20.0], contact_ohm=5e-3)
    np.testing.assert_allclose(hum, [10e-6, 110e-6, 210e-6])
    level = hum_db(
        current_a=1e-3, screen_ohm_per_m=0.01, length_m=10.0, contact_ohm=5e-3, signal_v=0.11
    )
    assert level == pytest.approx(-60.0)


@pytest.mark.parametrize(
    "change",
    [{"current_a": 0.0}, {"screen_ohm_per_m": 0.0}, {"contact_ohm": -1.0}, {"signal_v": 0.0},
     {"length_m": 0.0}],
)  # fmt: skip
def test_hum_of_nothing_is_refused(change: dict[str, float]) -> None:
    """No current, no screen, no signal and no length have no hum in decibels."""
    run = {"current_a": 1e-3, "screen_ohm_per_m": 0.01, "length_m": 1.0, "contact_ohm": 0.0,
           "signal_v": 1.0, **change}  # fmt: skip
    with pytest.raises(BadValue):
        hum_db(**run)
