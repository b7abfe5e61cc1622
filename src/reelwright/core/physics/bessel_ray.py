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

LOWEST_DEPTHS, HIGHEST_DEPTHS = 2.0**-16, 2.0**20
"""Range of radius over skin depth tabulated [1]: a hair at 1 Hz to a steel bar at 20 GHz."""

_FIRST_OCTAVE, _LAST_OCTAVE = -15, 20  # as frexp counts them
_PIECES = 16
_TERMS = 11
_BLOCK = 8192  # evaluated at a time, so that everything stays near the processor


class RayTable:
    """A complex function of x > 0 in pieces of an octave; x outside the range is refused.

    ``exact`` maps depths to values; ``scale_real`` and ``scale_imag`` take most of the slope out of
    either part, so that each keeps its digits where it is small.
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
        depths = np.ldexp(0.5 + (piece + (nodes + 1) / 2) / (2 * _PIECES), octave)
        values = exact(depths.ravel()).reshape(depths.shape)
        shaped = values.real / scale_real(depths) + 1j * (values.imag / scale_imag(depths))
        powers = _powers(shaped.reshape(-1, _TERMS), nodes)
        self._terms = tuple(np.ascontiguousarray(column) for column in powers.T)

    def __call__(self, depths: FloatArray) -> ComplexArray:
        """Return the function, shape of ``depths`` [1]; BadValue outside the tabulated range."""
        return together(depths, self)[0]

    def evaluate(self, depths: FloatArray, place: "Place", result: ComplexArray) -> None:
        """Write the function at ``depths`` [1], one axis, whose place is known, into ``result``."""
        value = self._terms[-1].take(place.piece)
        for term in self._terms[-2::-1]:
            value *= place.within
            value += term.take(place.piece)
        np.multiply(value.real, self._scale_real(depths), out=result.real)
        np.multiply(value.imag, self._scale_imag(depths), out=result.imag)


class Place(NamedTuple):
    """Which piece of the tables each depth lies in, and where within it, −1 to 1."""

    piece: npt.NDArray[np.intp]
    within: FloatArray


def _place(depths: FloatArray) -> Place:
    fraction, octave = np.frexp(depths)
    place = (fraction - 0.5) * (2 * _PIECES)
    piece = place.astype(np.intp)
    within = (place - piece) * 2 - 1
    return Place((octave - _FIRST_OCTAVE) * _PIECES + piece, within)


def together(depths: FloatArray, *tables: RayTable) -> tuple[ComplexArray, ...]:
    """Return several functions at the same ``depths`` [1], looked up once, each in that shape."""
    depths = np.asarray(depths, dtype=np.float64)
    if depths.size and not (depths.min() >= LOWEST_DEPTHS and depths.max() < HIGHEST_DEPTHS):
        away = depths[~((depths >= LOWEST_DEPTHS) & (depths < HIGHEST_DEPTHS))]
        raise BadValue(
            owner="skin effect",
            field="radius over skin depth",
            value=float(away.flat[0]),
            accepted=f"{LOWEST_DEPTHS:.3g} to {HIGHEST_DEPTHS:.3g}",
        )
    flat = depths.reshape(-1)
    results = tuple(np.empty(flat.size, dtype=np.complex128) for _ in tables)
    for start in range(0, flat.size, _BLOCK):
        block = slice(start, start + _BLOCK)
        place = _place(flat[block])
        for table, result in zip(tables, results, strict=True):
            table.evaluate(flat[block], place, result[block])
    return tuple(result.reshape(depths.shape) for result in results)


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


def _one(depths: FloatArray) -> FloatArray:
    return np.ones_like(depths)


def _rising(depths: FloatArray) -> FloatArray:
    return 1 + depths


def _reactive(depths: FloatArray) -> FloatArray:
    return depths * depths / (1 + depths)


def _bounded(depths: FloatArray) -> FloatArray:
    return depths / (1 + depths)


@cache
def _wire_table() -> RayTable:
    from reelwright.core.physics._kernels import wire_ratio

    return RayTable(wire_ratio, _rising, _reactive)


@cache
def _return_table() -> RayTable:
    from reelwright.core.physics._kernels import return_ratio

    return RayTable(return_ratio, _bounded, _bounded)


@cache
def _growth_table() -> RayTable:
    from reelwright.core.physics._kernels import growth_log

    return RayTable(growth_log, _one, _one)


def wire_over_direct(depths: FloatArray) -> ComplexArray:
    """Return z/2·I0(z)/I1(z) at z = (1+j)·``depths`` [1]: Z/Rdc of a solid wire. Same shape."""
    return _wire_table()(depths)


def inward_ratio(depths: FloatArray) -> ComplexArray:
    """Return I0(z)/I1(z) at z = (1+j)·``depths`` [1]. Same shape."""
    ratio: ComplexArray = _wire_table()(depths) * ((1 - 1j) / depths)
    return ratio


def outward_ratio(depths: FloatArray) -> ComplexArray:
    """Return K0(z)/K1(z) at z = (1+j)·``depths`` [1]. Same shape."""
    return _return_table()(depths)


def growth_log(depths: FloatArray) -> ComplexArray:
    """Return ln(I1(z)/K1(z)) − 2z at z = (1+j)·``depths`` [1]. Same shape."""
    return _growth_table()(depths)


def both_ratios(depths: FloatArray) -> tuple[ComplexArray, ComplexArray]:
    """Return I0/I1 and K0/K1 at z = (1+j)·``depths`` [1], each in that shape."""
    grow, fall = together(depths, _wire_table(), _return_table())
    grow *= (1 - 1j) / depths
    return grow, fall
