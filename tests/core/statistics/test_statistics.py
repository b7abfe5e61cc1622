"""Tolerance limits, yields, combination and normal chances: identities, limits and refusals."""

import math
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.quantities.measured import Measured
from reelwright.core.statistics.combine import combine
from reelwright.core.statistics.normal import (
    chance_above,
    chance_below,
    guarded_lower_limit,
    guarded_upper_limit,
)
from reelwright.core.statistics.tolerance import lower_tolerance_limit, one_sided_tolerance_factor
from reelwright.core.statistics.yields import chance_of_at_least, starts_needed


def db(value: float, spread: float | None) -> Measured:
    """Return a measured loss in dB."""
    return Measured(value=value, standard_uncertainty=spread, unit="dB")


def test_a_large_sample_needs_the_normal_quantile_only() -> None:
    """With very many values the factor falls to the normal quantile of the coverage."""
    factor = one_sided_tolerance_factor(sample_size=200_000, coverage=0.95, confidence=0.95)
    assert factor == pytest.approx(1.6449, abs=0.01)
    assert factor > 1.6449


@given(size=st.integers(3, 60), coverage=st.floats(0.6, 0.999), confidence=st.floats(0.55, 0.99))
def test_more_values_never_ask_for_more(size: int, coverage: float, confidence: float) -> None:
    """One value more lowers the factor where much is claimed; a higher claim raises it."""

    def factor(n: int, cover: float, sure: float) -> float:
        return one_sided_tolerance_factor(sample_size=n, coverage=cover, confidence=sure)

    here = factor(size, coverage, confidence)
    assert factor(size, coverage + (1 - coverage) / 2, confidence) > here
    assert factor(size, coverage, confidence + (1 - confidence) / 2) > here
    assert factor(size + 1, coverage, 0.95) < factor(size, coverage, 0.95)


def test_the_limit_lies_the_factor_below_the_mean() -> None:
    """The limit is the mean less k standard deviations."""
    limit = lower_tolerance_limit(
        mean=248.0, deviation=0.0, sample_size=10, coverage=0.99, confidence=0.95
    )
    assert limit == 248.0


@pytest.mark.parametrize(
    ("size", "coverage", "confidence"),
    [(1, 0.9, 0.9), (10, 1.0, 0.9), (10, 0.9, 0.0), (2.5, 0.9, 0.9)],
)
def test_no_tolerance_limit_from_nonsense(size: int, coverage: float, confidence: float) -> None:
    """One value, full coverage and no confidence are refused."""
    with pytest.raises(BadValue):
        one_sided_tolerance_factor(sample_size=size, coverage=coverage, confidence=confidence)


def test_what_was_computed_before_lets_no_nonsense_in() -> None:
    """A factor that was asked for once answers for the whole number alone, not for 10.0."""
    assert one_sided_tolerance_factor(sample_size=10, coverage=0.99, confidence=0.95) > 0
    with pytest.raises(BadValue):
        one_sided_tolerance_factor(sample_size=10.0, coverage=0.99, confidence=0.95)  # type: ignore[arg-type]


@pytest.mark.parametrize(("starts", "good"), [(3, 0), (3, 1), (3, 2), (3, 3), (5, 2), (5, 4)])
def test_the_chance_is_what_counting_all_cases_gives(starts: int, good: int) -> None:
    """The chance equals the sum over every sequence of good and bad pieces."""
    by_hand = math.fsum(
        math.prod(0.8 if piece else 0.2 for piece in pieces)
        for pieces in product((True, False), repeat=starts)
        if sum(pieces) >= good
    )
    ours = chance_of_at_least(good=good, starts=starts, yield_fraction=0.8)
    assert ours == pytest.approx(by_hand, rel=1e-13)


def test_the_ends_of_the_range() -> None:
    """More good than started never happens; a perfect yield always does; large counts work."""
    assert chance_of_at_least(good=4, starts=3, yield_fraction=0.9) == 0.0
    assert chance_of_at_least(good=3, starts=3, yield_fraction=1.0) == 1.0
    assert chance_of_at_least(good=0, starts=0, yield_fraction=0.5) == 1.0
    assert 0.98 < chance_of_at_least(good=30_000, starts=31_000, yield_fraction=0.97) < 1.0


@given(good=st.integers(1, 60), yield_fraction=st.floats(0.5, 1), confidence=st.floats(0.5, 0.999))
def test_starts_are_enough_and_not_one_too_many(
    good: int, yield_fraction: float, confidence: float
) -> None:
    """The starts reach the confidence, and one fewer does not."""
    starts = starts_needed(good=good, yield_fraction=yield_fraction, confidence=confidence)
    reached = chance_of_at_least(good=good, starts=starts, yield_fraction=yield_fraction)
    assert reached >= confidence
    assert starts == good or (
        chance_of_at_least(good=good, starts=starts - 1, yield_fraction=yield_fraction) < confidence
    )


def test_yields_refuse_nonsense() -> None:
    """No yield, a yield above one, certainty, and nothing asked for are refused."""
    for good, yield_fraction, confidence in [
        (4, 0.0, 0.95),
        (4, 1.1, 0.95),
        (4, 0.97, 1.0),
        (0, 0.97, 0.95),
        (4, math.nan, 0.95),
    ]:
        with pytest.raises(BadValue):
            starts_needed(good=good, yield_fraction=yield_fraction, confidence=confidence)


def test_equal_measurements_combine_to_their_mean() -> None:
    """Four equal spreads give the plain mean, half the spread and the plain chi-square."""
    combined = combine([db(value, 0.2) for value in (10.0, 10.2, 10.4, 10.2)])
    assert combined.value == pytest.approx(10.2, rel=1e-15)
    assert combined.standard_uncertainty == pytest.approx(0.1, rel=1e-14)
    assert (combined.chi_square, combined.degrees) == (pytest.approx(2.0, rel=1e-12), 3)
    assert combined.agrees(significance=0.05)


def test_a_contradiction_is_named_and_not_smoothed_over() -> None:
    """Two values ten spreads apart do not agree; the spread of the result is not widened."""
    combined = combine([db(10.0, 0.1), db(11.0, 0.1)])
    assert combined.chi_square == pytest.approx(50.0, rel=1e-12)
    # For one degree of freedom chi-square is a normal value squared.
    assert combined.chance_of_disagreement == pytest.approx(math.erfc(5.0), rel=1e-9)
    assert combined.standard_uncertainty == pytest.approx(0.1 / math.sqrt(2), rel=1e-14)
    assert not combined.agrees(significance=0.01)


@given(
    first=st.floats(-100, 100), second=st.floats(-100, 100),
    spread=st.floats(0.01, 10), other=st.floats(0.01, 10),
)  # fmt: skip
def test_the_better_known_value_weighs_more(
    first: float, second: float, spread: float, other: float
) -> None:
    """The result lies between the two, nearer the better known, and is better known than both."""
    combined = combine([db(first, spread), db(second, other)])
    assert min(first, second) - 1e-9 <= combined.value <= max(first, second) + 1e-9
    assert combined.standard_uncertainty < min(spread, other)
    if spread < other and abs(first - second) > 1e-6:
        assert abs(combined.value - first) <= abs(combined.value - second)


def test_combining_refuses_what_has_no_weight() -> None:
    """One value alone, mixed units and a spread that is unknown or zero are refused."""
    volts = Measured(value=1.0, standard_uncertainty=0.1, unit="V")
    for bad in ([db(1, 0.1)], [db(1, 0.1), volts], [db(1, 0.1), db(1, None)], [db(1, 0), db(1, 1)]):
        with pytest.raises(BadValue):
            combine(bad)


def test_a_guarded_limit_leaves_just_the_chance_allowed() -> None:
    """A reading on the guarded limit breaks the limit with the chance left open, on both sides."""
    upper = guarded_upper_limit(limit=20.0, deviation=0.25, confidence=0.95)
    assert chance_above(limit=20.0, mean=upper, deviation=0.25) == pytest.approx(0.05, rel=1e-9)
    lower = guarded_lower_limit(limit=20.0, deviation=0.25, confidence=0.95)
    assert chance_below(limit=20.0, mean=lower, deviation=0.25) == pytest.approx(0.05, rel=1e-9)


def test_rare_chances_do_not_drown() -> None:
    """A chance of seven spreads is still right to many digits."""
    assert chance_above(limit=7.0, mean=0.0, deviation=1.0) == pytest.approx(
        math.erfc(7 / math.sqrt(2)) / 2, rel=1e-12
    )
    with pytest.raises(BadValue):
        chance_above(limit=1.0, mean=0.0, deviation=0.0)
