"""A braided screen: coverage, resistance, and how much of it comes through.

Two published formulae for what comes through differ by a factor of three and more on one and the
same braid: Vance (holes only) and Kley (holes, and carriers crossing). Both are here, each under
its name, and their distance is the spread to be told. Neither is the truth: measure, where it
matters.
"""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.materials.metals import Metal
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.skin_effect import checked_frequency_hz
from reelwright.core.quantities.constants import VACUUM_PERMEABILITY_H_PER_M
from reelwright.core.quantities.guard import require_between, require_count, require_positive


@dataclass(frozen=True, kw_only=True)
class Braid:
    """A braid of ``carriers`` C, each of ``ends`` N wires of ``strand_diameter_m`` d [m].

    ``under_diameter_m`` D [m] is what it lies on; the mean diameter is D + 2d. The weave angle
    ``angle_deg`` [°] is that between a carrier and the axis of the cable.

    Raises BadValue for an odd number of carriers, an angle outside 5° to 80°, or wires that fill
    more than the whole circumference.
    """

    metal: Metal
    carriers: int
    ends: int
    strand_diameter_m: float
    under_diameter_m: float
    angle_deg: float

    def __post_init__(self) -> None:
        require_count(self, "carriers", at_least=4)
        require_count(self, "ends", at_least=1)
        require_positive(self, "strand_diameter_m", "under_diameter_m")
        require_between(self, "angle_deg", low=5.0, high=80.0)
        if self.carriers % 2:
            raise self._refuse("carriers", "an even number: half run each way round")
        if self.fill_factor > 1:
            raise self._refuse(
                "ends",
                f"few enough to fill the circumference once, not {self.fill_factor:.2f} of it",
            )

    def _refuse(self, field: str, accepted: str) -> BadValue:
        return BadValue(owner="Braid", field=field, value=getattr(self, field), accepted=accepted)

    @property
    def _angle_rad(self) -> float:
        return math.radians(self.angle_deg)

    @property
    def mean_diameter_m(self) -> float:
        """Dm = D + 2d [m]."""
        return self.under_diameter_m + 2 * self.strand_diameter_m

    @property
    def fill_factor(self) -> float:
        """F = N·C·d/(2π·Dm·cos a) [1]: the part one layer of carriers covers."""
        wires = self.ends * self.carriers * self.strand_diameter_m
        return wires / (2 * math.pi * self.mean_diameter_m * math.cos(self._angle_rad))

    @property
    def coverage(self) -> float:
        """Optical coverage K = 2F − F² [1] of both layers together."""
        filled = self.fill_factor
        return filled * (2 - filled)

    def direct_resistance_ohm_per_m(self, temperature_celsius: float) -> float:
        """Return 4ρ/(π·d²·N·C·cos a) [Ω/m] at a temperature [°C]."""
        metal = math.pi / 4 * self.strand_diameter_m**2 * self.ends * self.carriers
        rho = self.metal.resistivity_at_ohm_m(temperature_celsius)
        return rho / (metal * math.cos(self._angle_rad))

    @property
    def vance_hole_inductance_h_per_m(self) -> float:
        """Inductance of the holes [H/m] by Vance, IEEE Transactions EMC-17 (1975) 71.

        π·µ0/(6C)·(1 − K)^1.5 times the form of an elliptic hole: e²/(E − (1 − e²)K(e)) with
        e² = 1 − tan²a up to 45°; beyond, the hole lies across, e² = 1 − cot²a, and the same
        polarisability along its other axis gives e²/((1 − e²)^½·(K(e) − E)).
        """
        form = hole_form_factor(self.angle_deg)
        open_part = float((1 - self.coverage) ** 1.5)
        return math.pi * VACUUM_PERMEABILITY_H_PER_M / (6 * self.carriers) * open_part * form

    @property
    def kley_hole_inductance_h_per_m(self) -> float:
        """Inductance of the holes [H/m] by Kley, IEEE Transactions EMC-35 (1993) 1.

        0.875·Mv·exp(−9.6·F·(K²·d/Dm)^⅓), Mv Vance's. The holes are chimneys, not openings in a thin
        sheet. Coefficients as given in public implementations; the paper itself was not opened.
        """
        depth = self.coverage**2 * self.strand_diameter_m / self.mean_diameter_m
        return (
            0.875
            * self.vance_hole_inductance_h_per_m
            * math.exp(-9.6 * self.fill_factor * depth ** (1 / 3))
        )

    @property
    def kley_crossing_inductance_h_per_m(self) -> float:
        """Inductance of the crossing carriers [H/m] by Kley; negative at the usual weave angles.

        −µ0/(4π)·d/Dm·0.22/(F·cos a)·cos(2·k1·a), k1 = (π/4)/(⅔·F·cos a + π/10). As above: the paper
        itself was not opened.
        """
        filled = self.fill_factor * math.cos(self._angle_rad)
        turn = math.pi / 4 / (2 / 3 * filled + math.pi / 10)
        size = self.strand_diameter_m / self.mean_diameter_m * 0.22 / filled
        scale = VACUUM_PERMEABILITY_H_PER_M / (4 * math.pi)
        return -scale * size * math.cos(2 * turn * self._angle_rad)

    def diffusion_ohm_per_m(
        self, frequency_hz: npt.ArrayLike, *, temperature_celsius: float
    ) -> ComplexArray:
        """Return what comes through the metal [Ω/m], shape of ``frequency_hz`` [Hz].

        Rdc·u/sinh u, u = (1+j)·d/δ: a tube as thick as a strand (Vance).
        """
        frequency = checked_frequency_hz(frequency_hz)
        rho = self.metal.resistivity_at_ohm_m(temperature_celsius)
        permeability = VACUUM_PERMEABILITY_H_PER_M * self.metal.relative_permeability
        inverse_depth = np.sqrt(np.pi * frequency * permeability / rho)
        walls = (1 + 1j) * self.strand_diameter_m * inverse_depth
        # u/sinh u without the overflow of sinh.
        decay = np.exp(-walls)
        through: ComplexArray = 2 * walls * decay / -np.expm1(-2 * walls)
        return self.direct_resistance_ohm_per_m(temperature_celsius) * through

    def transfer_impedance(
        self, frequency_hz: npt.ArrayLike, *, temperature_celsius: float
    ) -> "BraidTransfer":
        """Return the transfer impedance by both formulae, at ``frequency_hz`` [Hz] and [°C]."""
        frequency = checked_frequency_hz(frequency_hz)
        metal = self.diffusion_ohm_per_m(frequency, temperature_celsius=temperature_celsius)
        angular = 2j * np.pi * frequency
        kley = self.kley_hole_inductance_h_per_m + self.kley_crossing_inductance_h_per_m
        return BraidTransfer(
            vance_ohm_per_m=metal + angular * self.vance_hole_inductance_h_per_m,
            kley_ohm_per_m=metal + angular * kley,
        )


@dataclass(frozen=True, kw_only=True, eq=False)
class BraidTransfer:
    """Transfer impedance by Vance and by Kley [Ω/m], each of the shape asked for.

    Kley's further term of eddy currents in the carriers, (1+j)·√ω-like, is left out: its
    coefficients were not confirmed. It matters for dense braids below a few megahertz.
    """

    vance_ohm_per_m: ComplexArray
    kley_ohm_per_m: ComplexArray

    @property
    def largest_ohm_per_m(self) -> FloatArray:
        """The larger modulus of the two [Ω/m]: the one to be cautious with."""
        return np.maximum(np.abs(self.vance_ohm_per_m), np.abs(self.kley_ohm_per_m))

    @property
    def spread_ratio(self) -> FloatArray:
        """The larger modulus over the smaller [1]: how far the two formulae are apart."""
        sizes = np.abs(self.vance_ohm_per_m), np.abs(self.kley_ohm_per_m)
        ratio: FloatArray = np.maximum(*sizes) / np.minimum(*sizes)
        return ratio


def braid_of_picks(
    *,
    metal: Metal,
    carriers: int,
    ends: int,
    strand_diameter_m: float,
    under_diameter_m: float,
    picks_per_m: float,
) -> Braid:
    """Return the braid with ``picks_per_m`` crossings a metre [1/m]: tan a = 2π·Dm·P/C.

    Diameters [m]. Raises BadValue as Braid does.
    """
    if not (math.isfinite(picks_per_m) and picks_per_m > 0 and carriers > 0):
        raise BadValue(
            owner="Braid", field="picks_per_m", value=picks_per_m, accepted="a number above zero"
        )
    mean = under_diameter_m + 2 * strand_diameter_m
    return Braid(
        metal=metal,
        carriers=carriers,
        ends=ends,
        strand_diameter_m=strand_diameter_m,
        under_diameter_m=under_diameter_m,
        angle_deg=math.degrees(math.atan(2 * math.pi * mean * picks_per_m / carriers)),
    )


def hole_form_factor(angle_deg: float) -> float:
    """Return Vance's form of the hole [1] at a weave angle [°]; 4/π at 45°, where it is round."""
    tangent = math.tan(math.radians(angle_deg))
    squared = min(tangent, 1 / tangent) ** 2
    eccentricity = 1 - squared
    if eccentricity < 1e-9:
        return 4 / math.pi
    first, second = _elliptic(squared)
    if tangent <= 1:
        return eccentricity / (second - squared * first)
    return eccentricity / (math.sqrt(squared) * (first - second))


def _elliptic(squared: float) -> tuple[float, float]:
    """K and E of the modulus whose complement has that square, by means (Gauss)."""
    arithmetic, geometric = 1.0, math.sqrt(squared)
    lost, weight = (1 - squared) / 2, 0.5
    while abs(arithmetic - geometric) > 1e-15 * arithmetic:
        half = (arithmetic - geometric) / 2
        arithmetic, geometric = (arithmetic + geometric) / 2, math.sqrt(arithmetic * geometric)
        weight *= 2
        lost += weight * half**2
    first = math.pi / (2 * arithmetic)
    return first, first * (1 - lost)
