"""A conductor of a cable: solid, clad, plated or stranded, at any temperature and frequency.

A strand bundle in contact is taken as one rod of the bundle's *electrical* diameter whose
resistivity is raised until its direct-current resistance is right: strands times lay. At high
frequency that gives 1.05 to 1.1 times the surface resistance of a smooth rod, inside the 1.0 to
1.25 that is met (common practice, no published source); what a braid or tinning adds beyond is
fitted, never guessed (screen_fit).
"""

import math
from collections.abc import Sequence
from dataclasses import astuple, dataclass

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.materials.clad_wire import CladGrade, Coating
from reelwright.core.materials.metals import Metal
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.skin_effect import clad_impedance_ohm_per_m, wire_impedance_ohm_per_m
from reelwright.core.quantities.guard import require_between, require_count, require_positive

BUNDLE_FACTORS = {1: 1.0, 7: 0.939, 19: 0.97, 37: 0.98}
"""Electrical diameter of a bundle over its outside diameter [1], by strands.

0.939 of seven strands: handbooks of coaxial cable, printed beside their impedances; 19 and 37 from
memory. Between those the factor of the next lower number is used.
"""


@dataclass(frozen=True, kw_only=True)
class Conductor:
    """One conductor, ``strands`` wires of ``strand_diameter_m`` [m] of ``metal``.

    ``bundle_diameter_m`` [m] is the outside of the whole (the strand itself where there is one).
    ``cladding`` over the core of each strand, ``cladding_thickness_m`` [m] thick, both ``None`` for
    a plain wire. ``lay_factor`` [1] is the length of a strand over that of the conductor.

    Raises BadValue for a cladding without wall or thicker than the strand, a bundle smaller than
    its strands, or a lay factor outside 1 to 1.2.
    """

    metal: Metal
    strand_diameter_m: float
    strands: int
    bundle_diameter_m: float
    lay_factor: float
    cladding: Metal | None
    cladding_thickness_m: float | None

    def __post_init__(self) -> None:
        require_positive(self, "strand_diameter_m", "bundle_diameter_m")
        require_count(self, "strands", at_least=1)
        require_between(self, "lay_factor", low=1.0, high=1.2)
        if (self.cladding is None) != (self.cladding_thickness_m is None):
            raise self._refuse("cladding_thickness_m", "given with the cladding, and only with it")
        if self.cladding_thickness_m is not None:
            require_positive(self, "cladding_thickness_m")
            if 2 * self.cladding_thickness_m >= self.strand_diameter_m:
                raise self._refuse(
                    "cladding_thickness_m", f"below half of {self.strand_diameter_m} m"
                )
        # Strands pressed into less than their own area are a typing mistake.
        if self.bundle_diameter_m**2 < self.strands * self.strand_diameter_m**2 * (1 - 1e-9):
            raise self._refuse(
                "bundle_diameter_m",
                f"{self.strand_diameter_m * math.sqrt(self.strands):.4g} or more, to hold its "
                "strands",
            )

    def _refuse(self, field: str, accepted: str) -> BadValue:
        return BadValue(
            owner="Conductor", field=field, value=getattr(self, field), accepted=accepted
        )

    @property
    def electrical_diameter_m(self) -> float:
        """Diameter [m] of the smooth rod with the same field outside."""
        fitting = max(count for count in BUNDLE_FACTORS if count <= self.strands)
        return BUNDLE_FACTORS[fitting] * self.bundle_diameter_m

    def direct_resistance_ohm_per_m(self, temperature_celsius: float) -> float:
        """Return the direct-current resistance [Ω/m] at a temperature [°C]: all areas in parallel.

        Each metal follows its own coefficient. Raises BadValue outside −100 to 250 °C.
        """
        core, cladding = self._areas_m2()
        conductance = core / self.metal.resistivity_at_ohm_m(temperature_celsius)
        if self.cladding is not None:
            conductance += cladding / self.cladding.resistivity_at_ohm_m(temperature_celsius)
        return self.lay_factor / (self.strands * conductance)

    def _areas_m2(self) -> tuple[float, float]:
        whole = math.pi / 4 * self.strand_diameter_m**2
        core = self.strand_diameter_m - 2 * (self.cladding_thickness_m or 0.0)
        inner = math.pi / 4 * core**2
        return inner, whole - inner

    def internal_impedance_ohm_per_m(
        self, frequency_hz: npt.ArrayLike, *, temperature_celsius: float
    ) -> ComplexArray:
        """Return R + jωLi [Ω/m], shape of ``frequency_hz`` [Hz], at a temperature [°C].

        Exact for one round wire, plain or clad. Raises BadValue outside 1 Hz to 20 GHz.
        """
        every = internal_impedances_ohm_per_m(
            (self,), frequency_hz, temperatures_celsius=(temperature_celsius,)
        )
        return every.reshape(np.shape(frequency_hz))


def internal_impedances_ohm_per_m(
    conductors: Sequence[Conductor],
    frequency_hz: npt.ArrayLike,
    *,
    temperatures_celsius: Sequence[float],
) -> ComplexArray:
    """Return R + jωLi [Ω/m], shape (conductor, temperature, n_frequency), in one go.

    ``frequency_hz`` [Hz], shape (n_frequency,); ``temperatures_celsius`` [°C]. Raises BadValue as
    a single conductor does.
    """
    frequency = np.asarray(frequency_hz, dtype=np.float64)
    shape = (len(conductors), len(temperatures_celsius), frequency.size)
    result = np.empty(shape, dtype=np.complex128)
    for clad in (False, True):
        chosen = [
            place for place, one in enumerate(conductors) if (one.cladding is not None) == clad
        ]
        if not chosen:
            continue
        rows = [
            [astuple(rod_of(conductors[place], celsius)) for celsius in temperatures_celsius]
            for place in chosen
        ]
        table: FloatArray = np.array(rows).transpose(2, 0, 1)[..., None]
        if clad:
            core_radius, radius, core_rho, core_mu, rho, mu = table
            values = clad_impedance_ohm_per_m(
                frequency,
                core_radius_m=core_radius,
                radius_m=radius,
                core_resistivity_ohm_m=core_rho,
                core_permeability=core_mu,
                cladding_resistivity_ohm_m=rho,
                cladding_permeability=mu,
            )
        else:
            radius, rho, mu = table[1], table[4], table[5]
            values = wire_impedance_ohm_per_m(
                frequency, radius_m=radius, resistivity_ohm_m=rho, relative_permeability=mu
            )
        result[chosen] = values
    return result


@dataclass(frozen=True, kw_only=True)
class Rod:
    """The round rod that stands for a conductor at one temperature: a core in an outer metal.

    Radii [m], resistivities [Ω·m], permeabilities [1]; core and outside are one metal in a plain
    wire.
    """

    core_radius_m: float
    radius_m: float
    core_resistivity_ohm_m: float
    core_permeability: float
    resistivity_ohm_m: float
    permeability: float


def rod_of(conductor: Conductor, temperature_celsius: float) -> Rod:
    """Return the rod of a conductor at a temperature [°C].

    The rod of a bundle keeps the area ratio of its strands' core, and both resistivities are
    raised by what the rod has more of metal than the strands, and by their lay.
    """
    radius = conductor.electrical_diameter_m / 2
    strand = conductor.strand_diameter_m
    ratio = 1 - 2 * (conductor.cladding_thickness_m or 0.0) / strand
    raised = conductor.lay_factor * (2 * radius) ** 2 / (conductor.strands * strand**2)
    outer = conductor.cladding or conductor.metal
    return Rod(
        core_radius_m=radius * ratio,
        radius_m=radius,
        core_resistivity_ohm_m=raised * conductor.metal.resistivity_at_ohm_m(temperature_celsius),
        core_permeability=conductor.metal.relative_permeability,
        resistivity_ohm_m=raised * outer.resistivity_at_ohm_m(temperature_celsius),
        permeability=outer.relative_permeability,
    )


def solid_wire(metal: Metal, *, diameter_m: float) -> Conductor:
    """Return a solid plain wire of ``diameter_m`` [m]."""
    return Conductor(
        metal=metal,
        strand_diameter_m=diameter_m,
        strands=1,
        bundle_diameter_m=diameter_m,
        lay_factor=1.0,
        cladding=None,
        cladding_thickness_m=None,
    )


def clad_wire(grade: CladGrade, *, diameter_m: float) -> Conductor:
    """Return a solid clad wire of that grade, ``diameter_m`` [m] over the cladding."""
    return Conductor(
        metal=grade.core,
        strand_diameter_m=diameter_m,
        strands=1,
        bundle_diameter_m=diameter_m,
        lay_factor=1.0,
        cladding=grade.cladding,
        cladding_thickness_m=grade.cladding_thickness_m(diameter_m),
    )


def stranded(
    metal: Metal,
    *,
    strands: int,
    strand_diameter_m: float,
    lay_factor: float,
    coating: Coating | None,
) -> Conductor:
    """Return a bundle of round wires, ``strand_diameter_m`` [m] each without its coating.

    Seven, nineteen and thirty-seven strands lie in rings of three, five and seven diameters; other
    numbers are taken as a round bunch filled to 0.75 (common practice, no published source).
    """
    over = strand_diameter_m + 2 * (coating.thickness_m if coating else 0.0)
    across = {1: 1.0, 7: 3.0, 19: 5.0, 37: 7.0}.get(strands, math.sqrt(strands / 0.75))
    return Conductor(
        metal=metal,
        strand_diameter_m=over,
        strands=strands,
        bundle_diameter_m=over * across,
        lay_factor=lay_factor,
        cladding=coating.metal if coating else None,
        cladding_thickness_m=coating.thickness_m if coating else None,
    )
