"""The statistical eye against the sum over every pattern."""

import math
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.statistical_eye import chance_above, level_at


def _log_normal_above(x: np.ndarray) -> np.ndarray:
    return np.array([math.erfc(each / math.sqrt(2)) / 2 for each in x.ravel()]).reshape(x.shape)


def over_all_patterns(heights: np.ndarray, noise: float, level: float) -> float:
    """P(Σ ±h + noise > level) as the mean over all 2ᴷ patterns."""
    sums = np.zeros(1)
    for height in heights:
        sums = np.concatenate([sums + height, sums - height])
    return float(np.mean(_log_normal_above((level - sums) / noise)))


@pytest.mark.parametrize("chance", [1e-2, 1e-6, 1e-12, 1e-18])
@pytest.mark.parametrize(
    "heights",
    [
        np.zeros(0),
        np.array([0.3]),
        np.array([0.25, 0.1, 0.02]),
        np.full(12, 0.04),
        0.2 / np.arange(1, 15) ** 1.5,
    ],
    ids=["noise alone", "one tall", "three", "all alike", "a tail"],
)
def test_every_pattern_counted_gives_the_same_chance(heights: np.ndarray, chance: float) -> None:
    """Level at a chance, and chance at that level, agree with full enumeration to 1e-10."""
    noise = 0.02
    others = np.stack([heights, heights[::-1] * 0.9])
    level = level_at(chance, others_ratio=others, noise_ratio=noise)
    counted = [over_all_patterns(others[at], noise, level[at]) for at in (0, 1)]
    assert counted == pytest.approx([chance, chance], rel=1e-10)
    assert chance_above(level, others_ratio=others, noise_ratio=noise) == pytest.approx(
        counted, rel=1e-10
    )


def test_twenty_cursors_agree_with_a_million_patterns() -> None:
    """2²⁰ patterns of twenty cursors at 1e-12: relative error of the rate below 1e-10."""
    heights = np.abs(np.random.default_rng(7).standard_normal(20)) * 0.05
    level = level_at(1e-12, others_ratio=heights[None], noise_ratio=0.03)
    assert over_all_patterns(heights, 0.03, level[0]) == pytest.approx(1e-12, rel=1e-10)


@given(
    st.lists(st.floats(-0.3, 0.3), min_size=0, max_size=8),
    st.floats(0.005, 0.3),
    st.floats(-0.5, 1.5),
)
@settings(max_examples=60, deadline=None)
def test_any_level_has_its_chance(heights: list[float], noise: float, level: float) -> None:
    """Anywhere, middle and far tail alike, the chance is that of all patterns."""
    others = np.array(heights)[None]
    expected = over_all_patterns(others[0], noise, level)
    found = chance_above(level, others_ratio=others, noise_ratio=noise)[0]
    assert found == pytest.approx(expected, rel=1e-9, abs=1e-290)


def test_low_cursors_by_series_are_the_same_as_one_by_one() -> None:
    """Cursors just low enough for the series of log cosh change nothing against enumeration."""
    heights = np.concatenate([[0.1, 0.05], np.full(8, 0.0035)])
    level = level_at(1e-12, others_ratio=heights[None], noise_ratio=0.1)
    assert over_all_patterns(heights, 0.1, level[0]) == pytest.approx(1e-12, rel=1e-10)
    patterns = [
        sum(sign * height for sign, height in zip(signs, heights, strict=True))
        for signs in product((-1, 1), repeat=10)
    ]
    assert len(patterns) == 1024
    assert max(patterns) == pytest.approx(heights.sum())


def test_the_chance_of_falling_below_is_the_rest() -> None:
    """P(X > t) + P(X > −t) is 1: bits are even."""
    others = np.array([[0.2, 0.05, 0.01]])
    both = [chance_above(t, others_ratio=others, noise_ratio=0.05)[0] for t in (0.1, -0.1)]
    assert sum(both) == pytest.approx(1, abs=1e-12)


def test_hardly_any_noise_is_refused_with_what_to_do() -> None:
    """A millionth of the cursors as noise would need too many points: the answer says so."""
    with pytest.raises(BadValue, match="worst opening"):
        chance_above(0.1, others_ratio=np.array([[0.5, 0.3]]), noise_ratio=1e-7)
