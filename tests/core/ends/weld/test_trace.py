"""Traces of power over the time of a weld."""

from dataclasses import replace

import numpy as np
import pytest

from reelwright.core.ends.weld.trace import (
    PowerTrace,
    WeldFeatures,
    compare_weld,
    weld_features,
)
from reelwright.core.errors import BadValue
from reelwright.core.verdicts import Outcome


def trace(scale: float = 1.0) -> PowerTrace:
    """A rise of 8000 W/s to 400 W at 50 ms, of 1000 W/s to 600 W at 250 ms, then nothing."""
    time_s = np.linspace(0.0, 0.30, 301)
    power_w = np.where(time_s <= 0.05, 8000 * time_s, 400 + 1000 * (time_s - 0.05))
    power_w = np.where(time_s <= 0.25, power_w, 0.0) * scale
    return PowerTrace(time_s=time_s, power_w=power_w, height_before_m=2.4e-3, height_after_m=1.3e-3)


GOOD = tuple(weld_features(trace(scale)) for scale in (0.98, 0.99, 1.0, 1.01, 1.02))


def test_the_features_of_a_known_trace() -> None:
    """Energy of 10 J and 100 J under the two straight lines, the knee where they meet."""
    found = weld_features(trace())
    # The fall takes one sample: half of 600 W for a millisecond.
    assert found.energy_j == pytest.approx(10 + 100 + 0.3, abs=0.01)
    assert found.peak_w == pytest.approx(600)
    assert found.peak_s == pytest.approx(0.25)
    assert found.knee_s == pytest.approx(0.05)
    assert found.rise_w_per_s == pytest.approx(8000)
    assert found.collapse_m == pytest.approx(1.1e-3)
    assert found.weld_s == pytest.approx(0.25, abs=0.01)


def test_twice_the_power_is_twice_the_energy_at_the_same_times() -> None:
    """Energy, peak and rise scale; the times stay."""
    one, two = weld_features(trace()), weld_features(trace(2.0))
    assert two.energy_j == pytest.approx(2 * one.energy_j)
    assert two.rise_w_per_s == pytest.approx(2 * one.rise_w_per_s)
    assert (two.knee_s, two.weld_s) == (one.knee_s, one.weld_s)


def test_a_weld_beside_the_good_ones_is_told_by_feature() -> None:
    """One with a tenth more power is found by its energy; one among them is good."""
    assert {c.outcome for c in compare_weld(weld_features(trace()), GOOD)} == {Outcome.GOOD}
    beside = compare_weld(weld_features(trace(1.1)), GOOD)
    bad = {check.name for check in beside if check.outcome is Outcome.BAD}
    assert bad == {"weld energy", "peak power", "rise of power"}
    for check in beside:
        assert isinstance(check.value, float)
        assert isinstance(check.limit, float)
        assert check.margin == pytest.approx(check.limit - check.value)


def test_a_knee_on_the_next_sample_is_no_fault() -> None:
    """Good welds whose knees agree to the sample of 1 ms let 51 ms pass, and not 52 ms."""
    one = weld_features(trace())
    assert one.step_s == pytest.approx(1e-3)
    for knee_s, outcome in ((0.051, Outcome.GOOD), (0.052, Outcome.BAD)):
        checks = compare_weld(replace(one, knee_s=knee_s), GOOD)
        (knee,) = [check for check in checks if check.name == "time of the knee"]
        assert knee.outcome is outcome


def test_few_good_welds_compare_with_nothing() -> None:
    """Four are not enough, and a height that was not measured is left out."""
    checks = compare_weld(weld_features(trace()), GOOD[:4])
    assert {check.outcome for check in checks} == {Outcome.NOT_COMPUTED}
    silent: WeldFeatures = replace(weld_features(trace()), collapse_m=None)
    assert "collapse of the joint" not in [check.name for check in compare_weld(silent, GOOD)]


@pytest.mark.parametrize(
    "wrong",
    [
        {"time_s": np.zeros(301)},
        {"power_w": np.zeros(301)},
        {"power_w": np.full(301, -1.0)},
        {"power_w": np.ones(5)},
        {"height_before_m": 0.0},
    ],
    ids=["no time", "no power", "negative", "other length", "no height"],
)
def test_a_trace_that_is_none_is_refused(wrong: dict[str, object]) -> None:
    """Times that do not rise, a weld that took no power."""
    with pytest.raises(BadValue):
        replace(trace(), **wrong)  # type: ignore[arg-type]
