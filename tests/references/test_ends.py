"""Ends: hexagons, strip, cut length, tolerances, pulls, against published or separate values."""

import math

from reelwright.core.ends.dies import hexagon
from reelwright.core.ends.strength.pulls import PullMinimum, judge_pulls
from reelwright.core.ends.strip.cut_length import CutLength, WheelCalibration, plan_cut
from reelwright.core.ends.strip.plan import MACHINE_STRIP_TOLERANCES, StripPlan, plan_strip
from reelwright.core.verdicts import Basis as SourceBasis
from reelwright.core.verdicts import Source
from tests.ends_world import BNC_60, BNC_70
from tests.references.harness import (
    Basis,
    ReferenceCheck,
    absolute,
    at_most,
    reference_test,
    relative,
)

INCH_M = 0.0254
WORKED = "worked problem of the trade, set and solved apart from this code"
PRINTED = "all printed digits"


def _p24() -> StripPlan:
    drawing = BNC_70.drawing
    assert drawing is not None
    plan = plan_strip(drawing, tolerances=MACHINE_STRIP_TOLERANCES)
    assert isinstance(plan, StripPlan)
    return plan


def _p25() -> float:
    return 100 * hexagon.pin_reduction(
        barrel_outside_m=1.78e-3,
        barrel_bore_m=1.09e-3,
        conductor_area_m2=math.pi / 4 * 1.024e-3**2,
        across_flats_m=1.60e-3,
    )


_P31_WHEEL = WheelCalibration(
    set_mm=10_000, delivered_mm=9_958, fixed_uncertainty_mm=3.0, relative_uncertainty=0.001
)
_TRUE_WHEEL = WheelCalibration(
    set_mm=10_000, delivered_mm=10_000, fixed_uncertainty_mm=3.0, relative_uncertainty=0.001
)


def _cut(
    finished_mm: int, minus_mm: int, plus_mm: int, wheel: WheelCalibration = _TRUE_WHEEL
) -> CutLength:
    planned = plan_cut(
        finished_mm=finished_mm,
        tolerance_minus_mm=minus_mm,
        tolerance_plus_mm=plus_mm,
        ends=(BNC_60, BNC_60),
        wheel=wheel,
    )
    assert isinstance(planned, CutLength)
    return planned


def _kept_mm(length_m: float) -> float:
    """The whole width, ±3·u, that a cut of this length keeps, in mm."""
    return 6 * _TRUE_WHEEL.standard_uncertainty_mm(length_m * 1000)


def _p27() -> float:
    # Ten pulls with exactly the mean 248 N and the standard deviation 13.5 N of the problem.
    half = 13.5 * math.sqrt(9 / 10)
    pulls = (248 + half,) * 5 + (248 - half,) * 5
    check = judge_pulls(
        pulls,
        PullMinimum(
            minimum_n=180.0, source=Source(text="the problem", basis=SourceBasis.COMMON_PRACTICE)
        ),
        coverage=0.99,
        confidence=0.95,
    )
    assert isinstance(check.value, float)
    return check.value


_AT_MOST = at_most(but_within=0.9, because="a cut must keep less than the whole band allowed")
_WORKMANSHIP = "IPC/WHMA-A-620B, final draft of February 2012, table 11-1"

CHECKS = (
    ReferenceCheck(
        id="ends.hex.corner",
        module="core.ends.hexagon.hexagon",
        quantity="across corners over across flats of a hexagon",
        source="geometry: 2/√3",
        basis=Basis.COMPUTED,
        expected=1.1547005,
        unit="1",
        within=absolute(1e-7, because=PRINTED),
        ours=lambda: hexagon.ACROSS_CORNERS_PER_ACROSS_FLATS,
    ),
    ReferenceCheck(
        id="ends.hex.packing",
        module="core.ends.hexagon.hexagon",
        quantity="densest packing of equal strands",
        source="geometry: π/(2√3), Thue's theorem",
        basis=Basis.COMPUTED,
        expected=0.9068997,
        unit="1",
        within=absolute(1e-7, because=PRINTED),
        ours=lambda: hexagon.STRAND_PACKING_LIMIT,
    ),
    ReferenceCheck(
        id="ends.hex.area.213",
        module="core.ends.hexagon.hexagon",
        quantity="area of a hexagon 0.213 in across flats",
        source="geometry, worked out apart from this code",
        basis=Basis.COMPUTED,
        expected=25.3488,
        unit="mm²",
        within=absolute(1e-4, because=PRINTED),
        ours=lambda: hexagon.hex_area_m2(0.213 * INCH_M) * 1e6,
    ),
    ReferenceCheck(
        id="ends.hex.area.255",
        module="core.ends.hexagon.hexagon",
        quantity="area of a hexagon 0.255 in across flats",
        source="geometry, worked out apart from this code",
        basis=Basis.COMPUTED,
        expected=36.3311,
        unit="mm²",
        within=absolute(1e-4, because=PRINTED),
        ours=lambda: hexagon.hex_area_m2(0.255 * INCH_M) * 1e6,
    ),
    *(
        ReferenceCheck(
            id=f"ends.strip.{letter}",
            module="core.ends.strip.plan",
            quantity=f"three-level strip from a connector drawing, {what}",
            source=f"{WORKED} (P24)",
            basis=Basis.COMPUTED,
            expected=expected,
            unit="mm",
            within=absolute(0.005, because="two decimals are given"),
            ours=ours,
        )
        for letter, what, expected, ours in (
            ("a", "conductor", 4.25, lambda: _p24().conductor_mm),
            ("b", "dielectric", 5.00, lambda: _p24().dielectric_mm),
            ("c", "braid", 7.70, lambda: _p24().braid_mm),
            ("cut.2", "second cut from the end", 9.25, lambda: _p24().cuts_mm[1]),
            ("cut.3", "jacket cut from the end", 16.95, lambda: _p24().jacket_cut_mm),
        )
    ),
    *(
        ReferenceCheck(
            id=f"ends.strip.tolerance.{side}",
            module="core.ends.strip.plan",
            quantity=f"length tolerance of a machine strip, {side} of ours",
            source="trade practice, 0.1 to 0.2 mm (no published source)",
            basis=Basis.MEMORY,
            expected=0.15,
            unit="mm",
            within=absolute(0.0500001, because="the range is 0.1 to 0.2 mm"),
            ours=ours,
        )
        for side, ours in (
            ("smallest", lambda: min(vars(MACHINE_STRIP_TOLERANCES).values())),
            ("largest", lambda: max(vars(MACHINE_STRIP_TOLERANCES).values())),
        )
    ),
    ReferenceCheck(
        id="ends.pin.reduction",
        module="core.ends.hexagon.hexagon",
        quantity="reduction of a pin's metal, 1.78/1.09 barrel on 1.024 wire, die 1.60",
        source=f"{WORKED} (P25)",
        basis=Basis.COMPUTED,
        expected=6.804,
        unit="%",
        within=absolute(0.0005, because=PRINTED),
        ours=_p25,
    ),
    ReferenceCheck(
        id="ends.cut.wheel",
        module="core.ends.strip.cut_length",
        quantity="wheel setting for 33 ft 4 in between pin tips",
        source=f"{WORKED} (P31)",
        basis=Basis.COMPUTED,
        expected=10.202,
        unit="m",
        within=absolute(0.0005, because=PRINTED),
        ours=lambda: _cut(10_160, 100, 100, _P31_WHEEL).wheel_setting_mm / 1000,
    ),
    ReferenceCheck(
        id="ends.cut.wheel.before",
        module="core.ends.strip.cut_length",
        quantity="length to cut for 33 ft 4 in between pin tips",
        source=f"{WORKED} (P31)",
        basis=Basis.COMPUTED,
        expected=10.1587,
        unit="m",
        within=absolute(0.0005, because="ours is in whole millimetres"),
        ours=lambda: _cut(10_160, 100, 100, _P31_WHEEL).cut_mm / 1000,
    ),
    ReferenceCheck(
        id="ends.cut.10ft",
        module="core.ends.strip.cut_length",
        quantity="length to cut for 10 ft with nothing allowed shorter",
        source="demo workshop's order O-12, worked out apart from this code",
        basis=Basis.COMPUTED,
        expected=3.060,
        unit="m",
        within=absolute(0.0005, because=PRINTED),
        ours=lambda: _cut(3_048, 0, 61).cut_mm / 1000,
    ),
    ReferenceCheck(
        id="ends.cut.25ft",
        module="core.ends.strip.cut_length",
        quantity="length to cut for 25 ft with nothing allowed shorter",
        source="demo workshop's order O-04, worked out apart from this code",
        basis=Basis.COMPUTED,
        expected=7.643,
        unit="m",
        within=absolute(0.0005, because=PRINTED),
        ours=lambda: _cut(7_620, 0, 152).cut_mm / 1000,
    ),
    *(
        ReferenceCheck(
            id=f"ends.cut.workmanship.{length_m}",
            module="core.ends.strip.cut_length",
            quantity=f"width that a cut of {length_m} m keeps, inside the one allowed",
            source=_WORKMANSHIP,
            basis=Basis.SEEN,
            expected=allowed_mm,
            unit="mm",
            within=_AT_MOST,
            ours=lambda length_m=length_m: _kept_mm(length_m),
        )
        for length_m, allowed_mm in ((1.5, 50.0), (7.5, 150.0), (20.0, 1000.0))
    ),
    ReferenceCheck(
        id="ends.pull.tolerance",
        module="core.ends.strength.pulls",
        quantity="pull that 99 % exceed with 95 % confidence, ten pulls of 248 N, s 13.5 N",
        source=f"{WORKED} (P27)",
        basis=Basis.COMPUTED,
        expected=194.25,
        unit="N",
        within=relative(1e-4, because=PRINTED),
        ours=_p27,
    ),
    ReferenceCheck(
        id="ends.hex.equal",
        module="core.ends.hexagon.hexagon",
        quantity="reduction when the hexagon has the metal's own area",
        source="conservation of volume",
        basis=Basis.COMPUTED,
        expected=0.0,
        unit="1",
        within=absolute(1e-12, because="rounding of the machine"),
        ours=lambda: hexagon.pin_reduction(
            barrel_outside_m=2e-3,
            barrel_bore_m=1e-3,
            conductor_area_m2=math.pi / 4 * 1e-6,
            across_flats_m=math.sqrt(math.pi * 2 / math.sqrt(3)) * 1e-3,
        ),
    ),
)
test_ends = reference_test(CHECKS)
