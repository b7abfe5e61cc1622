"""From frequency to time: the response to a step, right from picoseconds to its slow tail.

The tail of a cable (skin effect, direct-current resistance) lasts a thousand times longer than its
rise: a plain inverse transform of a short window folds it back. So the spectrum is split by a
smooth weight into a fast part, transformed on a uniform grid, and a slow part, integrated over
frequencies that lie dense at the low end. The two together are the whole, and nothing is
extrapolated to 0 Hz. Time goes as exp(+jωt).
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.quantities.guard import require_count, require_finite, require_positive

Spectrum = Callable[[FloatArray], ComplexArray]
"""A transfer or a reflection [1] at any frequencies [Hz] above zero, shape (n_frequency,)."""

# The weight of the slow part falls from 1 to 0 around this many cycles of the transform's window,
# and is below 1e-13 at six times that.
_SPLIT_CYCLES = 6
_SLOW_REACH = 6.0
# The slow part starts this far below the split (some hundredths of a hertz for a microsecond); what
# lies lower is taken from the power of frequency that the spectrum follows there.
_DECADES_DOWN = 8
_MOST_CUT = 1e-3


@dataclass(frozen=True, kw_only=True)
class Band:
    """Where a spectrum is known: ``lowest_hz`` to ``highest_hz`` [Hz].

    It is asked for nothing outside. Below, its real part stays and its imaginary part follows the
    power of frequency it has there; above it is nothing, and so must have become small: a
    thousandth of its largest value, or the step is refused.
    """

    lowest_hz: float
    highest_hz: float

    def __post_init__(self) -> None:
        require_positive(self, "lowest_hz", "highest_hz")
        if self.highest_hz <= 2 * self.lowest_hz:
            raise BadValue(
                owner="Band",
                field="highest_hz",
                value=self.highest_hz,
                accepted=f"above twice lowest_hz, {2 * self.lowest_hz:g}",
            )

    def limited(self, spectrum: Spectrum) -> Spectrum:
        """Return the spectrum at any frequency, asked for inside the band only."""

        def anywhere(frequency_hz: FloatArray) -> ComplexArray:
            values = np.zeros(frequency_hz.shape, dtype=np.complex128)
            below = frequency_hz < self.lowest_hz
            inside = ~below & (frequency_hz <= self.highest_hz)
            if inside.any():
                values[inside] = spectrum(frequency_hz[inside])
            if below.any():
                first, second = spectrum(np.array([self.lowest_hz, 2 * self.lowest_hz]))
                power = 1.0
                if first.imag * second.imag > 0 and second.imag / first.imag > 1:
                    power = float(np.log2(second.imag / first.imag))
                falling = first.imag * (frequency_hz[below] / self.lowest_hz) ** power
                values[below] = first.real + 1j * falling
            return values

        return anywhere

    def refuse_what_is_cut(self, spectrum: Spectrum, grid: "TimeGrid") -> None:
        """Raise BadValue where the grid reaches above a spectrum that is not small there."""
        if grid.highest_frequency_hz <= self.highest_hz:
            return
        ends = np.geomspace(self.lowest_hz, self.highest_hz, 25)
        size = np.abs(spectrum(ends))
        if size[-1] > _MOST_CUT * size.max():
            raise BadValue(
                owner="step_response",
                field="band",
                value=self.highest_hz,
                accepted="a spectrum that is small at the top of its band: take a slower edge",
            )


@dataclass(frozen=True, kw_only=True)
class TimeGrid:
    """Even times: ``start_s`` [s] (may be below zero), ``step_s`` [s] apart, ``sample_count``."""

    start_s: float
    step_s: float
    sample_count: int

    def __post_init__(self) -> None:
        require_finite(self, "start_s")
        require_positive(self, "step_s")
        require_count(self, "sample_count", at_least=8)

    @property
    def time_s(self) -> FloatArray:
        """The times [s], shape (sample_count,)."""
        places = np.arange(self.sample_count, dtype=np.float64)
        return self.start_s + self.step_s * places

    @property
    def highest_frequency_hz(self) -> float:
        """Half the sampling rate [Hz]: what lies above it in a spectrum is cut off."""
        return 1 / (2 * self.step_s)


def step_response(
    spectrum: Spectrum, *, at_rest_ratio: float, grid: TimeGrid, band: Band | None = None
) -> FloatArray:
    """Return the response [1] to a step of 1 at time 0, at the times of ``grid``.

    ``spectrum`` is asked for frequencies of up to half the sampling rate and must have become small
    there (shape it with an edge or a receiver first); ``at_rest_ratio`` [1] is its value at 0 Hz.
    The window should end after the last echo: what comes later than twice the window is folded.
    ``band`` says where the spectrum is known, None everywhere. Raises BadValue for a spectrum of
    another shape, one that is not finite, or one that ``band`` cuts off.
    """
    if band is not None:
        band.refuse_what_is_cut(spectrum, grid)
        spectrum = band.limited(spectrum)
    size = 2 * grid.sample_count
    split = _SPLIT_CYCLES / (size * grid.step_s)
    fast = _fast_part(spectrum, grid, size, split)
    slow = _slow_part(spectrum, grid, split)
    below = _below_all(spectrum, at_rest_ratio, grid, split)
    whole: FloatArray = fast + slow + below + at_rest_ratio / 2
    return whole


def impulse_response_per_s(
    spectrum: Spectrum, *, at_rest_ratio: float, grid: TimeGrid, band: Band | None = None
) -> FloatArray:
    """Return the response [1/s] to a pulse of area 1 at time 0, midway between times of ``grid``.

    The slope of the step response over each interval, shape (sample_count − 1,): its sum times the
    interval is exactly what the step has risen by. ``at_rest_ratio`` [1] and ``band`` as there.
    """
    rising = step_response(spectrum, at_rest_ratio=at_rest_ratio, grid=grid, band=band)
    slope: FloatArray = np.diff(rising) / grid.step_s
    return slope


def step_of_samples(
    samples: ComplexArray, *, at_rest_ratio: float, frequency_step_hz: float, before_count: int
) -> FloatArray:
    """Return the step response [1] of a spectrum known at even frequencies only, as a sweep is.

    ``samples`` [1], complex, shape (n,), at 1, 2, … n times ``frequency_step_hz`` [Hz];
    ``at_rest_ratio`` [1] at 0 Hz. The answer has 2n times 1/(2n·step) apart, time 0 at place
    ``before_count``. One window: what is longer than 1/step is folded, and the pulse is summed by
    trapezoids. Where the spectrum can be asked anywhere, ``step_response`` has neither fault.
    Raises BadValue for samples that are not one axis, or a step that is not above zero.
    """
    if samples.ndim != 1 or samples.size < 4 or not frequency_step_hz > 0:
        raise BadValue(
            owner="step_of_samples",
            field="samples",
            value=(samples.shape, frequency_step_hz),
            accepted="one axis of four or more, a step above zero",
        )
    size = 2 * samples.size
    lines = np.empty(samples.size + 1, dtype=np.complex128)
    lines[0], lines[1:] = at_rest_ratio, samples
    pulse = np.roll(np.fft.irfft(lines, size), before_count)
    rising: FloatArray = np.cumsum(pulse) - pulse / 2
    return rising


def gaussian_edge(frequency_hz: FloatArray, *, rise_s: float) -> FloatArray:
    """Return the spectrum [1] of an edge of normal shape, centred at time 0.

    ``rise_s`` [s] is its rise from 10 to 90 %, 2.563 standard deviations; ``frequency_hz`` [Hz].
    It begins about one rise time before its centre: so does anything shown against it.
    """
    deviation_s = rise_s / RISE_IN_DEVIATIONS
    edge: FloatArray = np.exp(-((2 * np.pi * deviation_s * frequency_hz) ** 2) / 2)
    return edge


RISE_IN_DEVIATIONS = 2.5631031310892007
"""Rise from 10 to 90 % of a normal edge over its standard deviation [1]."""


def _asked(spectrum: Spectrum, frequency: FloatArray) -> ComplexArray:
    values = np.asarray(spectrum(frequency), dtype=np.complex128)
    if values.shape != frequency.shape or not np.isfinite(values).all():
        raise BadValue(
            owner="step_response",
            field="spectrum",
            value=values.shape,
            accepted=f"finite numbers of shape {frequency.shape}",
        )
    return values


def _slow_weight(scaled: FloatArray) -> FloatArray:
    """exp(−x²)(1 + x² + x⁴/2): flat to the sixth order at 0, and short in time."""
    square = scaled * scaled
    weight: FloatArray = np.exp(-square) * (1 + square + square * square / 2)
    return weight


def _fast_weight(scaled: FloatArray) -> FloatArray:
    square = scaled * scaled
    # Below, 1 − the slow weight would lose its digits against x⁶/6.
    small = square < 1e-2
    series = square**3 * (1 / 6 - square / 8 + square**2 / 20)
    weight: FloatArray = np.where(small, series, 1 - _slow_weight(scaled))
    return weight


def _fast_part(spectrum: Spectrum, grid: TimeGrid, size: int, split_hz: float) -> FloatArray:
    frequency = np.arange(1, size // 2 + 1) / (size * grid.step_s)
    angular = 2 * np.pi * frequency
    lines = np.zeros(size // 2 + 1, dtype=np.complex128)
    lines[1:] = (
        _asked(spectrum, frequency)
        * (_fast_weight(frequency / split_hz) / (1j * angular))
        * np.exp(1j * angular * grid.start_s)
    )
    lines[-1] = lines[-1].real
    transformed = np.fft.irfft(lines, size) / grid.step_s
    fast: FloatArray = transformed[: grid.sample_count]
    return fast


@lru_cache(maxsize=1)
def _nodes() -> tuple[FloatArray, FloatArray]:
    """Places and weights of ∫ g(x) dx/x from 10^−8 to 6, in units of the split frequency.

    Gauss-Legendre: on ln x below 0.1, panel by panel; on x above, where the phase turns evenly.
    """
    panel, weight = np.polynomial.legendre.leggauss(10)
    dense, dense_weight = np.polynomial.legendre.leggauss(28)
    places, weights = [], []
    edges = np.log(10.0) * np.linspace(-_DECADES_DOWN, -1, 2 * (_DECADES_DOWN - 1) + 1)
    for low, high in pairwise(edges):
        places.append(np.exp((low + high) / 2 + (high - low) / 2 * panel))
        weights.append((high - low) / 2 * weight)
    turns = np.concatenate(([0.1, 0.3], np.arange(1, 2 * _SLOW_REACH + 1) / 2))
    for low, high in pairwise(turns):
        place = (low + high) / 2 + (high - low) / 2 * dense
        places.append(place)
        weights.append((high - low) / 2 * dense_weight / place)
    return np.concatenate(places), np.concatenate(weights)


def _slow_part(spectrum: Spectrum, grid: TimeGrid, split_hz: float) -> FloatArray:
    """(1/π)·∫ Im[H·exp(jωt)]·weight dω/ω, at all times by two small matrices of phases."""
    scaled, weight = _nodes()
    frequency = scaled * split_hz
    angular = 2 * np.pi * frequency
    strength = _asked(spectrum, frequency) * (weight * _slow_weight(scaled) / np.pi)
    strength = strength * np.exp(1j * angular * grid.start_s)
    fine = int(np.ceil(np.sqrt(grid.sample_count)))
    coarse = -(-grid.sample_count // fine)
    leaps = np.exp(1j * np.outer(np.arange(coarse) * fine * grid.step_s, angular)) * strength
    paces = np.exp(1j * np.outer(angular, np.arange(fine) * grid.step_s))
    # The imaginary part only: two real products instead of four.
    table = leaps.real @ paces.imag + leaps.imag @ paces.real
    slow: FloatArray = table.reshape(-1)[: grid.sample_count]
    return slow


def _below_all(spectrum: Spectrum, at_rest: float, grid: TimeGrid, split_hz: float) -> FloatArray:
    """(1/π)·∫ Im[H·exp(jωt)] dω/ω below the first node, where H is at rest but for Im H ∝ ωᵖ."""
    lowest = split_hz * 10.0**-_DECADES_DOWN
    first, second = _asked(spectrum, np.array([lowest, 2 * lowest])).imag
    below: FloatArray = 2 * lowest * at_rest * grid.time_s
    if first == 0 or second / first <= 1:
        return below
    return below + float(first / (np.pi * np.log2(second / first)))
