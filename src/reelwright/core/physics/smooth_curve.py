"""A costly function of frequency, worked out at few frequencies and read between them.

Whatever skin effect makes of a line is smooth over ln f: on Chebyshev points of ln f some 150
values say all of it. The cosine sum through them is evaluated on a grid eight times finer by one
transform, and read there by polynomials through eight neighbours.
"""

import math
from collections.abc import Callable

import numpy as np

from reelwright.core.physics.arrays import ComplexArray, FloatArray

_FINER = 8
_NEIGHBOURS = 8
# Poles lie on arg z = 90°, that is π/2 away in ln f; 22 nepers are nine digits and more.
_NEPERS = 22.0
_POLE_RAD = math.pi / 2


def points_needed(frequency_hz: FloatArray) -> int:
    """Return how many points [count] hold a skin-effect function over those frequencies [Hz]."""
    half = math.log(float(frequency_hz.max()) / float(frequency_hz.min())) / 2
    if half == 0:
        return 1
    return math.ceil(_NEPERS / math.asinh(_POLE_RAD / half)) + 8


def over_frequency(
    function: Callable[[FloatArray], ComplexArray], frequency_hz: FloatArray
) -> ComplexArray:
    """Return ``function`` at ``frequency_hz`` [Hz], one axis, called at as few as will do.

    Where fewer are asked than are needed to hold the curve, it is called at those themselves.
    """
    count = points_needed(frequency_hz)
    if frequency_hz.size <= count:
        return function(frequency_hz)
    low, high = math.log(float(frequency_hz.min())), math.log(float(frequency_hz.max()))
    middle, half = (low + high) / 2, (high - low) / 2
    places = np.cos(np.pi * np.arange(count) / (count - 1))
    points = np.clip(np.exp(middle + half * places), frequency_hz.min(), frequency_hz.max())
    values = function(points)
    fine = _finer(values)
    angle = np.arccos(np.clip((np.log(frequency_hz) - middle) / half, -1, 1))
    return _read(fine, angle * (_FINER * (count - 1) / np.pi))


def _finer(values: ComplexArray) -> ComplexArray:
    """The cosine sum through ``values`` at Chebyshev points, on a finer even grid of the angle."""
    count = values.size - 1
    around = np.concatenate([values, values[-2:0:-1]])
    waves = np.fft.fft(around) / around.size
    size = 2 * count * _FINER
    padded = np.zeros(size, dtype=np.complex128)
    padded[:count] = waves[:count]
    padded[-count + 1 :] = waves[-count + 1 :]
    padded[count] = padded[-count] = waves[count] / 2
    once = np.fft.ifft(padded) * size
    margin = _NEIGHBOURS
    # The curve goes on as its own mirror, so neighbours are there at both ends too.
    return np.concatenate([once[-margin:], once[: size // 2 + margin + 1]])


def _read(fine: ComplexArray, place: FloatArray) -> ComplexArray:
    start = np.floor(place).astype(np.intp) - (_NEIGHBOURS // 2 - 1)
    within = place - start
    # What lies to the left of each neighbour times what lies to the right: Lagrange's weights.
    left = [np.ones_like(place)]
    for near in range(_NEIGHBOURS - 1):
        left.append(left[-1] * (within - near))
    right = np.ones_like(place)
    result = np.zeros(place.shape, dtype=np.complex128)
    start += _NEIGHBOURS
    for near in range(_NEIGHBOURS - 1, -1, -1):
        scale = math.prod(near - other for other in range(_NEIGHBOURS) if other != near)
        result += fine.take(start + near) * (left[near] * right / scale)
        right *= within - near
    return result
