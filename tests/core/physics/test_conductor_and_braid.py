"""Conductors and braids: limits, what they are made of, and what is refused."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.materials.clad_wire import CLAD_ALUMINIUM_10, CLAD_STEEL_21, TINNED
from reelwright.core.materials.metals import COPPER
from reelwright.core.physics.braid import Braid, braid_of_picks, hole_form_factor
from reelwright.core.physics.conductor import (
    Conductor,
    clad_wire,
    internal_impedances_ohm_per_m,
    solid_wire,
    stranded,
)

FREQUENCY = np.geomspace(1.0, 2e10, 30)
ROPE = stranded(COPPER, strands=7, strand_diameter_m=0.2e-3, lay_factor=1.02, coating=None)
BRAID = {
    "metal": COPPER,
    "carriers": 16,
    "ends": 7,
    "strand_diameter_m": 0.127e-3,
    "under_diameter_m": 2.95e-3,
    "angle_deg": 27.0,
}


@pytest.mark.parametrize(
    "conductor",
    [
        solid_wire(COPPER, diameter_m=0.8e-3),
        clad_wire(CLAD_STEEL_21, diameter_m=1.0e-3),
        ROPE,
        stranded(COPPER, strands=19, strand_diameter_m=0.18e-3, lay_factor=1.03, coating=TINNED),
    ],
)
def test_at_one_hertz_every_conductor_has_its_direct_current_resistance(
    conductor: Conductor,
) -> None:
    """Skin effect ends in the resistance of all metals in parallel, strands and lay included."""
    for celsius in (-20.0, 20.0, 60.0):
        alternating = conductor.internal_impedance_ohm_per_m([1.0], temperature_celsius=celsius)
        assert alternating[0].real == pytest.approx(
            conductor.direct_resistance_ohm_per_m(celsius), rel=2e-5
        )


def test_seven_strands_cost_their_lay_and_their_gaps() -> None:
    """Direct current: 7 wires and 2 % of lay; at 1 GHz 1.0 to 1.25 times the smooth rod."""
    one = solid_wire(COPPER, diameter_m=0.2e-3).direct_resistance_ohm_per_m(20.0)
    assert ROPE.direct_resistance_ohm_per_m(20.0) == pytest.approx(1.02 * one / 7)
    smooth = solid_wire(COPPER, diameter_m=ROPE.electrical_diameter_m)
    high = {"temperature_celsius": 20.0}
    ratio = (
        ROPE.internal_impedance_ohm_per_m([1e9], **high).real
        / smooth.internal_impedance_ohm_per_m([1e9], **high).real
    )
    assert 1.0 < ratio[0] < 1.25


def test_copper_clad_aluminium_is_copper_at_radio_and_aluminium_at_direct_current() -> None:
    """Direct current sees 65 % of copper; at 1 GHz there is nothing but the cladding."""
    clad = clad_wire(CLAD_ALUMINIUM_10, diameter_m=1e-3)
    solid = solid_wire(COPPER, diameter_m=1e-3)
    low = solid.direct_resistance_ohm_per_m(20.0) / clad.direct_resistance_ohm_per_m(20.0)
    assert low == pytest.approx(0.649, abs=0.001)
    ours, copper = (
        one.internal_impedance_ohm_per_m([1e9], temperature_celsius=20.0)[0]
        for one in (clad, solid)
    )
    assert ours == pytest.approx(copper, rel=1e-4)


def test_a_batch_is_each_conductor_by_itself() -> None:
    """Plain, clad and stranded at two temperatures come out of one call as of six."""
    wires = (solid_wire(COPPER, diameter_m=1e-3), clad_wire(CLAD_STEEL_21, diameter_m=1e-3), ROPE)
    together = internal_impedances_ohm_per_m(wires, FREQUENCY, temperatures_celsius=(20.0, 50.0))
    assert together.shape == (3, 2, 30)
    for place, wire in enumerate(wires):
        for other, celsius in enumerate((20.0, 50.0)):
            alone = wire.internal_impedance_ohm_per_m(FREQUENCY, temperature_celsius=celsius)
            np.testing.assert_array_equal(together[place, other], alone)


@given(diameter_m=st.floats(5e-5, 6e-3), celsius=st.floats(-40, 100))
def test_resistance_never_falls_with_frequency(diameter_m: float, celsius: float) -> None:
    """A plain wire's resistance rises, its inductance falls, and both stay above zero."""
    impedance = solid_wire(COPPER, diameter_m=diameter_m).internal_impedance_ohm_per_m(
        FREQUENCY, temperature_celsius=celsius
    )
    assert (np.diff(impedance.real) >= -1e-12 * impedance.real[:-1]).all()
    inductance = impedance.imag / FREQUENCY
    assert (np.diff(inductance) <= 1e-12 * inductance[:-1]).all()
    assert inductance.min() > 0


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("strand_diameter_m", -1.0),
        ("strands", 0),
        ("bundle_diameter_m", 0.3e-3),
        ("lay_factor", 0.99),
        ("cladding_thickness_m", 1e-5),
    ],
)
def test_a_conductor_that_cannot_be_made_is_refused(field: str, value: float) -> None:
    """Seven strands in less than their area, a lay below 1 and a wall of nothing are refused."""
    with pytest.raises(BadValue, match=field) as refused:
        Conductor(**{**vars(ROPE), field: value})
    assert refused.value.accepted


def test_a_cladding_thicker_than_its_wire_is_refused() -> None:
    """A wall of half the diameter leaves no core."""
    with pytest.raises(BadValue, match="cladding_thickness_m"):
        Conductor(
            **{
                **vars(solid_wire(COPPER, diameter_m=1e-3)),
                "cladding": COPPER,
                "cladding_thickness_m": 0.5e-3,
            }
        )


def test_two_published_formulae_differ_and_say_by_how_much() -> None:
    """Both start from the direct-current resistance, and part where the holes take over."""
    braid = Braid(**BRAID)  # type: ignore[arg-type]
    through = braid.transfer_impedance([1.0, 1e8], temperature_celsius=20.0)
    direct = braid.direct_resistance_ohm_per_m(20.0)
    assert abs(through.vance_ohm_per_m[0]) == pytest.approx(direct, rel=1e-6)
    assert through.spread_ratio[0] == pytest.approx(1.0)
    assert through.spread_ratio[1] > 1.5
    assert (through.largest_ohm_per_m >= abs(through.kley_ohm_per_m)).all()


@given(angle=st.floats(10, 80))
def test_the_form_of_a_hole_is_smooth_through_45_degrees(angle: float) -> None:
    """Both elliptic forms meet at 4/π, and neither jumps."""
    assert hole_form_factor(45.0) == pytest.approx(4 / np.pi)
    assert hole_form_factor(angle + 0.001) == pytest.approx(hole_form_factor(angle), rel=1e-3)


def test_picks_and_angle_say_the_same() -> None:
    """tan a = 2π·Dm·P/C turns picks into the angle and back."""
    braid = Braid(**BRAID)  # type: ignore[arg-type]
    picks = np.tan(np.radians(27.0)) * 16 / (2 * np.pi * braid.mean_diameter_m)
    again = braid_of_picks(
        **{name: value for name, value in BRAID.items() if name != "angle_deg"},  # type: ignore[arg-type]
        picks_per_m=float(picks),
    )
    assert again.angle_deg == pytest.approx(27.0)
    with pytest.raises(BadValue, match="picks_per_m"):
        braid_of_picks(
            **{name: value for name, value in BRAID.items() if name != "angle_deg"},  # type: ignore[arg-type]
            picks_per_m=0.0,
        )


@pytest.mark.parametrize(
    ("field", "value"),
    [("carriers", 15), ("ends", 40), ("angle_deg", 89.0), ("strand_diameter_m", 0.0)],
)
def test_a_braid_that_cannot_be_woven_is_refused(field: str, value: float) -> None:
    """An odd number of carriers, more wire than room and a braid across are refused."""
    with pytest.raises(BadValue, match=field):
        Braid(**{**BRAID, field: value})  # type: ignore[arg-type]
