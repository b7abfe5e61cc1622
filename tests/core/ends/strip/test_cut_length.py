"""From finished length to wheel setting."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.strip.cut_length import CutLength, WheelCalibration, plan_cut
from reelwright.core.errors import BadValue
from reelwright.core.verdicts import Reason
from tests.ends_world import BNC_60, BNC_70, F_70

WHEEL = WheelCalibration(
    set_mm=10_000, delivered_mm=9_958, fixed_uncertainty_mm=3.0, relative_uncertainty=0.001
)
TAPE = WheelCalibration(
    set_mm=1_000, delivered_mm=1_000, fixed_uncertainty_mm=3.0, relative_uncertainty=0.0
)


def _plan(finished: int, minus: int, plus: int, wheel: WheelCalibration = WHEEL):  # type: ignore[no-untyped-def]
    return plan_cut(
        finished_mm=finished,
        tolerance_minus_mm=minus,
        tolerance_plus_mm=plus,
        ends=(BNC_60, BNC_60),
        wheel=wheel,
    )


def test_a_tolerance_narrower_than_the_cut_is_refused_with_what_would_do() -> None:
    """±25 mm on 15.2 m is less than the wheel keeps: refused with the figure that can be kept."""
    reason = _plan(15_200, 25, 25)
    assert isinstance(reason, Reason)
    assert reason.code == "tolerance_narrower_than_cut"
    assert "±47\u202fmm" in reason.sentence


def test_the_same_tolerance_is_kept_on_the_tape() -> None:
    """Measured on a tape instead, ±25 mm on 15.2 m is planned, centred."""
    planned = _plan(15_200, 25, 25, TAPE)
    assert isinstance(planned, CutLength)
    assert planned.target_mm == 15_200


def test_nothing_shorter_is_aimed_three_deviations_above() -> None:
    """With −0 the target lies 3·u above the finished length; symmetric, it is the length itself."""
    above, centred = _plan(3_048, 0, 61), _plan(3_048, 61, 61)
    assert isinstance(above, CutLength)
    assert isinstance(centred, CutLength)
    assert above.target_mm - 3_048 == round(3 * above.standard_uncertainty_mm) == 13
    assert centred.target_mm == 3_048


def test_both_ends_count_each_with_its_own_setback() -> None:
    """Swapping one connector for another changes the cut by the difference of the two alone."""
    other = replace(BNC_70, conductor_setback_m=2.65e-3)
    same = _plan(5_000, 60, 60)
    mixed = plan_cut(
        finished_mm=5_000,
        tolerance_minus_mm=60,
        tolerance_plus_mm=60,
        ends=(BNC_60, other),
        wheel=WHEEL,
    )
    assert isinstance(same, CutLength)
    assert isinstance(mixed, CutLength)
    assert mixed.cut_mm - same.cut_mm == 8


def test_a_cable_shorter_than_its_connectors_is_refused() -> None:
    """A finished length under the two setbacks leaves no cable to cut: a reason, not a number."""
    deep = replace(F_70, conductor_setback_m=0.05, trim_m=0.0)
    reason = plan_cut(
        finished_mm=60, tolerance_minus_mm=20, tolerance_plus_mm=20, ends=(deep, deep), wheel=TAPE
    )
    assert isinstance(reason, Reason)
    assert reason.code == "shorter_than_its_ends"


@pytest.mark.parametrize("bad", [0, -5, 12.5])
def test_only_whole_positive_millimetres_are_taken(bad: float) -> None:
    """A finished length that is no whole number of millimetres above zero is refused as a value."""
    with pytest.raises(BadValue):
        _plan(bad, 10, 10)  # type: ignore[arg-type]


@given(
    st.integers(min_value=200, max_value=100_000),
    st.integers(min_value=0, max_value=3_000),
    st.integers(min_value=0, max_value=3_000),
)
def test_what_is_planned_stays_inside_the_tolerance(finished: int, minus: int, plus: int) -> None:
    """Whenever a cut is planned, its target ± 3·u lies inside the tolerance, to the millimetre."""
    planned = _plan(finished, minus, plus)
    if isinstance(planned, Reason):
        if planned.code == "tolerance_narrower_than_cut":
            assert minus + plus < 6 * WHEEL.standard_uncertainty_mm(finished)
        else:
            # The middle of so wide a tolerance is no longer than the two connectors take up.
            assert planned.code == "shorter_than_its_ends"
            setbacks_mm = 2 * BNC_60.conductor_setback_m * 1e3
            assert finished + (plus - minus) / 2 <= setbacks_mm
        return
    held = 3 * planned.standard_uncertainty_mm
    assert planned.shortest_mm - 0.5 <= planned.target_mm - held
    assert planned.target_mm + held <= planned.longest_mm + 0.5
    assert planned.wheel_setting_mm >= planned.cut_mm
