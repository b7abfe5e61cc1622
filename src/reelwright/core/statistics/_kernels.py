"""The distributions that need scipy, loaded at first use."""

from collections.abc import Callable


def noncentral_t_quantile(*, probability: float, degrees: int, noncentrality: float) -> float:
    """Return the quantile (1) of the non-central t distribution at ``probability`` (1)."""
    # Not scipy.stats: the same numbers, without the second that loading it takes.
    from scipy.special import nctdtrit

    return float(nctdtrit(degrees, noncentrality, probability))


def noncentral_t_below(*, t_ratio: float, degrees: int, noncentrality: float) -> float:
    """Return the chance (1) that the non-central t distribution lies below ``t_ratio`` (1)."""
    from scipy.special import nctdtr

    return float(nctdtr(degrees, noncentrality, t_ratio))


def chi_square_above(*, chi_square: float, degrees: int) -> float:
    """Return the chance (1) that chi-square with ``degrees`` of freedom exceeds ``chi_square``."""
    from scipy.special import gammaincc

    return float(gammaincc(degrees / 2, chi_square / 2))


def two_sided_confidence(*, factor: float, coverage: float, sample_size: int) -> float:
    """Return the chance (1) that mean ± ``factor``·s holds the share ``coverage`` of a normal.

    Integral over the mean z/√n of the chance that χ² with n − 1 degrees exceeds (n − 1)·r²/k²,
    where mean ± r holds just the coverage.
    """
    import numpy as np
    from scipy.special import chdtrc, ndtr

    # Trapezoids on a smooth integrand that is nothing at both ends converge at once.
    z = np.linspace(-9.0, 9.0, 721)
    weights = np.exp(-(z**2) / 2) / np.sqrt(2 * np.pi) * (z[1] - z[0])
    mean = np.abs(z) / np.sqrt(sample_size)
    # Half width about the sample's mean that holds the coverage: by halving, forty-eight times.
    low, high = np.zeros_like(mean), mean + 40.0
    for _ in range(48):
        middle = (low + high) / 2
        short = ndtr(mean + middle) - ndtr(mean - middle) < coverage
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    degrees = sample_size - 1
    return float(np.sum(weights * chdtrc(degrees, degrees * (high / factor) ** 2)))


def factor_root(
    function: Callable[[float], float], *, factor_low: float, factor_high: float
) -> float:
    """Return the factor (1) where ``function`` is zero, between two where its signs differ."""
    from scipy.optimize import brentq

    return float(brentq(function, factor_low, factor_high, xtol=1e-10))
