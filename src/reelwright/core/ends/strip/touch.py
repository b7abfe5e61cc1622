"""How often a blade that closes around the axis meets a layer that does not lie on it.

All in diameters: a layer of diameter d whose axis lies e beside the blade's reaches a circle of
diameter d + 2·e, wherever on its turn the blade is.
"""

import math
from statistics import NormalDist

from reelwright.core.errors import BadValue

_NORMAL = NormalDist()


def reach_chance(*, gap_m: float, spread_m: float, offset_spread_m: float) -> float:
    """Return the chance [1] that a layer off the axis bridges the mean gap to the blade's circle.

    ``gap_m``: closing diameter less the layer's diameter (and twice an offset that is known), in m;
    ``spread_m``: standard deviation of that gap, in m; ``offset_spread_m``: standard deviation of
    the layer's axis from the blade's in each of two directions, in m. With x normal about −gap and
    the offset's length r (of scale s = 2·offset_spread_m) Rayleigh distributed,

        P(x + r > 0) = Φ(−g/σ) + s/t · exp(−g²/2t²) · Φ(g·s/(σ·t)),  t² = s² + σ²,

    by completing the square; without a spreading offset Φ(−g/σ) alone, the formula of the trade.
    Raises BadValue for spreads below zero or no numbers.
    """
    for field, value in (("spread_m", spread_m), ("offset_spread_m", offset_spread_m)):
        if not (math.isfinite(value) and value >= 0):
            raise BadValue(
                owner="reach_chance", field=field, value=value, accepted="zero or more metres"
            )
    scale_m = 2 * offset_spread_m
    if spread_m == 0 and scale_m == 0:
        return 1.0 if gap_m < 0 else 0.0
    if spread_m == 0:
        return 1.0 if gap_m <= 0 else math.exp(-(gap_m**2) / (2 * scale_m**2))
    both_m = math.hypot(scale_m, spread_m)
    by_size = _NORMAL.cdf(-gap_m / spread_m)
    by_offset = (
        scale_m
        / both_m
        * math.exp(-(gap_m**2) / (2 * both_m**2))
        * _NORMAL.cdf(gap_m * scale_m / (spread_m * both_m))
    )
    # The two terms can sum to one and a rounding.
    return min(1.0, by_size + by_offset)


def offset_limit_m(*, wall_m: float, concentricity_ratio: float) -> float:
    """Return how far [m] a core may lie beside the axis of a wall of nominal thickness.

    Concentricity is the thinnest wall over the thickest: (w − e)/(w + e), so e = w·(1 − c)/(1 + c).
    Geometry; data sheets also use other definitions. Raises BadValue outside 0 to 1 and for a wall
    below zero.
    """
    if not 0 < concentricity_ratio <= 1:
        raise BadValue(
            owner="offset_limit_m",
            field="concentricity_ratio",
            value=concentricity_ratio,
            accepted="above 0, at most 1",
        )
    if not (math.isfinite(wall_m) and wall_m >= 0):
        raise BadValue(
            owner="offset_limit_m", field="wall_m", value=wall_m, accepted="zero or more metres"
        )
    return wall_m * (1 - concentricity_ratio) / (1 + concentricity_ratio)
