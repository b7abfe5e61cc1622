"""Heights of crimps: the target, and what measured ones say."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.dies.cavity_choice import Window
from reelwright.core.ends.dies.crimp_height import (
    HeightTarget,
    height_target,
    judge_heights,
    judge_laid_down,
    measured_target,
)
from reelwright.core.errors import BadValue
from reelwright.core.statistics.tolerance_interval import two_sided_tolerance_factor
from reelwright.core.verdicts import Outcome

WINDOW = Window(smallest_m=1.533e-3, largest_m=1.610e-3)
TARGET = measured_target(target_m=1.62e-3, tolerance_m=0.03e-3)
FIVE = (1.618e-3, 1.621e-3, 1.619e-3, 1.622e-3, 1.620e-3)


def judged(
    heights_m: tuple[float, ...], *, gauge_m: float | None = 0.003e-3
) -> tuple[Outcome, ...]:
    """The outcomes of heights against the target."""
    found = judge_heights(
        heights_m, TARGET, gauge_uncertainty_m=gauge_m, coverage=0.99, confidence=0.95
    )
    return tuple(check.outcome for check in found.checks)


@given(st.floats(min_value=1.4e-3, max_value=1.8e-3))
def test_the_tolerance_keeps_the_closed_hexagon_in_its_window(across_flats_m: float) -> None:
    """Both ends of the tolerance, less the spring-back, grip and spare; outside there is none."""
    target = height_target(across_flats_m=across_flats_m, window=WINDOW)
    if target is None:
        assert not WINDOW.smallest_m < across_flats_m < WINDOW.largest_m
        return
    for height_m in (target.low_m, target.high_m):
        assert WINDOW.off_m(height_m - 0.015e-3) == pytest.approx(0, abs=1e-12)


def test_what_the_heights_say_by_hand() -> None:
    """Mean 1.620, s 0.00158: Cpk 6.3; 99 % with 95 % lie within 6.598·s."""
    found = judge_heights(
        FIVE, TARGET, gauge_uncertainty_m=0.003e-3, coverage=0.99, confidence=0.95
    )
    assert found.capability is not None
    assert found.capability.cpk == pytest.approx(0.030 / (3 * 0.0015811), rel=1e-4)
    assert found.high_m == pytest.approx((1.620 + 6.598 * 0.0015811) * 1e-3, rel=1e-5)
    assert {check.outcome for check in found.checks} == {Outcome.GOOD}


@pytest.mark.parametrize(
    ("heights_m", "outcomes"),
    [
        ((), (Outcome.NOT_COMPUTED,)),
        ((1.62e-3,), (Outcome.NOT_COMPUTED,)),
        ((1.62e-3,) * 5, (Outcome.NOT_COMPUTED,)),
        ((1.60e-3, 1.62e-3, 1.64e-3), (Outcome.CAUTION, Outcome.CAUTION)),
        ((1.66e-3, 1.661e-3, 1.662e-3), (Outcome.BAD, Outcome.CAUTION)),
    ],
    ids=["none", "one", "alike", "spread", "beside"],
)
def test_too_few_too_wide_and_beside(
    heights_m: tuple[float, ...], outcomes: tuple[Outcome, ...]
) -> None:
    """Fewer than two or all alike tell nothing; a wide spread is minded; a mean outside is bad."""
    assert judged(heights_m)[:2] == outcomes


def test_a_limit_under_the_noise_is_not_computed() -> None:
    """±0.03 mm cannot be told by a gauge that is good to ±0.04 mm."""
    assert judged(FIVE, gauge_m=0.02e-3) == (Outcome.NOT_COMPUTED,)
    assert judged(FIVE, gauge_m=0.0149e-3) == (Outcome.GOOD, Outcome.GOOD, Outcome.CAUTION)


def test_nonsense_is_refused() -> None:
    """A height of nothing, a gauge without uncertainty, a tolerance of none."""
    with pytest.raises(BadValue):
        judged((0.0, 1.62e-3))
    with pytest.raises(BadValue):
        judged(FIVE, gauge_m=0.0)
    with pytest.raises(BadValue):
        measured_target(target_m=1.62e-3, tolerance_m=0.0)
    with pytest.raises(BadValue):
        height_target(across_flats_m=math.nan, window=WINDOW)


def test_the_factor_falls_towards_that_of_a_known_spread() -> None:
    """With many values k nears the normal quantile; one value is refused."""
    many = two_sided_tolerance_factor(sample_size=200_000, coverage=0.95, confidence=0.95)
    assert many == pytest.approx(1.96, abs=0.01)
    with pytest.raises(BadValue):
        two_sided_tolerance_factor(sample_size=1, coverage=0.95, confidence=0.95)


def test_a_target_may_have_more_room_on_one_side() -> None:
    """1.60 in a window of 1.533 to 1.610 may come out 0.067 mm lower and 0.010 mm higher."""
    target = height_target(across_flats_m=1.6e-3, window=WINDOW)
    assert isinstance(target, HeightTarget)
    assert target.told == "1.615\u202fmm −0.067/+0.010\u202fmm"
    assert TARGET.told == "1.620\u202fmm ±0.030\u202fmm"
    with pytest.raises(BadValue):
        replace(target, low_m=1.7e-3)


@pytest.mark.parametrize(
    ("target_mm", "tolerance_mm", "outcome", "words"),
    [
        (1.615, 0.010, Outcome.GOOD, "stays within the 1.548\u202fmm to 1.625\u202fmm"),
        (1.615, 0.030, Outcome.CAUTION, "0.020\u202fmm beyond"),
        (1.615, 0.030, Outcome.CAUTION, "±0.010\u202fmm is all that fits"),
        (1.540, 0.020, Outcome.CAUTION, "and lies outside itself"),
    ],
)
def test_a_tolerance_wider_than_the_pin_stands_is_told(
    target_mm: float, tolerance_mm: float, outcome: Outcome, words: str
) -> None:
    """1.533 to 1.610 across flats measure 0.015 mm wider: what passes beyond that is a caution."""
    check = judge_laid_down(
        measured_target(target_m=target_mm / 1e3, tolerance_m=tolerance_mm / 1e3), WINDOW
    )
    assert check.outcome is outcome
    assert words in check.sentence
    beyond_mm = max(1.548 - (target_mm - tolerance_mm), target_mm + tolerance_mm - 1.625)
    assert check.margin == pytest.approx(-beyond_mm, abs=1e-9)


def test_what_the_gauge_takes_of_the_tolerance_is_told() -> None:
    """u = 0.003 mm is ±0.006 of ±0.030, a fifth; 0.005 is a third, and draws in what passes."""
    assert judged(FIVE)[2:] == (Outcome.GOOD,)
    coarse = judge_heights(
        FIVE, TARGET, gauge_uncertainty_m=0.005e-3, coverage=0.99, confidence=0.95
    ).checks[2]
    assert coarse.outcome is Outcome.CAUTION
    assert coarse.value == pytest.approx(100 / 3)
    assert "only readings from 1.600\u202fmm to 1.640\u202fmm surely pass" in coarse.sentence


def test_a_gauge_of_which_nothing_is_known_is_not_judged() -> None:
    """Cpk and interval are computed all the same, and nothing is said of the gauge."""
    assert len(judged(FIVE, gauge_m=None)) == 2
