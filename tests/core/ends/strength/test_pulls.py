"""Pulls against a minimum."""

import pytest

from reelwright.core.ends.strength.pulls import PullMinimum, judge_pulls
from reelwright.core.errors import BadValue
from reelwright.core.verdicts import Basis, Outcome, Source

ASKED = PullMinimum(
    minimum_n=180.0, source=Source(text="the demo workshop's limit", basis=Basis.COMMON_PRACTICE)
)
TEN = (248.0, 262.0, 231.0, 255.0, 240.0, 251.0, 266.0, 235.0, 249.0, 243.0)


def _outcome(pulls: tuple[float, ...]) -> Outcome:
    return judge_pulls(pulls, ASKED, coverage=0.99, confidence=0.95).outcome


def test_ten_good_pulls_prove_what_three_of_them_do_not() -> None:
    """The same ends: ten pulls hold the limit, the first three are too few to say so."""
    assert _outcome(TEN) is Outcome.GOOD
    assert _outcome(TEN[:3]) is Outcome.BAD
    assert (
        "more pulls may show it"
        in judge_pulls(TEN[:3], ASKED, coverage=0.99, confidence=0.95).sentence
    )


def test_a_good_mean_with_a_wide_spread_is_refused() -> None:
    """All ten above the limit on average is not enough when they scatter."""
    wide = tuple(248 + 3.5 * (pull - 248) for pull in TEN)
    assert sum(wide) / len(wide) > 240
    assert _outcome(wide) is Outcome.BAD


@pytest.mark.parametrize("pulls", [(), (248.0,), (248.0, 250.0), (248.0, 248.0, 248.0)])
def test_too_few_or_identical_pulls_are_not_computed(pulls: tuple[float, ...]) -> None:
    """Under three pulls, or pulls that do not differ, are answered with not computed."""
    assert _outcome(pulls) is Outcome.NOT_COMPUTED


def test_a_pull_of_nothing_is_refused_as_a_value() -> None:
    """A pull of zero newtons is no pull."""
    with pytest.raises(BadValue):
        _outcome((248.0, 0.0, 240.0))
