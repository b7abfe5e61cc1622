"""Roots of Bessel functions, which need scipy: loaded at first use."""


def first_cross_root(*, ratio: float) -> float:
    """Return the root x [1] of J1'(x)·Y1'(ratio·x) = J1'(ratio·x)·Y1'(x) times (1 + ratio)/2.

    The one of the lowest mode with one wave around, TE11, for ``ratio`` [1] = D/d above 1. It lies
    between 0.92 (thin centre: the round guide) and 1.04.
    """
    from scipy.optimize import brentq
    from scipy.special import jvp, yvp

    def crossed(scaled: float) -> float:
        inner = 2 * scaled / (1 + ratio)
        outer = ratio * inner
        # Y1' grows as 1/x² at a thin centre: scaled to its size, or the root is lost in rounding.
        return float(
            (jvp(1, inner) * yvp(1, outer) - jvp(1, outer) * yvp(1, inner)) / yvp(1, inner)
        )

    return float(brentq(crossed, 0.9, 1.05, xtol=1e-15, rtol=1e-14))
