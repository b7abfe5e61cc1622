"""Fit of cable and connector, by millimetres on both sides."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.fit.compatibility import Dies, judge_fit
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.drawing import DrawingTolerances
from reelwright.core.verdicts import Outcome
from tests.ends_world import (
    AUD_BP,
    BANANA,
    BNC_60,
    BNC_70,
    DAT_6,
    F05,
    F_70,
    P8C,
    PHO_61,
    POF_22,
    RCA_60,
    SPK_14,
    TRS,
    VID_28,
    VID_60,
    VID_70,
    VID_70F,
    XLR_F,
    XLR_M,
    coax,
)

MADE = [
    (VID_70, BNC_70),
    (VID_60, BNC_60),
    (VID_60, RCA_60),
    (PHO_61, RCA_60),
    (VID_70, F_70),
    (AUD_BP, XLR_M),
    (AUD_BP, XLR_F),
    (AUD_BP, TRS),
    (SPK_14, BANANA),
    (DAT_6, P8C),
    (POF_22, F05),
]


@pytest.mark.parametrize(("cable", "connector"), MADE, ids=lambda part: part.code)
def test_the_pairs_that_are_made_are_possible(cable: Cable, connector: Connector) -> None:
    """Every pair the demo workshop makes is possible, and no check of it is against."""
    fit = judge_fit(cable, connector)
    assert fit.possible, fit.reasons
    assert fit.reasons == ()
    assert {check.outcome for check in fit.checks} <= {Outcome.GOOD, Outcome.CAUTION}


@pytest.mark.parametrize(
    ("cable", "connector", "told"),
    [
        (VID_70F, RCA_60, "jacket 7.62\u202fmm > bore 6.30\u202fmm by 1.32\u202fmm"),
        (VID_28, BNC_70, "jacket 2.80\u202fmm < 6.60\u202fmm, the least it grips, by 3.80\u202fmm"),
        (VID_28, BNC_70, "conductor 0.41\u202fmm < 0.98\u202fmm"),
        (VID_70, BNC_60, "jacket 6.99\u202fmm > bore 6.30\u202fmm by 0.69\u202fmm"),
        (VID_70, BNC_60, "conductor 1.02\u202fmm > barrel 0.88\u202fmm by 0.14\u202fmm"),
        (VID_70, BNC_60, "dielectric with foil 4.67\u202fmm > stem bore 4.00\u202fmm"),
        (VID_70F, F_70, "the conductor of VID-70F is stranded; F-70 takes a solid one only"),
        (DAT_6, BNC_60, "a pin and ferrule crimped end takes coax, and DAT-6 is a cable of data"),
        (VID_60, P8C, "an insulation displacement end takes data pairs, and VID-60 is a coax"),
        (SPK_14, F05, "SPK-14 is a loudspeaker pair"),
    ],
    ids=lambda value: getattr(value, "code", None) or "told",
)
def test_a_refusal_names_the_failing_dimension(
    cable: Cable, connector: Connector, told: str
) -> None:
    """An impossible pair is refused with the two figures and their difference in millimetres."""
    fit = judge_fit(cable, connector)
    assert not fit.possible
    assert any(told in reason.sentence for reason in fit.reasons), fit.reasons


def test_a_jacket_that_passes_only_by_its_nominal_is_refused() -> None:
    """A jacket whose nominal passes and whose tolerance does not is refused, and says which."""
    fat = coax("FAT", (0.812, 3.66, 4.40, 6.25))
    fit = judge_fit(fat, BNC_60)
    (reason,) = fit.reasons
    assert not fit.possible
    assert "passes bore 6.30\u202fmm by 0.05\u202fmm, but at the upper end" in reason.sentence
    assert reason.sentence.endswith("0.08\u202fmm too thick")


def test_a_bore_is_taken_at_its_smallest() -> None:
    """0.13 mm of clearance passes ±0.10 and ±0.03 mm, not ±0.10 and ±0.04; both are named."""
    assert BNC_60.drawing is not None
    fat = replace(VID_60, layers=(*VID_60.layers[:-1], replace(VID_60.jacket, tolerance_m=0.10e-3)))
    for tolerance_mm, possible in ((0.03, True), (0.04, False)):
        bored = replace(
            BNC_60.drawing,
            ferrule_bore_m=6.18e-3,
            tolerances=DrawingTolerances.stating(ferrule_bore_m=tolerance_mm / 1e3),
        )
        fit = judge_fit(fat, replace(BNC_60, drawing=bored))
        (check,) = [each for each in fit.checks if each.name == "jacket"]
        assert fit.possible is possible
        assert check.margin == pytest.approx(0.03 - tolerance_mm)
        assert "cable ±0.10\u202fmm" in check.sentence
        assert f"connector ±{tolerance_mm:.2f}\u202fmm" in check.sentence


def test_a_tolerance_that_is_not_stated_is_told_so() -> None:
    """Nominal stands for the bore, and the sentence says that nothing else was given."""
    (check,) = [each for each in judge_fit(VID_60, BNC_60).checks if each.name == "conductor"][1:]
    assert check.sentence.endswith("of the connector not stated)")


@given(st.floats(min_value=0, max_value=0.5), st.floats(min_value=0, max_value=0.5))
def test_a_looser_connector_never_fits_better(a_mm: float, b_mm: float) -> None:
    """The margin of every check falls as the tolerance of its bore grows."""
    assert BNC_60.drawing is not None
    margins = []
    for tolerance_mm in sorted((a_mm, b_mm)):
        stated = DrawingTolerances.stating(stem_bore_m=0.3 * tolerance_mm / 1e3)
        back = replace(BNC_60.drawing, tolerances=stated)
        checks = judge_fit(VID_60, replace(BNC_60, drawing=back)).checks
        margins.append([each.margin or 0.0 for each in checks])
    assert all(loose <= tight for tight, loose in zip(*margins, strict=True))


def test_what_the_drawing_does_not_give_is_not_computed() -> None:
    """A crimped connector without a drawing is never possible: nothing was compared."""
    fit = judge_fit(VID_60, replace(BNC_60, drawing=None))
    assert not fit.possible
    assert [c.outcome for c in fit.checks if c.name == "stem"] == [Outcome.NOT_COMPUTED]


def test_another_impedance_class_is_a_caution() -> None:
    """A 50 Ω connector on a 75 Ω cable can be made: a caution, and it still says both figures."""
    fit = judge_fit(VID_60, replace(BNC_60, impedance_ohm=50.0))
    (check,) = [c for c in fit.checks if c.name == "impedance class"]
    assert fit.possible
    assert check.outcome is Outcome.CAUTION
    assert "50\u202fΩ" in check.sentence


def test_a_die_that_does_not_grip_makes_the_pair_impossible() -> None:
    """The next larger pin die leaves less than 5 % and is refused; the right one is not."""
    right = judge_fit(
        VID_70, BNC_70, dies=Dies(pin_across_flats_m=1.60e-3, ferrule_across_flats_m=None)
    )
    wide = judge_fit(
        VID_70, BNC_70, dies=Dies(pin_across_flats_m=1.73e-3, ferrule_across_flats_m=None)
    )
    assert right.possible
    assert not wide.possible
    assert "the pin is not held" in wide.reasons[0].sentence


@given(st.floats(min_value=1.0, max_value=12.0))
def test_possible_means_inside_at_both_ends_of_the_tolerance(jacket_mm: float) -> None:
    """For any jacket the verdict is that of the worst of the tolerance band, on both sides."""
    tried = replace(
        VID_60,
        layers=(replace(VID_60.jacket, outside_diameter_m=jacket_mm / 1e3),),
    )
    plain = replace(BNC_60, accepts_conductor=None)
    jackets = [c for c in judge_fit(tried, plain).checks if c.name.startswith("jacket")]
    inside = tried.jacket.smallest_m >= 5.7e-3 and tried.jacket.largest_m <= 6.3e-3
    assert all(c.outcome is Outcome.GOOD for c in jackets) is inside
