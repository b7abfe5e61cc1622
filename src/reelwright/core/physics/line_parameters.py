"""A uniform line as its four parameters per metre over frequency, and what follows from them.

All that propagates on a line follows from R, L, G and C: this is what every geometry and every data
sheet is turned into, and what two-ports and steps are made of. Time goes as exp(+jωt).
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray

NEPER_DB = 20 / np.log(10)
"""Decibels in one neper [dB], by definition."""


@dataclass(frozen=True, kw_only=True, eq=False)
class LineParameters:
    """Series R, L and shunt G, C per metre over frequency.

    ``frequency_hz`` [Hz] has the shape (n_frequency,) and is above zero (take 1 Hz for direct
    current); ``resistance_ohm_per_m`` [Ω/m], ``inductance_h_per_m`` [H/m],
    ``conductance_siemens_per_m`` [S/m] and ``capacitance_f_per_m`` [F/m] are given as anything that
    broadcasts to (..., n_frequency) and kept in that shape, batch axes first.

    Raises BadValue for an R or G below zero (a line cannot feed itself), an L or C that is not
    above zero, a number that is not finite, or shapes that do not fit.
    """

    frequency_hz: FloatArray
    resistance_ohm_per_m: FloatArray
    inductance_h_per_m: FloatArray
    conductance_siemens_per_m: FloatArray
    capacitance_f_per_m: FloatArray

    def __post_init__(self) -> None:
        frequency = np.asarray(self.frequency_hz, dtype=np.float64)
        if frequency.ndim != 1 or frequency.size == 0:
            raise _refuse("frequency_hz", frequency.shape, "one axis with one frequency or more")
        if not (np.isfinite(frequency).all() and frequency.min() > 0):
            raise _refuse("frequency_hz", _worst(frequency), "finite frequencies above zero")
        given = [np.asarray(getattr(self, name), dtype=np.float64) for name in _PARAMETERS]
        try:
            shape = np.broadcast_shapes(frequency.shape, *(values.shape for values in given))
        except ValueError:
            raise _refuse(
                "resistance_ohm_per_m",
                tuple(values.shape for values in given),
                f"shapes that broadcast to (..., {frequency.size})",
            ) from None
        if shape[-1] != frequency.size:
            raise _refuse(
                "frequency_hz", frequency.shape, f"as many frequencies as values, {shape[-1]}"
            )
        object.__setattr__(self, "frequency_hz", frequency)
        for name, values in zip(_PARAMETERS, given, strict=True):
            least = values.min() if values.size else np.nan
            positive = name in _ABOVE_ZERO
            if not (least > 0 if positive else least >= 0) or not np.isfinite(values.max()):
                accepted = "finite, above zero" if positive else "finite, zero or more"
                raise _refuse(name, _worst(values), accepted)
            object.__setattr__(self, name, np.ascontiguousarray(np.broadcast_to(values, shape)))

    @property
    def shape(self) -> tuple[int, ...]:
        """Shape of every array that follows, (..., n_frequency)."""
        return self.resistance_ohm_per_m.shape

    @cached_property
    def angular_frequency_rad_per_s(self) -> FloatArray:
        """Angular frequency ω [rad/s], shape (n_frequency,)."""
        return 2 * np.pi * self.frequency_hz

    @cached_property
    def gamma(self) -> ComplexArray:
        """Propagation constant γ = α + jβ = √((R+jωL)(G+jωC)) [1/m], shape (..., n_frequency).

        α and β each hold all their digits: Im(γ²) = 2αβ is a sum of positive terms, so the smaller
        of the two is taken from it and never from a difference.
        """
        reactance = self.angular_frequency_rad_per_s * self.inductance_h_per_m
        susceptance = self.angular_frequency_rad_per_s * self.capacitance_f_per_m
        resistance, conductance = self.resistance_ohm_per_m, self.conductance_siemens_per_m
        real = resistance * conductance - reactance * susceptance
        imaginary = resistance * susceptance + reactance * conductance
        larger = np.sqrt((np.hypot(real, imaginary) + np.abs(real)) / 2)
        smaller = imaginary / (2 * larger)
        gamma = np.empty(self.shape, dtype=np.complex128)
        wave = real < 0
        gamma.real = np.where(wave, smaller, larger)
        gamma.imag = np.where(wave, larger, smaller)
        return gamma

    @cached_property
    def impedance_ohm(self) -> ComplexArray:
        """Characteristic impedance Zc = γ/(G+jωC) [Ω], complex, shape (..., n_frequency)."""
        impedance: ComplexArray = self.gamma / self.admittance_siemens_per_m
        return impedance

    @property
    def series_impedance_ohm_per_m(self) -> ComplexArray:
        """R + jωL [Ω/m], shape (..., n_frequency)."""
        series = np.empty(self.shape, dtype=np.complex128)
        series.real = self.resistance_ohm_per_m
        series.imag = self.angular_frequency_rad_per_s * self.inductance_h_per_m
        return series

    @property
    def admittance_siemens_per_m(self) -> ComplexArray:
        """G + jωC [S/m], shape (..., n_frequency)."""
        shunt = np.empty(self.shape, dtype=np.complex128)
        shunt.real = self.conductance_siemens_per_m
        shunt.imag = self.angular_frequency_rad_per_s * self.capacitance_f_per_m
        return shunt

    @property
    def loss_db_per_m(self) -> FloatArray:
        """Loss 8.686·α [dB/m] of the line matched to itself, shape (..., n_frequency)."""
        loss: FloatArray = NEPER_DB * self.gamma.real
        return loss

    @property
    def delay_s_per_m(self) -> FloatArray:
        """Phase delay β/ω [s/m], shape (..., n_frequency)."""
        delay: FloatArray = self.gamma.imag / self.angular_frequency_rad_per_s
        return delay

    def at(self, frequency_hz: float) -> "LineParameters":
        """Return the line at the one of its frequencies that is ``frequency_hz`` [Hz].

        Raises BadValue for a frequency it was not computed at: nothing is interpolated here.
        """
        places = np.flatnonzero(self.frequency_hz == frequency_hz)
        if places.size == 0:
            raise _refuse("frequency_hz", frequency_hz, "a frequency the line was computed at")
        one = slice(int(places[0]), int(places[0]) + 1)
        return LineParameters(
            frequency_hz=self.frequency_hz[one],
            resistance_ohm_per_m=self.resistance_ohm_per_m[..., one],
            inductance_h_per_m=self.inductance_h_per_m[..., one],
            conductance_siemens_per_m=self.conductance_siemens_per_m[..., one],
            capacitance_f_per_m=self.capacitance_f_per_m[..., one],
        )


def from_series_and_shunt(
    *,
    frequency_hz: npt.ArrayLike,
    series_ohm_per_m: npt.ArrayLike,
    shunt_siemens_per_m: npt.ArrayLike,
) -> LineParameters:
    """Return the line whose R+jωL and G+jωC are given.

    ``frequency_hz`` [Hz], shape (n_frequency,); ``series_ohm_per_m`` [Ω/m] and
    ``shunt_siemens_per_m`` [S/m], complex, shapes that broadcast to (..., n_frequency).
    Raises BadValue as LineParameters does.
    """
    frequency = np.asarray(frequency_hz, dtype=np.float64)
    series, shunt = np.asarray(series_ohm_per_m), np.asarray(shunt_siemens_per_m)
    if not frequency.size or frequency.min() <= 0:
        raise _refuse("frequency_hz", _worst(frequency), "finite frequencies above zero")
    angular = 2 * np.pi * frequency
    return LineParameters(
        frequency_hz=frequency,
        resistance_ohm_per_m=series.real,
        inductance_h_per_m=series.imag / angular,
        conductance_siemens_per_m=shunt.real,
        capacitance_f_per_m=shunt.imag / angular,
    )


_PARAMETERS = (
    "resistance_ohm_per_m",
    "inductance_h_per_m",
    "conductance_siemens_per_m",
    "capacitance_f_per_m",
)
_ABOVE_ZERO = ("inductance_h_per_m", "capacitance_f_per_m")


def _worst(values: FloatArray) -> float | None:
    if values.size == 0:
        return None
    if not np.isfinite(values).all():
        return float(values[~np.isfinite(values)][0])
    return float(values.min())


def _refuse(field: str, value: object, accepted: str) -> BadValue:
    return BadValue(owner="LineParameters", field=field, value=value, accepted=accepted)
