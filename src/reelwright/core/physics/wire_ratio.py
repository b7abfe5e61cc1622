"""z/2·I0(z)/I1(z) on the ray arg z = 45°, which is Z/Rdc of a solid wire, to the last digits.

Written out here since it stands under every answer: loading a library of functions for it would
take longer than most answers do.
"""

import numpy as np

from reelwright.core.physics.arrays import ComplexArray, FloatArray

_RAY = 1 + 1j
# |z| from which Hankel's expansion has all digits, and how many terms and steps are ample.
_FAR = 30.0
_TERMS = 26
_STEPS = 90
_NEAR = 1.0


def wire_ratio(depth_ratio: FloatArray) -> ComplexArray:
    """Return z/2·I0(z)/I1(z) at z = (1+j)·``depth_ratio`` [1], the same shape, one axis.

    A power series where the wire is thin against the skin depth, the continued fraction of
    I2/I1 (Gauss) in between, Hankel's expansion above; any handbook of functions (NIST Digital
    Library of Mathematical Functions 10.25, 10.33, 10.40).
    """
    ratio = np.empty(depth_ratio.shape, dtype=np.complex128)
    near, far = depth_ratio < _NEAR, np.sqrt(2.0) * depth_ratio > _FAR
    between = ~(near | far)
    # Where the wire is thin the reactance is a difference of two almost equal numbers: a series.
    ratio[near] = _series(depth_ratio[near])
    ratio[between] = _fraction(_RAY * depth_ratio[between])
    ratio[far] = _far(_RAY * depth_ratio[far])
    return ratio


def _series(depth_ratio: FloatArray) -> ComplexArray:
    step = (0.5j * depth_ratio**2).astype(np.complex128)
    term = np.ones_like(step)
    over, under = np.zeros_like(step), np.ones_like(step)
    for order in range(1, 20):
        term = term * step / order**2
        over += term * order / (order + 1)
        under += term / (order + 1)
    ratio: ComplexArray = 1 + over / under
    return ratio


def _fraction(point: ComplexArray) -> ComplexArray:
    """1 + z/2·I2/I1, where I2/I1 = 1/(4/z + 1/(6/z + …)) from its far end backwards."""
    turned = 2 / point
    tail = np.zeros_like(point)
    for order in range(_STEPS, 1, -1):
        tail = 1 / (order * turned + tail)
    ratio: ComplexArray = 1 + point / 2 * tail
    return ratio


def _far(point: ComplexArray) -> ComplexArray:
    """z/2 times the ratio of the two asymptotic sums; the falling wave is gone by e^−42."""
    sums = []
    for order in (0, 1):
        term = np.ones_like(point)
        total = np.ones_like(point)
        for count in range(1, _TERMS):
            term = term * -(4 * order * order - (2 * count - 1) ** 2) / (8 * count * point)
            total = total + term
        sums.append(total)
    ratio: ComplexArray = point / 2 * sums[0] / sums[1]
    return ratio
