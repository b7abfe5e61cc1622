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
    growth_log,
    inward_ratio,
    outward_ratio,
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
    inner, outer = core * inverse, outside * inverse
    surface = core_wire * (2 * np.pi * core) / wave
    returned = (surface - inward_ratio(inner)) / (outward_ratio(inner) + surface)
    returned *= np.exp(_span_log(inner, outer))
    impedance: ComplexArray = (
        wave
        / (2 * np.pi * outside)
        * (inward_ratio(outer) + returned * outward_ratio(outer))
        / (1 - returned)
    )
    return impedance


_THIN_RATIO = 0.012


def _span_log(inner: FloatArray, outer: FloatArray) -> ComplexArray:
    """ln of I1(ma)K1(mb)/(I1(mb)K1(ma)): what is left of a wave after there and back.

    The difference of two logarithms, which for a foil are nearly equal: there its derivative
    P + Q is integrated across the wall from value, slope and bend at both faces (two-point
    Hermite rule), which errs by 0.007·(t/a)⁶.
    """
    span: ComplexArray = growth_log(inner) - growth_log(outer) - 2 * (1 + 1j) * (outer - inner)
    thin = np.broadcast_to(outer - inner < _THIN_RATIO * inner, span.shape)
    if thin.any():
        near, far = np.broadcast_to(inner, span.shape), np.broadcast_to(outer, span.shape)
        span[thin] = _thin_span_log(near[thin], far[thin])
    return span


def _thin_span_log(inner: FloatArray, outer: FloatArray) -> ComplexArray:
    width = (1 + 1j) * (outer - inner)
    value_in, slope_in, bend_in = _growth_slopes(inner)
    value_out, slope_out, bend_out = _growth_slopes(outer)
    span: ComplexArray = -width * (
        (value_in + value_out) / 2
        + width / 10 * (slope_in - slope_out)
        + width * width / 120 * (bend_in + bend_out)
    )
    return span


def _growth_slopes(depths: FloatArray) -> tuple[ComplexArray, ComplexArray, ComplexArray]:
    """I0/I1 + K0/K1 and its first two derivatives, from the Riccati equations of the two."""
    inverse = (0.5 - 0.5j) / depths
    grow, fall = inward_ratio(depths), outward_ratio(depths)
    grow_slope = 1 - grow * grow + grow * inverse
    fall_slope = fall * fall - 1 + fall * inverse
    grow_bend = grow_slope * (inverse - 2 * grow) - grow * inverse * inverse
    fall_bend = fall_slope * (inverse + 2 * fall) - fall * inverse * inverse
    return grow + fall, grow_slope + fall_slope, grow_bend + fall_bend


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
    inside = _positive("inside_radius_m", inside_radius_m)
    outside = _positive("outside_radius_m", outside_radius_m)
    if not np.all(inside < outside):
        raise BadValue(
            owner="skin effect",
            field="inside_radius_m",
            value=inside_radius_m,
            accepted="below the outside radius",
        )
    inverse = _inverse_depth_per_m(frequency_hz, resistivity_ohm_m, relative_permeability)
    wave = (1 + 1j) * inverse * np.asarray(resistivity_ohm_m)
    inner, outer = inside * inverse, outside * inverse
    span = _span_log(inner, outer)
    left, lost = np.exp(span), -np.expm1(span)
    inner_in, inner_out = inward_ratio(inner), outward_ratio(inner)
    outer_in, outer_out = inward_ratio(outer), outward_ratio(outer)
    # I1·K1 = 1/(z(P + Q)) by the Wronskian, and the transfer holds the mean of both faces.
    faces = np.sqrt((inner_in + inner_out) * (outer_in + outer_out)) / 2
    return TubeImpedance(
        inside_ohm_per_m=wave / (2 * np.pi * inside) * (inner_in * left + inner_out) / lost,
        outside_ohm_per_m=wave / (2 * np.pi * outside) * (outer_in + outer_out * left) / lost,
        transfer_ohm_per_m=wave
        / (np.pi * np.sqrt(inside * outside))
        * faces
        * np.exp(span / 2)
        / lost,
    )
