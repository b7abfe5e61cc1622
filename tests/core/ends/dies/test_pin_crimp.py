"""Where the metal of a pin goes in its hexagon."""

import math
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from reelwright.core.ends.dies.hexagon import (
    PIN_REDUCTION_MOST,
    STRAND_PACKING_LIMIT,
    hex_across_flats_m,
    hex_area_m2,
    judge_pin_die,
)
from reelwright.core.ends.dies.pin_crimp import (
    PinJoint,
    crimped_length_m,
    judge_mouth,
    judge_pin_joint,
    pin_joint,
    pin_outcome,
)
from reelwright.core.ends.fit.grip import pin_window_of
from reelwright.core.errors import BadValue, InputFaults
from reelwright.core.parts.layers import LayerRole
from reelwright.core.verdicts import Check, Outcome
from tests.ends_world import BNC_60, BNC_70, F_70, VID_70, layer

WIDTHS = st.floats(min_value=0.5e-3, max_value=3e-3)


def joint() -> PinJoint:
    """The pin of the 7 mm plug on its cable."""
    found = pin_joint(VID_70, BNC_70)
    assert found is not None
    return found


def strands(fill: float) -> PinJoint:
    """The same pin on seven strands that fill that share of their circle."""
    solid = joint()
    return replace(solid, conductor_m2=fill * solid.conductor_m2, stranded=True)


@given(WIDTHS)
def test_no_metal_is_lost_in_the_hexagon(across_flats_m: float) -> None:
    """Hexagon, what stays empty and what goes lengthwise hold all the metal there was."""
    pin = joint()
    found = pin_outcome(pin, across_flats_m=across_flats_m)
    assert pin.crimped_length_m is not None
    assert found.elongation_most_m is not None
    before_m3 = found.metal_m2 * pin.crimped_length_m
    after_m3 = (found.hexagon_m2 - found.free_m2) * (pin.crimped_length_m + found.elongation_most_m)
    assert after_m3 == pytest.approx(before_m3, rel=1e-12)
    assert (found.free_m2 == 0) == (found.hexagon_m2 <= found.metal_m2)


@given(WIDTHS, WIDTHS)
def test_a_narrower_hexagon_never_grips_less(a_m: float, b_m: float) -> None:
    """Reduction and length grow as the hexagon closes."""
    narrow, wide = (pin_outcome(joint(), across_flats_m=each) for each in sorted((a_m, b_m)))
    assert narrow.reduction_fraction >= wide.reduction_fraction
    assert (narrow.elongation_most_m or 0) >= (wide.elongation_most_m or 0)
    assert narrow.inside_fill_share >= wide.inside_fill_share


@pytest.mark.parametrize(("past_m", "refused"), [(-1e-9, True), (1e-9, False)])
def test_a_hexagon_smaller_than_solid_metal_allows_is_refused(past_m: float, refused: bool) -> None:
    """Just under the smallest it is bad and says which one the metal goes into."""
    pin = joint()
    check = pin_outcome(pin, across_flats_m=pin.smallest_hexagon_m + past_m).checks[0]
    assert check.outcome is (Outcome.BAD if refused else Outcome.CAUTION)
    assert ("smaller than its solid metal allows" in check.sentence) is refused
    left_m2 = (1 - PIN_REDUCTION_MOST) * pin.metal_m2(pin.conductor.largest_m)
    assert hex_area_m2(pin.smallest_hexagon_m) == pytest.approx(left_m2)


def test_what_is_told_is_the_side_with_less_to_spare() -> None:
    """Limit and margin belong to one side: the lower one for a wide die, the upper for a narrow."""
    pin = joint()
    for across_flats_mm, limit in ((1.60, 5.0), (1.54, 15.0)):
        check = judge_pin_die(
            barrel_outside_m=pin.barrel_outside_m,
            barrel_outside_tolerance_m=None,
            barrel_bore_m=pin.barrel_bore_m,
            barrel_bore_tolerance_m=None,
            conductor=pin.conductor,
            conductor_area_m2=None,
            across_flats_m=across_flats_mm / 1e3,
        )
        assert check.limit == pytest.approx(limit)
        assert isinstance(check.value, float)
        assert check.margin is not None
        # The margin is that at the end of the tolerance, a little less than the nominal one.
        assert 0 < check.margin < abs(check.value - limit)


def test_strands_lie_closer_before_they_are_pressed() -> None:
    """Up to π/(2√3) they can be drawn out; then they deform; then all is solid."""
    pin = strands(0.76)
    thin_m2 = pin.conductor_m2 * (pin.conductor.smallest_m / pin.conductor.outside_diameter_m) ** 2
    for fill, outcome, told in (
        (0.80, Outcome.BAD, "only lie closer"),
        (STRAND_PACKING_LIMIT - 1e-6, Outcome.BAD, "only lie closer"),
        (STRAND_PACKING_LIMIT + 1e-6, Outcome.GOOD, "out of round"),
        (1.05, Outcome.GOOD, "one solid piece"),
    ):
        width_m = hex_across_flats_m(pin.barrel_m2 + thin_m2 / fill)
        check = pin_outcome(pin, across_flats_m=width_m).checks[1]
        assert check.outcome is outcome
        assert told in check.sentence
    assert [c.name for c in pin_outcome(joint(), across_flats_m=1.6e-3).checks] == [
        "pin die",
        "mouth of the cavity for the barrel",
    ]


def test_a_barrel_wider_than_the_mouth_is_pinched_into_ears() -> None:
    """The mouth is 2/√3 of the width across flats, 1.848 mm for 1.60."""
    assert judge_mouth("barrel", 1.84e-3, 1.60e-3).outcome is Outcome.GOOD
    pinched = judge_mouth("barrel", 1.86e-3, 1.60e-3)
    assert pinched.outcome is Outcome.CAUTION
    assert "ears" in pinched.sentence
    assert pinched.margin == pytest.approx(1.60 * 2 / math.sqrt(3) - 1.86)


def test_nonsense_is_refused() -> None:
    """A bore as wide as its barrel, a hexagon of nothing."""
    with pytest.raises(BadValue):
        replace(joint(), barrel_bore_m=1.9e-3)
    for width_m in (0.0, -1e-3, math.nan):
        with pytest.raises(BadValue):
            pin_outcome(joint(), across_flats_m=width_m)
    with pytest.raises(BadValue):
        hex_across_flats_m(0.0)


def test_a_drawing_without_a_barrel_has_no_pin() -> None:
    """Nothing is guessed: no barrel, or no crimp at all; a contradictory one cannot be drawn."""
    assert pin_joint(VID_70, F_70) is None
    assert BNC_60.drawing is not None
    drawn = replace(BNC_60, drawing=replace(BNC_60.drawing, barrel_bore_m=None))
    assert pin_joint(VID_70, drawn) is None
    with pytest.raises(InputFaults):
        replace(BNC_60.drawing, barrel_bore_m=3e-3)


def test_one_reckoning_tells_how_much_of_a_pin_is_crimped() -> None:
    """What the drawing states, else to the hole's far edge, else all of the barrel; never past the
    conductor; nothing where nothing of it is known."""
    drawn = BNC_70.drawing
    assert drawn is not None
    assert (drawn.pin_crimp_length_m, drawn.hole_far_edge_m) == (None, 3.40e-3)

    def crimped(conductor_length_m: float | None, **changes: float | None) -> float | None:
        return crimped_length_m(
            replace(drawn, **changes),  # type: ignore[arg-type]
            conductor_length_m=conductor_length_m,
        )

    no_hole: dict[str, float | None] = {"hole_far_edge_m": None}
    bare = no_hole | {
        "barrel_depth_m": None,
        "tolerances": replace(drawn.tolerances, barrel_depth_m=None, hole_far_edge_m=None),  # type: ignore[dict-item]
    }
    assert crimped(None, pin_crimp_length_m=2e-3) == 2e-3
    assert crimped(None) == crimped(4.25e-3) == 3.40e-3
    assert crimped(3.0e-3) == 3.0e-3
    assert crimped(None, **no_hole) == drawn.barrel_depth_m
    assert crimped(4.25e-3, **no_hole) == 4.25e-3
    assert crimped(None, **bare) is None
    assert crimped(4.25e-3, **bare) == 4.25e-3
    joint_of, drawn_pin = (
        pin_joint(VID_70, BNC_70, conductor_length_m=3e-3),
        pin_joint(VID_70, BNC_70),
    )
    assert joint_of is not None
    assert drawn_pin is not None
    assert (joint_of.crimped_length_m, drawn_pin.crimped_length_m) == (3e-3, 3.40e-3)


def test_a_die_is_judged_at_the_tolerances_of_the_barrel() -> None:
    """Barrel 1.78 ± 0.02 over 1.09 ± 0.02 on a wire of 1.024 ± 0.01, by hand from geometry."""
    # The hexagon of 1.60 has 2.21703 mm². Least metal π/4·(1.76² − 1.11² + 1.014²) = 2.27265 mm²,
    # 2.4 % more than it; most metal π/4·(1.80² − 1.07² + 1.034²) = 2.48520 mm², 10.8 % more.
    wire = layer(LayerRole.CONDUCTOR, 1.024, 0.01)
    sizes = {"barrel_outside_m": 1.78e-3, "barrel_bore_m": 1.09e-3}

    def judged(off_m: float | None, across_flats_m: float = 1.60e-3) -> Check:
        return judge_pin_die(
            **sizes,
            barrel_outside_tolerance_m=off_m,
            barrel_bore_tolerance_m=off_m,
            conductor=wire,
            conductor_area_m2=None,
            across_flats_m=across_flats_m,
        )

    loose = judged(0.02e-3)
    assert loose.outcome is Outcome.BAD
    assert loose.margin == pytest.approx(100 * (1 - 2.21703 / 2.27265) - 5.0, abs=0.01)
    told = loose.sentence.replace("\u202f", " ")
    assert (
        "2.4 % at the loosest and 10.8 % at the tightest (tolerances of cable and barrel)" in told
    )
    assert "the pin is not held at the loosest" in told
    silent = judged(None)
    assert silent.outcome is Outcome.GOOD
    assert "of the cable, the drawing states none of the barrel" in silent.sentence
    tight = judged(0.02e-3, 1.55e-3).sentence
    assert "its seam opens at the tightest" in tight


@given(
    st.floats(min_value=1.40e-3, max_value=1.75e-3),
    st.floats(min_value=0.0, max_value=0.02e-3),
    st.floats(min_value=0.0, max_value=0.02e-3),
)
def test_the_die_agrees_with_the_window_of_the_grid(
    across_flats_m: float, outside_off_m: float, bore_off_m: float
) -> None:
    """It grips exactly up to the largest of the window and spares exactly from the smallest."""
    pin = replace(
        joint(), barrel_outside_tolerance_m=outside_off_m, barrel_bore_tolerance_m=bore_off_m
    )
    smallest_m = pin_window_of(pin.at_limit(most=True))[0]
    largest_m = pin_window_of(pin.at_limit(most=False))[1]
    assume(min(abs(across_flats_m - smallest_m), abs(across_flats_m - largest_m)) > 1e-10)
    outcome = judge_pin_joint(pin, across_flats_m=across_flats_m).outcome
    if across_flats_m > largest_m or across_flats_m < pin.smallest_hexagon_m:
        assert outcome is Outcome.BAD
    else:
        assert outcome is (Outcome.CAUTION if across_flats_m < smallest_m else Outcome.GOOD)


def test_only_the_length_under_the_die_lengthens_the_pin() -> None:
    """A drawing that gives it is believed; one without a hole lets all of the barrel be taken."""
    assert BNC_60.drawing is not None
    shorter = replace(BNC_60, drawing=replace(BNC_60.drawing, pin_crimp_length_m=2e-3))
    whole, part = pin_joint(VID_70, BNC_60), pin_joint(VID_70, shorter)
    assert whole is not None
    assert part is not None
    assert (whole.crimped_length_m, part.crimped_length_m) == (4.5e-3, 2e-3)
