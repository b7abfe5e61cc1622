"""Exact impedance per metre of round wires, clad wires and tubes, from 1 Hz to 20 GHz.

Schelkunoff, "The electromagnetic theory of coaxial transmission lines and cylindrical shields",
Bell System Technical Journal 13 (1934) 532: with m = (1+j)/δ and η = m·ρ,

    wire   η/(2πa) · I0(ma)/I1(ma)
    tube   of radii a < b, from the differences of I and K at both.

Products of Bessel functions never appear here, only their ratios and one logarithm (bessel_ray), so
nothing overflows and a thin foil loses no digits. All arguments broadcast against
``frequency_hz`` in the last axis; give batches of radii as (..., 1).
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.bessel_ray import (
    both_ratios,
    growth_log,
    wire_over_direct,
)
from reelwright.core.quantities.constants import VACUUM_PERMEABILITY_H_PER_M

LOWEST_HZ, HIGHEST_HZ = 1.0, 20e9
"""Range [Hz] over which these impedances were held against 30-digit arithmetic."""


def checked_frequency_hz(frequency_hz: npt.ArrayLike) -> FloatArray:
    """Return the frequencies [Hz] as an array; raise BadValue outside 1 Hz to 20 GHz."""
    frequency = np.asarray(frequency_hz, dtype=np.float64)
    good = (frequency >= LOWEST_HZ) & (frequency <= HIGHEST_HZ)
    if not good.all():
        raise BadValue(
            owner="skin effect",
            field="frequency_hz",
            value=float(frequency[~good].flat[0]),
            accepted=f"{LOWEST_HZ:g} to {HIGHEST_HZ:g}",
        )
    return frequency


def _positive(field: str, values: npt.ArrayLike) -> FloatArray:
    array = np.asarray(values, dtype=np.float64)
    good = np.isfinite(array) & (array > 0)
    if not good.all():
        raise BadValue(
            owner="skin effect",
            field=field,
            value=float(array[~good].flat[0]),
            accepted="finite numbers above zero",
        )
    return array


def _inverse_depth_per_m(
    frequency_hz: npt.ArrayLike,
    resistivity_ohm_m: npt.ArrayLike,
    relative_permeability: npt.ArrayLike,
) -> FloatArray:
    """1/δ = √(π f μ/ρ) [1/m]."""
    frequency = checked_frequency_hz(frequency_hz)
    resistivity = _positive("resistivity_ohm_m", resistivity_ohm_m)
    permeability = _positive("relative_permeability", relative_permeability)
    root: FloatArray = np.sqrt(
        frequency * (np.pi * VACUUM_PERMEABILITY_H_PER_M * permeability / resistivity)
    )
    return root


def wire_impedance_ohm_per_m(
    frequency_hz: npt.ArrayLike,
    *,
    radius_m: npt.ArrayLike,
    resistivity_ohm_m: npt.ArrayLike,
    relative_permeability: npt.ArrayLike,
) -> ComplexArray:
    """Return R + jωLi [Ω/m] of a solid round wire; real and imaginary part each to 1e-14.

    ``frequency_hz`` [Hz], ``radius_m`` [m], ``resistivity_ohm_m`` [Ω·m], ``relative_permeability``
    [1]. Raises BadValue outside 1 Hz to 20 GHz and for what is not above zero.
    """
    radius = _positive("radius_m", radius_m)
    inverse = _inverse_depth_per_m(frequency_hz, resistivity_ohm_m, relative_permeability)
    direct = np.asarray(resistivity_ohm_m) / (np.pi * radius**2)
    impedance: ComplexArray = wire_over_direct(radius * inverse) * direct
    return impedance


def clad_impedance_ohm_per_m(
    frequency_hz: npt.ArrayLike,
    *,
    core_radius_m: npt.ArrayLike,
    radius_m: npt.ArrayLike,
    core_resistivity_ohm_m: npt.ArrayLike,
    core_permeability: npt.ArrayLike,
    cladding_resistivity_ohm_m: npt.ArrayLike,
    cladding_permeability: npt.ArrayLike,
) -> ComplexArray:
    """Return R + jωLi [Ω/m] of a round core in a tight cladding of another metal.

    The surface impedance of the core closes the field of the cladding, exactly. Radii [m], the
    core's below the whole; resistivities [Ω·m], permeabilities [1]. Raises BadValue as the wire
    does, and for a core that is not inside.
    """
    core, outside = _positive("core_radius_m", core_radius_m), _positive("radius_m", radius_m)
    if not np.all(core < outside):
        raise BadValue(
            owner="skin effect", field="core_radius_m", value=core_radius_m, accepted="below radius"
        )
    core_wire = wire_impedance_ohm_per_m(
        frequency_hz,
        radius_m=core,
        resistivity_ohm_m=core_resistivity_ohm_m,
        relative_permeability=core_permeability,
    )
    inverse = _inverse_depth_per_m(frequency_hz, cladding_resistivity_ohm_m, cladding_permeability)
    wave = (1 + 1j) * inverse * np.asarray(cladding_resistivity_ohm_m)
    wall = _Wall(inverse, core, outside)
    surface = core_wire * (2 * np.pi * core) / wave
    returned = (surface - wall.inner_grow) / (wall.inner_fall + surface) * np.exp(wall.span_log())
    impedance: ComplexArray = (
        wave
        / (2 * np.pi * outside)
        * (wall.outer_grow + returned * wall.outer_fall)
        / (1 - returned)
    )
    return impedance


class _Wall:
    """The field in a layer between two radii [m]: the Bessel ratios at both faces."""

    def __init__(self, inverse_depth: FloatArray, inside: FloatArray, outside: FloatArray) -> None:
        self._inner, self._outer = inside * inverse_depth, outside * inverse_depth
        # Of the radii, not of the depths: of those the difference would lose digits.
        self._width = (1 + 1j) * ((outside - inside) * inverse_depth)
        self._thin = outside - inside < _THIN_RATIO * inside
        self.inner_grow, self.inner_fall = both_ratios(self._inner)
        self.outer_grow, self.outer_fall = both_ratios(self._outer)

    def span_log(self) -> ComplexArray:
        """ln of I1(ma)K1(mb)/(I1(mb)K1(ma)): what is left of a wave after there and back.

        The difference of two logarithms, which for a foil are nearly equal: there its derivative
        P + Q is integrated across the wall from value, slope and bend at both faces (two-point
        Hermite rule), which errs by 0.007·(t/a)⁶.
        """
        if np.all(self._thin):
            return self._thin_span_log()
        span: ComplexArray = growth_log(self._inner) - growth_log(self._outer) - 2 * self._width
        if np.any(self._thin):
            return np.where(self._thin, self._thin_span_log(), span)
        return span

    def _thin_span_log(self) -> ComplexArray:
        slope_in, bend_in = _slopes(self._inner, self.inner_grow, self.inner_fall)
        slope_out, bend_out = _slopes(self._outer, self.outer_grow, self.outer_fall)
        bend_in += bend_out
        bend_in *= self._width / 12
        bend_in += slope_in
        bend_in -= slope_out
        bend_in *= self._width / 10
        bend_in += (self.inner_grow + self.inner_fall + self.outer_grow + self.outer_fall) / 2
        bend_in *= -self._width
        deep = np.abs(self._width) > _DEEP_WIDTH
        if deep.any():
            # There the slopes are noise times a large width, and two terms in 1/z are exact.
            return np.where(deep, self._deep_span_log(), bend_in)
        return bend_in

    def _deep_span_log(self) -> ComplexArray:
        near, far = (0.5 - 0.5j) / self._inner, (0.5 - 0.5j) / self._outer
        product = near * far
        series = 2 + product * (0.75 + 21 / 64 * (near * near + product + far * far))
        span: ComplexArray = -self._width * series
        return span


_THIN_RATIO = 0.012  # wall over inside radius: foils of a coax
_DEEP_WIDTH = 8.0  # |m·t| from which almost nothing comes through


def _slopes(
    depths: FloatArray, grow: ComplexArray, fall: ComplexArray
) -> tuple[ComplexArray, ComplexArray]:
    """First and second derivative of I0/I1 + K0/K1, from the Riccati equations of the two."""
    inverse = (0.5 - 0.5j) / depths
    grow_slope = 1 - grow * (grow - inverse)
    fall_slope = fall * (fall + inverse) - 1
    bend = grow_slope * (inverse - 2 * grow)
    bend += fall_slope * (inverse + 2 * fall)
    bend -= (grow + fall) * (inverse * inverse)
    grow_slope += fall_slope
    return grow_slope, bend


def _one_less_exp(exponent: ComplexArray) -> ComplexArray:
    """1 − exp(exponent), exact where the exponent is small; numpy's own costs three times this."""
    real, imag = exponent.real, exponent.imag
    lost = np.empty(exponent.shape, dtype=np.complex128)
    size = np.exp(real)
    lost.real = 2 * size * np.sin(imag / 2) ** 2 - np.expm1(real)
    lost.imag = -size * np.sin(imag)
    return lost


@dataclass(frozen=True, kw_only=True, eq=False)
class TubeImpedance:
    """Impedances of a tube, each (..., n_frequency).

    ``inside_ohm_per_m`` [Ω/m] with the return inside, ``outside_ohm_per_m`` [Ω/m] with the return
    outside, ``transfer_ohm_per_m`` [Ω/m] from a current on one face to the voltage along the other.
    """

    inside_ohm_per_m: ComplexArray
    outside_ohm_per_m: ComplexArray
    transfer_ohm_per_m: ComplexArray


def tube_impedance(
    frequency_hz: npt.ArrayLike,
    *,
    inside_radius_m: npt.ArrayLike,
    outside_radius_m: npt.ArrayLike,
    resistivity_ohm_m: npt.ArrayLike,
    relative_permeability: npt.ArrayLike,
) -> TubeImpedance:
    """Return the impedances of a homogeneous tube: a solid screen, a closed foil.

    ``frequency_hz`` [Hz], radii [m], ``resistivity_ohm_m`` [Ω·m], ``relative_permeability`` [1].
    Raises BadValue as the wire does, and for a tube without wall.
    """
    inside, outside = _radii(inside_radius_m, outside_radius_m)
    inverse = _inverse_depth_per_m(frequency_hz, resistivity_ohm_m, relative_permeability)
    wall = _Wall(inverse, inside, outside)
    span = wall.span_log()
    half = np.exp(span / 2)
    left = half * half
    wave = (1 + 1j) * inverse * np.asarray(resistivity_ohm_m) / (2 * np.pi * _one_less_exp(span))
    # I1·K1 = 1/(z(P + Q)) by the Wronskian; each root by itself, for their product turns over.
    faces = np.sqrt(wall.inner_grow + wall.inner_fall) * np.sqrt(wall.outer_grow + wall.outer_fall)
    return TubeImpedance(
        inside_ohm_per_m=wave / inside * (wall.inner_grow * left + wall.inner_fall),
        outside_ohm_per_m=wave / outside * (wall.outer_grow + wall.outer_fall * left),
        transfer_ohm_per_m=wave / np.sqrt(inside * outside) * faces * half,
    )


def tube_inside_impedance_ohm_per_m(
    frequency_hz: npt.ArrayLike,
    *,
    inside_radius_m: npt.ArrayLike,
    outside_radius_m: npt.ArrayLike,
    resistivity_ohm_m: npt.ArrayLike,
    relative_permeability: npt.ArrayLike,
) -> ComplexArray:
    """Return only what a coax needs of ``tube_impedance`` [Ω/m]: the return inside.

    ``frequency_hz`` [Hz], radii [m], ``resistivity_ohm_m`` [Ω·m], ``relative_permeability`` [1].
    """
    inside, outside = _radii(inside_radius_m, outside_radius_m)
    inverse = _inverse_depth_per_m(frequency_hz, resistivity_ohm_m, relative_permeability)
    wall = _Wall(inverse, inside, outside)
    span = wall.span_log()
    impedance: ComplexArray = wall.inner_grow * np.exp(span)
    impedance += wall.inner_fall
    impedance /= _one_less_exp(span)
    impedance *= (1 + 1j) * (inverse * (np.asarray(resistivity_ohm_m) / (2 * np.pi * inside)))
    return impedance


def _radii(
    inside_radius_m: npt.ArrayLike, outside_radius_m: npt.ArrayLike
) -> tuple[FloatArray, FloatArray]:
    inside = _positive("inside_radius_m", inside_radius_m)
    outside = _positive("outside_radius_m", outside_radius_m)
    if not np.all(inside < outside):
        raise BadValue(
            owner="skin effect",
            field="inside_radius_m",
            value=inside_radius_m,
            accepted="below the outside radius",
        )
    return inside, outside
