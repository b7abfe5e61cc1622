"""Two-sided tolerance intervals of a normal population, exact."""

from functools import lru_cache

from reelwright.core.statistics._guard import require_chance, require_whole
from reelwright.core.statistics._kernels import factor_root, two_sided_confidence


@lru_cache(maxsize=256)
def two_sided_tolerance_factor(*, sample_size: int, coverage: float, confidence: float) -> float:
    """Return k (1): mean ± k·s holds the fraction ``coverage`` of all with ``confidence``.

    Exact, from the joint distribution of mean and s (ISO 16269-6:2014, from memory), not the usual
    approximation by Howe, which is a little short for few values. ``sample_size``: two or more
    measured values; ``coverage`` and ``confidence``: above 0 and below 1. Raises BadValue
    otherwise.
    """
    require_whole("two_sided_tolerance_factor", at_least=2, sample_size=sample_size)
    require_chance("two_sided_tolerance_factor", coverage=coverage, confidence=confidence)

    def lacking(factor: float) -> float:
        return (
            two_sided_confidence(factor=factor, coverage=coverage, sample_size=sample_size)
            - confidence
        )

    high = 4.0
    while lacking(high) < 0:
        high *= 2
    return factor_root(lacking, factor_low=1e-6, factor_high=high)
