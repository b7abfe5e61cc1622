"""Coaxial lines from their geometry: exact skin effect, causal dielectric, 1 Hz to 20 GHz."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.materials.causal import spread_of_relaxations
from reelwright.core.materials.insulation import Insulation
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.conductor import Conductor, internal_impedances_ohm_per_m
from reelwright.core.physics.line_parameters import LineParameters
from reelwright.core.physics.screen import Screen
from reelwright.core.physics.skin_effect import (
    checked_frequency_hz,
    tube_inside_impedance_ohm_per_m,
)
from reelwright.core.quantities.constants import (
    VACUUM_PERMEABILITY_H_PER_M,
    VACUUM_PERMITTIVITY_F_PER_M,
)


@dataclass(frozen=True, kw_only=True)
class CoaxGeometry:
    """A centre conductor in insulation inside a screen.

    Raises BadValue where the conductor does not fit into the screen.
    """

    conductor: Conductor
    insulation: Insulation
    screen: Screen

    def __post_init__(self) -> None:
        if self.conductor.bundle_diameter_m >= self.screen.inside_diameter_m:
            raise BadValue(
                owner="CoaxGeometry",
                field="conductor.bundle_diameter_m",
                value=self.conductor.bundle_diameter_m,
                accepted=f"below the inside of the screen, {self.screen.inside_diameter_m} m",
            )

    @property
    def ratio_log(self) -> float:
        """ln(D/d) [1] of the screen's inside over the conductor's electrical diameter."""
        return math.log(self.screen.inside_diameter_m / self.conductor.electrical_diameter_m)

    def parameters(
        self, frequency_hz: npt.ArrayLike, *, temperature_celsius: float
    ) -> LineParameters:
        """Return R, L, G, C at ``frequency_hz`` [Hz], shape (n_frequency,), and at that [°C].

        Raises BadValue outside 1 Hz to 20 GHz; whether a waveguide mode lies below is another
        question (mode_limit).
        """
        every = coax_parameters((self,), frequency_hz, temperatures_celsius=(temperature_celsius,))
        return LineParameters(
            frequency_hz=every.frequency_hz,
            resistance_ohm_per_m=every.resistance_ohm_per_m[0, 0],
            inductance_h_per_m=every.inductance_h_per_m[0, 0],
            conductance_siemens_per_m=every.conductance_siemens_per_m[0, 0],
            capacitance_f_per_m=every.capacitance_f_per_m[0, 0],
        )


def coax_parameters(
    coaxes: Sequence[CoaxGeometry],
    frequency_hz: npt.ArrayLike,
    *,
    temperatures_celsius: Sequence[float],
) -> LineParameters:
    """Return R, L, G, C of many coaxes in one go, shape (coax, temperature, n_frequency).

    ``frequency_hz`` [Hz], shape (n_frequency,), 1 Hz to 20 GHz; ``temperatures_celsius`` [°C].
    Series: impedance of the centre, of the screen's inside, and µ0/2π·ln(D/d) between them.
    """
    frequency = np.atleast_1d(checked_frequency_hz(frequency_hz))
    shape = (len(coaxes), len(temperatures_celsius), frequency.size)
    result = tuple(np.empty(shape) for _ in range(4))
    relaxing = spread_of_relaxations(frequency).astype(np.complex128)
    few = max(1, _BLOCK // (shape[1] * shape[2]))
    # A few cables at a time: what lies between must stay near the processor.
    for start in range(0, len(coaxes), few):
        part = slice(start, start + few)
        _some(
            coaxes[part],
            frequency,
            temperatures_celsius,
            relaxing,
            tuple(values[part] for values in result),
        )
    resistance, inductance, conductance, capacitance = result
    return LineParameters(
        frequency_hz=frequency,
        resistance_ohm_per_m=resistance,
        inductance_h_per_m=inductance,
        conductance_siemens_per_m=conductance,
        capacitance_f_per_m=capacitance,
    )


_BLOCK = 8192


def _some(
    coaxes: Sequence[CoaxGeometry],
    frequency: FloatArray,
    temperatures_celsius: Sequence[float],
    relaxing: ComplexArray,
    into: tuple[FloatArray, ...],
) -> None:
    resistance, inductance, conductance, capacitance = into
    series = internal_impedances_ohm_per_m(
        [coax.conductor for coax in coaxes], frequency, temperatures_celsius=temperatures_celsius
    )
    rows = [
        [
            (
                coax.screen.inside_radius_m,
                *coax.screen.tube(celsius),
                coax.screen.metal.relative_permeability,
            )
            for celsius in temperatures_celsius
        ]
        for coax in coaxes
    ]
    inside, outside, resistivity, permeability = np.array(rows).transpose(2, 0, 1)[..., None]
    series += tube_inside_impedance_ohm_per_m(
        frequency,
        inside_radius_m=inside,
        outside_radius_m=outside,
        resistivity_ohm_m=resistivity,
        relative_permeability=permeability,
    )
    logs: FloatArray = np.array([coax.ratio_log for coax in coaxes])[:, None, None]
    laws = [
        [coax.insulation.causal_at(celsius) for celsius in temperatures_celsius] for coax in coaxes
    ]
    per_permittivity = 2 * np.pi * VACUUM_PERMITTIVITY_F_PER_M / logs
    high = np.array([[law.high_frequency_permittivity for law in row] for row in laws])
    step = np.array([[law.step_permittivity for law in row] for row in laws])
    high, step = per_permittivity * high[..., None], per_permittivity * step[..., None]
    angular = 2 * np.pi * frequency
    resistance[:] = series.real
    np.divide(series.imag, angular, out=inductance)
    inductance += VACUUM_PERMEABILITY_H_PER_M / (2 * np.pi) * logs
    np.multiply(step, -angular * relaxing.imag, out=conductance)
    np.multiply(step, relaxing.real, out=capacitance)
    capacitance += high
