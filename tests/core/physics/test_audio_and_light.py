"""Audio, loudspeakers, light and high voltage: identities and refusals."""

import math

import numpy as np
import pytest

from reelwright.core.errors import BadValue
from reelwright.core.physics.audio import corner_frequency_hz, droop_db, hum_db
from reelwright.core.physics.fibre import OpticalLedger
from reelwright.core.physics.hipot import stored_energy_j
from reelwright.core.physics.loudspeaker import damping_factor, level_loss_db, longest_run_m
from reelwright.core.physics.reflection import (
    echo_distance_m,
    local_impedance_ohm,
    reflection_of_step,
    return_loss_db,
)

LEDGER = OpticalLedger(
    launch_dbm=-19.0, needed_dbm=-24.0, interfaces=2, interface_loss_db=1.0, ageing_db=1.0
)


def test_the_droop_at_the_corner_is_three_decibels() -> None:
    """At 1/(2πRC) half the power is left."""
    corner = corner_frequency_hz(source_ohm=600.0, capacitance_f=1e-8)
    droop = droop_db(source_ohm=600.0, capacitance_f=1e-8, frequency_hz=corner)
    assert float(droop) == pytest.approx(10 * math.log10(2))


def test_the_longest_run_uses_up_exactly_the_fraction() -> None:
    """At the longest run the loop is 5 % of the load, which loses 0.42 dB."""
    length_m = longest_run_m(conductor_ohm_per_m=0.008, nominal_ohm=8.0, fraction=0.05)
    loop_ohm = 2 * 0.008 * length_m
    assert loop_ohm == pytest.approx(0.4)
    assert float(level_loss_db(loop_ohm=loop_ohm, nominal_ohm=8.0)) == pytest.approx(
        0.424, abs=5e-4
    )
    assert damping_factor(loop_ohm=loop_ohm, amplifier_ohm=0.0, nominal_ohm=8.0) == pytest.approx(
        20
    )


def test_the_optical_ledger_of_the_demo() -> None:
    """15 m at 0.20 dB/m is 1.0 dB short in the worst case, and 10 m leaves nothing over."""
    margin = LEDGER.margin_db(length_m=np.array([10.0, 15.0]), loss_db_per_m=0.20)
    np.testing.assert_allclose(margin, [0.0, -1.0], atol=1e-12)
    assert LEDGER.longest_m(loss_db_per_m=0.20) == pytest.approx(10.0)


def test_a_ledger_in_debt_has_no_longest_run() -> None:
    """Where the parts alone use up the light, no length is left."""
    poor = OpticalLedger(
        launch_dbm=-23.0, needed_dbm=-24.0, interfaces=2, interface_loss_db=1.0, ageing_db=1.0
    )
    assert poor.longest_m(loss_db_per_m=0.2) == 0.0


def test_a_step_and_the_impedance_behind_it_lead_back_to_each_other() -> None:
    """Z behind the reflection of Z on a line is Z again."""
    for impedance in (10.0, 66.2, 75.0, 300.0):
        reflection = reflection_of_step(impedance_ohm=impedance, line_ohm=75.0)
        assert local_impedance_ohm(reflection=reflection, line_ohm=75.0) == pytest.approx(impedance)


def test_nonsense_is_refused() -> None:
    """No reflection has no return loss, total reflection no impedance, no current no hum."""
    with pytest.raises(BadValue):
        return_loss_db(0.0)
    with pytest.raises(BadValue):
        local_impedance_ohm(reflection=1.0, line_ohm=75.0)
    with pytest.raises(BadValue):
        corner_frequency_hz(source_ohm=0.0, capacitance_f=1e-9)
    with pytest.raises(BadValue):
        hum_db(current_a=0.0, screen_ohm_per_m=0.01, length_m=8.0, contact_ohm=0.005, signal_v=0.3)


def test_a_fault_near_the_far_end_is_placed() -> None:
    """The demo's echo after 203.6 ns on 25.40 m lies 0.069 m from the far end."""
    near_m = echo_distance_m(round_trip_s=203.6e-9, velocity_factor=0.830)
    assert 25.40 - near_m == pytest.approx(0.0693, abs=0.0005)


def test_the_energy_of_a_test_at_1414_volts() -> None:
    """25.4 m of 53.6 pF/m at 1414 V hold 1.361 mJ."""
    energy = stored_energy_j(voltage_v=1414.0, capacitance_f=53.6e-12 * 25.4)
    assert energy == pytest.approx(1.361e-3, rel=5e-4)
