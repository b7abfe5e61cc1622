"""Where the blade of each cut closes: not so far that it nicks, far enough that it cuts.

The closing diameter worth choosing lies between the two chances, each weighed by what it costs.
"""

from dataclasses import dataclass

from reelwright.core.ends.strip.cuts import Cut, cuts_of
from reelwright.core.ends.strip.plan import StripPlan, WireStrip
from reelwright.core.ends.strip.spread import StripSpread, deviation_m, offset_spread_m
from reelwright.core.ends.strip.touch import reach_chance
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.core.verdicts import Reason

_WANTED_GAP_MM = {
    LayerRole.CONDUCTOR: (0.05, 0.10),
    LayerRole.DIELECTRIC: (0.03, 0.08),
    LayerRole.BRAID: (0.05, 0.10),
    LayerRole.CORE: (0.05, 0.10),
}
_FOIL_GAP_MM = (0.0, 0.02)
"""Per side, over what is spared; a foil wants less than its own thickness. Common practice, no
published source."""

HARMLESS_SCORE_M = {LayerRole.DIELECTRIC: 0.10e-3}
"""How deep a score may go into a layer that is spared; 0 where none is named. Common practice, no
published source: a shallow ring in the insulation neither shorts nor breaks anything."""

TORN_WEB_M, TORN_FLUOROPOLYMER_WEB_M = 0.20e-3, 0.15e-3
"""The thickest wall that still breaks at the mark when the waste is drawn off; fluoropolymers are
tough and stretch. Common practice, no published source."""

_STRANDS_IN_A_BRAID = 2
"""One lies over the other, so that a braid is two strands thick: geometry."""

_NICK_WEIGHT = {"solid": 10.0, "stranded": 3.0, "fibre": 10.0}
"""How many cuts left uncut weigh as one nick: what is uncut is seen and done again, a nicked
conductor is found weeks later. This project's choice; 1 for every other layer."""

_STEP_M = 0.01e-3
"""Strippers are set in hundredths of a millimetre."""


@dataclass(frozen=True, kw_only=True)
class Blade:
    """The blade of one cut, diameters in mm, chances [1] at the best closing.

    ``closes_low_mm`` to ``closes_high_mm``: what the trade takes; ``best_mm``: where a nick and an
    uncut layer, weighed, are rarest; ``clears_mm``: what is left there to the thickest layer
    beneath, were all in line. ``draw_off_mm``: how far the waste must be drawn to come off
    (``None``: the job says). ``fluoropolymer``: a layer it opens wants sharp blades and slow feed.
    """

    cut: Cut
    closes_low_mm: float
    closes_high_mm: float
    best_mm: float
    nick_chance: float
    uncut_chance: float
    clears_mm: float
    draw_off_mm: float | None
    fluoropolymer: bool
    nick_means: str
    uncut_means: str


def plan_blades(
    cable: Cable, strip: StripPlan | WireStrip, spread: StripSpread
) -> tuple[Blade, ...] | Reason:
    """Return the blades of a strip, from the end inwards, or why its layers cannot be cut so.

    The trade's closing: the spared layer's diameter plus 2 × (0.05 to 0.10) mm over metal,
    2 × (0.03 to 0.08) over a dielectric, 2 × (0 to 0.02) where a foil must be cut on it. Common
    practice, no published source.
    """
    cuts = cuts_of(cable, strip)
    if isinstance(cuts, Reason):
        return cuts
    return tuple(_blade(cable, cut, spread) for cut in cuts)


def nick_chance(cable: Cable, cut: Cut, spread: StripSpread, *, closing_m: float) -> float:
    """Return the chance [1] that the blade, closed to ``closing_m``, marks what it should spare.

    A layer off the axis reaches further on one side: see ``touch.reach_chance``.
    """
    harmless_m = HARMLESS_SCORE_M.get(cut.spares.role, 0.0)
    gap_m = closing_m + 2 * harmless_m - cut.spares.outside_diameter_m - _oval_m(cut.spares, spread)
    return _reach(cable, cut, spread, gap_m)


def uncut_chance(cable: Cable, cut: Cut, spread: StripSpread, *, closing_m: float) -> float:
    """Return the chance [1] that the blade, closed to ``closing_m``, leaves its layer uncut.

    On the side where the core lies away, what stays under the blade must still break: a foil has to
    be reached, half a strand of a braid or a thin web of plastic breaks at the mark.
    """
    gap_m = (
        cut.spares.outside_diameter_m + 2 * breaks_m(cut) - closing_m - _oval_m(cut.spares, spread)
    )
    return _reach(cable, cut, spread, gap_m)


def breaks_m(cut: Cut) -> float:
    """Return how much [m] of a cut's innermost layer may stay under the blade and still part."""
    layer = cut.innermost
    wall_m = (layer.outside_diameter_m - cut.spares.outside_diameter_m) / 2
    if layer.role is LayerRole.FOIL:
        return wall_m
    if layer.role is LayerRole.BRAID:
        return wall_m / _STRANDS_IN_A_BRAID / 2
    web_m = TORN_FLUOROPOLYMER_WEB_M if is_fluoropolymer(layer) else TORN_WEB_M
    return min(web_m, wall_m)


def is_fluoropolymer(layer: Layer) -> bool:
    """Return whether the material's name says so."""
    name = layer.material.upper()
    return any(word in name for word in ("FEP", "PTFE", "PFA", "FLUORO"))


def _oval_m(layer: Layer, spread: StripSpread) -> float:
    """An oval jacket has pressed what is soft under it; solid metal stays round."""
    if layer.role is LayerRole.CONDUCTOR:
        return 0.0
    return layer.outside_diameter_m * spread.jacket_ovality_share / 2


def _reach(cable: Cable, cut: Cut, spread: StripSpread, gap_m: float) -> float:
    own_m = deviation_m(cut.spares.tolerance_m)
    return reach_chance(
        gap_m=gap_m,
        spread_m=(own_m**2 + spread.blade_m**2) ** 0.5,
        offset_spread_m=offset_spread_m(cable, cut.spares.role, spread),
    )


def _blade(cable: Cable, cut: Cut, spread: StripSpread) -> Blade:
    spared_mm = cut.spares.outside_diameter_m * 1e3
    foil = cut.innermost.role is LayerRole.FOIL
    low, high = _FOIL_GAP_MM if foil else _WANTED_GAP_MM[cut.spares.role]
    best_m = _best_m(cable, cut, spread)
    return Blade(
        cut=cut,
        closes_low_mm=spared_mm + 2 * low,
        closes_high_mm=spared_mm + 2 * high,
        best_mm=round(best_m * 1e3, 2),
        nick_chance=nick_chance(cable, cut, spread, closing_m=best_m),
        uncut_chance=uncut_chance(cable, cut, spread, closing_m=best_m),
        clears_mm=best_m * 1e3 - cut.spares.largest_m * 1e3,
        draw_off_mm=cut.position_mm,
        fluoropolymer=any(is_fluoropolymer(layer) for layer in cut.through),
        nick_means=_nick_means(cable, cut),
        uncut_means=_uncut_means(cut),
    )


def _best_m(cable: Cable, cut: Cut, spread: StripSpread) -> float:
    # Between the deepest harmless score and the layer's own outside, hundredth by hundredth.
    inside_m = cut.spares.outside_diameter_m - 2 * HARMLESS_SCORE_M.get(cut.spares.role, 0.0)
    first = round(inside_m / _STEP_M)
    last = max(first, int(cut.innermost.outside_diameter_m / _STEP_M))
    weight = _weight(cable, cut)

    def costs(step: int) -> float:
        closing_m = step * _STEP_M
        return weight * nick_chance(cable, cut, spread, closing_m=closing_m) + uncut_chance(
            cable, cut, spread, closing_m=closing_m
        )

    return min(range(first, last + 1), key=costs) * _STEP_M


def _weight(cable: Cable, cut: Cut) -> float:
    return _NICK_WEIGHT.get(_kind(cable, cut), 1.0)


def _kind(cable: Cable, cut: Cut) -> str:
    if cable.sheet.optical_loss_db_per_m is not None or cable.family.name == "FIBRE":
        return "fibre"
    if cut.spares.role is LayerRole.CONDUCTOR:
        return "solid" if cable.solid_conductor else "stranded"
    return str(cut.spares.role)


_NICKED = {
    "solid": (
        "a nicked solid conductor breaks weeks later, at about a fifth of the bends it would bear"
    ),
    "stranded": "a strand cut off is metal missing in the joint",
    "fibre": "a scratched fibre loses light and breaks there",
    "dielectric": "a deep ring in the dielectric lets strands through to the conductor",
    "braid": "strands cut off are missing under the ferrule, and it holds less",
    "core": "a core cut into is a short to come",
}
_UNCUT = {
    "dielectric": "torn insulation stretches, and creeps back over the conductor",
    "core": "torn insulation stretches, and creeps back over the conductor",
    "foil": "a flap of foil under the pin is a short",
    "braid": "a strand left long reaches forward: a short",
    "jacket": "a torn jacket has a ragged edge, and slides askew into its place",
}


def _nick_means(cable: Cable, cut: Cut) -> str:
    return _NICKED[_kind(cable, cut)]


def _uncut_means(cut: Cut) -> str:
    return _UNCUT[cut.name]
