"""How many more pulls: the least number, its chance, and where no number will do."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.strength._kernels import chance_more_pulls_do
from reelwright.core.ends.strength.more_pulls import LIKELY_CHANCE, MorePulls, PullsSeen, more_pulls
from reelwright.core.errors import BadValue
from reelwright.core.statistics.tolerance import (
    confidence_above,
    lower_tolerance_limit,
    one_sided_tolerance_factor,
    sample_without_failure,
)
from reelwright.core.verdicts import Reason

P27 = PullsSeen(made_count=10, mean_n=248.0, spread_n=13.5)


def asked(seen: PullsSeen, minimum_n: float, least_count: int = 10) -> MorePulls | Reason:
    """How many more for 99 % with 95 % confidence."""
    return more_pulls(
        seen, minimum_n=minimum_n, coverage=0.99, confidence=0.95, least_count=least_count
    )


def bound_n(seen: PullsSeen, total: int) -> float:
    """The tolerance bound of so many pulls of the mean and spread seen."""
    return lower_tolerance_limit(
        mean=seen.mean_n,
        deviation=seen.spread_n,
        sample_size=total,
        coverage=0.99,
        confidence=0.95,
    )


def simulated(seen: PullsSeen, minimum_n: float, more: int, draws: int = 200_000) -> float:
    """The same chance by drawing: true spread and mean, then further pulls, then the bound."""
    rng = np.random.default_rng(20261125)
    n, total = seen.made_count, seen.made_count + more
    k = one_sided_tolerance_factor(sample_size=total, coverage=0.99, confidence=0.95)
    sigma = np.sqrt((n - 1) * seen.spread_n**2 / rng.chisquare(n - 1, draws))
    mean = seen.mean_n + sigma / np.sqrt(n) * rng.standard_normal(draws)
    further = mean + sigma / np.sqrt(more) * rng.standard_normal(draws)
    squares = (n - 1) * seen.spread_n**2 + n * more / total * (further - seen.mean_n) ** 2
    if more > 1:
        squares = squares + sigma**2 * rng.chisquare(more - 1, draws)
    together = (n * seen.mean_n + more * further) / total
    return float(np.mean(together - k * np.sqrt(squares / (total - 1)) >= minimum_n))


@given(st.integers(2, 30), st.floats(0.5, 30), st.floats(2.4, 20))
def test_the_number_is_the_least_that_does(made: int, spread_n: float, away: float) -> None:
    """With one pull fewer the bound of the same mean and spread stays under the minimum."""
    seen = PullsSeen(made_count=made, mean_n=400.0, spread_n=spread_n)
    minimum_n = 400.0 - away * spread_n
    if minimum_n <= 0:
        return
    found = asked(seen, minimum_n, least_count=2)
    if isinstance(found, Reason):
        assert found.code == "too_many_pulls"
        assert bound_n(seen, 1000) < minimum_n
        return
    assert bound_n(seen, made + found.more_count) >= minimum_n
    if found.more_count > 0:
        assert bound_n(seen, made + found.more_count - 1) < minimum_n


def test_proven_pulls_need_no_more_and_too_few_are_filled_up_to_ten() -> None:
    """The worked problem holds 194 N as it is; five pulls are five short of ten in any case."""
    found = asked(P27, 194.0)
    assert isinstance(found, MorePulls)
    assert (found.more_count, found.likely_count) == (0, 0)
    five = asked(PullsSeen(made_count=5, mean_n=248.0, spread_n=5.0), 180.0)
    assert isinstance(five, MorePulls)
    assert five.more_count == 5
    assert "5 more pulls" in five.sentence


@pytest.mark.parametrize(
    ("made", "spread_n", "minimum_n", "more"),
    [(10, 13.5, 210.0, 40), (5, 13.5, 180.0, 5), (12, 13.5, 195.0, 1), (3, 6.0, 190.0, 9)],
)
def test_the_chance_agrees_with_drawing_it(
    made: int, spread_n: float, minimum_n: float, more: int
) -> None:
    """Sums over quantiles give what 200 000 seeded draws give, within four of their errors."""
    seen = PullsSeen(made_count=made, mean_n=248.0, spread_n=spread_n)
    ours = chance_more_pulls_do(
        made_count=made,
        mean_n=248.0,
        spread_n=spread_n,
        minimum_n=minimum_n,
        more_count=more,
        tolerance_factor=one_sided_tolerance_factor(
            sample_size=made + more, coverage=0.99, confidence=0.95
        ),
    )
    assert ours == pytest.approx(simulated(seen, minimum_n, more), abs=4 * 0.5 / 200_000**0.5)


def test_the_chance_of_one_more_agrees_with_student() -> None:
    """One more pull: it must fall in a span, and the next pull is Student's t about the mean."""
    from scipy.optimize import brentq
    from scipy.stats import t

    n, minimum_n = 10, 196.0
    k = one_sided_tolerance_factor(sample_size=n + 1, coverage=0.99, confidence=0.95)

    def spare(away_n: float) -> float:
        squares = (n - 1) * P27.spread_n**2 + n / (n + 1) * away_n**2
        return float(P27.mean_n + away_n / (n + 1) - k * np.sqrt(squares / n) - minimum_n)

    scale = P27.spread_n * (1 + 1 / n) ** 0.5
    low, high = brentq(spare, -100, 1), brentq(spare, 1, 100)
    exact = float(t.cdf(high / scale, n - 1) - t.cdf(low / scale, n - 1))
    ours = chance_more_pulls_do(
        made_count=n,
        mean_n=P27.mean_n,
        spread_n=P27.spread_n,
        minimum_n=minimum_n,
        more_count=1,
        tolerance_factor=k,
    )
    assert 0.2 < exact < 0.9
    assert ours == pytest.approx(exact, abs=0.005)


def test_the_second_number_is_likely_to_do_and_one_fewer_is_not() -> None:
    """Ninety percent, and no more pulls than that takes."""
    seen = PullsSeen(made_count=5, mean_n=248.0, spread_n=13.5)
    found = asked(seen, 180.0)
    assert isinstance(found, MorePulls)
    assert found.likely_count is not None
    assert found.likely_count > found.more_count
    assert simulated(seen, 180.0, found.likely_count) == pytest.approx(LIKELY_CHANCE, abs=0.005)
    assert found.stay_chance == pytest.approx(simulated(seen, 180.0, found.more_count), abs=0.005)


def test_where_the_pulls_leave_it_open_no_number_is_called_likely() -> None:
    """At 71 % confidence in the claim itself, endless pulls would show it in 71 % of cases."""
    found = asked(P27, 210.0)
    assert isinstance(found, MorePulls)
    assert found.likely_count is None
    assert found.reached_confidence == pytest.approx(0.706, abs=0.001)
    assert "no number makes it" in found.sentence
    assert simulated(P27, 210.0, 100_000) == pytest.approx(found.reached_confidence, abs=0.01)


@pytest.mark.parametrize(
    ("made", "mean_n", "spread_n", "minimum_n", "code"),
    [
        (10, 248.0, 13.5, 217.0, "spread_too_wide"),
        (10, 248.0, 13.5, 216.5, "too_many_pulls"),
        (10, 248.0, 13.5, 248.0, "mean_too_low"),
        (1, 248.0, 0.0, 180.0, "spread_unknown"),
        (10, 248.0, 0.0, 180.0, "spread_unknown"),
    ],
)
def test_no_number_will_do(
    made: int, mean_n: float, spread_n: float, minimum_n: float, code: str
) -> None:
    """248 − 2.326·13.5 = 216.6 N is the end of it: above that the spread must fall first."""
    found = asked(PullsSeen(made_count=made, mean_n=mean_n, spread_n=spread_n), minimum_n)
    assert isinstance(found, Reason)
    assert found.code == code


def test_what_would_help_is_named() -> None:
    """217 N at a mean of 248 N wants a spread under 13.3 N, or 0.4 N more of mean."""
    found = asked(P27, 217.0)
    assert isinstance(found, Reason)
    assert "13.3\u202fN instead of 13.5\u202fN" in found.sentence
    assert "0.4\u202fN higher" in found.sentence


def test_nonsense_is_refused() -> None:
    """No minimum of nothing, no pulls less than none."""
    with pytest.raises(BadValue):
        asked(P27, 0.0)
    with pytest.raises(BadValue):
        PullsSeen(made_count=-1, mean_n=248.0, spread_n=13.5)


@given(st.integers(2, 60), st.floats(0.5, 0.999), st.floats(0.5, 0.99))
def test_the_confidence_at_a_tolerance_limit_is_that_limits(
    size: int, coverage: float, confidence: float
) -> None:
    """Forwards and backwards through the non-central t distribution is where one was."""
    limit = lower_tolerance_limit(
        mean=0.0, deviation=1.0, sample_size=size, coverage=coverage, confidence=confidence
    )
    assert confidence_above(
        limit=limit, mean=0.0, deviation=1.0, sample_size=size, coverage=coverage
    ) == pytest.approx(confidence, abs=1e-6)


@given(st.floats(0.5, 0.999), st.floats(0.5, 0.999))
def test_a_sample_without_failure_is_large_enough_and_no_larger(
    coverage: float, confidence: float
) -> None:
    """1 − p^n reaches the confidence at n and not at n − 1."""
    n = sample_without_failure(coverage=coverage, confidence=confidence)
    assert 1 - coverage**n >= confidence - 1e-12
    assert 1 - coverage ** (n - 1) < confidence + 1e-12
