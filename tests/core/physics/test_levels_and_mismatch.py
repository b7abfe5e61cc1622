"""Levels as radio and television count them, and what a line of another impedance costs."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.line_parameters import LineParameters
from reelwright.core.physics.mismatch_loss import mismatch_loss
from reelwright.core.physics.signal_level import dbm_of_dbuv, dbmv_of_dbuv, dbuv_of_dbmv
from reelwright.core.physics.terminations import insertion_loss_db
from reelwright.core.physics.two_port import line

OHMS = st.floats(min_value=10, max_value=400)
LOSSES = st.floats(min_value=0, max_value=60)


@given(st.floats(min_value=-50, max_value=150))
def test_levels_lead_back(level_dbuv: float) -> None:
    """A level over a microvolt, told over a millivolt, is the same level again."""
    assert dbuv_of_dbmv(dbmv_of_dbuv(level_dbuv)) == pytest.approx(level_dbuv, abs=1e-12)


def test_a_level_is_a_power_across_an_impedance() -> None:
    """1 V across 50 Ω is 120 dBµV and 20 mW."""
    assert dbm_of_dbuv(120.0, impedance_ohm=50.0) == pytest.approx(10 * math.log10(20.0))
    for bad in (0.0, -75.0, math.nan, math.inf):
        with pytest.raises(BadValue, match="impedance_ohm"):
            dbm_of_dbuv(60.0, impedance_ohm=bad)


def test_75_ohm_between_50_ohm_ends_costs_seven_tenths_of_a_decibel_at_most() -> None:
    """Without loss of its own a quarter wave of 75 Ω turns 50 Ω into 112.5 Ω; a half wave none."""
    found = mismatch_loss(line_ohm=75.0, ends_ohm=50.0, own_loss_db=0.0)
    taken = 4 * 50 * 112.5 / (50 + 112.5) ** 2
    assert float(found.most_db) == pytest.approx(-10 * math.log10(taken), rel=1e-12)
    assert float(found.least_db) == 0.0


@pytest.mark.parametrize(("line_ohm", "loss_db_per_m"), [(75.0, 0.001), (93.0, 0.3), (35.0, 2.0)])
def test_the_two_port_of_a_line_reaches_both_bounds(line_ohm: float, loss_db_per_m: float) -> None:
    """Over many lengths the exact line between 50 Ω ends lies between the bounds and meets them."""
    frequency = np.array([6e8])
    delay, attenuation = 4e-9, loss_db_per_m * math.log(10) / 20
    # A line without distortion: its impedance is real, as the bounds take it.
    parameters = LineParameters(
        frequency_hz=frequency,
        resistance_ohm_per_m=np.array([attenuation * line_ohm]),
        inductance_h_per_m=np.array([delay * line_ohm]),
        conductance_siemens_per_m=np.array([attenuation / line_ohm]),
        capacitance_f_per_m=np.array([delay / line_ohm]),
    )
    lengths = np.linspace(2.0, 2.5, 2001)
    port = line(parameters=parameters, length_m=lengths, reference_ohm=50.0)
    own = loss_db_per_m * lengths
    beyond = insertion_loss_db(port, source_ohm=50.0, load_ohm=50.0)[:, 0] - own
    found = mismatch_loss(line_ohm=line_ohm, ends_ohm=50.0, own_loss_db=own)
    assert (beyond <= found.most_db + 1e-9).all()
    assert (beyond >= found.least_db - 1e-9).all()
    assert (found.most_db - beyond).min() < 1e-4
    assert (beyond - found.least_db).min() < 1e-4


@given(line_ohm=OHMS, ends_ohm=OHMS, own_loss_db=LOSSES)
def test_a_mismatch_never_helps_and_loss_hides_it(
    line_ohm: float, ends_ohm: float, own_loss_db: float
) -> None:
    """Nothing is gained, worst and kindest draw together with loss, both ways round are alike."""
    found = mismatch_loss(line_ohm=line_ohm, ends_ohm=ends_ohm, own_loss_db=own_loss_db)
    more = mismatch_loss(line_ohm=line_ohm, ends_ohm=ends_ohm, own_loss_db=own_loss_db + 3)
    turned = mismatch_loss(line_ohm=ends_ohm, ends_ohm=line_ohm, own_loss_db=own_loss_db)
    assert -1e-12 <= found.least_db <= found.most_db
    assert more.most_db - more.least_db <= found.most_db - found.least_db
    # Longer is never better in all: the feed's own loss grows faster than the mismatch fades.
    assert more.most_db + 3 > found.most_db
    assert float(turned.most_db) == pytest.approx(float(found.most_db), abs=1e-12)


def test_nonsense_is_refused() -> None:
    """No impedance and no gain are let in."""
    with pytest.raises(BadValue, match="above zero"):
        mismatch_loss(line_ohm=0.0, ends_ohm=50.0, own_loss_db=1.0)
    with pytest.raises(BadValue, match="own_loss_db"):
        mismatch_loss(line_ohm=75.0, ends_ohm=50.0, own_loss_db=[1.0, -0.1])
    with pytest.raises(BadValue, match="own_loss_db"):
        mismatch_loss(line_ohm=75.0, ends_ohm=50.0, own_loss_db=math.nan)
