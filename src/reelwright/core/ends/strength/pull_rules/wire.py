"""The wire that a pull rule asks for: its metal, its size and whether it is one strand."""

import enum
import math
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.layers import LayerRole
from reelwright.core.quantities.convert import LARGEST_AWG, SMALLEST_AWG, awg_area_m2
from reelwright.core.quantities.guard import require_given
from reelwright.core.quantities.show_scaled import show_area_m2, show_awg
from reelwright.core.verdicts import Reason

GAUGE_WITHIN_FRACTION = 0.01
"""How far a stated area may lie from a gauge's: what rounding to three digits takes. One gauge and
the next are 26 % apart, so nothing in between is taken for either."""


class WireMetal(enum.StrEnum):
    """What the wire is made of, as far as a pull rule asks. Plating does not count."""

    COPPER = "copper"
    CLAD = "clad wire"
    OTHER = "another metal"
    UNKNOWN = "unknown metal"


@dataclass(frozen=True, kw_only=True)
class Wire:
    """One conductor as it is pulled; ``None``: not known, or it has none such.

    ``awg`` is its gauge where it is of one (0 is 1/0), ``area_m2`` [m²] its metal, ``solid``
    whether it is one strand, ``coax`` whether it is the middle of a coax, which is pulled with its
    screen, ``grounding_lead`` whether it is the lead of a screen, ``break_n`` [N] what the bare
    wire was measured or is stated to hold.
    """

    metal: WireMetal
    awg: int | None
    area_m2: float | None
    solid: bool | None
    coax: bool
    grounding_lead: bool
    break_n: float | None

    def __post_init__(self) -> None:
        require_given(self, "area_m2", "break_n")
        if self.awg is not None and not LARGEST_AWG <= self.awg <= SMALLEST_AWG:
            raise BadValue(
                owner="Wire",
                field="awg",
                value=self.awg,
                accepted=f"{LARGEST_AWG} (which is 4/0) to {SMALLEST_AWG}",
            )

    @property
    def told(self) -> str:
        """The wire in words: "14 AWG copper, stranded"."""
        if self.awg is not None:
            size = f"{show_awg(self.awg)} "
        else:
            size = "" if self.area_m2 is None else f"{show_area_m2(self.area_m2)} "
        form = {True: ", solid", False: ", stranded", None: ""}[self.solid]
        return f"{size}{self.metal}{form}"


def gauge_of(area_m2: float) -> int | None:
    """Return the gauge (1; 0 is 1/0) whose solid area ``area_m2`` [m²] is, or None where of none.

    ASTM B258; a stated area counts within ``GAUGE_WITHIN_FRACTION`` of it.
    """
    return next(
        (
            awg
            for awg in range(LARGEST_AWG, SMALLEST_AWG + 1)
            if math.isclose(area_m2, awg_area_m2(awg), rel_tol=GAUGE_WITHIN_FRACTION)
        ),
        None,
    )


def metal_named(material: str) -> WireMetal:
    """Return the metal that a layer's material names: "tinned copper" is copper, "CCA" is not."""
    words = material.casefold().replace("-", " ").replace(",", " ").split()
    if {"clad", "ccs", "cca", "ccam"} & set(words):
        return WireMetal.CLAD
    if {"steel", "aluminium", "aluminum", "bronze", "brass", "alloy"} & set(words):
        return WireMetal.OTHER
    return WireMetal.COPPER if "copper" in words else WireMetal.UNKNOWN


def wire_of(cable: Cable) -> Wire | Reason:
    """Return one conductor of a cable as pull rules ask for it; a Reason where it has none."""
    layer = cable.layer(LayerRole.CONDUCTOR)
    if layer is None:
        return Reason(
            code="no_wire", sentence=f"{cable.code} has no wire, and pull rules are for wires."
        )
    area_m2 = cable.sheet.conductor_area_m2
    if area_m2 is None and cable.solid_conductor:
        area_m2 = math.pi / 4 * layer.outside_diameter_m**2
    return Wire(
        metal=metal_named(layer.material),
        awg=None if area_m2 is None else gauge_of(area_m2),
        area_m2=area_m2,
        solid=cable.solid_conductor,
        coax=cable.family is Family.COAX,
        grounding_lead=False,
        break_n=None,
    )
