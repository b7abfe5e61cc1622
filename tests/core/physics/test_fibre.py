"""Light in plastic fibre: rays, bends, and the convention of the ledger."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.fibre import (
    ACRYLIC_FIBRE,
    OpticalLedger,
    acceptance_rad,
    bend_allowance_db,
    launch_in_fibre_dbm,
)
from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S


def test_the_sources_own_plug_is_taken_off_once() -> None:
    """−15 dBm before a plug that loses 3 dB are −18 dBm in the fibre, as if stated so."""
    launch = launch_in_fibre_dbm(emitted_dbm=-15.0, plug_loss_db=3.0)
    assert launch == -18.0
    ledger = OpticalLedger(
        launch_dbm=launch, needed_dbm=-24.0, interfaces=2, interface_loss_db=1.0, ageing_db=1.0
    )
    assert ledger.fibre_budget_db == pytest.approx(3.0)
    with pytest.raises(BadValue):
        launch_in_fibre_dbm(emitted_dbm=-15.0, plug_loss_db=-1.0)


def test_the_steepest_ray_goes_its_longer_way() -> None:
    """A ray at the critical angle goes 1/cos θ as far: the spread is geometry alone."""
    critical = math.asin(ACRYLIC_FIBRE.cladding_index_ratio / ACRYLIC_FIBRE.core_index_ratio)
    along = math.sin(critical)
    straight_s = ACRYLIC_FIBRE.core_index_ratio / SPEED_OF_LIGHT_M_PER_S
    assert ACRYLIC_FIBRE.ray_spread_s_per_m == pytest.approx(straight_s / along - straight_s)


@given(st.floats(min_value=0.1, max_value=1000))
def test_bandwidth_and_length_undo_each_other(length_m: float) -> None:
    """Twice the length has half the bandwidth, and the length for a bandwidth is its own."""
    bandwidth = ACRYLIC_FIBRE.bandwidth_hz(length_m=length_m)
    assert ACRYLIC_FIBRE.longest_m(bandwidth_hz=bandwidth) == pytest.approx(length_m)
    assert ACRYLIC_FIBRE.bandwidth_hz(length_m=2 * length_m) == pytest.approx(bandwidth / 2)


@given(st.floats(min_value=1e-3, max_value=1.0))
def test_a_wider_bend_keeps_more(radius_m: float) -> None:
    """The light kept lies between none and all of it and grows with the radius."""
    kept = ACRYLIC_FIBRE.bend_kept(radius_m=radius_m, wavelength_m=650e-9)
    wider = ACRYLIC_FIBRE.bend_kept(radius_m=2 * radius_m, wavelength_m=650e-9)
    assert 0 <= kept <= wider < 1


def test_the_bound_of_a_bend_is_no_less_than_what_is_tested() -> None:
    """Light that fills the fibre loses more at 25 mm than the 0.5 dB a tested fibre may."""
    kept = ACRYLIC_FIBRE.bend_kept(radius_m=0.025, wavelength_m=650e-9)
    assert -10 * math.log10(kept) > bend_allowance_db(turn_count=10)


def test_nonsense_is_refused() -> None:
    """A core below its cladding, no cladding, no length, a bend of nothing, NA above 1."""
    for change in (
        {"core_index_ratio": 1.40},
        {"cladding_index_ratio": 0.9},
        {"core_diameter_m": 1.1e-3},
        {"core_diameter_m": 0.0},
        {"core_index_ratio": math.nan},
    ):
        with pytest.raises(BadValue):
            replace(ACRYLIC_FIBRE, **change)  # type: ignore[arg-type]
    with pytest.raises(BadValue):
        ACRYLIC_FIBRE.bandwidth_hz(length_m=0.0)
    with pytest.raises(BadValue):
        ACRYLIC_FIBRE.bend_kept(radius_m=0.0, wavelength_m=650e-9)
    with pytest.raises(BadValue):
        acceptance_rad(1.2)
    with pytest.raises(BadValue):
        bend_allowance_db(turn_count=-1)
