"""A line that loses as the root of frequency: its step, its rise, its eye, in closed form.

Above a few megahertz every copper line does so, and its step is erfc(√(τ/4t)) with τ growing as the
square of the loss, and so of the length. This is what a budget over many lengths is made of; the
exact line goes through ``step`` and ``pulse``.
"""

from functools import lru_cache
from math import erfc, sqrt
from statistics import NormalDist

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.step import RISE_IN_DEVIATIONS

_NEPER_DB = 20 / np.log(10)


def root_time_s(*, loss_db: npt.ArrayLike, frequency_hz: float) -> FloatArray:
    """Return τ [s], shape of ``loss_db`` [dB], of a line that loses so much at ``frequency_hz``.

    exp(−√(jωτ)) = exp(−(1 + j)·√(πfτ)): its loss in neper at f is √(πfτ). Raises BadValue for a
    loss below zero or a frequency [Hz] that is not above it.
    """
    loss = np.asarray(loss_db, dtype=np.float64)
    if not (np.isfinite(loss).all() and loss.min() >= 0):
        raise _refuse("root_time_s", "loss_db", float(loss.min()), "finite, zero or more")
    if not frequency_hz > 0:
        raise _refuse("root_time_s", "frequency_hz", frequency_hz, "above zero")
    time: FloatArray = (loss / _NEPER_DB) ** 2 / (np.pi * frequency_hz)
    return time


def _moment_over_tau(reached: float) -> float:
    """When [τ] the step erfc(√(τ/4t)) has reached that part of its end [1]."""
    argument = -NormalDist().inv_cdf(reached / 2) / sqrt(2)
    return 1 / (4 * argument**2)


RISE_OVER_TAU = _moment_over_tau(0.9) - _moment_over_tau(0.1)
"""Rise from 10 to 90 % of its end, over τ [1]: 31.5, most of it the slow creep at the top."""

HALF_OVER_TAU = _moment_over_tau(0.5)
"""When the step passes the middle, over τ [1]: 1.10."""

CROSSING_OVER_TAU = float(2 * sqrt(np.pi) * HALF_OVER_TAU**1.5 * np.exp(1 / (4 * HALF_OVER_TAU)))
"""The whole swing over the slope in the middle, over τ [1]: 5.13; what moves a crossing."""


def crossing_s(*, tau_s: npt.ArrayLike, launched_s: float) -> FloatArray:
    """Return the whole swing over the slope at half of it [s], at the far end, shape of τ [s].

    ``launched_s`` [s] is the rise at the near end, 10 to 90 %; the two add by their squares, as of
    edges in a row (any text on oscilloscopes): within a tenth for edges of these shapes. A
    disturbance of the fraction x of the swing moves the crossing by x times this.
    """
    # A straight edge of that rise from 10 to 90 % takes 1.25 times as long from end to end.
    slope: FloatArray = np.hypot(CROSSING_OVER_TAU * np.asarray(tau_s), launched_s / 0.8)
    return slope


def _edge_nodes() -> tuple[tuple[float, float], ...]:
    """Places [standard deviations] and weights of a normal edge, for a sum over what it holds."""
    places = np.linspace(-4.0, 4.0, 129)
    weights = np.exp(-(places**2) / 2)
    return tuple(zip(places.tolist(), (weights / weights.sum()).tolist(), strict=True))


_EDGE = _edge_nodes()
_SHARP = ((0.0, 1.0),)


@lru_cache(maxsize=4096)
def worst_opening_ratio(loss_db: float, *, rise_ratio: float) -> float:
    """Return how far [1] an eye stays open with ``loss_db`` [dB] at half the symbol rate.

    Without an equaliser, for the worst pattern there is, of what was launched: twice the peak of a
    single symbol less the whole of a long run, 2·max[s(t) − s(t − 1)] − 1 with t in symbols and
    s(t) = erfc(√(τ/4t)), behind an edge of normal shape that rises from 10 to 90 % within a
    symbol times ``rise_ratio`` [1]. Below zero it is closed: for sharp edges from 10.59 dB on. Peak
    distortion: Lucky 1965 (from memory). Raises BadValue for anything below zero.
    """
    if not rise_ratio >= 0:
        raise _refuse("worst_opening_ratio", "rise_ratio", rise_ratio, "zero or more")
    tau = float(root_time_s(loss_db=loss_db, frequency_hz=0.5))
    deviation = rise_ratio / RISE_IN_DEVIATIONS
    edge = _EDGE if rise_ratio else _SHARP

    def step(time: float) -> float:
        return sum(
            weight * (erfc(sqrt(tau / (4 * since))) if tau else 1.0)
            for place, weight in edge
            if (since := time - deviation * place) > 0
        )

    # The pulse peaks once, soon after its symbol has ended, or half of a slow edge before.
    low, high = min(0.4, max(0.0, 1 - deviation)), 4.0
    golden = (sqrt(5) - 1) / 2
    left, right = high - golden * (high - low), low + golden * (high - low)
    at_left, at_right = step(left) - step(left - 1), step(right) - step(right - 1)
    for _ in range(26):
        if at_left < at_right:
            low, left, at_left = left, right, at_right
            right = low + golden * (high - low)
            at_right = step(right) - step(right - 1)
        else:
            high, right, at_right = right, left, at_left
            left = high - golden * (high - low)
            at_left = step(left) - step(left - 1)
    return 2 * max(at_left, at_right) - 1


@lru_cache(maxsize=256)
def loss_for_opening_db(opening_ratio: float, *, rise_ratio: float) -> float:
    """Return the loss [dB] at half the symbol rate that leaves the eye open by ``opening_ratio``.

    The inverse of ``worst_opening_ratio``, by false position (Illinois), to a millionth of the
    opening. Raises BadValue unless it [1] lies above 0 and below what edges of ``rise_ratio`` [1]
    leave without any loss.
    """
    low, high = 0.0, 20.0
    most = worst_opening_ratio(low, rise_ratio=rise_ratio)
    if not 0 < opening_ratio < most:
        raise _refuse(
            "loss_for_opening_db", "opening_ratio", opening_ratio, f"above 0, below {most:.3g}"
        )
    over = most - opening_ratio
    under = worst_opening_ratio(high, rise_ratio=rise_ratio) - opening_ratio
    for _ in range(60):
        middle = (low * under - high * over) / (under - over)
        found = worst_opening_ratio(middle, rise_ratio=rise_ratio) - opening_ratio
        if abs(found) < 1e-6:
            return middle
        if found > 0:
            low, over, under = middle, found, under / 2
        else:
            high, under, over = middle, found, over / 2
    return low


def _refuse(owner: str, field: str, value: object, accepted: str) -> BadValue:
    return BadValue(owner=owner, field=field, value=value, accepted=accepted)
