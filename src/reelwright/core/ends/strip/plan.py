"""What is stripped off an end, in two shapes.

A coax is cut in up to three levels, a to c, from the drawing of its connector; every other cable
has its jacket taken back and its cores bared. ``cuts`` has both as positions, ``levels`` says how
many are needed, ``blades`` where the blades close, ``strip_checks`` what the end asks of it.
"""

from dataclasses import dataclass

from reelwright.core.parts.connector import Method
from reelwright.core.parts.drawing import Drawing
from reelwright.core.quantities.guard import (
    require_given,
    require_not_negative,
    require_positive,
)
from reelwright.core.verdicts import Reason


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
