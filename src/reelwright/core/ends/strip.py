"""What is stripped off an end, and where the blades close.

Two shapes: a coax is cut in three levels, a to c, from the drawing of its connector; every other
cable has its jacket taken back and its cores bared.
"""

from dataclasses import dataclass

from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Method
from reelwright.core.parts.drawing import Drawing
from reelwright.core.parts.layers import LayerRole
from reelwright.core.quantities.guard import (
    require_given,
    require_not_negative,
    require_positive,
)
from reelwright.core.quantities.show import show_dimension
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source


@dataclass(frozen=True, kw_only=True)
class StripTolerances:
    """Half widths, in mm, of what the stripped lengths a, b and c may differ by."""

    conductor_mm: float
    dielectric_mm: float
    braid_mm: float

    def __post_init__(self) -> None:
        require_not_negative(self, "conductor_mm", "dielectric_mm", "braid_mm")


MACHINE_STRIP_TOLERANCES = StripTolerances(conductor_mm=0.10, dielectric_mm=0.10, braid_mm=0.15)
"""What a rotary stripper keeps: 0.1 to 0.2 mm; common practice, no published source."""


@dataclass(frozen=True, kw_only=True)
class StripPlan:
    """A coax end: bare conductor a, dielectric b, braid c, in mm, counted from the end.

    ``folds_braid``: the braid is folded back over the jacket (compressed ends), so the dielectric
    shows over a further c where the braid stood.
    """

    conductor_mm: float
    dielectric_mm: float
    braid_mm: float
    tolerances: StripTolerances
    folds_braid: bool

    def __post_init__(self) -> None:
        require_positive(self, "conductor_mm")
        require_not_negative(self, "dielectric_mm", "braid_mm")

    @property
    def cuts_mm(self) -> tuple[float, float, float]:
        """Where dielectric, braid and jacket are cut, in mm from the cable's end."""
        first = self.conductor_mm
        second = first + self.dielectric_mm
        return (first, second, second + self.braid_mm)

    @property
    def jacket_cut_mm(self) -> float:
        """Where the jacket is cut, in mm from the cable's end."""
        return self.cuts_mm[2]


@dataclass(frozen=True, kw_only=True)
class WireStrip:
    """Any other end: how far the jacket is taken back and how much of each core is bared, in mm.

    ``jacket_back_mm`` is ``None`` where the set-up leaves it to the job (a breakout's own length);
    ``bared_mm`` is 0 where contacts cut through the insulation themselves.
    """

    jacket_back_mm: float | None
    bared_mm: float
    tolerance_mm: float

    def __post_init__(self) -> None:
        require_given(self, "jacket_back_mm")
        require_not_negative(self, "bared_mm", "tolerance_mm")


def plan_strip(
    drawing: Drawing, *, tolerances: StripTolerances, method: Method = Method.CRIMP_CRIMP
) -> StripPlan | Reason:
    """Return the strip that this connector drawing asks for, or why it cannot be planned.

    a = barrel depth − bottoming clearance; b = seat to flange − relief; c = stem − relief.
    A compressed end has no barrel: its conductor is the pin, so a is the protrusion asked for.
    Common practice for three-level strips, no published source.
    """
    folds = method is Method.COMPRESSION
    if folds:
        a_m = drawing.conductor_protrusion_m
    else:
        a_m = _difference(drawing.barrel_depth_m, drawing.barrel_clearance_m)
    b_m = 0.0 if folds else _difference(drawing.seat_to_flange_m, drawing.dielectric_relief_m)
    c_m = _difference(drawing.stem_length_m, drawing.braid_relief_m)
    missing = [
        name
        for name, value in (("conductor", a_m), ("dielectric", b_m), ("braid", c_m))
        if value is None
    ]
    if a_m is None or b_m is None or c_m is None:
        return Reason(
            code="strip_not_computed",
            sentence=f"the drawing gives nothing to plan the strip of {' and '.join(missing)} from",
        )
    if a_m <= 0 or b_m < 0 or c_m < 0:
        return Reason(
            code="strip_impossible",
            sentence="a relief on the drawing is longer than the feature it belongs to",
        )
    return StripPlan(
        conductor_mm=_hundredths(a_m),
        dielectric_mm=_hundredths(b_m),
        braid_mm=_hundredths(c_m),
        tolerances=tolerances,
        folds_braid=folds,
    )


def _difference(whole_m: float | None, taken_m: float | None) -> float | None:
    return None if whole_m is None or taken_m is None else whole_m - taken_m


def _hundredths(length_m: float) -> float:
    # A stripper is set in hundredths of a millimetre; metres in binary would print 4.2500000001.
    return round(length_m * 1e3, 2)


_HOLE_OVERLAP_M = 0.3e-3
_DRAWING = Source(text="drawing of the connector", basis=Basis.COMPUTED)


def check_strip(plan: StripPlan, drawing: Drawing) -> tuple[Check, ...]:
    """Return whether released values still suit the drawing: the conductor's end in the barrel.

    It must be seen in the inspection hole (0.3 mm past its far edge, common practice) and must not
    touch the bottom at the long end of its tolerance.
    """
    checks = []
    a_m, spread_m = plan.conductor_mm / 1e3, plan.tolerances.conductor_mm / 1e3
    if drawing.hole_far_edge_m is not None:
        spare_m = a_m - spread_m - drawing.hole_far_edge_m - _HOLE_OVERLAP_M
        checks.append(
            _check_strip_length(
                name="conductor seen in the hole",
                spare_m=spare_m,
                limit_m=drawing.hole_far_edge_m + _HOLE_OVERLAP_M,
                value_m=a_m,
                good="the conductor shows in the inspection hole",
                bad="the conductor may not be seen in the inspection hole: strip longer",
            )
        )
    if drawing.barrel_depth_m is not None:
        checks.append(
            _check_strip_length(
                name="conductor clear of the bottom",
                spare_m=drawing.barrel_depth_m - a_m - spread_m,
                limit_m=drawing.barrel_depth_m,
                value_m=a_m,
                good="the conductor ends before the bottom of the pin",
                bad="the conductor may touch the bottom and stand the pin off: strip shorter",
            )
        )
    return tuple(checks)


def _check_strip_length(
    *, name: str, spare_m: float, limit_m: float, value_m: float, good: str, bad: str
) -> Check:
    # A nanometre of binary rounding is no reason to refuse.
    fine = spare_m >= -1e-9
    return Check(
        name=name,
        outcome=Outcome.GOOD if fine else Outcome.BAD,
        sentence=f"{good if fine else bad} ({show_dimension(spare_m)} to spare)",
        source=_DRAWING,
        value=value_m * 1e3,
        limit=limit_m * 1e3,
        margin=spare_m * 1e3,
        unit="mm",
    )


@dataclass(frozen=True, kw_only=True)
class Blade:
    """The diameters, in mm, between which the blade of one cut closes.

    ``clears_mm``: what is left between the smallest closing and the thickest layer beneath.
    """

    cut: str
    closes_low_mm: float
    closes_high_mm: float
    clears_mm: float


# Per side, over what must not be touched (common practice, no published source).
_CONDUCTOR_GAP_MM = (0.05, 0.10)
_DIELECTRIC_GAP_MM = (0.03, 0.08)
_JACKET_GAP_MM = (0.05, 0.10)


def plan_blades(cable: Cable) -> tuple[Blade, ...]:
    """Return where the blades of a coax close, from the conductor outwards.

    Each scores its own layer and never touches the metal or plastic beneath: the layer's diameter
    plus 2 × (0.05 to 0.10) mm over the conductor, 2 × (0.03 to 0.08) over the dielectric with its
    foil, 2 × (0.05 to 0.10) over the braid. Common practice, no published source.
    """
    under_braid = cable.layer(LayerRole.FOIL) or cable.layer(LayerRole.DIELECTRIC)
    wanted = (
        ("dielectric", cable.layer(LayerRole.CONDUCTOR), _CONDUCTOR_GAP_MM),
        ("braid", under_braid, _DIELECTRIC_GAP_MM),
        ("jacket", cable.layer(LayerRole.BRAID), _JACKET_GAP_MM),
    )
    return tuple(
        Blade(
            cut=cut,
            closes_low_mm=layer.outside_diameter_m * 1e3 + 2 * low,
            closes_high_mm=layer.outside_diameter_m * 1e3 + 2 * high,
            clears_mm=2 * low - layer.tolerance_m * 1e3,
        )
        for cut, layer, (low, high) in wanted
        if layer is not None
    )
