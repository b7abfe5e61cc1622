"""How far stripping strays: the blade's own spread, and how round and centred a cable is."""

import math
from dataclasses import dataclass

from reelwright.core.ends.strip.touch import offset_limit_m
from reelwright.core.errors import BadValue
from reelwright.core.parts.bundle import tightest_bundle_diameter_m
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.core.quantities.guard import require_between, require_not_negative
from reelwright.core.verdicts import Basis, Source

TOLERANCE_DEVIATIONS_RATIO = 3.0
"""Standard deviations in the half width of a maker's band, as in the sum of squares of a tolerance
stack: convention, no published source for any one cable."""


@dataclass(frozen=True, kw_only=True)
class StripSpread:
    """What a stripper and a cable stray by; each from the shop's own measurements where there are.

    ``blade_m``, ``clamp_m``: standard deviations, in m, of the closing diameter and of where the
    clamp holds the cable's axis, in each direction. Concentricity of a wall [1]: its thinnest over
    its thickest, the least the maker keeps. ``jacket_ovality_share``: largest less smallest
    diameter over the nominal one [1]. ``source``: who says so.
    """

    blade_m: float
    clamp_m: float
    dielectric_concentricity_ratio: float
    jacket_concentricity_ratio: float
    jacket_ovality_share: float
    source: Source

    def __post_init__(self) -> None:
        require_not_negative(self, "blade_m", "clamp_m")
        for field in ("dielectric_concentricity_ratio", "jacket_concentricity_ratio"):
            require_between(self, field, low=0, high=1)
            if getattr(self, field) == 0:
                raise BadValue(
                    owner="StripSpread", field=field, value=0, accepted="above 0, at most 1"
                )
        require_between(self, "jacket_ovality_share", low=0, high=0.5)


COMMON_STRIP_SPREAD = StripSpread(
    blade_m=0.02e-3,
    clamp_m=0.01e-3,
    dielectric_concentricity_ratio=0.95,
    jacket_concentricity_ratio=0.90,
    jacket_ovality_share=0.01,
    source=Source(
        text="rotary stripper with fresh blades, cable as usual", basis=Basis.COMMON_PRACTICE
    ),
)
"""Until the shop has measured its own; common practice, no published source."""


def deviation_m(tolerance_m: float) -> float:
    """Return the standard deviation [m] that stands for a maker's half width ``tolerance_m``."""
    return tolerance_m / TOLERANCE_DEVIATIONS_RATIO


def under_jacket(cable: Cable) -> Layer | None:
    """Return what lies under the jacket as one round layer; None where nothing is known of it.

    Several cores without a braid: the smallest circle around them.
    """
    braid = cable.layer(LayerRole.BRAID)
    if braid is not None:
        return braid
    core = cable.layer(LayerRole.CORE)
    if core is None:
        return cable.layer(LayerRole.DIELECTRIC) or cable.layer(LayerRole.CONDUCTOR)
    if cable.conductors == 1:
        return core
    ratio = tightest_bundle_diameter_m(cable_diameter_m=1.0, count=cable.conductors)
    return Layer(
        role=LayerRole.CORE,
        material=core.material,
        outside_diameter_m=core.outside_diameter_m * ratio,
        tolerance_m=core.tolerance_m * ratio,
    )


def conductor_offset_limit_m(cable: Cable, spread: StripSpread) -> float | None:
    """Return how far [m] the conductor may lie beside its insulation's axis; None: not known."""
    conductor = cable.layer(LayerRole.CONDUCTOR)
    around = cable.layer(LayerRole.DIELECTRIC) or cable.layer(LayerRole.CORE)
    if conductor is None or around is None:
        return None
    return offset_limit_m(
        wall_m=(around.outside_diameter_m - conductor.outside_diameter_m) / 2,
        concentricity_ratio=spread.dielectric_concentricity_ratio,
    )


def offset_spread_m(cable: Cable, spared: LayerRole, spread: StripSpread) -> float:
    """Return the standard deviation [m], in each direction, of a layer's axis from the blade's.

    The clamp holds the jacket, so its wall counts for everything beneath; a coax's conductor lies
    in its dielectric besides. A core that is bared by itself is held by itself.
    """
    parts = [spread.clamp_m]
    if spared is LayerRole.CONDUCTOR:
        own = conductor_offset_limit_m(cable, spread)
        if own is not None:
            parts.append(deviation_m(own))
    core_alone = spared is LayerRole.CONDUCTOR and cable.family is not Family.COAX
    beneath = under_jacket(cable)
    if beneath is not None and (not core_alone or cable.layer(LayerRole.CORE) is None):
        wall_m = (cable.jacket.outside_diameter_m - beneath.outside_diameter_m) / 2
        limit_m = offset_limit_m(
            wall_m=max(0.0, wall_m), concentricity_ratio=spread.jacket_concentricity_ratio
        )
        parts.append(deviation_m(limit_m))
    return math.hypot(*parts)
