"""How many to start so that enough come out good: binomial, each piece on its own."""

from math import exp, fsum, lgamma, log, log1p

from reelwright.core.errors import BadValue
from reelwright.core.statistics._guard import require_chance, require_whole

_MOST_STARTS = 100_000


def _require_yield(owner: str, yield_fraction: float) -> None:
    if not 0 < yield_fraction <= 1:
        raise BadValue(
            owner=owner,
            field="yield_fraction",
            value=yield_fraction,
            accepted="above 0 and not above 1",
        )


def _term(good: int, starts: int, yield_fraction: float) -> float:
    # By logarithms: the binomial coefficient itself leaves the range of a float near 1,030 pieces.
    ways = lgamma(starts + 1) - lgamma(good + 1) - lgamma(starts - good + 1)
    return exp(ways + good * log(yield_fraction) + (starts - good) * log1p(-yield_fraction))


def chance_of_at_least(*, good: int, starts: int, yield_fraction: float) -> float:
    """Return the chance (1) that ``starts`` pieces give ``good`` or more good ones.

    The upper tail of the binomial distribution, summed term by term over the shorter tail. Raises
    BadValue for counts below zero and a yield outside 0 to 1.
    """
    require_whole("chance_of_at_least", at_least=0, good=good, starts=starts)
    _require_yield("chance_of_at_least", yield_fraction)
    if good > starts:
        return 0.0
    if yield_fraction == 1:
        return 1.0
    spare = starts - good
    if spare < good:
        tail = fsum(_term(starts - bad, starts, yield_fraction) for bad in range(spare + 1))
        return min(1.0, tail)
    below = fsum(_term(count, starts, yield_fraction) for count in range(good))
    return max(0.0, 1 - below)


def starts_needed(*, good: int, yield_fraction: float, confidence: float) -> int:
    """Return the fewest pieces to start for ``good`` good ones with at least ``confidence`` (1).

    Raises BadValue for nonsense, and where more than 100,000 would be needed.
    """
    require_whole("starts_needed", at_least=1, good=good)
    require_chance("starts_needed", confidence=confidence)
    _require_yield("starts_needed", yield_fraction)
    starts = good
    while chance_of_at_least(good=good, starts=starts, yield_fraction=yield_fraction) < confidence:
        starts += 1
        if starts > _MOST_STARTS:
            raise BadValue(
                owner="starts_needed",
                field="yield_fraction",
                value=yield_fraction,
                accepted=f"a yield that gets there within {_MOST_STARTS} pieces",
            )
    return starts
