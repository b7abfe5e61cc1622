"""The chance that further pulls will prove an end, with scipy loaded at first use."""

import math

_STEPS = 256


def chance_more_pulls_do(
    *,
    made_count: int,
    mean_n: float,
    spread_n: float,
    minimum_n: float,
    more_count: int,
    tolerance_factor: float,
) -> float:
    """Return the chance (1) that mean − k·s of all pulls, made and to come, reaches the minimum.

    ``tolerance_factor`` is k for all of them together. What is to come is drawn from what was seen:
    (n − 1)·s²/σ² as chi-square, the true mean normal about the mean seen, nothing known before.
    Given σ and the further pulls' mean, the rest is one chi-square, so two sums over quantiles of
    equal chance are left; no chance is drawn.
    """
    import numpy as np
    from scipy.special import chdtr, gammaincinv, ndtri

    total = made_count + more_count
    even = (np.arange(_STEPS) + 0.5) / _STEPS
    squares = (made_count - 1) * spread_n**2
    variance = squares / (2 * gammaincinv((made_count - 1) / 2, even))[:, None]
    away = np.sqrt(variance * (1 / made_count + 1 / more_count)) * ndtri(even)[None, :]
    over = mean_n + more_count / total * away - minimum_n
    allowed = np.where(over > 0, (over / tolerance_factor) ** 2 * (total - 1), -math.inf)
    left = allowed - squares - made_count * more_count / total * away**2
    if more_count == 1:
        return float(np.mean(left >= 0))
    return float(np.mean(chdtr(more_count - 1, np.maximum(left / variance, 0.0))))
