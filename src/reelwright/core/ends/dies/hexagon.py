"""Hexagonal dies: what they do to a pin and to a ferrule."""

import math

from reelwright.core.errors import BadValue
from reelwright.core.parts.layers import Layer
from reelwright.core.quantities.show import show_dimension, show_percent
from reelwright.core.verdicts import Basis, Check, Outcome, Source

ACROSS_CORNERS_PER_ACROSS_FLATS = 2 / math.sqrt(3)
"""Geometry of the regular hexagon."""

STRAND_PACKING_LIMIT = math.pi / (2 * math.sqrt(3))
"""Densest filling of the plane with equal circles: what strands reach before they deform."""

PIN_REDUCTION_AIM = (0.05, 0.15)
"""Fraction of the metal's cross-section; common practice, no published source."""

PIN_REDUCTION_MOST = 0.30
"""Fraction beyond which the metal of a pin cannot go: it would have to lengthen by two fifths, and
conductor and barrel tear before. Common practice, no published source."""

FERRULE_INTERFERENCE_AIM = (0.15, 0.35)
"""Fraction of the braid stack; common practice, no published source."""

_PRACTICE = Source(text="aim for hexagonal crimps", basis=Basis.COMMON_PRACTICE)


def hex_area_m2(across_flats_m: float) -> float:
    """Return the area of a regular hexagon: (√3/2)·AF². Geometry."""
    return math.sqrt(3) / 2 * across_flats_m**2


def hex_across_flats_m(area_m2: float) -> float:
    """Return the width across flats [m] of a regular hexagon of ``area_m2`` [m²]. Geometry."""
    if not (math.isfinite(area_m2) and area_m2 > 0):
        raise BadValue(
            owner="hex_across_flats_m", field="area_m2", value=area_m2, accepted="above zero"
        )
    return math.sqrt(area_m2 / hex_area_m2(1.0))


def pin_reduction(
    *,
    barrel_outside_m: float,
    barrel_bore_m: float,
    conductor_area_m2: float,
    across_flats_m: float,
) -> float:
    """Return by which fraction the metal's cross-section is reduced in the closed hexagon.

    1 − A_hex / (A_barrel + A_conductor), the metal taken to fill the hexagon; what does not fit
    lengthens the pin. Negative: the hexagon is larger than the metal, and nothing is held.
    Conservation of volume; range 5 to 15 % by common practice, no published source.
    """
    metal_m2 = math.pi / 4 * (barrel_outside_m**2 - barrel_bore_m**2) + conductor_area_m2
    return 1 - hex_area_m2(across_flats_m) / metal_m2


def ferrule_interference(
    *,
    stem_outside_m: float,
    braid_thickness_m: float,
    ferrule_wall_m: float,
    across_flats_m: float,
) -> float:
    """Return the diametral interference as a fraction of the braid stack (both sides).

    ((stem + 2·braid) − (AF − 2·wall)) / (2·braid). Negative: the braid is loose.
    Geometry; range 15 to 35 % by common practice, no published source.
    """
    stack_m = 2 * braid_thickness_m
    inside_closed_m = across_flats_m - 2 * ferrule_wall_m
    return (stem_outside_m + stack_m - inside_closed_m) / stack_m


def judge_pin_die(
    *,
    barrel_outside_m: float,
    barrel_outside_tolerance_m: float | None,
    barrel_bore_m: float,
    barrel_bore_tolerance_m: float | None,
    conductor: Layer,
    conductor_area_m2: float | None,
    across_flats_m: float,
) -> Check:
    """Return whether this hexagon grips the pin at the loosest and spares it at the tightest.

    Loosest: the thinnest conductor in a barrel with the least metal, its outside [m] at the lower
    and its bore [m] at the upper end of the tolerances; tightest: the other way round. A tolerance
    that the drawing does not state (``None``) counts as none, and the sentence says so.
    ``conductor_area_m2``: the metal of a stranded conductor; ``None``: that of its circle. A
    hexagon that the solid metal of the tightest does not go into is bad, with the smallest that it
    does.
    """
    outside_off_m, bore_off_m = barrel_outside_tolerance_m or 0.0, barrel_bore_tolerance_m or 0.0

    def metal_m2(diameter_m: float, side: int) -> float:
        scale = (diameter_m / conductor.outside_diameter_m) ** 2
        area_m2 = conductor_area_m2 or math.pi / 4 * conductor.outside_diameter_m**2
        outside_m = barrel_outside_m + side * outside_off_m
        bore_m = barrel_bore_m - side * bore_off_m
        return math.pi / 4 * (outside_m**2 - bore_m**2) + area_m2 * scale

    def reduction(diameter_m: float, side: int) -> float:
        return 1 - hex_area_m2(across_flats_m) / metal_m2(diameter_m, side)

    smallest_m = hex_across_flats_m((1 - PIN_REDUCTION_MOST) * metal_m2(conductor.largest_m, +1))
    return _judge_aim(
        name="pin die",
        value=reduction(conductor.outside_diameter_m, 0),
        loosest=reduction(conductor.smallest_m, -1),
        tightest=reduction(conductor.largest_m, +1),
        aim=PIN_REDUCTION_AIM,
        most=PIN_REDUCTION_MOST,
        told=f"pin die {show_dimension(across_flats_m)} across flats reduces the metal by",
        of=_of("barrel", barrel_outside_tolerance_m, barrel_bore_tolerance_m),
        consequence=(
            "the pin is not held",
            "the pin grows longer and its seam opens",
            f"smaller than its solid metal allows, which goes into {show_dimension(smallest_m)} "
            "at least",
        ),
    )


def judge_ferrule_die(
    *,
    stem_outside_m: float,
    stem_tolerance_m: float | None,
    braid_thickness_m: float,
    braid_spread_m: float,
    braid_metal_share: float | None,
    ferrule_wall_m: float,
    ferrule_wall_tolerance_m: float | None,
    across_flats_m: float,
) -> Check:
    """Return whether this hexagon holds the braid on the stem without crushing what is under.

    Loosest: the thinnest braid on the thinnest stem [m] under the thinnest wall [m]; tightest: the
    thickest of each. A tolerance that the drawing does not state (``None``) counts as none, and the
    sentence says so. ``braid_spread_m`` [m]: by how much the stack of both sides may be thinner or
    thicker. ``braid_metal_share`` [1]: how much of the braid's ring is metal; ``None``: not known,
    and then only a ferrule that meets the bare stem is smaller than solid metal allows.
    """
    stack_m = 2 * braid_thickness_m
    if not 0 <= braid_spread_m < stack_m:
        raise BadValue(
            owner="judge_ferrule_die",
            field="braid_spread_m",
            value=braid_spread_m,
            accepted=f"zero or more, below the stack of {stack_m}",
        )
    stem_off_m, wall_off_m = stem_tolerance_m or 0.0, ferrule_wall_tolerance_m or 0.0
    value, loosest, tightest = (
        ferrule_interference(
            stem_outside_m=stem_outside_m + side * stem_off_m,
            braid_thickness_m=(stack_m + side * braid_spread_m) / 2,
            ferrule_wall_m=ferrule_wall_m + side * wall_off_m,
            across_flats_m=across_flats_m,
        )
        for side in (0, -1, +1)
    )
    solid = braid_metal_share or 0.0
    smallest_m = (
        stem_outside_m
        + stem_off_m
        + solid * (stack_m + braid_spread_m)
        + 2 * (ferrule_wall_m + wall_off_m)
    )
    return _judge_aim(
        name="ferrule die",
        value=value,
        loosest=loosest,
        tightest=tightest,
        aim=FERRULE_INTERFERENCE_AIM,
        most=1 - solid,
        told=(
            f"ferrule die {show_dimension(across_flats_m)} across flats presses the braid stack by"
        ),
        of=_of("ferrule", stem_tolerance_m, ferrule_wall_tolerance_m),
        consequence=(
            "the braid is loose",
            "the dielectric is crushed and the impedance dips",
            f"smaller than solid metal allows, which under its flats wants "
            f"{show_dimension(smallest_m)} at least",
        ),
    )


def _of(part: str, *tolerances_m: float | None) -> str:
    """Whose tolerances the loosest and the tightest are reckoned with."""
    if all(each is not None for each in tolerances_m):
        return f"cable and {part}"
    if any(each is not None for each in tolerances_m):
        return f"cable and {part}, of which the drawing does not state all"
    return f"the cable, the drawing states none of the {part}"


def _judge_aim(
    *,
    name: str,
    value: float,
    loosest: float,
    tightest: float,
    aim: tuple[float, float],
    most: float,
    told: str,
    of: str,
    consequence: tuple[str, str, str],
) -> Check:
    low, high = aim
    between = f"{show_percent(low, decimals=0)} to {show_percent(high, decimals=0)}"
    sentence = f"{told} {show_percent(value, decimals=1)}"
    if loosest < tightest:
        sentence += (
            f", {show_percent(loosest, decimals=1)} at the loosest and "
            f"{show_percent(tightest, decimals=1)} at the tightest (tolerances of {of})"
        )
    sentence += f", aim {between}"
    # The side with less to spare is the one that is told.
    lower_side = loosest - low <= high - tightest
    if tightest > most:
        outcome, lower_side = Outcome.BAD, False
        sentence += f": {consequence[2]}"
    elif loosest < low:
        outcome, lower_side = Outcome.BAD, True
        sentence += f": {consequence[0]}"
        if value >= low:
            sentence += " at the loosest"
    elif tightest > high:
        outcome = Outcome.CAUTION
        sentence += f": {consequence[1]}"
        if value <= high:
            sentence += " at the tightest"
    else:
        outcome = Outcome.GOOD
    return Check(
        name=name,
        outcome=outcome,
        sentence=sentence,
        source=_PRACTICE,
        value=value * 100,
        limit=(low if lower_side else high) * 100,
        margin=(loosest - low if lower_side else high - tightest) * 100,
        unit="%",
    )
