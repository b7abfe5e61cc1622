"""The Gaussian processes behind trials, held against direct linear algebra and integration."""

from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.stats import chi2, multivariate_normal, norm

from reelwright.core.statistics.tolerance import one_sided_tolerance_factor
from reelwright.core.trials._kernels import logistic, tolerance_factors
from reelwright.core.trials.belief import believe
from reelwright.core.trials.chances import fit_chances
from reelwright.core.trials.guess import Peak, Slope
from reelwright.core.trials.model import fit_model, imagine
from reelwright.core.trials.process import (
    Shown,
    _Belief,
    condition,
    fit,
    log_likelihood,
    matern,
)
from tests.trials_world import problem, pull, trial, welded


def _shown(seed: int = 1, size: int = 9) -> Shown:
    dice = np.random.default_rng(seed)
    points = dice.random((size, 3))
    return Shown(
        points=points,
        means=np.sin(3 * points[:, 0]) + points[:, 1] - 0.8,
        counts=dice.integers(1, 5, size).astype(float),
        columns=np.hstack([np.ones((size, 1)), points - 0.5]),
        within=0.03,
        degrees=14,
    )


def _whole(shown: Shown, noise: float, amplitude: float, lengths: np.ndarray) -> np.ndarray:
    smooth = amplitude**2 * matern(shown.points, shown.points, lengths)
    spread = np.diag([4.0, 1.0, 1.0, 1.0])
    return smooth + shown.columns @ spread @ shown.columns.T + np.diag(noise**2 / shown.counts)


def test_the_posterior_is_that_of_a_joint_normal() -> None:
    """Mean and spread at new points are those of conditioning one joint normal by hand."""
    shown, lengths = _shown(), np.array([0.4, 0.7, 1.1])
    process = condition(shown, np.zeros(4), amplitude=0.9, lengths=lengths, noise=0.1)
    asked = np.random.default_rng(2).random((4, 3))
    columns = np.hstack([np.ones((4, 1)), asked - 0.5])
    mean, spread = process.at(asked, columns)
    known = _whole(shown, 0.1, 0.9, lengths)
    both = 0.81 * matern(asked, shown.points, lengths)
    both += columns @ np.diag([4.0, 1.0, 1.0, 1.0]) @ shown.columns.T
    own = 0.81 + np.einsum("ij,j,ij->i", columns, [4.0, 1.0, 1.0, 1.0], columns)
    by_hand = own - np.einsum("ij,ji->i", both, np.linalg.solve(known, both.T))
    assert mean == pytest.approx(both @ np.linalg.solve(known, shown.means), abs=1e-6)
    assert spread == pytest.approx(np.sqrt(by_hand), rel=1e-5)


def test_the_likelihood_is_that_of_a_joint_normal() -> None:
    """The logarithm of the density agrees with scipy's multivariate normal."""
    shown, lengths = _shown(), np.array([0.4, 0.7, 1.1])
    process = condition(shown, np.zeros(4), amplitude=0.9, lengths=lengths, noise=0.1)
    whole = multivariate_normal(np.zeros(9), _whole(shown, 0.1, 0.9, lengths))
    assert log_likelihood(process) == pytest.approx(whole.logpdf(shown.means), rel=1e-6)


@given(st.integers(0, 10_000))
@settings(max_examples=25)
def test_the_slope_of_the_likelihood_is_its_difference(seed: int) -> None:
    """The gradient of the search agrees with central differences, wherever one looks."""
    belief = _Belief(_shown(seed), np.zeros(4))
    at = belief.middle + 0.4 * np.random.default_rng(seed).standard_normal(5)
    _, slope = belief.less(at)
    step = 1e-5 * np.eye(5)
    by_hand = [(belief.less(at + e)[0] - belief.less(at - e)[0]) / 2e-5 for e in step]
    assert slope == pytest.approx(by_hand, rel=1e-4, abs=1e-4)


def test_the_search_ends_where_nothing_near_is_more_believable() -> None:
    """At the parameters found, every small step makes likelihood times prior smaller."""
    shown = _shown()
    process = fit(shown, np.zeros(4))
    belief = _Belief(shown, np.zeros(4))
    at = np.log(np.r_[process.amplitude, process.lengths, process.noise])
    for step in 0.05 * np.vstack([np.eye(5), -np.eye(5)]):
        assert belief.less(at + step)[0] >= belief.less(at)[0] - 1e-6


@given(
    size=st.integers(2, 300),
    coverage=st.floats(0.6, 0.999),
    confidence=st.floats(0.6, 0.99),
)
@settings(max_examples=40)
def test_a_mean_worth_whole_readings_has_the_classical_factor(
    size: int, coverage: float, confidence: float
) -> None:
    """For n readings with n − 1 degrees of freedom the factor is the exact one of the tables."""
    ours = tolerance_factors(
        np.array([float(size)]), coverage=coverage, confidence=confidence, degrees=size - 1
    )
    exact = one_sided_tolerance_factor(sample_size=size, coverage=coverage, confidence=confidence)
    assert ours[0] == pytest.approx(exact, rel=2e-6)


@pytest.mark.parametrize("worth", [0.2, 0.5, 2.5, 40.0])
def test_a_mean_worth_a_broken_number_of_readings_is_covered_as_claimed(worth: float) -> None:
    """Integrating normal and chi-square by hand, the factor gives the confidence it claims."""
    k = tolerance_factors(np.array([worth]), coverage=0.99, confidence=0.95, degrees=9)[0]
    z = NormalDist().inv_cdf(0.99)
    covered = quad(
        lambda v: norm.cdf(np.sqrt(worth) * (k * np.sqrt(v / 9) - z)) * chi2.pdf(v, 9), 0, 90
    )[0]
    assert covered == pytest.approx(0.95, abs=1e-6)


def test_the_less_a_mean_is_worth_the_further_the_bound() -> None:
    """The factor falls with the readings a mean is worth, down to that of a mean known exactly."""
    worth = np.geomspace(1e-3, 1e5, 60)
    factors = tolerance_factors(worth, coverage=0.99, confidence=0.95, degrees=8)
    assert np.all(np.diff(factors) < 0)
    known = NormalDist().inv_cdf(0.99) * np.sqrt(8 / chi2.ppf(0.05, 8))
    assert factors[-1] == pytest.approx(known, rel=1e-4)


def test_before_any_trial_the_chance_is_the_one_stated() -> None:
    """Without trials the expected chance is the lead's own, the same everywhere."""
    process = fit_chances(np.zeros((0, 2)), np.zeros(0), np.zeros(0), expected_fraction=0.9)
    assert process.chance(np.random.default_rng(1).random((5, 2))) == pytest.approx(
        np.full(5, 0.9), abs=1e-9
    )


def test_the_posterior_of_a_chance_is_near_the_integral() -> None:
    """Eight of ten seen: the expected chance is near that of integrating by hand."""
    process = fit_chances(
        np.array([[0.5, 0.5]]), np.array([8.0]), np.array([10.0]), expected_fraction=0.5
    )
    prior = norm(0.0, np.sqrt(5.0))

    def weight(f: float) -> float:
        p = float(logistic(np.array([f]))[0])
        return float(prior.pdf(f)) * p**8 * (1 - p) ** 2

    whole = quad(weight, -12, 12)[0]
    mean = quad(lambda f: float(logistic(np.array([f]))[0]) * weight(f), -12, 12)[0] / whole
    # Laplace's approximation pulls a good chance down by about two in a hundred: to the safe side.
    assert mean - 0.03 < process.chance(np.array([[0.5, 0.5]]))[0] < mean


def test_a_failure_is_feared_near_by_and_not_far_off() -> None:
    """After one failure among ten trials the chance falls there, and hardly at the other end."""
    points = np.linspace(0, 1, 10)[:, None]
    good = np.ones(10)
    all_good = fit_chances(points, good, np.ones(10), expected_fraction=0.9)
    good = good.copy()
    good[-1] = 0
    one_bad = fit_chances(points, good, np.ones(10), expected_fraction=0.9)
    asked = np.array([[0.0], [1.0]])
    lost = all_good.chance(asked) - one_bad.chance(asked)
    assert lost[1] > 0.2
    assert 0 < lost[0] < 0.05


def _some_trials(seed: int, count: int = 6) -> list[object]:
    dice = np.random.default_rng(seed)
    return [
        welded(n + 1, (200 + 5 * int(dice.integers(0, 45)), 1.5 + 0.1 * int(dice.integers(0, 26))),
               dice)
        for n in range(count)
    ]  # fmt: skip


@given(st.integers(0, 1000))
@settings(max_examples=6, deadline=None)
def test_the_order_of_the_trials_says_nothing(seed: int) -> None:
    """The same trials in another order leave the same belief."""
    trials = _some_trials(seed)
    asked = np.random.default_rng(seed).random((6, 2))
    one = believe(fit_model(problem(*trials)), asked)  # type: ignore[arg-type]
    other = believe(fit_model(problem(*trials[::-1])), asked)  # type: ignore[arg-type]
    assert one.inside == pytest.approx(other.inside, abs=2e-3)
    assert one.bounds == pytest.approx(other.bounds, abs=2e-2)


def test_the_unit_of_a_response_says_nothing() -> None:
    """Pulls written in millinewtons, with the limit in millinewtons, leave the same belief."""
    trials = _some_trials(3)
    thousand = [
        trial(one.number, one.values, [1000 * value for value in one.values_of("pull")])  # type: ignore[attr-defined]
        for one in trials
    ]
    asked = np.random.default_rng(1).random((6, 2))
    one = believe(fit_model(problem(*trials)), asked)  # type: ignore[arg-type]
    other = believe(fit_model(problem(*thousand, responses=(pull(lower=223_000.0),))), asked)
    assert one.inside == pytest.approx(other.inside, abs=1e-4)


def test_more_repeats_make_a_trial_surer() -> None:
    """Ten pulls at a setting leave a smaller spread there than two, with the same scatter."""
    few = problem(trial(1, (300, 2.7), (264, 276)), trial(2, (240, 2.0), (180, 192)))
    many = problem(trial(1, (300, 2.7), (264, 276) * 5), trial(2, (240, 2.0), (180, 192)))
    at = few.space.to_cube(np.array([[300, 2.7]]))
    (_, wide), (_, narrow) = (fit_model(one).responses[0].at(at) for one in (few, many))
    assert narrow[0] < wide[0]


def test_a_first_guess_is_believed_before_the_trials_and_not_against_them() -> None:
    """One trial leaves the guessed best the best, and trials that show otherwise are believed."""
    guess = Peak(setting="energy", best_at=300.0, ratio_factor=1.3)
    one = fit_model(problem(trial(1, (300, 2.7), (240, 246)), responses=(pull(guess=guess),)))
    line = one.space.to_cube(np.array([[e, 2.7] for e in (200, 250, 300, 350, 410)]))
    mean, _ = one.responses[0].at(line)
    assert int(np.argmax(mean)) == 2
    pulls = ((200, 262), (250, 255), (300, 200), (350, 140), (410, 90))
    shown = [trial(n, (e, 2.7), (p, p + 6)) for n, (e, p) in enumerate(pulls, start=1)]
    told = fit_model(problem(*shown, responses=(pull(guess=guess),)))
    mean, _ = told.responses[0].at(line)
    assert int(np.argmax(mean)) <= 1


def test_a_slope_is_learnt_from_few_trials() -> None:
    """Three trials on a plane carry on as a plane, where a mere level would come back to it."""
    shown = [trial(n, (e, 2.7), (e / 2, e / 2 + 1)) for n, e in enumerate((200, 230, 260), start=1)]
    asked = problem().space.to_cube(np.array([[380, 2.7]]))
    plane = fit_model(problem(*shown, responses=(pull(guess=Slope()),))).responses[0].at(asked)[0]
    level = fit_model(problem(*shown)).responses[0].at(asked)[0]
    assert plane[0] > level[0] > 130


def test_an_imagined_trial_makes_its_place_sure_and_moves_nothing() -> None:
    """The mean stays where it was, and the spread at the imagined trial shrinks."""
    model = fit_model(problem(*_some_trials(5)))  # type: ignore[arg-type]
    point = np.array([0.2, 0.9])
    dreamt = imagine(model, point, repeats=3)
    before, after = (one.responses[0].at(point[None, :]) for one in (model, dreamt))
    assert after[0] == pytest.approx(before[0], abs=1e-6)
    assert after[1] < before[1]
