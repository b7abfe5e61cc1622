"""Strip plans: from the drawing, or the reason why not."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.strip.plan import (
    MACHINE_STRIP_TOLERANCES,
    StripPlan,
    plan_strip,
)
from reelwright.core.parts.connector import Method
from reelwright.core.verdicts import Reason
from tests.ends_world import BNC_70, F_70, drawing


def _planned(a_mm: float) -> StripPlan:
    return StripPlan(
        conductor_mm=a_mm,
        dielectric_mm=5.0,
        braid_mm=7.7,
        tolerances=MACHINE_STRIP_TOLERANCES,
        folds_braid=False,
    )


def test_a_compressed_end_has_its_conductor_as_the_pin_and_folds_the_braid() -> None:
    """The F end strips 8.0 / 0 / 6.5 with the braid folded back, not the crimped end's three."""
    assert F_70.drawing is not None
    plan = plan_strip(F_70.drawing, tolerances=MACHINE_STRIP_TOLERANCES, method=Method.COMPRESSION)
    assert isinstance(plan, StripPlan)
    assert (plan.conductor_mm, plan.dielectric_mm, plan.braid_mm) == (8.0, 0.0, 6.5)
    assert plan.cuts_mm == (8.0, 8.0, 14.5)
    assert plan.folds_braid


def test_a_drawing_without_a_stem_gives_a_reason_and_not_a_number() -> None:
    """What cannot be planned is said with the name of what is missing."""
    reason = plan_strip(
        drawing(barrel_depth=4.5, barrel_clearance=0.25), tolerances=MACHINE_STRIP_TOLERANCES
    )
    assert isinstance(reason, Reason)
    assert reason.code == "strip_not_computed"
    assert "dielectric and braid" in reason.sentence


def test_a_relief_longer_than_its_feature_is_refused() -> None:
    """A clearance of 5 in a barrel of 4.5 leaves no conductor: refused."""
    assert BNC_70.drawing is not None
    bad = replace(BNC_70.drawing, barrel_clearance_m=5e-3)
    reason = plan_strip(bad, tolerances=MACHINE_STRIP_TOLERANCES)
    assert isinstance(reason, Reason)
    assert reason.code == "strip_impossible"


@given(
    st.floats(min_value=0.5, max_value=20),
    st.floats(min_value=0, max_value=20),
    st.floats(min_value=0, max_value=20),
)
def test_cut_positions_never_fall_and_end_in_the_sum(a: float, b: float, c: float) -> None:
    """Whatever the three lengths, the cuts run away from the end and the last is their sum."""
    plan = replace(_planned(a), dielectric_mm=b, braid_mm=c)
    assert list(plan.cuts_mm) == sorted(plan.cuts_mm)
    assert abs(plan.jacket_cut_mm - (a + b + c)) < 1e-9
