"""Pairs and quads from geometry, and lines in a bundle."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.line_bundle import BundledLine, LineBundle
from reelwright.core.physics.pair_line import PairGeometry, field_fraction_of
from tests.core.physics.line_world import coax, pair

WIDE = np.geomspace(1.0, 2e10, 50)


def test_a_pair_in_one_dielectric_has_the_impedance_of_the_textbook() -> None:
    """120/√ε·acosh(D/d) at the high end, where the skin is thin."""
    line = pair().parameters([1e10], temperature_celsius=20.0)
    assert line.impedance_ohm[0].real == pytest.approx(
        119.917 / np.sqrt(2.26) * np.arccosh(1.8), rel=0.003
    )


@pytest.mark.parametrize(
    "one",
    [pair(), pair(conductors=4, over_diameter=3.0), pair(screen_m=2.5e-3),
     pair(conductors=4, over_diameter=3.0, screen_m=3.5e-3), pair(twists_per_m=60.0)],
)  # fmt: skip
def test_at_one_hertz_a_pair_is_its_loop(one: PairGeometry) -> None:
    """Two wires out and back, four of a quad half of that, longer by the twist; no proximity."""
    for celsius in (0.0, 40.0):
        line = one.parameters([1.0], temperature_celsius=celsius)
        assert line.resistance_ohm_per_m[0] == pytest.approx(
            one.direct_loop_ohm_per_m(celsius), rel=1e-6
        )


@settings(max_examples=25)
@given(
    over_diameter=st.floats(1.05, 6),
    conductors=st.sampled_from([2, 4]),
    screened=st.booleans(),
    room=st.floats(1.15, 3),
)
def test_every_pair_is_passive_and_its_field_lies_in_its_dielectric(
    over_diameter: float, conductors: int, screened: bool, room: float
) -> None:
    """R and G stay above zero, L falls with frequency, and no signal outruns the dielectric."""
    apart = over_diameter * (2**0.5 if conductors == 4 else 1.0)
    one = pair(
        over_diameter=apart,
        conductors=conductors,
        screen_m=room * (apart + 1) * 0.5e-3 if screened else None,
    )
    line = one.parameters(WIDE, temperature_celsius=20.0)
    assert line.resistance_ohm_per_m.min() > 0
    assert line.conductance_siemens_per_m.min() > 0
    assert (np.diff(line.inductance_h_per_m) < 1e-9 * line.inductance_h_per_m[0]).all()
    light = np.sqrt(line.inductance_h_per_m * line.capacitance_f_per_m) * 299_792_458.0
    assert (light > np.sqrt(one.insulation.causal_at(20.0).permittivity(WIDE).real)).all()


def test_few_and_many_frequencies_agree() -> None:
    """What is read between points is what is worked out at the frequency itself, to 1e-8."""
    one = pair(screen_m=2.5e-3)
    many = one.parameters(np.geomspace(20, 1e9, 3001), temperature_celsius=20.0)
    few = one.parameters(many.frequency_hz[::500], temperature_celsius=20.0)
    np.testing.assert_allclose(
        many.resistance_ohm_per_m[::500], few.resistance_ohm_per_m, rtol=1e-8
    )
    np.testing.assert_allclose(many.inductance_h_per_m[::500], few.inductance_h_per_m, rtol=1e-9)


def test_a_screen_lowers_the_impedance() -> None:
    """A pair in a near screen has more capacitance, less inductance and less impedance."""
    bare, screened = (
        one.parameters([1e8], temperature_celsius=20.0) for one in (pair(), pair(screen_m=1.9e-3))
    )
    assert screened.capacitance_f_per_m[0] > bare.capacitance_f_per_m[0]
    assert screened.inductance_h_per_m[0] < bare.inductance_h_per_m[0]
    assert screened.impedance_ohm[0].real < bare.impedance_ohm[0].real


def test_a_measured_capacitance_tells_the_part_of_the_field() -> None:
    """The part found from the capacitance of a pair gives that capacitance back."""
    one = pair(part=0.63)
    measured = float(one.parameters([1e3], temperature_celsius=20.0).capacitance_f_per_m[0])
    found = field_fraction_of(pair=pair(part=0.2), capacitance_f_per_m=measured, frequency_hz=1e3)
    assert found == pytest.approx(0.63, rel=1e-9)
    with pytest.raises(BadValue, match="capacitance_f_per_m"):
        field_fraction_of(pair=one, capacitance_f_per_m=10 * measured, frequency_hz=1e3)


def test_a_twist_is_a_longer_way_and_nothing_else() -> None:
    """Sixty twists a metre add the path of the spiral to delay and loss, and no impedance."""
    flat, twisted = (
        one.parameters([1e6], temperature_celsius=20.0) for one in (pair(), pair(twists_per_m=60.0))
    )
    longer = np.hypot(1, np.pi * 0.9e-3 * 60)
    assert twisted.gamma[0] == pytest.approx(longer * flat.gamma[0], rel=1e-9)
    assert twisted.impedance_ohm[0] == pytest.approx(flat.impedance_ohm[0], rel=1e-9)


@pytest.mark.parametrize(
    ("field", "change"),
    [
        ("ring_radius_m", {"spacing_m": 0.49e-3}),
        ("field_fraction", {"field_fraction": 1.2}),
        ("twists_per_m", {"twists_per_m": -1.0}),
        ("wires", {"conductors": 3}),
    ],
)
def test_an_impossible_pair_is_refused(field: str, change: dict[str, float]) -> None:
    """Wires into each other, more field than there is, and three wires are refused."""
    with pytest.raises(BadValue, match=field):
        PairGeometry(**{**vars(pair()), **change})


def test_air_inside_a_screen_has_to_be_given_as_a_mixture() -> None:
    """Inside a screen the field fraction is 1."""
    with pytest.raises(BadValue, match="field_fraction"):
        pair(screen_m=3e-3, part=0.7)


def test_lines_on_the_outside_of_a_bundle_arrive_later() -> None:
    """A line in the middle and two on a ring: the skew is that of the spiral."""
    line = coax().parameters([1e8], temperature_celsius=20.0)
    bundle = LineBundle(
        lines=(
            BundledLine(name="sync", line=line, off_axis_m=0.0),
            BundledLine(name="red", line=line, off_axis_m=4e-3),
            BundledLine(name="green", line=line, off_axis_m=4e-3),
        ),
        turns_per_m=8.0,
    )
    longer = np.hypot(1, 2 * np.pi * 4e-3 * 8) - 1
    assert bundle.skew_s_per_m[0] == pytest.approx(line.delay_s_per_m[0] * longer)
    assert bundle.along("red").impedance_ohm[0] == pytest.approx(line.impedance_ohm[0])
    with pytest.raises(BadValue, match="sync or red or green"):
        bundle.along("blue")


def test_a_bundle_of_one_or_of_unlike_frequencies_is_refused() -> None:
    """Skew needs two lines, each named once, at the same frequencies."""
    line, other = (coax().parameters([at], temperature_celsius=20.0) for at in (1e8, 2e8))
    first = BundledLine(name="red", line=line, off_axis_m=0.0)
    for lines in (
        (first,),
        (first, first),
        (first, BundledLine(name="green", line=other, off_axis_m=0.0)),
    ):
        with pytest.raises(BadValue, match="lines"):
            LineBundle(lines=lines, turns_per_m=0.0)
