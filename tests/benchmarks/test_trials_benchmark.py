"""The benches of the trials benchmark: their windows, their harm, and a search on one of them."""

import numpy as np
import pytest

from benchmarks.trials import blind, led
from benchmarks.trials_truths import (
    Truth,
    branin_truth,
    hartmann_truth,
    weld_fails,
    weld_means,
    weld_truth,
)

BENCHES = [branin_truth(), hartmann_truth(), weld_truth(guided=True)]
NAMES = [bench.name for bench in BENCHES]


@pytest.mark.parametrize("truth", BENCHES, ids=NAMES)
def test_a_window_is_small_and_nothing_in_it_harms(truth: Truth) -> None:
    """One to two in a hundred settings are in the window, a tenth or more harm, none do both."""
    points = np.random.default_rng(1).random((50_000, len(truth.settings)))
    values = truth.problem(()).space.from_cube(points)
    inside, unsafe = truth.inside(values), truth.unsafe(values)
    assert 0.01 < inside.mean() < 0.02
    assert unsafe.mean() > 0.09
    assert not np.any(inside & unsafe)


def test_the_simulated_weld_is_best_at_its_best_settings() -> None:
    """At the best settings pull, peel and height are 320 N, near 62 N and 2.00 mm, and hold."""
    best = np.array([[275.0, 2.5, 31.0, 0.30, 50.0]])
    assert weld_means(best)[0] == pytest.approx([320.0, 70 / (1 + np.exp(-2)), 2.0])
    assert not weld_fails(best)[0]
    assert weld_fails(best * [2.0, 1, 1, 1, 1])[0]
    assert weld_fails(best * [0.3, 1, 1, 1, 1])[0]


def test_blind_trials_are_counted_to_the_first_inside() -> None:
    """Two settings outside, one of them harmful, then one inside: found at the third."""
    truth = branin_truth()
    tried = np.array([[-5.0, 0.0], [2.5, 7.5], [np.pi, 2.275], [2.5, 7.5]])
    run = blind(truth, truth.problem(()).space.to_cube(tried))
    assert (run.found, run.unsafe, run.trials) == (3, 1, 3)
    never = blind(truth, truth.problem(()).space.to_cube(tried[:2]))
    assert (never.found, never.unsafe, never.trials) == (None, 1, 2)


def test_the_engine_finds_the_weld_in_few_trials() -> None:
    """One search on the weld proves a window that is one, within fifteen trials."""
    run = led(weld_truth(guided=True), seed=2)
    assert run.proven is not None
    assert run.proven <= 15
    assert run.proven_true
