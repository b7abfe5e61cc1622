"""How thick a loom of equal cables gets."""

import math

from reelwright.core.errors import BadValue

PACKED_RATIO = (
    1.0,
    2.0,
    1 + 2 / math.sqrt(3),
    1 + math.sqrt(2),
    1 + math.sqrt(2 * (1 + 1 / math.sqrt(5))),
    3.0,
    3.0,
    1 + 1 / math.sin(math.pi / 7),
    1 + math.sqrt(2 * (2 + math.sqrt(2))),
    3.813026,
    1 + 1 / math.sin(math.pi / 9),
    4.029602,
    2 + math.sqrt(5),
    4.328429,
    4.521357,
    4.615426,
    4.792034,
    1 + math.sqrt(2) + math.sqrt(6),
    1 + math.sqrt(2) + math.sqrt(6),
)
"""Diameter of the smallest circle around n equal circles, over theirs; n from 1 to 19. From
memory: Graham, Lubachevsky, Nurmela, Östergård, Dense packings of congruent circles in a circle,
Discrete Mathematics 181 (1998); for 14 and above best known, not all proven."""

RULE = 1.2
"""D = 1.2 · d · √n for a loom laid by hand. Common practice, no published source."""

RULE_FROM = 7
"""Below, the cables of a loom find their places by themselves and lie as geometry has it."""


def tightest_bundle_diameter_m(*, cable_diameter_m: float, count: int) -> float:
    """Return the diameter (m) of ``count`` (1 to 19) equal cables packed as tightly as can be."""
    if not 1 <= count <= len(PACKED_RATIO):
        raise BadValue(
            owner="tightest_bundle_diameter_m",
            field="count",
            value=count,
            accepted=f"1 to {len(PACKED_RATIO)}",
        )
    return _require_thickness(cable_diameter_m) * PACKED_RATIO[count - 1]


def bundle_diameter_m(
    *, cable_diameter_m: float, count: int, sleeve_thickness_m: float = 0.0
) -> float:
    """Return the diameter (m) of a loom as a bench makes it, in a sleeve of that wall thickness.

    Up to six cables lie as geometry has it; from seven on the rule of the trade holds, or the
    tightest packing where that is wider (nine and ten cables). Raises BadValue.
    """
    if sleeve_thickness_m < 0:
        raise BadValue(
            owner="bundle_diameter_m",
            field="sleeve_thickness_m",
            value=sleeve_thickness_m,
            accepted="zero or more",
        )
    bare_m = 0.0
    if count <= len(PACKED_RATIO):
        bare_m = tightest_bundle_diameter_m(cable_diameter_m=cable_diameter_m, count=count)
    if count >= RULE_FROM:
        bare_m = max(bare_m, RULE * _require_thickness(cable_diameter_m) * math.sqrt(count))
    return bare_m + 2 * sleeve_thickness_m


def _require_thickness(cable_diameter_m: float) -> float:
    if not (math.isfinite(cable_diameter_m) and cable_diameter_m > 0):
        raise BadValue(
            owner="bundle", field="cable_diameter_m", value=cable_diameter_m, accepted="above zero"
        )
    return cable_diameter_m
