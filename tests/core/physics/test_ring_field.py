"""Proximity: limits, figures worked out apart, and filaments as a second way to the same answer."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.ring_field import (
    Ring,
    ScreenAnswer,
    perfect_ring_field,
    ring_field,
    screen_orders,
)
from reelwright.core.physics.skin_effect import wire_impedance_ohm_per_m
from reelwright.core.physics.smooth_curve import over_frequency, points_needed
from reelwright.core.quantities.constants import VACUUM_PERMEABILITY_H_PER_M as MU

RHO = 1 / 58e6
RADIUS = 0.255e-3


def bare(over_radius: float, wires: int = 2) -> Ring:
    """Wires whose opposite centres are so many radii apart."""
    return Ring(
        wires=wires,
        wire_radius_m=RADIUS,
        ring_radius_m=over_radius * RADIUS / 2,
        screen_radius_m=None,
    )


def rise(ring: Ring, frequency: np.ndarray) -> np.ndarray:
    """Resistance of a wire of the ring over that of the wire alone."""
    alone = wire_impedance_ohm_per_m(
        frequency, radius_m=RADIUS, resistivity_ohm_m=RHO, relative_permeability=1.0
    )
    ratio = RADIUS * np.sqrt(np.pi * frequency * MU / RHO)
    field = ring_field(ring, depth_ratio=ratio, screen=None)
    return (alone + 1j * MU * frequency * field).real / alone.real


def test_a_close_pair_crowds_as_worked_out_apart() -> None:
    """At 2.2 radii the resistance rises by 1.00118 at 10 kHz and by 2.355 at 1 GHz."""
    frequency = np.array([1e4, 1e5, 1e6, 1e7, 1e8, 1e9])
    expected = [1.00118, 1.0973, 1.589, 2.023, 2.262, 2.355]
    np.testing.assert_allclose(rise(bare(2.2), frequency), expected, rtol=3e-4)


@given(over_radius=st.floats(2.05, 40))
def test_perfect_wires_have_the_inductance_of_the_textbook(over_radius: float) -> None:
    """The field of a pair of perfect wires is acosh(D/2a), to 1e-9."""
    assert perfect_ring_field(bare(over_radius)) == pytest.approx(
        np.arccosh(over_radius / 2), rel=1e-9
    )


@pytest.mark.parametrize(("over_radius", "within"), [(2.2, 1e-2), (3.0, 3e-3), (6.0, 1e-3)])
def test_deep_in_the_skin_resistance_has_its_limit(over_radius: float, within: float) -> None:
    """At a hundred skin depths and more R is (D/2a)/√((D/2a)² − 1) that of the wire alone."""
    half = over_radius / 2
    limit = half / np.sqrt(half**2 - 1)
    assert rise(bare(over_radius), np.array([2e10]))[0] == pytest.approx(limit, rel=within)


def test_without_skin_effect_there_is_no_crowding() -> None:
    """At a thousandth of a skin depth the field is that of thin wires, of pair and quad."""
    for wires in (2, 4):
        ring = bare(4.0, wires)
        field = ring_field(ring, depth_ratio=np.array([1e-3]), screen=None)[0]
        assert field.real == pytest.approx(ring.thin_wire_field, abs=1e-12)


def filaments(over_radius: float, frequency: float, across: int = 44) -> complex:
    """Loop impedance of two round wires cut into square filaments, by their mutual inductances."""
    step = 2 * RADIUS / across
    line = (np.arange(across) + 0.5) * step - RADIUS
    x, y = (values.ravel() for values in np.meshgrid(line, line))
    inside = np.hypot(x, y) < RADIUS
    x, y = x[inside], y[inside]
    area = np.pi * RADIUS**2 / x.size
    places = np.concatenate([x + 1j * y, over_radius * RADIUS - (x + 1j * y)])
    apart = np.abs(places[:, None] - places[None, :])
    # Geometric mean distance of a square from itself.
    np.fill_diagonal(apart, 0.44705 * np.sqrt(area))
    count = x.size
    logs = np.log(apart)
    # The second wire carries the mirrored current the other way.
    mutual = -(logs[:count, :count] - logs[:count, count:])
    system = 1j * 2 * np.pi * frequency * MU / (2 * np.pi) * mutual
    system = system + np.diag(np.full(count, RHO / area))
    return complex(2 / np.linalg.solve(system, np.ones(count)).sum())


@pytest.mark.parametrize("frequency", [3e4, 1e5, 2.5e5])
def test_filaments_come_to_the_same_answer(frequency: float) -> None:
    """Wires cut into 1500 filaments each have the same loop impedance within half a percent."""
    alone = wire_impedance_ohm_per_m(
        [frequency], radius_m=RADIUS, resistivity_ohm_m=RHO, relative_permeability=1.0
    )
    ratio = RADIUS * np.sqrt(np.pi * np.array([frequency]) * MU / RHO)
    ours = 2 * (alone + 1j * MU * frequency * ring_field(bare(2.2), depth_ratio=ratio, screen=None))
    other = filaments(2.2, frequency)
    assert ours[0].real == pytest.approx(other.real, rel=0.005)
    assert ours[0].imag == pytest.approx(other.imag, rel=0.005)


def test_a_far_screen_is_no_screen_and_a_perfect_one_mirrors() -> None:
    """A screen far away changes nothing, and near thin wires it agrees with handbooks."""
    # The formula for a screened pair is from memory; it is good where the wires are thin.
    far = Ring(
        wires=2, wire_radius_m=RADIUS, ring_radius_m=4 * RADIUS, screen_radius_m=400 * RADIUS
    )
    assert perfect_ring_field(far) == pytest.approx(np.arccosh(4.0), rel=1e-3)
    thin = Ring(
        wires=2, wire_radius_m=RADIUS, ring_radius_m=10 * RADIUS, screen_radius_m=20 * RADIUS
    )
    p, q = 10.0, 0.5
    formula = np.log(2 * p * (1 - q**2) / (1 + q**2)) - (1 + 4 * p**2) / (16 * p**4) * (
        1 - 4 * q**2
    )
    assert perfect_ring_field(thin) == pytest.approx(formula, rel=0.005)


def test_a_quad_of_thin_wires_has_the_field_of_its_diagonal() -> None:
    """Opposite wires in parallel: ln(D/2a) without a screen, D the diagonal."""
    ring = bare(200.0, 4)
    assert ring.thin_wire_field == pytest.approx(np.log(100.0))
    assert perfect_ring_field(ring) == pytest.approx(np.log(100.0), rel=1e-4)


def test_a_screen_takes_field_and_adds_resistance() -> None:
    """Inside a real screen the loop has less inductance and more resistance than without."""
    ring = Ring(
        wires=2, wire_radius_m=RADIUS, ring_radius_m=1.5 * RADIUS, screen_radius_m=4 * RADIUS
    )
    ratio = np.array([5.0])
    orders = screen_orders(ring)
    lossy = np.full((1, len(orders)), 0.8 + 0.1j)
    with_screen = ring_field(
        ring, depth_ratio=ratio, screen=ScreenAnswer(orders=orders, answer=lossy)
    )
    without = ring_field(bare(3.0), depth_ratio=ratio, screen=None)
    assert with_screen[0].real < without[0].real
    assert with_screen[0].imag < without[0].imag < 0


def test_reading_between_few_points_is_as_good_as_asking_everywhere() -> None:
    """Ten thousand frequencies read from some 130 points agree to 1e-9 with asking for each."""
    frequency = np.geomspace(20.0, 1e9, 10_000)

    def shaped(points: np.ndarray) -> np.ndarray:
        ratio = RADIUS * np.sqrt(np.pi * points * MU / RHO)
        lost = bare(2.2).thin_wire_field - ring_field(bare(2.2), depth_ratio=ratio, screen=None)
        return lost.real + 1j * lost.imag * (1 + ratio) ** 3 / ratio**2

    assert points_needed(frequency) < 150
    some = slice(None, None, 97)
    read, asked = over_frequency(shaped, frequency)[some], shaped(frequency[some])
    np.testing.assert_allclose(read.real, asked.real, atol=1e-9)
    np.testing.assert_allclose(read.imag, asked.imag, rtol=1e-8)


@pytest.mark.parametrize(
    ("field", "change"),
    [
        ("wires", {"wires": 3}),
        ("ring_radius_m", {"ring_radius_m": 1.01 * RADIUS}),
        ("screen_radius_m", {"screen_radius_m": 2.9 * RADIUS}),
        ("wire_radius_m", {"wire_radius_m": -1.0}),
    ],
)
def test_wires_that_cut_each_other_are_refused(field: str, change: dict[str, float]) -> None:
    """Touching wires, a screen through a wire and three wires are refused by their field."""
    values = {
        "wires": 2,
        "wire_radius_m": RADIUS,
        "ring_radius_m": 2 * RADIUS,
        "screen_radius_m": None,
    }
    with pytest.raises(BadValue, match=field) as refused:
        Ring(**{**values, **change})  # type: ignore[arg-type]
    assert refused.value.accepted
