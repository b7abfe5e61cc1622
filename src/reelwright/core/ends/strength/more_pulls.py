"""How many more pulls it takes to claim what is asked, and how likely they are to show it."""

from collections.abc import Callable
from dataclasses import dataclass
from statistics import NormalDist

from reelwright.core.ends.strength._kernels import chance_more_pulls_do
from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_count, require_not_negative, require_positive
from reelwright.core.quantities.show import show_chance, show_in, show_percent, show_plain
from reelwright.core.quantities.words import counted
from reelwright.core.statistics.tolerance import confidence_above, one_sided_tolerance_factor
from reelwright.core.verdicts import Reason

MOST_PULLS = 1000
"""Where looking ends: whoever needs more should change the end instead of pulling on."""

LIKELY_CHANCE = 0.9
"""How likely further pulls shall be to do, for the second of the two numbers that are told."""


@dataclass(frozen=True, kw_only=True)
class PullsSeen:
    """The pulls so far: how many, their mean [N] and their sample standard deviation [N]."""

    made_count: int
    mean_n: float
    spread_n: float

    def __post_init__(self) -> None:
        require_count(self, "made_count")
        require_positive(self, "mean_n")
        require_not_negative(self, "spread_n")


@dataclass(frozen=True, kw_only=True)
class MorePulls:
    """What further pulls would do.

    ``more_count`` would do if mean and spread stay as they are, which comes about with
    ``stay_chance``; ``likely_count`` do with ``LIKELY_CHANCE``, None where no number does.
    ``reached_confidence`` is what the pulls so far give the claim.
    """

    more_count: int
    stay_chance: float
    likely_count: int | None
    reached_confidence: float
    sentence: str


def more_pulls(
    seen: PullsSeen,
    *,
    minimum_n: float,
    coverage: float,
    confidence: float,
    least_count: int,
) -> MorePulls | Reason:
    """Return how many more pulls claim ``minimum_n`` [N], or the Reason why no number does.

    The least N, at least ``least_count``, with mean − k(N)·s ≥ minimum (exact one-sided factor).
    A Reason: fewer than two pulls, no spread, mean − z·s under the minimum (z is where k(N) ends),
    or more than ``MOST_PULLS``. Raises BadValue for a minimum that is not above zero.
    """
    if not minimum_n > 0:
        raise BadValue(
            owner="more_pulls", field="minimum_n", value=minimum_n, accepted="newtons above zero"
        )
    wanted = show_plain(minimum_n, "N")
    refused = _never(seen, minimum_n=minimum_n, coverage=coverage, wanted=wanted)
    if refused is not None:
        return refused

    def bound_n(total: int) -> float:
        return seen.mean_n - seen.spread_n * one_sided_tolerance_factor(
            sample_size=total, coverage=coverage, confidence=confidence
        )

    least = max(seen.made_count, least_count)
    if bound_n(MOST_PULLS) < minimum_n:
        return Reason(
            code="too_many_pulls",
            sentence=f"More than {MOST_PULLS} pulls would be needed for {wanted}: change the end "
            "rather than pull on.",
        )
    low, high = least - 1, MOST_PULLS
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if bound_n(middle) >= minimum_n else (middle, high)
    more = high - seen.made_count
    reached = confidence_above(
        limit=minimum_n,
        mean=seen.mean_n,
        deviation=seen.spread_n,
        sample_size=seen.made_count,
        coverage=coverage,
    )
    if more == 0:
        return MorePulls(
            more_count=0,
            stay_chance=1.0,
            likely_count=0,
            reached_confidence=reached,
            sentence=f"No more pulls are needed for {wanted}.",
        )

    def chance(further: int) -> float:
        return chance_more_pulls_do(
            made_count=seen.made_count,
            mean_n=seen.mean_n,
            spread_n=seen.spread_n,
            minimum_n=minimum_n,
            more_count=further,
            tolerance_factor=one_sided_tolerance_factor(
                sample_size=seen.made_count + further, coverage=coverage, confidence=confidence
            ),
        )

    stays, likely = chance(more), _likely(chance, more)
    bound_held = bound_n(seen.made_count) >= minimum_n
    return MorePulls(
        more_count=more,
        stay_chance=stays,
        likely_count=likely,
        reached_confidence=reached,
        sentence=_first(more, stays, wanted, least_count if bound_held else None)
        + _ending(more, likely, reached, show_percent(coverage)),
    )


def _never(seen: PullsSeen, *, minimum_n: float, coverage: float, wanted: str) -> Reason | None:
    """Return why no number of pulls would do, or None."""
    if seen.made_count < 2 or seen.spread_n == 0:
        told = counted(seen.made_count, "pull")
        return Reason(
            code="spread_unknown",
            sentence=f"{told} without any spread tell nothing of how ends differ: the gauge is too "
            "coarse or the pulls were not read one by one."
            if seen.made_count >= 2
            else f"{told} so far: how ends differ shows from two on.",
        )
    if seen.mean_n <= minimum_n:
        return Reason(
            code="mean_too_low",
            sentence=f"No number of pulls will do: their mean, "
            f"{show_in(seen.mean_n, 'N', decimals=1)}, is not above {wanted}.",
        )
    quantile = NormalDist().inv_cdf(coverage)
    holds_n = seen.mean_n - quantile * seen.spread_n
    if holds_n > minimum_n:
        return None
    least_spread_n = (seen.mean_n - minimum_n) / quantile
    return Reason(
        code="spread_too_wide",
        sentence=f"No number of pulls will do: at this mean and spread {show_percent(coverage)} of "
        f"ends hold {show_in(holds_n, 'N', decimals=1)}, not {wanted}. It takes a mean "
        f"{show_in(minimum_n - holds_n, 'N', decimals=1)} higher, or a spread under "
        f"{show_in(least_spread_n, 'N', decimals=1)} instead of "
        f"{show_in(seen.spread_n, 'N', decimals=1)}.",
    )


def _likely(chance: Callable[[int], float], more: int) -> int | None:
    """Return the least number of further pulls that is likely to do, or None up to the most."""
    low, high = more - 1, more
    while chance(high) < LIKELY_CHANCE:
        if high >= MOST_PULLS:
            return None
        low, high = high, min(2 * high, MOST_PULLS)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if chance(middle) >= LIKELY_CHANCE else (middle, high)
    return high


def _first(more: int, stays: float, wanted: str, least: int | None) -> str:
    """Return the first half of the sentence; ``least`` where only their number is too small."""
    told = f"if mean and spread stay as they are, which is {show_chance(stays)} likely"
    if least is None:
        return f"{counted(more, 'more pull')} would show {wanted} {told}"
    return f"{counted(more, 'more pull')} make the {least} it takes, and show {wanted} {told}"


def _ending(more: int, likely: int | None, reached: float, share: str) -> str:
    """Return the other half of the sentence: how many make it likely, or why none do."""
    aim = f"{show_percent(LIKELY_CHANCE)} likely"
    if likely == more:
        return "."
    if likely is not None:
        return f"; {likely} make it {aim}."
    if reached >= LIKELY_CHANCE:
        return f"; up to {MOST_PULLS} do not make it {aim}."
    return (
        f"; no number makes it {aim}, since the pulls so far say with {show_chance(reached)} "
        f"confidence only that {share} of ends hold it."
    )
