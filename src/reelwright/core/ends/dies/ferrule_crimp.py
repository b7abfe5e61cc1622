"""What a hexagon does to a ferrule: how it presses the braid on the stem, and what stays empty."""

import math
from dataclasses import dataclass, replace

from reelwright.core.ends.dies.hexagon import (
    ferrule_interference,
    hex_across_flats_m,
    hex_area_m2,
    judge_ferrule_die,
)
from reelwright.core.ends.dies.pin_crimp import judge_mouth
from reelwright.core.errors import BadValue
from reelwright.core.materials.metals import COPPER
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.layers import LayerRole
from reelwright.core.quantities.guard import require_given, require_not_negative, require_positive
from reelwright.core.quantities.show import show_dimension, show_percent
from reelwright.core.verdicts import Basis, Check, Outcome, Source

_BALANCE = Source(
    text="areas of ferrule, braid, stem and hexagon; the braid's metal from the resistance of the "
    "screen, as if all of it were copper",
    basis=Basis.COMPUTED,
)


@dataclass(frozen=True, kw_only=True)
class FerruleJoint:
    """A ferrule over a braid over a stem, as drawings give them, all in metres.

    ``stem_tolerance_m``, ``bore_tolerance_m`` and ``outside_tolerance_m`` [m] are half tolerances,
    ``None`` where the drawing states none. ``braid_stack_m`` [m] is the braid of both sides and
    ``braid_spread_m`` [m] how much thinner or thicker it may be; ``braid_m2`` [m²] its metal in a
    cut across, ``None``: not known.
    """

    stem_outside_m: float
    stem_tolerance_m: float | None
    ferrule_bore_m: float
    bore_tolerance_m: float | None
    ferrule_outside_m: float
    outside_tolerance_m: float | None
    ferrule_length_m: float | None
    braid_stack_m: float
    braid_spread_m: float
    braid_m2: float | None

    def __post_init__(self) -> None:
        require_positive(
            self, "stem_outside_m", "ferrule_bore_m", "ferrule_outside_m", "braid_stack_m"
        )
        require_not_negative(self, "braid_spread_m")
        require_given(self, "ferrule_length_m", "braid_m2")
        require_given(
            self, "stem_tolerance_m", "bore_tolerance_m", "outside_tolerance_m", positive=False
        )
        for field, most_m in (
            ("ferrule_bore_m", self.ferrule_outside_m),
            ("stem_outside_m", self.ferrule_bore_m),
            ("braid_spread_m", self.braid_stack_m),
        ):
            if getattr(self, field) >= most_m:
                raise BadValue(
                    owner="FerruleJoint",
                    field=field,
                    value=getattr(self, field),
                    accepted=f"below {most_m}",
                )

    @property
    def wall_m(self) -> float:
        """The wall of the ferrule [m]."""
        return (self.ferrule_outside_m - self.ferrule_bore_m) / 2

    @property
    def wall_tolerance_m(self) -> float | None:
        """By how much that wall may be thinner or thicker [m]; ``None``: none is stated."""
        if self.bore_tolerance_m is None and self.outside_tolerance_m is None:
            return None
        return ((self.bore_tolerance_m or 0.0) + (self.outside_tolerance_m or 0.0)) / 2

    def at_limit(self, *, most: bool) -> "FerruleJoint":
        """Return the joint with stem and ferrule as thick or as thin as the drawing lets them."""
        side = 1 if most else -1
        return replace(
            self,
            stem_outside_m=self.stem_outside_m + side * (self.stem_tolerance_m or 0.0),
            ferrule_bore_m=self.ferrule_bore_m - side * (self.bore_tolerance_m or 0.0),
            ferrule_outside_m=self.ferrule_outside_m + side * (self.outside_tolerance_m or 0.0),
            stem_tolerance_m=0.0,
            bore_tolerance_m=0.0,
            outside_tolerance_m=0.0,
        )

    @property
    def braid_metal_share(self) -> float | None:
        """How much of the braid's ring over the stem is metal [1]; ``None``: not known."""
        if self.braid_m2 is None:
            return None
        over_m = self.stem_outside_m + self.braid_stack_m
        ring_m2 = math.pi / 4 * (over_m**2 - self.stem_outside_m**2)
        # A screen's resistance counts its foil too, which can make the braid look too full.
        return min(1.0, self.braid_m2 / ring_m2)

    @property
    def smallest_hexagon_m(self) -> float:
        """Across flats [m] of the smallest hexagon that does not yet press solid metal on the stem.

        Under its flats the braid is solid; as a whole it holds stem, braid and ferrule, each at
        its thickest. The wall of the ferrule is taken to keep its thickness and the stem to keep
        its size.
        """
        solid, thick = self.braid_metal_share or 0.0, self.at_limit(most=True)
        flats_m = thick.stem_outside_m + solid * (self.braid_stack_m + self.braid_spread_m)
        ferrule_m2 = math.pi / 4 * (thick.ferrule_outside_m**2 - thick.ferrule_bore_m**2)
        full_m2 = math.pi / 4 * thick.stem_outside_m**2 + ferrule_m2 + (self.braid_m2 or 0.0)
        return max(flats_m + 2 * thick.wall_m, hex_across_flats_m(full_m2))


def ferrule_joint(cable: Cable, connector: Connector) -> FerruleJoint | None:
    """Return the ferrule of a connector on a cable; ``None`` where not all of it is given.

    The braid lies on what is under it and takes part in its tolerance; only what its own exceeds
    that by changes its thickness.
    """
    drawing, braid = connector.drawing, cable.layer(LayerRole.BRAID)
    under = cable.layer(LayerRole.FOIL) or cable.layer(LayerRole.DIELECTRIC)
    if drawing is None or braid is None or under is None:
        return None
    stem_m, bore_m = drawing.stem_outside_m, drawing.ferrule_bore_m
    outside_m = drawing.ferrule_outside_m
    if stem_m is None or bore_m is None or outside_m is None or not 0 < stem_m < bore_m < outside_m:
        return None
    stack_m = braid.outside_diameter_m - under.outside_diameter_m
    spread_m = max(0.0, braid.tolerance_m - under.tolerance_m)
    if stack_m <= spread_m:
        return None
    screen_ohm_per_m = cable.sheet.resistance_screen_ohm_per_m
    return FerruleJoint(
        stem_outside_m=stem_m,
        stem_tolerance_m=drawing.tolerances.stem_outside_m,
        ferrule_bore_m=bore_m,
        bore_tolerance_m=drawing.tolerances.ferrule_bore_m,
        ferrule_outside_m=outside_m,
        outside_tolerance_m=drawing.tolerances.ferrule_outside_m,
        ferrule_length_m=drawing.ferrule_length_m,
        braid_stack_m=stack_m,
        braid_spread_m=spread_m,
        braid_m2=None if screen_ohm_per_m is None else COPPER.resistivity_ohm_m / screen_ohm_per_m,
    )


@dataclass(frozen=True, kw_only=True)
class FerruleOutcome:
    """What one hexagon makes of a ferrule, on nominal parts.

    ``inside_m`` [m] is what is left between opposite walls, ``interference_fraction`` [1] as
    ``ferrule_interference``; ``ring_fill_share`` [1] is the metal of ferrule and braid over what
    lies between stem and hexagon, ``None``: not known; ``corner_radius_m`` [m] is how round the
    ferrule stays in the hexagon's corners if its wall bends and does not stretch, 0 where it fills
    them; ``surplus_wall_m`` [m] is how much longer its outline is than the hexagon's, else 0.
    """

    across_flats_m: float
    inside_m: float
    interference_fraction: float
    ring_fill_share: float | None
    corner_radius_m: float
    surplus_wall_m: float
    checks: tuple[Check, ...]

    @property
    def outcome(self) -> Outcome:
        """As good as the worst of its checks."""
        return max((check.outcome for check in self.checks), key=lambda each: each.rank)


def judge_ferrule_joint(joint: FerruleJoint, *, across_flats_m: float) -> Check:
    """Return whether a hexagon of ``across_flats_m`` [m] holds and spares it (``hexagon``)."""
    return judge_ferrule_die(
        stem_outside_m=joint.stem_outside_m,
        stem_tolerance_m=joint.stem_tolerance_m,
        braid_thickness_m=joint.braid_stack_m / 2,
        braid_spread_m=joint.braid_spread_m,
        braid_metal_share=joint.braid_metal_share,
        ferrule_wall_m=joint.wall_m,
        ferrule_wall_tolerance_m=joint.wall_tolerance_m,
        across_flats_m=across_flats_m,
    )


def ferrule_outcome(joint: FerruleJoint, *, across_flats_m: float) -> FerruleOutcome:
    """Return what a hexagon of ``across_flats_m`` [m] makes of the ferrule. Geometry.

    Raises BadValue for a width that is not above zero.
    """
    if not (math.isfinite(across_flats_m) and across_flats_m > 0):
        raise BadValue(
            owner="ferrule_outcome",
            field="across_flats_m",
            value=across_flats_m,
            accepted="above zero",
        )
    checks = [judge_ferrule_joint(joint, across_flats_m=across_flats_m)]
    fill = _ring_fill(joint, across_flats_m)
    fullest = _ring_fill(joint.at_limit(most=True), across_flats_m)
    if fullest is not None:
        checks.append(_judge_ring(joint, fullest))
    outline_m, wall_m = 2 * math.sqrt(3) * across_flats_m, math.pi * joint.ferrule_outside_m
    checks.append(_judge_wall(outline_m, wall_m))
    checks.append(judge_mouth("ferrule", joint.ferrule_outside_m, across_flats_m))
    return FerruleOutcome(
        across_flats_m=across_flats_m,
        inside_m=across_flats_m - 2 * joint.wall_m,
        interference_fraction=ferrule_interference(
            stem_outside_m=joint.stem_outside_m,
            braid_thickness_m=joint.braid_stack_m / 2,
            ferrule_wall_m=joint.wall_m,
            across_flats_m=across_flats_m,
        ),
        ring_fill_share=fill,
        # Rounding all six corners to a radius r shortens the outline by (4√3 − 2π)·r.
        corner_radius_m=min(
            across_flats_m / 2,
            max(0.0, outline_m - wall_m) / (4 * math.sqrt(3) - 2 * math.pi),
        ),
        surplus_wall_m=max(0.0, wall_m - outline_m),
        checks=tuple(checks),
    )


def _ring_fill(joint: FerruleJoint, across_flats_m: float) -> float | None:
    if joint.braid_m2 is None:
        return None
    stem_m2 = math.pi / 4 * joint.stem_outside_m**2
    ferrule_m2 = math.pi / 4 * (joint.ferrule_outside_m**2 - joint.ferrule_bore_m**2)
    ring_m2 = hex_area_m2(across_flats_m) - stem_m2
    # A hexagon no larger than the stem leaves no ring: the metal has nowhere to go at all.
    return (ferrule_m2 + joint.braid_m2) / ring_m2 if ring_m2 > 0 else math.inf


def _judge_ring(joint: FerruleJoint, fill: float) -> Check:
    least = f"{show_dimension(joint.smallest_hexagon_m)} across flats is the least"
    if math.isinf(fill):
        told = f"the hexagon is no larger than the stem alone: {least}"
    elif fill > 1:
        told = (
            f"the metal of ferrule and braid would fill {show_percent(fill, decimals=0)} of what "
            f"lies between stem and hexagon: smaller than solid metal allows, {least}"
        )
    else:
        told = (
            f"the metal of ferrule and braid fills {show_percent(fill, decimals=0)} of what lies "
            "between stem and hexagon; the rest stays empty in the braid and the corners"
        )
    return Check(
        name="ring between stem and hexagon",
        outcome=Outcome.BAD if fill > 1 else Outcome.GOOD,
        sentence=told,
        source=_BALANCE,
        value=None if math.isinf(fill) else fill * 100,
        limit=100.0,
        margin=None if math.isinf(fill) else (1 - fill) * 100,
        unit="%",
    )


def _judge_wall(outline_m: float, wall_m: float) -> Check:
    spare_m = outline_m - wall_m
    return Check(
        name="wall of the ferrule round the hexagon",
        outcome=Outcome.GOOD if spare_m >= 0 else Outcome.CAUTION,
        sentence=(
            f"the hexagon's outline of {show_dimension(outline_m)} takes the wall's "
            f"{show_dimension(wall_m)}: no ears"
            if spare_m >= 0
            else f"the wall is {show_dimension(-spare_m)} longer than the hexagon's outline of "
            f"{show_dimension(outline_m)}: it thickens, or folds into ears between the flats"
        ),
        source=Source(text="outlines of tube and hexagon", basis=Basis.COMPUTED),
        value=wall_m * 1e3,
        limit=outline_m * 1e3,
        margin=spare_m * 1e3,
        unit="mm",
    )
