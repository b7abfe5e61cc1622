"""Insulations: permittivity, loss and their spread, with temperature, and foams by mixing."""

from dataclasses import dataclass

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.materials.causal import CausalDielectric
from reelwright.core.materials.dielectrics import (
    SOLID_POLYETHYLENE,
    SOLID_PTFE,
    Dielectric,
)
from reelwright.core.quantities.guard import require_given, require_positive
from reelwright.core.verdicts import Basis, Source

REFERENCE_CELSIUS = 20.0


@dataclass(frozen=True, kw_only=True)
class Insulation:
    """A dielectric with what a line needs besides.

    ``reference_hz`` [Hz] is where permittivity and loss tangent are stated;
    ``permittivity_relative_uncertainty`` [1] how far compounds of that name differ;
    ``volume_expansion_per_k`` [1/K] gives the temperature law of a material that is not polar
    (Clausius-Mossotti: fewer molecules in the field), ``None`` where that law does not hold.
    """

    dielectric: Dielectric
    reference_hz: float
    permittivity_relative_uncertainty: float
    volume_expansion_per_k: float | None
    source: Source

    def __post_init__(self) -> None:
        require_positive(self, "reference_hz", "permittivity_relative_uncertainty")
        require_given(self, "volume_expansion_per_k")

    @property
    def loss_tangent(self) -> float:
        """Middle of the band of loss tangents [1]."""
        return (self.dielectric.loss_tangent_low + self.dielectric.loss_tangent_high) / 2

    @property
    def loss_tangent_uncertainty_ratio(self) -> float:
        """Standard uncertainty of the loss tangent over itself [1]: an even band, half width/√3."""
        low, high = self.dielectric.loss_tangent_low, self.dielectric.loss_tangent_high
        return (high - low) / (high + low) / 3**0.5

    def permittivity_at(self, temperature_celsius: float) -> float:
        """Return the relative permittivity [1] at a temperature [°C] of −60 to 120.

        (ε − 1)/(ε + 2) follows the density: Clausius-Mossotti, for materials that are not polar.
        Raises BadValue outside that range, and for any temperature but 20 °C where no law is known.
        """
        away = temperature_celsius - REFERENCE_CELSIUS
        if not -60 <= temperature_celsius <= 120 or (
            self.volume_expansion_per_k is None and away != 0
        ):
            known = self.volume_expansion_per_k is not None
            raise BadValue(
                owner="Insulation",
                field="temperature_celsius",
                value=temperature_celsius,
                accepted="-60 to 120"
                if known
                else f"20: no law is known for {self.dielectric.name}",
            )
        stated = self.dielectric.relative_permittivity
        expansion = self.volume_expansion_per_k or 0.0
        share = (stated - 1) / (stated + 2) / (1 + expansion * away)
        return (1 + 2 * share) / (1 - share)

    def causal_at(self, temperature_celsius: float) -> CausalDielectric:
        """Return the causal law through the stated values at a temperature [°C].

        Where no temperature law is known, the permittivity is kept as it is at 20 °C; the loss
        tangent always is. Raises BadValue outside −60 to 120 °C.
        """
        known = self.volume_expansion_per_k is not None
        return CausalDielectric(
            relative_permittivity=self.permittivity_at(
                temperature_celsius if known else REFERENCE_CELSIUS
            ),
            loss_tangent=self.loss_tangent,
            reference_hz=self.reference_hz,
        )


def mixed_permittivity(*, solid_permittivity: complex, gas_fraction: float) -> complex:
    """Return the complex permittivity [1] of a foam of ``gas_fraction`` [1] of gas by volume.

    Looyenga, Physica 31 (1965) 401: ε^(1/3) mixes by volume, here with complex ε, so that the loss
    of the foam follows too. The loss is written as −Im ε. Raises BadValue outside 0 to 1.
    """
    if not 0 <= gas_fraction < 1:
        raise BadValue(
            owner="mixed_permittivity",
            field="gas_fraction",
            value=gas_fraction,
            accepted="0 to below 1",
        )
    root = gas_fraction + (1 - gas_fraction) * complex(solid_permittivity) ** (1 / 3)
    return complex(root**3)


def gas_fraction(*, solid_permittivity: float, foam_permittivity: float) -> float:
    """Return the part of gas [1] that takes a solid's permittivity [1] down to the foam's [1]."""
    if not 1 < foam_permittivity <= solid_permittivity:
        raise BadValue(
            owner="gas_fraction",
            field="foam_permittivity",
            value=foam_permittivity,
            accepted=f"above 1, at most {solid_permittivity}",
        )
    roots = np.cbrt([solid_permittivity, foam_permittivity])
    return float((roots[0] - roots[1]) / (roots[0] - 1))


def foam_of(solid: Insulation, *, name: str, relative_permittivity: float) -> Insulation:
    """Return the foam of ``solid`` that has a ``relative_permittivity`` [1]; loss by Looyenga."""
    dielectric = solid.dielectric
    gas = gas_fraction(
        solid_permittivity=dielectric.relative_permittivity,
        foam_permittivity=relative_permittivity,
    )
    tangents = []
    for tangent in (dielectric.loss_tangent_low, dielectric.loss_tangent_high):
        mixed = mixed_permittivity(
            solid_permittivity=dielectric.relative_permittivity * (1 - 1j * tangent),
            gas_fraction=gas,
        )
        tangents.append(-mixed.imag / mixed.real)
    source = Source(
        text=f"Looyenga's law of mixing, {gas * 100:.0f} % gas in: {solid.source.text}",
        basis=Basis.COMPUTED,
    )
    return Insulation(
        dielectric=Dielectric(
            name=name,
            relative_permittivity=relative_permittivity,
            loss_tangent_low=tangents[0],
            loss_tangent_high=tangents[1],
            source=source,
        ),
        reference_hz=solid.reference_hz,
        # The gas content of a foam is held to a few per cent.
        permittivity_relative_uncertainty=0.015,
        volume_expansion_per_k=solid.volume_expansion_per_k,
        source=source,
    )


def _solid(
    dielectric: Dielectric, reference_hz: float, uncertainty: float, expansion_per_k: float | None
) -> Insulation:
    return Insulation(
        dielectric=dielectric,
        reference_hz=reference_hz,
        permittivity_relative_uncertainty=uncertainty,
        volume_expansion_per_k=expansion_per_k,
        source=dielectric.source,
    )


def _plastic(name: str, permittivity: float, low: float, high: float, text: str) -> Dielectric:
    return Dielectric(
        name=name,
        relative_permittivity=permittivity,
        loss_tangent_low=low,
        loss_tangent_high=high,
        source=Source(text=text, basis=Basis.FROM_MEMORY),
    )


PE = _solid(SOLID_POLYETHYLENE, 1e9, 0.01, 6e-4)
PTFE = _solid(SOLID_PTFE, 1e9, 0.01, 3.6e-4)
PP = _solid(
    _plastic("solid polypropylene", 2.25, 2e-4, 5e-4, "handbooks of plastics, 2.2 to 2.3 at 1 MHz"),
    1e6,
    0.015,
    4.5e-4,
)
FEP = _solid(
    _plastic(
        "solid fluorinated ethylene propylene",
        2.1,
        3e-4,
        1e-3,
        "handbooks of plastics, 1 MHz-1 GHz",
    ),
    1e9,
    0.015,
    4e-4,
)
PVC = _solid(
    _plastic(
        "plasticised polyvinyl chloride",
        3.5,
        0.03,
        0.1,
        "handbooks of plastics, 1 MHz; differs widely from compound to compound",
    ),
    1e6,
    0.15,
    None,
)
FOAM_PE = foam_of(PE, name="gas-foamed polyethylene, 58 % gas", relative_permittivity=1.45)
FOAM_PE_CHEMICAL = foam_of(PE, name="chemically foamed polyethylene", relative_permittivity=1.50)
FOAM_FEP = foam_of(FEP, name="foamed fluorinated ethylene propylene", relative_permittivity=1.417)
INSULATIONS = (PE, PP, FEP, PTFE, PVC, FOAM_PE, FOAM_PE_CHEMICAL, FOAM_FEP)
