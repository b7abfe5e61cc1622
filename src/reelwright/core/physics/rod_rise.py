"""How long a step takes to rise behind a line of round conductors, at every length at once.

A line that loses little per wavelength delays a step by its outside inductance and bends it by
exp(−a·F(κ√f)): F is the rod's impedance over its direct-current resistance, 1 at rest, and
a = R·l/(2·Z) the loss at rest in neper. So its rise over κ² depends on a alone: one curve, solved
once, holds for all cables and lengths. Where the loss follows √f alone it is the 31.5·τ of
``root_line``, which is 1 % too long for an a of 0.001, and twice too long at 0.05. Between matched
ends it holds within 4 % up to an a of 0.15; at 0.3 it is 7 % short.
"""

from functools import lru_cache

import numpy as np
from numpy.polynomial import Chebyshev

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.bessel_ray import wire_over_direct
from reelwright.core.physics.root_line import RISE_OVER_TAU
from reelwright.core.physics.step import TimeGrid, step_response

_LEAST, _MOST = 1e-3, 3.0
_SAMPLES = 2048
_PLACES = 15


def rise_over_turn(rest_neper: FloatArray) -> FloatArray:
    """Return the rise from 10 to 90 % of where it rests, over κ² [1], shape of ``rest_neper``.

    ``rest_neper`` a [1] is the loss of the line at rest. Below a thousandth the root of frequency
    rules alone; above 3 Np the last slope is carried on. Raises BadValue for one below zero.
    """
    rest = np.asarray(rest_neper, dtype=np.float64)
    if rest.size and not rest.min() >= 0:
        raise BadValue(
            owner="rise_over_turn",
            field="rest_neper",
            value=float(rest.min()),
            accepted="zero or more",
        )
    curve = _curve()
    rise: FloatArray = np.exp(curve(np.log(np.clip(rest, _LEAST, _MOST))))
    last = float(curve.deriv()(np.log(_MOST)))
    # Below, the law of the square; above, the slope that the curve ends with.
    rise *= np.minimum(rest / _LEAST, 1.0) ** 2 * np.maximum(rest / _MOST, 1.0) ** last
    return rise


@lru_cache(maxsize=1)
def _curve() -> Chebyshev:
    """Logarithm of the rise over that of the loss at rest: smooth, so fifteen places say it all."""
    low, high = np.log(_LEAST), np.log(_MOST)
    angles = np.pi * (np.arange(_PLACES) + 0.5) / _PLACES
    places = (low + high) / 2 + (high - low) / 2 * np.cos(angles)
    rises = [np.log(_rise(float(np.exp(place)))) for place in places]
    return Chebyshev.fit(places, rises, deg=_PLACES - 4, domain=[low, high])


def _rise(rest_neper: float) -> float:
    # τ of the line where the root of frequency rules: F → κ√f·(1 + j)/2.
    tau = (rest_neper / 2) ** 2 / np.pi
    # Never much longer than the rise: by the root of frequency alone, and by where that ends.
    window = min(2 * RISE_OVER_TAU * tau, 0.5 * rest_neper**0.8)
    at_rest = float(np.exp(-rest_neper))

    def bent(frequency: FloatArray) -> ComplexArray:
        through: ComplexArray = np.exp(-rest_neper * wire_over_direct(np.sqrt(frequency)))
        return through

    grid = TimeGrid(start_s=0.0, step_s=window / _SAMPLES, sample_count=_SAMPLES)
    rising = step_response(bent, at_rest_ratio=at_rest, grid=grid) / at_rest
    return _first(rising, grid, 0.9) - _first(rising, grid, 0.1)


def _first(rising: FloatArray, grid: TimeGrid, level: float) -> float:
    after = int(np.argmax(rising >= level))
    before = rising[after - 1]
    return grid.step_s * (after - 1 + float((level - before) / (rising[after] - before)))
