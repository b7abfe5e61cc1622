"""One-sided tolerance limits of a normal population, exact by the non-central t distribution."""

import math
from functools import lru_cache
from statistics import NormalDist

from reelwright.core.statistics._guard import (
    require_chance,
    require_positive_number,
    require_whole,
)
from reelwright.core.statistics._kernels import noncentral_t_below, noncentral_t_quantile


# A page asks for the same few factors for each of its set-ups.
@lru_cache(maxsize=4096, typed=True)
def one_sided_tolerance_factor(*, sample_size: int, coverage: float, confidence: float) -> float:
    """Return k (1): mean − k·s lies below the fraction ``coverage`` of all with ``confidence``.

    k = t'(confidence; n − 1, z·√n)/√n, with z the normal quantile of ``coverage`` and t' the
    quantile of the non-central t distribution (NIST/SEMATECH e-Handbook of Statistical Methods,
    7.2.6.3). ``sample_size``: two or more measured values; ``coverage`` and ``confidence``: above
    0 and below 1. Raises BadValue otherwise.
    """
    require_whole("one_sided_tolerance_factor", at_least=2, sample_size=sample_size)
    require_chance("one_sided_tolerance_factor", coverage=coverage, confidence=confidence)
    root = math.sqrt(sample_size)
    quantile = noncentral_t_quantile(
        probability=confidence,
        degrees=sample_size - 1,
        noncentrality=NormalDist().inv_cdf(coverage) * root,
    )
    return quantile / root


def lower_tolerance_limit(
    *, mean: float, deviation: float, sample_size: int, coverage: float, confidence: float
) -> float:
    """Return mean − k·s, in the unit of ``mean`` and of the sample standard ``deviation``.

    The fraction ``coverage`` of all lies above it with ``confidence``; see the factor above.
    """
    return mean - deviation * one_sided_tolerance_factor(
        sample_size=sample_size, coverage=coverage, confidence=confidence
    )


def confidence_above(
    *, limit: float, mean: float, deviation: float, sample_size: int, coverage: float
) -> float:
    """Return with which confidence (1) the fraction ``coverage`` of all lies above ``limit``.

    The factor read backwards: t'⁻¹(√n·(mean − limit)/s; n − 1, z·√n). ``limit``, ``mean`` and the
    sample ``deviation`` in one unit. At the lower tolerance limit it is that limit's confidence.
    """
    require_whole("confidence_above", at_least=2, sample_size=sample_size)
    require_chance("confidence_above", coverage=coverage)
    require_positive_number("confidence_above", deviation=deviation)
    root = math.sqrt(sample_size)
    return noncentral_t_below(
        t_ratio=root * (mean - limit) / deviation,
        degrees=sample_size - 1,
        noncentrality=NormalDist().inv_cdf(coverage) * root,
    )


def sample_without_failure(*, coverage: float, confidence: float) -> int:
    """Return how many must all hold, whatever the distribution, to claim ``coverage``.

    The least whole n with 1 − coverage^n ≥ confidence: then the smallest of n values lies below the
    fraction ``coverage`` of all with ``confidence`` (Wilks, Annals of Mathematical Statistics 12
    (1941), 91). 59 for 95 %/95 %, 299 for 99 %/95 %.
    """
    require_chance("sample_without_failure", coverage=coverage, confidence=confidence)
    return math.ceil(math.log(1 - confidence) / math.log(coverage))
