"""Ratios of Bessel functions at z = (1+j)·x, x = radius/skin depth, as tables of polynomials.

With a real conductivity every argument of the skin effect lies on one ray, so each ratio is a
function of one real number. It is tabulated once per process from the exact functions, sixteen
pieces an octave, and then costs eleven multiplications. Against 30-digit arithmetic the tables
agree to about 1e-14; the functions themselves cost ten times as much.
"""

from collections.abc import Callable
from functools import cache
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.wire_ratio import wire_ratio

LOWEST_DEPTHS, HIGHEST_DEPTHS = 2.0**-16, 2.0**20
"""Range of radius over skin depth tabulated [1]: a hair at 1 Hz to a steel bar at 20 GHz."""

_FIRST_OCTAVE, _LAST_OCTAVE = -15, 20  # as frexp counts them
_PIECES = 16
_LOW_BITS = 52 - 4
_TERMS = 11
_BLOCK = 8192  # evaluated at a time, so that everything stays near the processor


class RayTable:
    """A complex function of x > 0 in pieces of an octave; x outside the range is refused.

    ``exact`` maps radius over skin depth to values; ``scale_real`` and ``scale_imag`` take most of
    the slope out of either part, so that each keeps its digits where it is small.
    """

    def __init__(
        self,
        exact: Callable[[FloatArray], ComplexArray],
        scale_real: Callable[[FloatArray], FloatArray],
        scale_imag: Callable[[FloatArray], FloatArray],
    ) -> None:
        self._scale_real, self._scale_imag = scale_real, scale_imag
        nodes = np.cos(np.pi * (np.arange(_TERMS) + 0.5) / _TERMS)
        octave = np.arange(_FIRST_OCTAVE, _LAST_OCTAVE + 1)[:, None, None]
        piece = np.arange(_PIECES)[None, :, None]
        depth_ratio = np.ldexp(0.5 + (piece + (nodes + 1) / 2) / (2 * _PIECES), octave)
        values = exact(depth_ratio.ravel()).reshape(depth_ratio.shape)
        shaped = values.real / scale_real(depth_ratio) + 1j * (
            values.imag / scale_imag(depth_ratio)
        )
        powers = _powers(shaped.reshape(-1, _TERMS), nodes)
        self._terms = tuple(np.ascontiguousarray(column) for column in powers.T)

    def __call__(self, depth_ratio: FloatArray) -> ComplexArray:
        """Return the function, shape of ``depth_ratio`` [1]; BadValue outside the range."""
        return together(depth_ratio, self)[0]

    def evaluate(self, depth_ratio: FloatArray, place: "_Place", result: ComplexArray) -> None:
        """Write the function at ``depth_ratio`` [1], one axis, into ``result``."""
        value = self._terms[-1].take(place.piece)
        parts = value.view(np.float64)
        for term in self._terms[-2::-1]:
            parts *= place.within
            value += term.take(place.piece)
        np.multiply(value.real, self._scale_real(depth_ratio), out=result.real)
        np.multiply(value.imag, self._scale_imag(depth_ratio), out=result.imag)


class _Place(NamedTuple):
    """Which piece of the tables each lies in, and where within it, −1 to 1, for either part."""

    piece: npt.NDArray[np.intp]
    within: FloatArray


def _place(depth_ratio: FloatArray) -> _Place:
    # Sixteen even pieces of an octave are the exponent and the first four bits after the point of
    # the number itself, and the other bits say where within the piece it lies.
    bits = np.ascontiguousarray(depth_ratio).view(np.int64)
    piece = (bits >> _LOW_BITS) - ((_FIRST_OCTAVE + 1022) * _PIECES)
    low = bits & ((1 << _LOW_BITS) - 1)
    return _Place(piece, np.repeat(low * 2.0 ** (1 - _LOW_BITS) - 1, 2))


def together(depth_ratio: FloatArray, *tables: RayTable) -> tuple[ComplexArray, ...]:
    """Return several functions at one ``depth_ratio`` [1], looked up once, each in that shape."""
    depth_ratio = np.asarray(depth_ratio, dtype=np.float64)
    if depth_ratio.size and not (
        depth_ratio.min() >= LOWEST_DEPTHS and depth_ratio.max() < HIGHEST_DEPTHS
    ):
        away = depth_ratio[~((depth_ratio >= LOWEST_DEPTHS) & (depth_ratio < HIGHEST_DEPTHS))]
        raise BadValue(
            owner="skin effect",
            field="radius over skin depth",
            value=float(away.flat[0]),
            accepted=f"{LOWEST_DEPTHS:.3g} to {HIGHEST_DEPTHS:.3g}",
        )
    flat = depth_ratio.reshape(-1)
    results = tuple(np.empty(flat.size, dtype=np.complex128) for _ in tables)
    for start in range(0, flat.size, _BLOCK):
        block = slice(start, start + _BLOCK)
        place = _place(flat[block])
        for table, result in zip(tables, results, strict=True):
            table.evaluate(flat[block], place, result[block])
    return tuple(result.reshape(depth_ratio.shape) for result in results)


def _powers(values: ComplexArray, nodes: FloatArray) -> ComplexArray:
    """Turn values at Chebyshev nodes, shape (pieces, nodes), into coefficients of powers.

    In two steps: the matrix of both at once has large entries that cancel, and costs three digits.
    """
    chebyshev = np.polynomial.chebyshev
    count = nodes.size
    weights = chebyshev.chebvander(nodes, count - 1) * (2 / count)
    weights[:, 0] /= 2
    waves: ComplexArray = np.matmul(values, weights, dtype=np.complex128)
    turn = np.zeros((count, count))
    for order in range(count):
        row = chebyshev.cheb2poly(np.eye(count)[order, : order + 1])
        turn[order, : row.size] = row
    powers: ComplexArray = np.matmul(waves, turn, dtype=np.complex128)
    return powers


def _one(depth_ratio: FloatArray) -> FloatArray:
    return np.ones_like(depth_ratio)


def _rising(depth_ratio: FloatArray) -> FloatArray:
    return 1 + depth_ratio


def _reactive(depth_ratio: FloatArray) -> FloatArray:
    return depth_ratio * depth_ratio / (1 + depth_ratio)


def _bounded(depth_ratio: FloatArray) -> FloatArray:
    return depth_ratio / (1 + depth_ratio)


@cache
def _wire_table() -> RayTable:
    return RayTable(wire_ratio, _rising, _reactive)


@cache
def _return_table() -> RayTable:
    from reelwright.core.physics._kernels import return_ratio

    return RayTable(return_ratio, _bounded, _bounded)


@cache
def _growth_table() -> RayTable:
    from reelwright.core.physics._kernels import growth_log

    return RayTable(growth_log, _one, _one)


def wire_over_direct(depth_ratio: FloatArray) -> ComplexArray:
    """Return z/2·I0(z)/I1(z) at z = (1+j)·``depth_ratio`` [1]: Z/Rdc of a solid wire."""
    return _wire_table()(depth_ratio)


def inward_ratio(depth_ratio: FloatArray) -> ComplexArray:
    """Return I0(z)/I1(z) at z = (1+j)·``depth_ratio`` [1]. Same shape."""
    ratio: ComplexArray = _wire_table()(depth_ratio) * ((1 - 1j) / depth_ratio)
    return ratio


def outward_ratio(depth_ratio: FloatArray) -> ComplexArray:
    """Return K0(z)/K1(z) at z = (1+j)·``depth_ratio`` [1]. Same shape."""
    return _return_table()(depth_ratio)


def growth_log(depth_ratio: FloatArray) -> ComplexArray:
    """Return ln(I1(z)/K1(z)) − 2z at z = (1+j)·``depth_ratio`` [1]. Same shape."""
    return _growth_table()(depth_ratio)


def both_ratios(depth_ratio: FloatArray) -> tuple[ComplexArray, ComplexArray]:
    """Return I0/I1 and K0/K1 at z = (1+j)·``depth_ratio`` [1], each in that shape."""
    grow, fall = together(depth_ratio, _wire_table(), _return_table())
    grow *= (1 - 1j) / depth_ratio
    return grow, fall
