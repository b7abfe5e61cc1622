"""The eye of all patterns at once, to error rates no simulation reaches.

Neighbouring bits are independent and even, noise is normal: the disturbance X = Σ ±h + noise has
the moment function exp(σ²s²/2)·Π cosh(h·s), and

    P(X > t) = 1/(2πj) ∫ exp(σ²s²/2 − s·t)·Π cosh(h·s) ds/s,   Re s = c > 0.

On a line through the saddle the integrand is a narrow hump and the plain sum over even points
converges as fast as the sum of a normal density does. Spacing and reach are chosen from bounds, so
that the error stays below 1e-10 of the answer, however small that is. Source: Daniels 1954 (saddle
point); Lugannani and Rice 1980; the trapezoid on the contour: any text on numerical inversion.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.pulse import Cursors

# Exponent to which everything left out has fallen against the answer: exp(−25) = 1.4e-11.
_LEFT_OUT = 25.0
# log cosh z in powers of z², good to 1e-11 below this |z|: the series of tanh (Abramowitz and
# Stegun 4.5.64) integrated.
_SERIES_REACH = 0.35
_SERIES = (1 / 2, -1 / 12, 1 / 45, -17 / 2520, 31 / 14175, -691 / 935550, 10922 / 42567525)
_MOST_POINTS = 50_000
_LOG_TWO_PI = np.log(2 * np.pi)


@dataclass(frozen=True, kw_only=True, eq=False)
class StatisticalEye:
    """An eye at one error rate: ``phase_ratio`` [1], shape (n_phase,), in bits from the middle.

    ``opening_ratio`` [1], shape (n_phase,), is how much noise-free level is left at
    ``error_probability`` [1] (below zero: closed there); ``error_rate_probability`` [1], shape
    (n_phase,), the rate of errors when sampled at that phase.
    """

    phase_ratio: FloatArray
    opening_ratio: FloatArray
    error_rate_probability: FloatArray
    error_probability: float

    @property
    def height_ratio(self) -> float:
        """The tallest opening [1]."""
        return float(self.opening_ratio.max())

    @property
    def width_ratio(self) -> float:
        """The share of the bit [1] over which the eye is open."""
        return float((self.opening_ratio > 0).mean())


def statistical_eye(
    cursors: Cursors, *, noise_ratio: float, error_probability: float
) -> StatisticalEye:
    """Return the eye of a pulse response at ``error_probability`` [1], 1e-12 as a rule.

    ``noise_ratio`` [1] is the standard deviation of the noise at the decision, on the scale of the
    cursors (a bit is ±1). Raises BadValue for noise that is not above zero or a probability
    outside 0 to one half.
    """
    others = cursors.others_ratio
    reach = level_at(error_probability, others_ratio=others, noise_ratio=noise_ratio)
    main = cursors.main_ratio
    return StatisticalEye(
        phase_ratio=cursors.phase_ratio,
        opening_ratio=main - reach,
        error_rate_probability=chance_above(main, others_ratio=others, noise_ratio=noise_ratio),
        error_probability=error_probability,
    )


def chance_above(
    level_ratio: npt.ArrayLike, *, others_ratio: FloatArray, noise_ratio: float
) -> FloatArray:
    """Return P(disturbance > level) [1], shape (n_phase,).

    ``level_ratio`` [1], a number or shape (n_phase,); ``others_ratio`` [1], shape
    (n_phase, n_cursor); ``noise_ratio`` [1]. Raises BadValue for noise that is not above zero, or
    so small against the cursors that more than 50 000 points were needed.
    """
    _require_noise(noise_ratio)
    size = np.abs(np.asarray(level_ratio, dtype=np.float64))
    # K' ≥ σ²c, so no saddle lies right of level/σ².
    sums = _Sums(others_ratio, noise_ratio, rightmost=float(size.max()) / noise_ratio**2)
    level = np.broadcast_to(np.asarray(level_ratio, dtype=np.float64), (sums.count,))
    size = np.abs(level)
    saddle = sums.saddle_of_level(size)
    log_chance = sums.log_chance(saddle, size)
    # A line near the pole at 0 would need many points: further right it costs two digits.
    contour = _Contour(sums, np.maximum(saddle, 3 / sums.deviation), size, log_chance)
    above = contour.chance_and_density(size)[0]
    return np.where(level >= 0, above, 1 - above)


def level_at(
    error_probability: float, *, others_ratio: FloatArray, noise_ratio: float
) -> FloatArray:
    """Return the level [1] that the disturbance exceeds with ``error_probability`` [1], (n_phase,).

    ``others_ratio`` and ``noise_ratio`` as in :func:`chance_above`.
    """
    if not 0 < error_probability < 0.5:
        raise BadValue(
            owner="level_at",
            field="error_probability",
            value=error_probability,
            accepted="above 0, below 0.5",
        )
    _require_noise(noise_ratio)
    goal = float(np.log(error_probability))
    # The noise alone would need its saddle there: any cursor brings it nearer.
    sums = _Sums(others_ratio, noise_ratio, rightmost=np.sqrt(-2 * goal) / noise_ratio)
    saddle = sums.saddle_of_chance(goal)
    level = sums.first(saddle)
    line = np.maximum(saddle, 3 / sums.deviation)
    contour = _Contour(sums, line, level, np.full(sums.count, goal))
    for _ in range(30):
        chance, density = contour.chance_and_density(level)
        away = np.log(chance) - goal
        level = level + away * chance / density
        if np.abs(away).max() < 1e-12:
            break
    return level


class _Sums:
    """The cumulant function K of the disturbance and its slopes, per phase, at real places."""

    def __init__(self, others: FloatArray, noise: float, *, rightmost: float) -> None:
        others = np.asarray(others, dtype=np.float64)
        if others.ndim != 2 or others.shape[0] == 0 or not np.isfinite(others).all():
            raise _refuse("others_ratio", others.shape, "finite, shape (n_phase, n_cursor)")
        self.count = others.shape[0]
        self.noise_power = noise * noise
        # Cursor first: sums and products then run along whole rows of phases.
        heights = np.ascontiguousarray(np.abs(others).T)
        self.deviation = np.sqrt(self.noise_power + (heights * heights).sum(axis=0))
        # The furthest place any question is asked at: to the right, and up the line from there.
        rightmost = max(rightmost, 3 / float(self.deviation.min()))
        furthest = np.hypot(rightmost, np.sqrt(2 * (_LEFT_OUT + 7.0)) / noise)
        low = heights.max(axis=1, initial=0.0) * furthest < _SERIES_REACH
        self.tall = heights[~low]
        self.power_sums = _power_sums(heights[low])

    def slopes(self, place: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
        """K, K' and K'' at real ``place``, shape (n_phase,) each."""
        value, first, second = _series_slopes(self.power_sums, place)
        product = self.tall * place
        fade = np.exp(-2 * product)
        turn = (1 - fade) / (1 + fade)
        value = value + self.noise_power * place * place / 2 + product.sum(axis=0)
        value = value + np.log((1 + fade) / 2).sum(axis=0)
        first = first + self.noise_power * place + (self.tall * turn).sum(axis=0)
        second = second + self.noise_power + (self.tall**2 * (1 - turn * turn)).sum(axis=0)
        return value, first, second

    def first(self, place: FloatArray) -> FloatArray:
        return self.slopes(place)[1]

    def saddle_of_level(self, level: FloatArray) -> FloatArray:
        """Solve K' = level: K' is concave, so Newton from the left never passes the root."""
        place: FloatArray = level / self.deviation**2
        for _ in range(60):
            _, first, second = self.slopes(place)
            place = place + (level - first) / second
            if (np.abs(level - first) <= 0.02 * np.sqrt(second)).all():
                break
        return place

    def saddle_of_chance(self, goal: float) -> FloatArray:
        """Solve for the saddle of the level that is exceeded with that chance, roughly."""
        place: FloatArray = np.sqrt(max(-2 * goal - 3, 0.5)) / self.deviation
        for _ in range(60):
            value, first, second = self.slopes(place)
            miss = self._estimate(place, value, first, second) - goal
            place = place * np.clip(1 + miss / (place * place * second), 0.6, 1.6)
            if (np.abs(miss) < 0.05).all():
                break
        return place

    def log_chance(self, place: FloatArray, level: FloatArray) -> FloatArray:
        """Estimate log P(X > level) at its saddle: good enough to set spacing and reach."""
        value, _, second = self.slopes(place)
        return self._estimate(place, value, level, second)

    @staticmethod
    def _estimate(
        place: FloatArray, value: FloatArray, level: FloatArray, second: FloatArray
    ) -> FloatArray:
        tail = place * np.sqrt(second)
        estimate: FloatArray = value - place * level - _LOG_TWO_PI / 2 - np.log(tail + 0.8)
        return estimate


class _Contour:
    """The moment function at even points of the line Re s = ``line``, upper half, per phase."""

    def __init__(
        self, sums: _Sums, line: FloatArray, level: FloatArray, log_chance: FloatArray
    ) -> None:
        value, first, second = sums.slopes(line)
        # How far the line lies above the answer: what that costs must be gone as well.
        excess = np.maximum(value - line * level - log_chance, 0.0) + _LEFT_OUT
        self.spacing = 2 * np.pi / _period(line, first - level, second, excess, log_chance)
        # The noise alone sees to it that the integrand falls along the line.
        reach = np.sqrt(2 * excess / sums.noise_power)
        points = int(np.ceil((reach / self.spacing).max())) + 1
        if points > _MOST_POINTS:
            raise _refuse(
                "noise_ratio",
                float(np.sqrt(sums.noise_power)),
                "more noise against the cursors; without noise take the worst opening",
            )
        self.places = line + 1j * self.spacing * np.arange(points)[:, None]
        self.log_scale = value
        self.moments = _moments(sums, line, self.places, self.spacing)

    def chance_and_density(self, level: FloatArray) -> tuple[FloatArray, FloatArray]:
        """P(X > level) and the density there, shape (n_phase,) each."""
        line = self.places[0].real
        # exp(−j·y·level) by multiplication, not one by one.
        turn = np.exp(-1j * self.spacing * level)
        terms = self.moments * _powers(turn, self.places.shape[0])
        scale = self.spacing / np.pi * np.exp(self.log_scale - line * level)
        terms[0] /= 2
        chance = scale * (terms / self.places).real.sum(axis=0)
        density = scale * terms.real.sum(axis=0)
        return chance, density


def _period(
    line: FloatArray,
    ahead: FloatArray,
    second: FloatArray,
    excess: FloatArray,
    log_chance: FloatArray,
) -> FloatArray:
    """The period L = 2π/spacing at which copies of the answer are small enough, per phase.

    The sum over even points holds P(X > t + mL)·exp(c·m·L) for all whole m. For m = −1 that is at
    most exp(−cL). For m = 1 it is at most exp(K(c + d) − (c + d)t − dL) for any d > 0 (Chernoff),
    and K(c + d) ≤ K + K'd + K''d²/2, because K'' falls to the right; the best d gives
    L = K' − t + √(2·K''·E), E the exponent to be gained.
    """
    return np.maximum((_LEFT_OUT - log_chance) / line, ahead + np.sqrt(2 * second * excess))


def _moments(
    sums: _Sums, line: FloatArray, places: ComplexArray, spacing: FloatArray
) -> ComplexArray:
    """exp(K(s) − K(c)) at all places, shape (n_point, n_phase).

    For tall cursors cosh(h(c + jy))/cosh(hc) = cos(hy) + j·tanh(hc)·sin(hy), one by one; those so
    low that the series of log cosh holds at every place go in by their power sums.
    """
    square = places * places
    logs = sums.noise_power / 2 * (square - line * line)
    logs += _series(sums.power_sums, square) - _series(sums.power_sums, line * line)
    moments: ComplexArray = np.exp(logs)
    if sums.tall.size:
        tilt = np.tanh(sums.tall * line)
        pace = np.exp(1j * sums.tall * spacing)
        turned = np.ones_like(pace)
        factors = np.empty_like(pace)
        for point in range(1, places.shape[0]):
            turned *= pace
            factors.real = turned.real
            np.multiply(tilt, turned.imag, out=factors.imag)
            moments[point] *= np.multiply.reduce(factors, axis=0)
    return moments


def _power_sums(heights: FloatArray) -> FloatArray:
    """Σ h², Σ h⁴, … over low cursors times their factors in log cosh, shape (n_term, n_phase)."""
    power = heights * heights
    sums = np.empty((len(_SERIES), heights.shape[1]))
    rising = np.ones_like(power)
    for term, factor in enumerate(_SERIES):
        rising = rising * power
        sums[term] = factor * rising.sum(axis=0)
    return sums


def _series(power_sums: FloatArray, square: npt.NDArray[np.inexact]) -> npt.NDArray[np.inexact]:
    """Σ log cosh(h·s) over low cursors, from s²."""
    total = np.zeros_like(square)
    for power_sum in power_sums[::-1]:
        total = (total + power_sum) * square
    return total


def _series_slopes(
    power_sums: FloatArray, place: FloatArray
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Value and two slopes of the same at real places."""
    order = 2.0 * np.arange(1, len(_SERIES) + 1)[:, None]
    rising = power_sums * place**order
    safe = np.maximum(place, np.finfo(float).tiny)
    second = power_sums * order * (order - 1) * place ** (order - 2)
    return rising.sum(axis=0), (order * rising / safe).sum(axis=0), second.sum(axis=0)


def _powers(base: ComplexArray, count: int) -> ComplexArray:
    """1, base, base², … by doubling, shape (count, n)."""
    powers = np.ones((count, base.size), dtype=np.complex128)
    known = 1
    step = base
    while known < count:
        more = min(known, count - known)
        np.multiply(powers[:more], step, out=powers[known : known + more])
        known += more
        step = step * step
    return powers


def _require_noise(noise: float) -> None:
    if not (np.isfinite(noise) and noise > 0):
        raise _refuse("noise_ratio", noise, "finite, above zero")


def _refuse(field: str, value: object, accepted: str) -> BadValue:
    return BadValue(owner="statistical_eye", field=field, value=value, accepted=accepted)
