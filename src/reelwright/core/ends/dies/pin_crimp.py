"""What a hexagon does to a pin: where its metal goes, and whether it can go there at all."""

import math
from dataclasses import dataclass, replace

from reelwright.core.ends.dies.hexagon import (
    ACROSS_CORNERS_PER_ACROSS_FLATS,
    PIN_REDUCTION_MOST,
    STRAND_PACKING_LIMIT,
    hex_across_flats_m,
    hex_area_m2,
    judge_pin_die,
)
from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector, Method
from reelwright.core.parts.drawing import Drawing
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.core.quantities.guard import require_given, require_positive
from reelwright.core.quantities.show import show_dimension, show_percent
from reelwright.core.verdicts import Basis, Check, Outcome, Source

_GEOMETRY = Source(text="geometry of the hexagon and conservation of volume", basis=Basis.COMPUTED)


@dataclass(frozen=True, kw_only=True)
class PinJoint:
    """A pin's barrel on its conductor, as drawings give them.

    ``barrel_outside_m`` and ``barrel_bore_m`` [m] with half their tolerance, ``None`` where the
    drawing states none; ``crimped_length_m`` [m]: as ``crimped_length_m``, ``None`` where the
    drawing does not say; ``conductor_m2`` [m²] is its metal at the nominal diameter, less than its
    circle where it is ``stranded``.
    """

    barrel_outside_m: float
    barrel_outside_tolerance_m: float | None
    barrel_bore_m: float
    barrel_bore_tolerance_m: float | None
    crimped_length_m: float | None
    conductor: Layer
    conductor_m2: float
    stranded: bool

    def __post_init__(self) -> None:
        require_positive(self, "barrel_outside_m", "barrel_bore_m", "conductor_m2")
        require_given(self, "crimped_length_m")
        require_given(self, "barrel_outside_tolerance_m", "barrel_bore_tolerance_m", positive=False)
        wall_m = self.barrel_outside_m - self.barrel_bore_m
        if wall_m <= (self.barrel_outside_tolerance_m or 0) + (self.barrel_bore_tolerance_m or 0):
            raise BadValue(
                owner="PinJoint",
                field="barrel_bore_m",
                value=self.barrel_bore_m,
                accepted=f"below the outside of {self.barrel_outside_m}, tolerances included",
            )

    @property
    def barrel_m2(self) -> float:
        """The cross-section of the barrel's wall [m²]."""
        return math.pi / 4 * (self.barrel_outside_m**2 - self.barrel_bore_m**2)

    def metal_m2(self, diameter_m: float) -> float:
        """Return barrel and conductor together [m²], the conductor ``diameter_m`` [m] thick."""
        scale = (diameter_m / self.conductor.outside_diameter_m) ** 2
        return self.barrel_m2 + self.conductor_m2 * scale

    def at_limit(self, *, most: bool) -> "PinJoint":
        """Return the joint with the most or the least metal in its barrel that the drawing lets."""
        side = 1 if most else -1
        return replace(
            self,
            barrel_outside_m=self.barrel_outside_m + side * (self.barrel_outside_tolerance_m or 0),
            barrel_bore_m=self.barrel_bore_m - side * (self.barrel_bore_tolerance_m or 0),
            barrel_outside_tolerance_m=0.0,
            barrel_bore_tolerance_m=0.0,
        )

    @property
    def smallest_hexagon_m(self) -> float:
        """Across flats [m] of the smallest hexagon that the metal of the thickest barrel on the
        thickest conductor goes into.

        Less metal by ``PIN_REDUCTION_MOST``: common practice, no published source.
        """
        thick = self.at_limit(most=True)
        return hex_across_flats_m(
            (1 - PIN_REDUCTION_MOST) * thick.metal_m2(self.conductor.largest_m)
        )


def crimped_length_m(drawing: Drawing, *, conductor_length_m: float | None) -> float | None:
    """Return over how much of its length [m] a pin is crimped at most; ``None``: not known.

    What the drawing states counts. Without it, the die may close from the mouth of the barrel to
    the far edge of the inspection hole: past that no die closes, since the hole must stay open to
    show the conductor. A drawing without a hole lets it close on all of the barrel. In each case no
    further than the conductor reaches, ``conductor_length_m`` [m], ``None`` where it is not known
    yet: an empty barrel is not crimped, it would only collapse. All of these overstate rather than
    understate what is pressed, and with it how much the pin grows and the force that it asks for:
    the safe side for both. Common practice, no published source.
    """
    reach_m = drawing.pin_crimp_length_m or drawing.hole_far_edge_m or drawing.barrel_depth_m
    known = [each for each in (reach_m, conductor_length_m) if each is not None]
    return min(known, default=None)


def pin_joint(
    cable: Cable, connector: Connector, *, conductor_length_m: float | None = None
) -> PinJoint | None:
    """Return the pin of a crimped connector on a cable; ``None`` where the drawing gives none.

    ``conductor_length_m`` [m]: how much of the conductor lies in the barrel, ``None`` where no
    strip is laid down yet.
    """
    drawing, conductor = connector.drawing, cable.layer(LayerRole.CONDUCTOR)
    if connector.method is not Method.CRIMP_CRIMP or drawing is None or conductor is None:
        return None
    outside_m, bore_m = drawing.barrel_outside_m, drawing.barrel_bore_m
    if outside_m is None or bore_m is None or not 0 < bore_m < outside_m:
        return None
    circle_m2 = math.pi / 4 * conductor.outside_diameter_m**2
    return PinJoint(
        barrel_outside_m=outside_m,
        barrel_outside_tolerance_m=drawing.tolerances.barrel_outside_m,
        barrel_bore_m=bore_m,
        barrel_bore_tolerance_m=drawing.tolerances.barrel_bore_m,
        crimped_length_m=crimped_length_m(drawing, conductor_length_m=conductor_length_m),
        conductor=conductor,
        conductor_m2=cable.sheet.conductor_area_m2 or circle_m2,
        stranded=not cable.solid_conductor,
    )


def judge_pin_joint(joint: PinJoint, *, across_flats_m: float) -> Check:
    """Return whether a hexagon of ``across_flats_m`` [m] grips and spares it (``hexagon``)."""
    return judge_pin_die(
        barrel_outside_m=joint.barrel_outside_m,
        barrel_outside_tolerance_m=joint.barrel_outside_tolerance_m,
        barrel_bore_m=joint.barrel_bore_m,
        barrel_bore_tolerance_m=joint.barrel_bore_tolerance_m,
        conductor=joint.conductor,
        conductor_area_m2=joint.conductor_m2,
        across_flats_m=across_flats_m,
    )


@dataclass(frozen=True, kw_only=True)
class PinOutcome:
    """What one hexagon makes of a pin, on the nominal conductor in the nominal barrel.

    ``hexagon_m2`` and ``metal_m2`` [m²] after and before; ``free_m2`` [m²] stays empty;
    ``reduction_fraction`` [1] as ``pin_reduction``; ``inside_fill_share`` [1] is the conductor's
    metal over what the barrel leaves inside the hexagon, 1 where all is solid;
    ``elongation_most_m`` [m] is how much longer the pin grows if all of ``crimped_length_m`` is in
    the die, not known how much of it forwards; ``None`` where that length is not known.
    """

    across_flats_m: float
    hexagon_m2: float
    metal_m2: float
    free_m2: float
    reduction_fraction: float
    inside_fill_share: float
    elongation_most_m: float | None
    checks: tuple[Check, ...]

    @property
    def outcome(self) -> Outcome:
        """As good as the worst of its checks."""
        return max((check.outcome for check in self.checks), key=lambda each: each.rank)


def pin_outcome(joint: PinJoint, *, across_flats_m: float) -> PinOutcome:
    """Return what a hexagon of ``across_flats_m`` [m] makes of the pin. Conservation of volume.

    Raises BadValue for a width that is not above zero.
    """
    if not (math.isfinite(across_flats_m) and across_flats_m > 0):
        raise BadValue(
            owner="pin_outcome", field="across_flats_m", value=across_flats_m, accepted="above zero"
        )
    hexagon_m2 = hex_area_m2(across_flats_m)
    metal_m2 = joint.metal_m2(joint.conductor.outside_diameter_m)
    # A wall that alone fills the hexagon leaves the conductor no room: all is solid.
    inside_m2 = max(hexagon_m2 - joint.barrel_m2, joint.conductor_m2)
    length_m, grows = joint.crimped_length_m, max(0.0, metal_m2 / hexagon_m2 - 1)
    checks = [judge_pin_joint(joint, across_flats_m=across_flats_m)]
    if joint.stranded:
        checks.append(_judge_strands(joint, hexagon_m2))
    checks.append(judge_mouth("barrel", joint.barrel_outside_m, across_flats_m))
    return PinOutcome(
        across_flats_m=across_flats_m,
        hexagon_m2=hexagon_m2,
        metal_m2=metal_m2,
        free_m2=max(0.0, hexagon_m2 - metal_m2),
        reduction_fraction=1 - hexagon_m2 / metal_m2,
        inside_fill_share=joint.conductor_m2 / inside_m2,
        elongation_most_m=None if length_m is None else length_m * grows,
        checks=tuple(checks),
    )


def _judge_strands(joint: PinJoint, hexagon_m2: float) -> Check:
    """Strands lie closer before they deform; until then nothing presses on them."""
    scale = (joint.conductor.smallest_m / joint.conductor.outside_diameter_m) ** 2
    metal_m2 = joint.conductor_m2 * scale
    fill = metal_m2 / max(hexagon_m2 - joint.barrel_m2, metal_m2)
    if fill <= STRAND_PACKING_LIMIT:
        told = "they only lie closer, none is pressed: the bundle can be drawn out"
    elif fill < 1:
        told = "they are pressed out of round, with room left between them"
    else:
        told = "they are one solid piece with the barrel"
    return Check(
        name="strands",
        outcome=Outcome.BAD if fill <= STRAND_PACKING_LIMIT else Outcome.GOOD,
        sentence=(
            f"the strands fill {show_percent(fill, decimals=0)} of what the barrel leaves them; "
            f"round ones lie no closer than {show_percent(STRAND_PACKING_LIMIT, decimals=0)}: "
            f"{told}"
        ),
        source=Source(text="densest packing of equal circles, π/(2√3)", basis=Basis.COMPUTED),
        value=fill * 100,
        limit=STRAND_PACKING_LIMIT * 100,
        margin=(fill - STRAND_PACKING_LIMIT) * 100,
        unit="%",
    )


def judge_mouth(what: str, outside_m: float, across_flats_m: float) -> Check:
    """Return whether a round part of ``outside_m`` [m] goes into the mouth of the open cavity.

    The halves of a hexagonal die part at two of its corners, so the mouth is as wide as the
    hexagon across corners; a wider part is pinched between them. Geometry.
    """
    mouth_m = across_flats_m * ACROSS_CORNERS_PER_ACROSS_FLATS
    spare_m = mouth_m - outside_m
    sizes = f"{what} Ø {show_dimension(outside_m)}, mouth across corners {show_dimension(mouth_m)}"
    return Check(
        name=f"mouth of the cavity for the {what}",
        outcome=Outcome.GOOD if spare_m >= 0 else Outcome.CAUTION,
        sentence=f"{sizes}: {show_dimension(spare_m)} to spare"
        if spare_m >= 0
        else f"{sizes}: the halves pinch {show_dimension(-spare_m)} of it into ears at the joint",
        source=_GEOMETRY,
        value=outside_m * 1e3,
        limit=mouth_m * 1e3,
        margin=spare_m * 1e3,
        unit="mm",
    )
