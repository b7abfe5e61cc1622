"""Chances of a normal value against a limit, and limits drawn in by what the reading may be off."""

from statistics import NormalDist

from reelwright.core.statistics._guard import require_chance, require_positive_number

_STANDARD = NormalDist()


def chance_above(*, limit: float, mean: float, deviation: float) -> float:
    """Return the chance (1) that a normal value exceeds ``limit``; all three in one unit.

    Taken from the tail itself, so that one in a billion does not drown in rounding.
    """
    require_positive_number("chance_above", deviation=deviation)
    return _STANDARD.cdf((mean - limit) / deviation)


def chance_below(*, limit: float, mean: float, deviation: float) -> float:
    """Return the chance (1) that a normal value lies below ``limit``; all three in one unit."""
    require_positive_number("chance_below", deviation=deviation)
    return _STANDARD.cdf((limit - mean) / deviation)


def guarded_upper_limit(*, limit: float, deviation: float, confidence: float) -> float:
    """Return the highest reading that is below ``limit`` with one-sided ``confidence`` (1).

    limit − z·u, in the unit of ``limit`` and ``deviation``; flat prior (JCGM 106:2012, 8.3).
    """
    require_positive_number("guarded_upper_limit", deviation=deviation)
    require_chance("guarded_upper_limit", confidence=confidence)
    return limit - _STANDARD.inv_cdf(confidence) * deviation


def guarded_lower_limit(*, limit: float, deviation: float, confidence: float) -> float:
    """Return the lowest reading that is above ``limit`` with one-sided ``confidence`` (1)."""
    require_positive_number("guarded_lower_limit", deviation=deviation)
    require_chance("guarded_lower_limit", confidence=confidence)
    return limit + _STANDARD.inv_cdf(confidence) * deviation
