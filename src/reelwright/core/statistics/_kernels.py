"""The distributions that need scipy, loaded at first use."""


def noncentral_t_quantile(*, probability: float, degrees: int, noncentrality: float) -> float:
    """Return the quantile (1) of the non-central t distribution at ``probability`` (1)."""
    from scipy.stats import nct

    return float(nct.ppf(probability, degrees, noncentrality))


def noncentral_t_below(*, t_ratio: float, degrees: int, noncentrality: float) -> float:
    """Return the chance (1) that the non-central t distribution lies below ``t_ratio`` (1)."""
    from scipy.stats import nct

    return float(nct.cdf(t_ratio, degrees, noncentrality))


def chi_square_above(*, chi_square: float, degrees: int) -> float:
    """Return the chance (1) that chi-square with ``degrees`` of freedom exceeds ``chi_square``."""
    from scipy.special import gammaincc

    return float(gammaincc(degrees / 2, chi_square / 2))
