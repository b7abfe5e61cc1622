"""Balanced lines from their geometry: pair, screened pair, star quad, loudspeaker pair.

Proximity is exact for round wires (ring_field), skin effect too; the dielectric is causal. What is
not exact and has to be told: a pair in its own jackets lies partly in air, so the part of the field
in the insulation is a number given with the geometry, best taken from a measured capacitance; and a
twist is taken as a longer way, no more (from memory).
"""

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.materials.insulation import Insulation
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.conductor import Conductor, rod_of
from reelwright.core.physics.line_parameters import LineParameters, from_series_and_shunt
from reelwright.core.physics.ring_field import (
    Ring,
    ScreenAnswer,
    perfect_ring_field,
    ring_field,
    screen_orders,
)
from reelwright.core.physics.screen import Screen
from reelwright.core.physics.skin_effect import checked_frequency_hz
from reelwright.core.physics.smooth_curve import over_frequency
from reelwright.core.quantities.constants import (
    VACUUM_PERMEABILITY_H_PER_M,
    VACUUM_PERMITTIVITY_F_PER_M,
)
from reelwright.core.quantities.guard import (
    require_between,
    require_count,
    require_not_negative,
    require_positive,
)


@dataclass(frozen=True, kw_only=True)
class PairGeometry:
    """Two wires, or four with opposite ones in parallel (star quad).

    ``spacing_m`` D [m] between the centres of opposite wires; ``field_fraction`` [1] is the part of
    the electric field in the insulation, 1 where nothing but insulation surrounds the wires;
    ``twists_per_m`` [1/m] is 0 for parallel wires. ``screen`` is round about all of it, or
    ``None``.

    Raises BadValue where wires touch each other or the screen.
    """

    conductor: Conductor
    conductors: int
    spacing_m: float
    insulation: Insulation
    field_fraction: float
    twists_per_m: float
    screen: Screen | None

    def __post_init__(self) -> None:
        require_positive(self, "spacing_m")
        require_count(self, "conductors")
        require_between(self, "field_fraction", low=0.0, high=1.0)
        require_not_negative(self, "twists_per_m")
        if self.screen is not None and self.field_fraction < 1:
            raise BadValue(
                owner="PairGeometry",
                field="field_fraction",
                value=self.field_fraction,
                accepted="1 inside a screen: give an insulation of the mixture's permittivity",
            )
        _ = self.ring  # refuses what does not fit

    @property
    def ring(self) -> Ring:
        """The wires as a ring; BadValue where they touch."""
        return Ring(
            wires=self.conductors,
            wire_radius_m=self.conductor.electrical_diameter_m / 2,
            ring_radius_m=self.spacing_m / 2,
            screen_radius_m=None if self.screen is None else self.screen.inside_radius_m,
        )

    @property
    def path_factor(self) -> float:
        """Length of a twisted wire over that of the cable [1]: √(1 + (π·D·T)²)."""
        return math.hypot(1.0, math.pi * self.spacing_m * self.twists_per_m)

    @property
    def _per_wire(self) -> float:
        """Series impedance of the loop over that of one wire: 2, and 1 of a quad."""
        return 4 / self.conductors

    def direct_loop_ohm_per_m(self, temperature_celsius: float) -> float:
        """Return the loop resistance out and back [Ω/m] at a temperature [°C]."""
        wire = self.conductor.direct_resistance_ohm_per_m(temperature_celsius)
        return self._per_wire * self.path_factor * wire

    def parameters(
        self, frequency_hz: npt.ArrayLike, *, temperature_celsius: float
    ) -> LineParameters:
        """Return R, L, G, C of the loop at ``frequency_hz`` [Hz], shape (n_frequency,), and [°C].

        Raises BadValue outside 1 Hz to 20 GHz and where conductor or screen refuse the temperature.
        """
        frequency = np.atleast_1d(checked_frequency_hz(frequency_hz))
        angular = 2 * np.pi * frequency
        wire = self.conductor.internal_impedance_ohm_per_m(
            frequency, temperature_celsius=temperature_celsius
        )
        around = _field(self, frequency, temperature_celsius)
        per_field = VACUUM_PERMEABILITY_H_PER_M / (2 * np.pi)
        factor = self._per_wire * self.path_factor
        series = factor * (wire + 1j * angular * per_field * around)
        law = self.insulation.causal_at(temperature_celsius)
        mixed = 1 + self.field_fraction * (law.permittivity(frequency) - 1)
        lossless = self._per_wire * per_field * perfect_ring_field(self.ring)
        vacuum = (
            self.path_factor * VACUUM_PERMITTIVITY_F_PER_M * VACUUM_PERMEABILITY_H_PER_M / lossless
        )
        return from_series_and_shunt(
            frequency_hz=frequency,
            series_ohm_per_m=series,
            shunt_siemens_per_m=1j * angular * vacuum * mixed,
        )


def _field(pair: PairGeometry, frequency: FloatArray, temperature_celsius: float) -> ComplexArray:
    """Λ of each wire over frequency: worked out where needed, read between."""
    ring, thin = pair.ring, pair.ring.thin_wire_field
    radius, depth_scale = _depth_scale(pair.conductor, temperature_celsius)

    def shaped(points: FloatArray) -> ComplexArray:
        ratio = radius * depth_scale * np.sqrt(points)
        lost = thin - ring_field(
            ring, depth_ratio=ratio, screen=_screen_answer(pair, points, temperature_celsius)
        )
        # The resistance lies in the imaginary part, which is small at both ends of the range.
        lost.imag *= (1 + ratio) ** 3 / ratio**2
        return lost

    lost = over_frequency(shaped, frequency)
    ratio = radius * depth_scale * np.sqrt(frequency)
    lost.imag *= ratio**2 / (1 + ratio) ** 3
    return thin - lost


def _depth_scale(conductor: Conductor, temperature_celsius: float) -> tuple[float, float]:
    """Radius [m] of the rod that stands for a conductor, and its 1/δ at 1 Hz [1/m].

    A clad wire answers its neighbours as a rod of one metal: of its own direct-current resistance,
    or of its cladding where the core is magnetic and the current keeps out of it.
    """
    rod = rod_of(conductor, temperature_celsius)
    resistivity = rod.resistivity_ohm_m
    if rod.core_permeability == 1.0:
        direct = conductor.direct_resistance_ohm_per_m(temperature_celsius)
        resistivity = direct * math.pi * rod.radius_m**2
    scale = math.sqrt(math.pi * VACUUM_PERMEABILITY_H_PER_M / resistivity)
    return rod.radius_m, scale


def _screen_answer(
    pair: PairGeometry, frequency: FloatArray, temperature_celsius: float
) -> ScreenAnswer | None:
    if pair.screen is None:
        return None
    from reelwright.core.physics._kernels import screen_answer

    outside, resistivity = pair.screen.tube(temperature_celsius)
    scale = np.sqrt(np.pi * VACUUM_PERMEABILITY_H_PER_M * frequency / resistivity)
    orders = screen_orders(pair.ring)
    return ScreenAnswer(
        orders=orders,
        answer=screen_answer(
            inner_ratio=pair.screen.inside_radius_m * scale,
            outer_ratio=outside * scale,
            orders=orders,
        ),
    )


def field_fraction_of(
    *,
    pair: PairGeometry,
    capacitance_f_per_m: float,
    frequency_hz: float,
) -> float:
    """Return the part of the field [1] in the insulation that explains a measured capacitance.

    ``capacitance_f_per_m`` [F/m] between the wires at ``frequency_hz`` [Hz] and 20 °C. Raises
    BadValue for a capacitance that no part from 0 to 1 explains.
    """
    empty, full = (
        float(
            replace(pair, field_fraction=part)
            .parameters([frequency_hz], temperature_celsius=20.0)
            .capacitance_f_per_m[0]
        )
        for part in (0.0, 1.0)
    )
    if not empty <= capacitance_f_per_m <= full:
        raise BadValue(
            owner="field_fraction_of",
            field="capacitance_f_per_m",
            value=capacitance_f_per_m,
            accepted=f"{empty:.4g} to {full:.4g} with this geometry and insulation",
        )
    return (capacitance_f_per_m - empty) / (full - empty)
