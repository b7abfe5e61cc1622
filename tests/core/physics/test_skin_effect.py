"""Wires, clad wires and tubes against 40-digit arithmetic, and their limits."""

from collections.abc import Iterator

import mpmath
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.skin_effect import (
    clad_impedance_ohm_per_m,
    tube_impedance,
    tube_inside_impedance_ohm_per_m,
    wire_impedance_ohm_per_m,
)
from reelwright.core.quantities.constants import VACUUM_PERMEABILITY_H_PER_M as MU

RHO = 1 / 58e6
STEEL_RHO, STEEL_MU = 1 / 4.6e6, 200.0
FREQUENCY = np.array([1.0, 20.0, 1e3, 2e4, 1e5, 1e6, 1e7, 1e8, 1e9, 6e9, 2e10])
WITHIN = 1e-12


@pytest.fixture(autouse=True)
def many_digits() -> Iterator[None]:
    """Forty digits for the comparison."""
    with mpmath.workdps(40):
        yield


def wave_number(frequency: float, rho: float = RHO, mu: float = 1.0) -> mpmath.mpc:
    """m = √(jωµ/ρ)."""
    squared = 2j * mpmath.pi * mpmath.mpf(frequency) * mpmath.mpf(MU) * mpmath.mpf(mu)
    return mpmath.sqrt(squared / mpmath.mpf(rho))


def away(ours: complex, exact: mpmath.mpc) -> float:
    """Relative distance of a complex number from the exact one."""
    return float(abs(mpmath.mpc(complex(ours)) / exact - 1))


@pytest.mark.parametrize("radius_m", [25e-6, 0.25e-3, 0.512e-3, 3e-3])
def test_a_wire_is_exact_in_both_parts(radius_m: float) -> None:
    """Resistance and inductance each agree to 1e-12 from 1 Hz to 20 GHz."""
    ours = wire_impedance_ohm_per_m(
        FREQUENCY, radius_m=radius_m, resistivity_ohm_m=RHO, relative_permeability=1.0
    )
    for place, frequency in enumerate(FREQUENCY):
        wave, radius = wave_number(frequency), mpmath.mpf(radius_m)
        exact = wave * mpmath.mpf(RHO) / (2 * mpmath.pi * radius)
        exact *= mpmath.besseli(0, wave * radius) / mpmath.besseli(1, wave * radius)
        assert abs(float(ours[place].real / exact.real) - 1) < WITHIN
        assert abs(float(ours[place].imag / exact.imag) - 1) < WITHIN


@pytest.mark.parametrize("wall_m", [1e-6, 9e-6, 27.5e-6, 28e-6, 150e-6])
def test_a_tube_is_exact_on_both_faces_and_through_the_wall(wall_m: float) -> None:
    """Inside, outside and transfer impedance agree to 1e-12, foils and thick walls alike."""
    inside, outside = 2.3e-3, 2.3e-3 + wall_m
    given_tube = {
        "inside_radius_m": inside,
        "outside_radius_m": outside,
        "resistivity_ohm_m": RHO,
        "relative_permeability": 1.0,
    }
    ours = tube_impedance(FREQUENCY, **given_tube)
    alone = tube_inside_impedance_ohm_per_m(FREQUENCY, **given_tube)
    for place, frequency in enumerate(FREQUENCY):
        wave, rho = wave_number(frequency), mpmath.mpf(RHO)
        a, b = mpmath.mpf(inside), mpmath.mpf(outside)
        ia, ib = ([mpmath.besseli(n, wave * radius) for n in (0, 1)] for radius in (a, b))
        ka, kb = ([mpmath.besselk(n, wave * radius) for n in (0, 1)] for radius in (a, b))
        under = ib[1] * ka[1] - ia[1] * kb[1]
        scale = wave * rho / (2 * mpmath.pi * under)
        inner = scale / a * (ia[0] * kb[1] + ka[0] * ib[1])
        outer = scale / b * (ib[0] * ka[1] + kb[0] * ia[1])
        assert away(ours.inside_ohm_per_m[place], inner) < WITHIN
        assert away(ours.outside_ohm_per_m[place], outer) < WITHIN
        through = rho / (2 * mpmath.pi * a * b * under)
        assert away(ours.transfer_ohm_per_m[place], through) < WITHIN
    np.testing.assert_allclose(alone, ours.inside_ohm_per_m, rtol=1e-14)


def test_a_clad_wire_is_exact() -> None:
    """Copper on magnetic steel agrees to 1e-12 from 1 Hz to 20 GHz."""
    core_m, radius_m = 0.4743e-3, 0.512e-3
    ours = clad_impedance_ohm_per_m(
        FREQUENCY,
        core_radius_m=core_m,
        radius_m=radius_m,
        core_resistivity_ohm_m=STEEL_RHO,
        core_permeability=STEEL_MU,
        cladding_resistivity_ohm_m=RHO,
        cladding_permeability=1.0,
    )
    besseli, besselk = mpmath.besseli, mpmath.besselk
    for place, frequency in enumerate(FREQUENCY):
        steel, copper = wave_number(frequency, STEEL_RHO, STEEL_MU), wave_number(frequency)
        core, radius = mpmath.mpf(core_m), mpmath.mpf(radius_m)
        surface = steel * mpmath.mpf(STEEL_RHO) / (copper * mpmath.mpf(RHO))
        surface *= besseli(0, steel * core) / besseli(1, steel * core)
        inner, outer = copper * core, copper * radius
        mixed = (surface * besseli(1, inner) - besseli(0, inner)) / (
            besselk(0, inner) + surface * besselk(1, inner)
        )
        exact = copper * mpmath.mpf(RHO) / (2 * mpmath.pi * radius)
        exact *= besseli(0, outer) + mixed * besselk(0, outer)
        exact /= besseli(1, outer) - mixed * besselk(1, outer)
        assert away(ours[place], exact) < WITHIN


def test_copper_on_steel_dips_below_copper() -> None:
    """R over solid copper's is 6.0 at 13 kHz and 0.927 at 9 MHz, as worked out apart from this."""
    frequency = np.array([13e3, 141e3, 463e3, 1.5e6, 5e6, 9e6, 29e6])
    clad = clad_impedance_ohm_per_m(
        frequency,
        core_radius_m=0.4743e-3,
        radius_m=0.512e-3,
        core_resistivity_ohm_m=STEEL_RHO,
        core_permeability=STEEL_MU,
        cladding_resistivity_ohm_m=RHO,
        cladding_permeability=1.0,
    )
    solid = wire_impedance_ohm_per_m(
        frequency, radius_m=0.512e-3, resistivity_ohm_m=RHO, relative_permeability=1.0
    )
    expected = [6.0, 3.9, 2.4, 1.42, 0.956, 0.927, 1.00]
    np.testing.assert_allclose(clad.real / solid.real, expected, rtol=0.009)


@given(
    radius_m=st.floats(1e-4, 5e-3),
    core=st.floats(0.05, 0.98),
    frequency=st.floats(1.0, 2e10),
)
def test_a_cladding_of_the_core_metal_changes_nothing(
    radius_m: float, core: float, frequency: float
) -> None:
    """Where core and cladding are one metal, the clad wire is the plain wire."""
    plain = wire_impedance_ohm_per_m(
        [frequency], radius_m=radius_m, resistivity_ohm_m=RHO, relative_permeability=1.0
    )
    clad = clad_impedance_ohm_per_m(
        [frequency],
        core_radius_m=core * radius_m,
        radius_m=radius_m,
        core_resistivity_ohm_m=RHO,
        core_permeability=1.0,
        cladding_resistivity_ohm_m=RHO,
        cladding_permeability=1.0,
    )
    np.testing.assert_allclose(clad, plain, rtol=1e-11)


def test_the_ends_of_the_range_are_those_of_the_textbook() -> None:
    """At 1 Hz a wire has ρ/A and µ0/8π; deep in the skin both parts are ρ/δ/(2πa)."""
    radius = 0.1e-3
    ours = wire_impedance_ohm_per_m(
        [1.0, 2e10], radius_m=radius, resistivity_ohm_m=RHO, relative_permeability=1.0
    )
    assert ours[0].real == pytest.approx(RHO / (np.pi * radius**2), rel=1e-9)
    assert ours[0].imag == pytest.approx(2 * np.pi * MU / (8 * np.pi), rel=1e-9)
    depth = np.sqrt(RHO / (np.pi * 2e10 * MU))
    surface = RHO / depth / (2 * np.pi * radius)
    assert ours[1].real == pytest.approx(surface, rel=0.01)
    assert ours[1].imag == pytest.approx(surface, rel=0.001)


@pytest.mark.parametrize("frequency_hz", [0.0, 0.5, 2.1e10, float("nan"), -1.0])
def test_a_frequency_out_of_range_is_refused(frequency_hz: float) -> None:
    """Below 1 Hz and above 20 GHz nothing is answered, and the range is told."""
    with pytest.raises(BadValue, match=r"frequency_hz.*1 to 2e\+10"):
        wire_impedance_ohm_per_m(
            [1e6, frequency_hz], radius_m=1e-3, resistivity_ohm_m=RHO, relative_permeability=1.0
        )


@pytest.mark.parametrize(
    ("field", "value"), [("radius_m", 0.0), ("radius_m", -1e-3), ("resistivity_ohm_m", 0.0),
                         ("relative_permeability", float("inf"))],
)  # fmt: skip
def test_impossible_metal_is_refused(field: str, value: float) -> None:
    """A wire without size or of no metal is refused by its field."""
    values = {"radius_m": 1e-3, "resistivity_ohm_m": RHO, "relative_permeability": 1.0}
    with pytest.raises(BadValue, match=field):
        wire_impedance_ohm_per_m([1e6], **{**values, field: value})


def test_a_tube_without_wall_is_refused() -> None:
    """Inside and outside must differ."""
    with pytest.raises(BadValue, match="inside_radius_m"):
        tube_impedance(
            [1e6],
            inside_radius_m=1e-3,
            outside_radius_m=1e-3,
            resistivity_ohm_m=RHO,
            relative_permeability=1.0,
        )
