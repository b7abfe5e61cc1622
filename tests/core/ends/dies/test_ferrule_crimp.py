"""How a hexagon presses a braid on its stem."""

import math
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from reelwright.core.ends.dies.ferrule_crimp import (
    FerruleJoint,
    ferrule_joint,
    ferrule_outcome,
    judge_ferrule_joint,
)
from reelwright.core.ends.dies.hexagon import judge_ferrule_die
from reelwright.core.ends.fit.grip import ferrule_window_of
from reelwright.core.errors import BadValue, InputFaults
from reelwright.core.verdicts import Outcome
from tests.ends_world import BNC_60, BNC_70, VID_60, VID_70

JOINT = FerruleJoint(
    stem_outside_m=5.0e-3,
    stem_tolerance_m=None,
    ferrule_bore_m=6.2e-3,
    bore_tolerance_m=None,
    ferrule_outside_m=7.2e-3,
    outside_tolerance_m=None,
    ferrule_length_m=12e-3,
    braid_stack_m=0.8e-3,
    braid_spread_m=0.0,
    braid_m2=3.0e-6,
)


@given(st.floats(min_value=5.9e-3, max_value=8e-3))
def test_the_rounded_hexagon_is_as_long_as_the_wall(across_flats_m: float) -> None:
    """Six corners rounded to the radius told have the outline of the tube they were bent from."""
    found = ferrule_outcome(JOINT, across_flats_m=across_flats_m)
    radius_m = found.corner_radius_m
    straight_m = 6 * (across_flats_m - 2 * radius_m) / math.sqrt(3)
    wall_m = math.pi * JOINT.ferrule_outside_m
    if found.surplus_wall_m > 0:
        assert radius_m == 0
        assert straight_m + found.surplus_wall_m == pytest.approx(wall_m)
    elif radius_m < across_flats_m / 2:
        assert straight_m + 2 * math.pi * radius_m == pytest.approx(wall_m)
    else:
        # A hexagon wider than the tube: the die does not touch it all round.
        assert across_flats_m >= JOINT.ferrule_outside_m * (1 - 1e-12)


def test_the_ring_is_filled_by_the_balance_of_areas() -> None:
    """7.2/6.2 ferrule and 3 mm² of braid in a hexagon of 6.6 over a stem of 5: by hand."""
    found = ferrule_outcome(JOINT, across_flats_m=6.6e-3)
    ferrule_mm2 = math.pi / 4 * (7.2**2 - 6.2**2)
    ring_mm2 = math.sqrt(3) / 2 * 6.6**2 - math.pi / 4 * 5.0**2
    assert found.ring_fill_share == pytest.approx((ferrule_mm2 + 3.0) / ring_mm2)
    assert found.inside_m == pytest.approx(5.6e-3)
    assert found.outcome is Outcome.GOOD


@pytest.mark.parametrize(("past_m", "refused"), [(-1e-9, True), (1e-9, False)])
def test_a_hexagon_smaller_than_solid_metal_allows_is_refused(past_m: float, refused: bool) -> None:
    """Under the flats the braid is solid first; below that the stem would have to give way."""
    width_m = JOINT.smallest_hexagon_m + past_m
    found = ferrule_outcome(JOINT, across_flats_m=width_m)
    assert (found.outcome is Outcome.BAD) is refused
    assert any("solid metal" in check.sentence for check in found.checks) is refused


def test_a_hexagon_with_no_room_for_the_metal_is_refused_by_its_area() -> None:
    """A thick ferrule fills the whole ring before its flats meet the braid."""
    thick = replace(JOINT, ferrule_bore_m=5.85e-3, ferrule_outside_m=9.85e-3, braid_m2=None)
    known = replace(thick, braid_m2=3.0e-6)
    width_m = known.smallest_hexagon_m - 1e-9
    ring = next(
        check
        for check in ferrule_outcome(known, across_flats_m=width_m).checks
        if check.name.startswith("ring")
    )
    assert known.smallest_hexagon_m > thick.stem_outside_m + 2 * thick.wall_m
    assert ring.margin is not None
    # Without the braid's metal there is no balance to draw, and none is shown.
    assert ferrule_outcome(thick, across_flats_m=width_m).ring_fill_share is None
    nothing = ferrule_outcome(known, across_flats_m=4.0e-3)
    assert nothing.outcome is Outcome.BAD
    assert any("no larger than the stem" in check.sentence for check in nothing.checks)


def test_the_spread_of_the_braid_decides_at_both_ends() -> None:
    """What grips the nominal braid is bad where the thinnest is loose, and says so."""

    def check(spread_m: float) -> Outcome:
        return judge_ferrule_die(
            stem_outside_m=5.0e-3,
            stem_tolerance_m=None,
            braid_thickness_m=0.4e-3,
            braid_spread_m=spread_m,
            braid_metal_share=None,
            ferrule_wall_m=0.5e-3,
            ferrule_wall_tolerance_m=None,
            across_flats_m=6.66e-3,
        ).outcome

    assert check(0.0) is Outcome.GOOD
    assert check(0.05e-3) is Outcome.BAD
    with pytest.raises(BadValue):
        check(0.8e-3)


def test_the_braids_metal_comes_from_the_resistance_of_the_screen() -> None:
    """Unknown resistance, unknown metal; 9 mΩ/m is 1.916 mm² of copper (ρ of IEC 60028)."""
    unknown = ferrule_joint(VID_60, BNC_60)
    assert unknown is not None
    assert unknown.braid_m2 is None
    stated = replace(VID_60, sheet=replace(VID_60.sheet, resistance_screen_ohm_per_m=9e-3))
    found = ferrule_joint(stated, BNC_60)
    assert found is not None
    assert found.braid_m2 == pytest.approx(1.9157e-6, rel=1e-4)


def test_what_contradicts_itself_has_no_ferrule() -> None:
    """A stem thicker than the ferrule's bore is refused, as a joint and as a drawing."""
    with pytest.raises(BadValue):
        replace(JOINT, stem_outside_m=6.3e-3)
    assert BNC_70.drawing is not None
    with pytest.raises(InputFaults):
        replace(BNC_70.drawing, stem_outside_m=9e-3)
    drawn = replace(BNC_70, drawing=replace(BNC_70.drawing, stem_outside_m=None))
    assert ferrule_joint(VID_70, drawn) is None
    with pytest.raises(BadValue):
        ferrule_outcome(JOINT, across_flats_m=0.0)


def test_a_die_is_judged_at_the_tolerances_of_stem_and_ferrule() -> None:
    """Stem 5.0 ± 0.03, stack 0.8, wall 0.5 ± 0.01 in 6.60 across flats, by hand from geometry."""
    # Loosest 1 − (6.60 − 0.98 − 4.97)/0.8 = 18.75 %, tightest 1 − (6.60 − 1.02 − 5.03)/0.8 =
    # 31.25 %; at 6.64 the loosest is 13.75 %.
    drawn = replace(
        JOINT, stem_tolerance_m=0.03e-3, bore_tolerance_m=0.01e-3, outside_tolerance_m=0.01e-3
    )
    told = judge_ferrule_joint(drawn, across_flats_m=6.60e-3)
    assert told.outcome is Outcome.GOOD
    assert told.margin == pytest.approx(3.75)
    sentence = told.sentence.replace("\u202f", " ")
    assert "25.0 %, 18.8 % at the loosest and 31.3 % at the tightest" in sentence
    assert "(tolerances of cable and ferrule)" in sentence
    assert judge_ferrule_joint(JOINT, across_flats_m=6.64e-3).outcome is Outcome.GOOD
    loose = judge_ferrule_joint(drawn, across_flats_m=6.64e-3)
    assert loose.outcome is Outcome.BAD
    assert "loose at the loosest" in loose.sentence
    half = judge_ferrule_joint(
        replace(JOINT, stem_tolerance_m=0.03e-3), across_flats_m=6.60e-3
    ).sentence
    assert "of which the drawing does not state all" in half
    for field in ("stem_tolerance_m", "outside_tolerance_m"):
        with pytest.raises(BadValue):
            replace(JOINT, **{field: -1e-6})


@given(
    st.floats(min_value=6.3e-3, max_value=6.8e-3),
    st.floats(min_value=0.0, max_value=0.04e-3),
    st.floats(min_value=0.0, max_value=0.02e-3),
)
def test_the_die_agrees_with_the_window_of_the_grid(
    across_flats_m: float, stem_off_m: float, wall_off_m: float
) -> None:
    """It grips exactly up to the largest of the window and spares exactly from the smallest."""
    drawn = replace(
        JOINT,
        braid_m2=None,
        stem_tolerance_m=stem_off_m,
        bore_tolerance_m=wall_off_m,
        outside_tolerance_m=wall_off_m,
    )
    smallest_m = ferrule_window_of(drawn.at_limit(most=True))[0]
    largest_m = ferrule_window_of(drawn.at_limit(most=False))[1]
    assume(min(abs(across_flats_m - smallest_m), abs(across_flats_m - largest_m)) > 1e-10)
    outcome = judge_ferrule_joint(drawn, across_flats_m=across_flats_m).outcome
    expected = Outcome.CAUTION if across_flats_m < smallest_m else Outcome.GOOD
    assert outcome is (Outcome.BAD if across_flats_m > largest_m else expected)
