"""Looms and coils of the demo workshop."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.parts.bundle import (
    PACKED_RATIO,
    bundle_diameter_m,
    tightest_bundle_diameter_m,
)
from reelwright.core.parts.coil import Coil


def test_the_loom_of_twelve_is_20_3_mm() -> None:
    """Twelve cables of 4.5 mm in a sleeve of 0.8 mm."""
    found = bundle_diameter_m(cable_diameter_m=0.0045, count=12, sleeve_thickness_m=0.0008)
    assert found == pytest.approx(0.02031, abs=5e-6)


def test_two_cables_are_twice_as_wide_as_one() -> None:
    """The rule of the trade would say 1.70; geometry says 2."""
    assert bundle_diameter_m(cable_diameter_m=0.004, count=2) == pytest.approx(0.008)


@pytest.mark.parametrize("count", range(1, 20))
def test_no_bundle_is_tighter_than_geometry_allows(count: int) -> None:
    """The rule never undercuts the packing, and the packing never the sum of the areas."""
    tight = tightest_bundle_diameter_m(cable_diameter_m=1.0, count=count)
    assert bundle_diameter_m(cable_diameter_m=1.0, count=count) >= tight
    assert tight >= math.sqrt(count)
    assert list(PACKED_RATIO) == sorted(PACKED_RATIO)


@pytest.mark.parametrize("count", [0, 20, -1])
def test_a_packing_nobody_knows_is_refused(count: int) -> None:
    """None, a negative number, and more than the table holds."""
    with pytest.raises(BadValue, match="1 to 19"):
        tightest_bundle_diameter_m(cable_diameter_m=0.004, count=count)


def test_the_loom_coils_to_577_mm() -> None:
    """18 m of 20.3 mm round 420 mm: 11.5 turns, 79 mm high, 577 mm outside."""
    coil = Coil(length_m=18, cable_diameter_m=0.0203, inner_diameter_m=0.42, fill_fraction=0.6)
    assert coil.outer_diameter_m == pytest.approx(0.577, abs=0.001)
    assert coil.build_m == pytest.approx(0.079, abs=0.0005)
    assert coil.turns == pytest.approx(11.5, abs=0.05)


def test_85_feet_of_plenum_coax_coil_to_280_mm() -> None:
    """25.9 m of 5.94 mm round 200 mm: 34 turns, 40 mm, 280 mm."""
    coil = Coil(length_m=25.9, cable_diameter_m=0.00594, inner_diameter_m=0.2, fill_fraction=0.6)
    assert coil.outer_diameter_m == pytest.approx(0.280, abs=0.001)
    assert coil.turns == pytest.approx(34.4, abs=0.1)


@given(st.floats(0.5, 500), st.floats(0.001, 0.03), st.floats(0.05, 1), st.floats(0.3, 1))
def test_the_section_holds_the_cable(
    length_m: float, diameter_m: float, inner_m: float, fill: float
) -> None:
    """Turns × area of the cable never exceed the filled share of the section."""
    coil = Coil(
        length_m=length_m, cable_diameter_m=diameter_m, inner_diameter_m=inner_m, fill_fraction=fill
    )
    cable = coil.turns * math.pi / 4 * diameter_m**2
    assert cable <= fill * coil.build_m**2 * (1 + 1e-4)


def test_an_overfull_coil_is_refused() -> None:
    """More cable than section is nonsense."""
    with pytest.raises(BadValue, match="fill_fraction"):
        Coil(length_m=1, cable_diameter_m=0.01, inner_diameter_m=0.2, fill_fraction=1.2)
