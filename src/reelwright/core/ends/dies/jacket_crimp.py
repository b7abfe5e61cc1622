"""What a ferrule's hexagon does to the jacket under its far part: how far it is squeezed, and
whether cable finds room there.

One hexagon is taken to close over all of the ferrule: braid and jacket under the same flats. A
ferrule with a second, wider part, or a die with a step for the jacket, is not judged here.
"""

import math

from reelwright.core.ends.dies.ferrule_crimp import FerruleJoint, ferrule_joint, ferrule_outcome
from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector, Method
from reelwright.core.parts.layers import LayerRole
from reelwright.core.quantities.show import show_dimension, show_percent
from reelwright.core.quantities.words import listed
from reelwright.core.verdicts import Basis, Check, Outcome, Source

JACKET_SQUEEZE_AIM = (0.0, 0.50)
"""Fraction of the jacket's wall: touched all round at the loosest, no more than half squeezed away
at the tightest, beyond which a plastic is cut or creeps. Common practice, no published source."""

NAME = "jacket under the hexagon"
_SOURCE = Source(text="touched, and at most half of its wall squeezed", basis=Basis.COMMON_PRACTICE)


def judge_jacket_part(cable: Cable, connector: Connector, *, across_flats_m: float) -> Check | None:
    """Return whether a hexagon of ``across_flats_m`` [m] holds the jacket and spares it.

    The squeeze is (jacket − inside across flats) over the jacket's wall of both sides, 1 where the
    flats meet the braid; at the loosest and the tightest of cable and ferrule. The fill is the
    cable's circle over what the closed ferrule leaves inside, its corners as round as its wall is
    long. Geometry; ``JACKET_SQUEEZE_AIM`` by common practice, so that outside of it is a caution
    and no refusal. Not computed where drawing or cable does not give what it takes, with what is
    missing; ``None`` for an end that no ferrule is crimped on. Raises BadValue for a width that is
    not above zero.
    """
    if not (math.isfinite(across_flats_m) and across_flats_m > 0):
        raise BadValue(
            owner="judge_jacket_part",
            field="across_flats_m",
            value=across_flats_m,
            accepted="above zero",
        )
    if connector.method is not Method.CRIMP_CRIMP:
        return None
    joint, braid = ferrule_joint(cable, connector), cable.layer(LayerRole.BRAID)
    missing = _missing(cable, connector)
    if joint is None or braid is None or missing:
        told = listed(missing) or "stem, ferrule and braid that go together"
        return _not_computed(told)
    wall_m = cable.jacket.outside_diameter_m - braid.outside_diameter_m
    # The jacket lies on the braid and takes part in its tolerance, as the braid in what it lies on.
    spread_m = max(0.0, cable.jacket.tolerance_m - braid.tolerance_m)
    if wall_m <= spread_m:
        return _not_computed("a jacket thicker than its tolerance over the braid")

    def pressed_m(side: int) -> float:
        off_m = side * (joint.wall_tolerance_m or 0.0)
        inside_m = across_flats_m - 2 * (joint.wall_m + off_m)
        return cable.jacket.outside_diameter_m + side * cable.jacket.tolerance_m - inside_m

    loosest, tightest = (
        (pressed_m(side), pressed_m(side) / (wall_m + side * spread_m)) for side in (-1, +1)
    )
    fill = inside_fill(
        joint, jacket_outside_m=cable.jacket.outside_diameter_m, across_flats_m=across_flats_m
    )
    inside_m = across_flats_m - 2 * joint.wall_m
    return _judge(
        f"jacket Ø {show_dimension(cable.jacket.outside_diameter_m)} in "
        f"{show_dimension(inside_m)} across flats",
        value=pressed_m(0) / wall_m,
        loosest=loosest,
        tightest=tightest,
        fill=fill,
    )


def inside_fill(joint: FerruleJoint, *, jacket_outside_m: float, across_flats_m: float) -> float:
    """Return the cable's circle over the area inside the closed ferrule [1]; above 1: it is pressed
    together as a whole. ``jacket_outside_m`` and ``across_flats_m`` [m]; infinite: no room at all.

    The inside is a hexagon narrower by two walls; its corners, rounded to a radius r, miss
    (2√3 − π)·r². Geometry.
    """
    radius_m = ferrule_outcome(joint, across_flats_m=across_flats_m).corner_radius_m
    inside_m = across_flats_m - 2 * joint.wall_m
    if inside_m <= 0:
        return math.inf
    corner_m = min(max(0.0, radius_m - joint.wall_m), inside_m / 2)
    room_m2 = math.sqrt(3) / 2 * inside_m**2 - (2 * math.sqrt(3) - math.pi) * corner_m**2
    return math.pi / 4 * jacket_outside_m**2 / room_m2


def _missing(cable: Cable, connector: Connector) -> list[str]:
    drawing = connector.drawing
    if drawing is None:
        return ["a drawing of the connector"]
    wanted = (
        ("the outside of the stem", drawing.stem_outside_m),
        ("the bore of the ferrule", drawing.ferrule_bore_m),
        ("the outside of the ferrule", drawing.ferrule_outside_m),
        ("the braid of the cable", cable.layer(LayerRole.BRAID)),
    )
    return [what for what, value in wanted if value is None]


def _judge(
    sizes: str,
    *,
    value: float,
    loosest: tuple[float, float],
    tightest: tuple[float, float],
    fill: float,
) -> Check:
    """``loosest`` and ``tightest``: by how much it is pressed [m], and as a share of its wall."""
    low, high = JACKET_SQUEEZE_AIM
    least, most = loosest[1], tightest[1]
    told = f"{_pressed(*loosest)} at the loosest, {_pressed(*tightest)} at the tightest"
    if least < low:
        told += ": not held all round, the cable may turn or pull out"
    elif most > high:
        told += ": more than half of the wall is cut or creeps"
    room = "no room is left" if math.isinf(fill) else f"{show_percent(fill)} of the room filled"
    lower_side = least < low or least - low <= high - most
    return Check(
        name=NAME,
        outcome=Outcome.GOOD if low <= least and most <= high else Outcome.CAUTION,
        sentence=f"{sizes}, {told}; {room}, if one hexagon closes over all of the ferrule",
        source=_SOURCE,
        value=value * 100,
        limit=(low if lower_side else high) * 100,
        margin=(least - low if lower_side else high - most) * 100,
        unit="%",
    )


def _pressed(pressed_m: float, share: float) -> str:
    if pressed_m < 0:
        return f"{show_dimension(-pressed_m)} of play"
    return f"{show_percent(share, decimals=0)} of its wall squeezed"


def _not_computed(missing: str) -> Check:
    return Check(
        name=NAME,
        outcome=Outcome.NOT_COMPUTED,
        sentence=f"how far the jacket is squeezed is not computed; missing: {missing}",
        source=_SOURCE,
        value=None,
        limit=None,
        margin=None,
        unit="%",
    )
