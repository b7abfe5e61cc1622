"""Bessel functions of scipy on the ray arg z = 45°, where all skin effect lives; loaded late."""

import numpy as np

from reelwright.core.physics.arrays import ComplexArray, FloatArray

RAY = 1 + 1j


def return_ratio(depth_ratio: FloatArray) -> ComplexArray:
    """K0(z)/K1(z) at z = (1+j)·depth_ratio."""
    from scipy.special import kve

    point = RAY * depth_ratio
    ratio: ComplexArray = kve(0, point) / kve(1, point)
    return ratio


def growth_log(depth_ratio: FloatArray) -> ComplexArray:
    """ln(I1(z)/K1(z)) − 2z at z = (1+j)·depth_ratio, continuous from −ln π down to ln(z²/2)."""
    from scipy.special import ive, kve

    point = RAY * depth_ratio
    # ive leaves out exp(+Re z) only, kve leaves out exp(−z).
    scaled = ive(1, point) * np.exp(-1j * point.imag) / kve(1, point)
    growth: ComplexArray = np.log(np.abs(scaled)) + 1j * np.unwrap(np.angle(scaled))
    return growth


def screen_answer(
    *, inner_ratio: FloatArray, outer_ratio: FloatArray, orders: tuple[int, ...]
) -> ComplexArray:
    """How a round screen answers harmonics from inside, shape (n_frequency, orders).

    ``inner_ratio`` and ``outer_ratio`` are its radii over the skin depth [1], one axis. 0 is no
    screen, 1 a perfect one: a harmonic B·r^−p comes back as −U·B·b^(−2p)·r^p.
    """
    from scipy.special import ive, kve

    order = np.array(orders, dtype=np.float64)
    inner, outer = RAY * inner_ratio[:, None], RAY * outer_ratio[:, None]
    # ive and kve leave out exp(Re z) and exp(−z); what is left of both is put back in one factor.
    wall = outer - inner
    decay = np.exp(-2 * wall.real - 1j * wall.imag)
    with np.errstate(all="ignore"):
        back = kve(order - 1, outer) / ive(order - 1, outer) * decay
        below, above = kve(order - 1, inner), kve(order + 1, inner)
        lost = below - back * ive(order - 1, inner)
        kept = above - back * ive(order + 1, inner)
        answer: ComplexArray = lost / kept
        # Of a small argument and a high order the functions overflow; their leading terms do not.
        thin = 1 - (inner_ratio / outer_ratio)[:, None] ** (2 * order - 2)
        leading = inner**2 / (4 * order * np.maximum(order - 1, 1)) * thin
    return np.where(np.isfinite(answer), answer, leading)
