"""Where the tip of a pin lands: the stack of a pair, its window, its checks."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.dies.pin_growth import MeasuredGrowth
from reelwright.core.ends.stack import Reading
from reelwright.core.ends.strip.plan import MACHINE_STRIP_TOLERANCES, StripPlan
from reelwright.core.ends.tip.checks import CAPABLE_SHARE
from reelwright.core.ends.tip.parts import COMMON_PRACTICE, GROWTH, Kept
from reelwright.core.ends.tip.pin_tip import PinTip, judge_pin_tip, tip_window
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.drawing import DrawingTolerances
from reelwright.core.verdicts import Basis, Check, Outcome, Reason
from tests.ends_world import BNC_60, F_70, VID_60, VID_70, XLR_M, drawing

DRAWN = {
    "barrel_depth": 4.50,
    "barrel_bore": 0.88,
    "barrel_outside": 1.78,
    "pin_crimp_length": 2.0,
    "plane_to_seat": 4.80,
    "shoulder_to_tip": 10.40,
}
KEPT = {"barrel_depth": 0.05, "plane_to_seat": 0.05, "shoulder_to_tip": 0.05}
PLUG = replace(BNC_60, drawing=drawing(KEPT, **DRAWN, tip_least=5.45, tip_most=5.79))
F_PLUG = replace(
    F_70,
    drawing=drawing({"floor_to_plane": 0.10}, conductor_protrusion=8.0, floor_to_plane=4.80),
)
# Pins that keep their length to a picometre: nothing is left of the growth in the sum.
NO_GROWTH = MeasuredGrowth(growths_m=(-1e-12, 1e-12) * 10, gauge_uncertainty_m=None)


def strip(conductor_mm: float, *, folds: bool = False) -> StripPlan:
    """A strip whose bare conductor is that long."""
    return StripPlan(
        conductor_mm=conductor_mm,
        dielectric_mm=0.0 if folds else 4.6,
        braid_mm=7.2,
        tolerances=MACHINE_STRIP_TOLERANCES,
        folds_braid=folds,
    )


def judged(
    connector: Connector = PLUG,
    *,
    cable: Cable = VID_60,
    conductor_mm: float = 4.25,
    die_mm: float | None = 1.60,
    growth: MeasuredGrowth | None = None,
    seed: int = 11,
) -> PinTip | Reason:
    """The tip of a pair, by 50 000 draws."""
    return judge_pin_tip(
        cable,
        connector,
        strip=strip(conductor_mm, folds=connector is F_PLUG),
        pin_across_flats_m=None if die_mm is None else die_mm / 1e3,
        practice=COMMON_PRACTICE,
        growth=growth,
        draw_count=50_000,
        seed=seed,
    )


def known(connector: Connector = PLUG, **how: object) -> PinTip:
    """The same, which must be told."""
    found = judged(connector, **how)  # type: ignore[arg-type]
    assert isinstance(found, PinTip), found
    return found


def grown_by(*growths_mm: float) -> MeasuredGrowth:
    """Pins that grew by so much, read by a gauge without a recorded uncertainty."""
    return MeasuredGrowth(
        growths_m=tuple(each / 1e3 for each in growths_mm), gauge_uncertainty_m=None
    )


def check_of(tip: PinTip, name: str) -> Check:
    """The check of that name."""
    (found,) = [each for each in tip.verdict.checks if each.name == name]
    return found


def test_without_growth_the_worked_stack_comes_out() -> None:
    """±0.05, 0.05, 0.08 and 0.12 mm about 5.60 mm: ±0.30 at worst, Cpk 0.93, the creep leads."""
    tip = known(growth=NO_GROWTH)
    assert tip.stack.mean == pytest.approx(5.60e-3)
    assert tip.stack.worst_case == pytest.approx(0.30e-3)
    assert tip.stack.root_sum_square == pytest.approx(0.1606e-3, abs=5e-8)
    assert tip.stack.cpk(tip.window) == pytest.approx(0.934, abs=5e-4)
    assert tip.worth.startswith("creep of the dielectric: halved, it brings Cpk from 0.93 to 1.22")
    assert [each.name for each in tip.stack.contributors] == [
        "reference plane to seat",
        "pin, shoulder to tip",
        "seating by hand",
        "creep of the dielectric",
        GROWTH,
    ]


def test_growth_that_was_not_measured_may_be_anything_from_none_to_all() -> None:
    """Volume: the 2 mm under the hexagon lengthen by 8.2 %; the mean moves by half, evenly."""
    tip = known()
    metal_mm2 = 0.7853981634 * (1.78**2 - 0.88**2 + 0.812**2)
    longer_mm = 2.0 * (metal_mm2 / (0.8660254038 * 1.60**2) - 1)
    assert tip.growth_most_m == pytest.approx(longer_mm / 1e3)
    assert longer_mm == pytest.approx(0.163, abs=1e-3)
    assert tip.stack.mean == pytest.approx(5.60e-3 + longer_mm / 2e3)
    (grown,) = [each for each in tip.stack.contributors if each.name == GROWTH]
    assert grown.shift - grown.tolerance == pytest.approx(0)
    check = check_of(tip, GROWTH)
    assert check.outcome is Outcome.CAUTION
    assert "not known" in check.sentence


def test_measured_pins_take_the_place_of_the_guess() -> None:
    """Mean and tolerance interval of measured pins, read as ± 3 s, and the caution is gone."""
    measured = grown_by(0.031, 0.040, 0.049, 0.035, 0.045)
    tip = known(growth=measured)
    (grown,) = [each for each in tip.stack.contributors if each.name == GROWTH]
    assert (grown.shift, grown.tolerance) == (measured.mean_m, measured.tolerance_m)
    assert grown.reading is Reading.NORMAL
    assert grown.source.basis is Basis.OWN_SHOP
    # By hand: s of the five is 7.280 µm; k 7.64 of five pins makes ± 55.6 µm of it.
    assert grown.shift == pytest.approx(0.040e-3)
    assert grown.tolerance == pytest.approx(0.0556e-3, abs=1e-7)
    check = check_of(tip, GROWTH)
    assert check.outcome is Outcome.GOOD
    assert "5 measured pins grew by 0.040" in check.sentence
    assert "not with the reckoned none to 0.16" in check.sentence
    assert tip.stack.mean < known().stack.mean


def test_too_few_pins_leave_the_reckoned_range() -> None:
    """Four of five: the same stack as without any, and the check counts them."""
    few, none = known(growth=grown_by(0.03, 0.04, 0.05, 0.04)), known()
    assert few.stack == none.stack
    check = check_of(few, GROWTH)
    assert check.outcome is Outcome.CAUTION
    assert check.sentence.endswith("measured 4 of 5, the reckoned range stands")
    assert check_of(none, GROWTH).sentence.endswith("measure 5 pins before and after")


@pytest.mark.parametrize(
    ("growth", "told"),
    [
        ((0.40, 0.41, 0.42, 0.41, 0.40), "volume allows no more than that"),
        ((-0.20, -0.21, -0.20, -0.22, -0.21), "no crimp shortens a pin"),
    ],
    ids=["too much", "shorter"],
)
def test_growth_that_cannot_be_is_told(growth: tuple[float, ...], told: str) -> None:
    """What volume forbids is no growth: readings or pins were mixed up."""
    check = check_of(known(growth=grown_by(*growth)), GROWTH)
    assert check.outcome is Outcome.CAUTION
    assert told in check.sentence


def test_a_conductor_that_is_too_long_stands_pins_proud_on_one_side_only() -> None:
    """Stripped to the barrel's own depth, half of the pins are held off, none is drawn in."""
    right, long = known(growth=NO_GROWTH), known(growth=NO_GROWTH, conductor_mm=4.50)
    assert long.bottoming_chance == pytest.approx(0.5)
    assert right.bottoming_chance is not None
    assert right.bottoming_chance < 1e-10
    assert long.drawn.mean > right.drawn.mean + 5 * right.drawn.mean_uncertainty
    assert long.drawn.below_share == pytest.approx(right.drawn.below_share, abs=2e-3)
    assert long.drawn.above_share is not None
    assert right.drawn.above_share is not None
    assert long.drawn.above_share > right.drawn.above_share
    check = check_of(long, "conductor at the bottom of the pin")
    assert check.outcome is Outcome.CAUTION
    assert check.sentence.endswith("strip shorter")


def test_a_mean_outside_the_window_is_bad_and_one_inside_at_most_a_caution() -> None:
    """A gauge sorts out the odd pin, not most of them."""
    assert known(growth=NO_GROWTH).verdict.outcome is Outcome.CAUTION
    short = replace(PLUG, drawing=drawing(KEPT, **{**DRAWN, "shoulder_to_tip": 10.2},
                                          tip_least=5.45, tip_most=5.79))  # fmt: skip
    tip = known(short, growth=NO_GROWTH)
    assert tip.verdict.outcome is Outcome.BAD
    assert tip.drawn.below_share == pytest.approx(0.82, abs=0.02)


def test_a_compressed_end_lands_where_its_conductor_was_cut() -> None:
    """8.00 − 4.80 mm stand out 3.20 mm, far inside 1/16 to 1/4 in, which is from memory."""
    tip = known(F_PLUG, cable=VID_70, conductor_mm=8.0, die_mm=None)
    assert tip.stack.mean == pytest.approx(3.20e-3)
    assert tip.window.low == pytest.approx(1.5875e-3)
    assert tip.window_source.basis is Basis.FROM_MEMORY
    assert tip.verdict.outcome is Outcome.GOOD
    assert tip.bottoming_chance is tip.growth_most_m is None
    assert tip.worth.startswith("nothing: Cpk")
    (bared,) = [each for each in tip.stack.contributors if each.name.startswith("bare conductor")]
    assert bared.tolerance == pytest.approx(0.10e-3)


@pytest.mark.parametrize(
    ("connector", "told"),
    [
        (replace(PLUG, drawing=None), "neither the drawing of BNC-60 nor its mating face (BNC)"),
        (XLR_M, "neither the drawing of XLR3M nor its mating face (XLR3M)"),
        (
            replace(PLUG, drawing=drawing(KEPT, **DRAWN)),
            "neither the drawing of BNC-60 nor its mating face (BNC) says where the tip may lie",
        ),
        (
            replace(PLUG, drawing=drawing(**DRAWN, tip_least=5.45, tip_most=5.79)),
            "states no tolerance for reference plane to seat and pin, shoulder to tip and depth",
        ),
        (
            replace(PLUG, drawing=drawing(tip_least=5.45, tip_most=5.79, barrel_depth=4.5)),
            "does not give reference plane to seat and pin, shoulder to tip",
        ),
        (
            replace(
                PLUG,
                drawing=replace(
                    drawing(KEPT, **DRAWN, tip_least=5.45, tip_most=5.79), barrel_bore_m=None
                ),
            ),
            "measured pins would tell",
        ),
        (F_70, "does not give floor to reference plane"),
    ],
    ids=["no drawing", "no face", "no window", "no tolerance", "no seat", "no bore", "no floor"],
)
def test_what_is_not_known_is_not_computed(connector: Connector, told: str) -> None:
    """Each names what is missing; none gives a number."""
    found = judged(connector)
    assert isinstance(found, Reason)
    assert told in found.sentence
    assert found.sentence.endswith("not computed")


def test_a_set_up_without_a_pin_die_tells_nothing_unless_pins_were_measured() -> None:
    """The die decides the growth; pins that were measured stand in for it."""
    found = judged(die_mm=None)
    assert isinstance(found, Reason)
    assert "names no pin die" in found.sentence
    assert isinstance(judged(die_mm=None, growth=NO_GROWTH), PinTip)
    without_bore = replace(PLUG, drawing=replace(PLUG.drawing, barrel_bore_m=None))  # type: ignore[type-var]
    few = judged(without_bore, growth=grown_by(0.03))
    assert isinstance(few, Reason)
    assert "1 of the 5 pins that would tell are measured" in few.sentence


def test_a_gauge_accepts_what_is_inside_whatever_it_reads_off() -> None:
    """5.45 to 5.79 mm, drawn in by 0.02 mm each; a gauge coarser than the window accepts none."""
    tip = known()
    assert tip.gauge_least_m == pytest.approx(5.47e-3)
    assert tip.gauge_most_m == pytest.approx(5.77e-3)
    coarse = Kept(tolerance_m=0.17e-3, source=COMMON_PRACTICE.gauge.source)
    blind = judge_pin_tip(
        VID_60,
        PLUG,
        strip=strip(4.25),
        pin_across_flats_m=1.6e-3,
        practice=replace(COMMON_PRACTICE, gauge=coarse),
        draw_count=1000,
        seed=1,
    )
    assert isinstance(blind, PinTip)
    assert blind.gauge_least_m is blind.gauge_most_m is None


def test_the_drawing_is_believed_before_the_face() -> None:
    """A maker's own window stands for its connector; without one the face's does."""
    own = replace(F_PLUG, drawing=replace(F_PLUG.drawing, tip_least_m=2e-3, tip_most_m=4e-3))  # type: ignore[type-var]
    found, face = tip_window(own), tip_window(F_PLUG)
    assert not isinstance(found, Reason)
    assert not isinstance(face, Reason)
    assert (found[0].low, found[1].basis) == (2e-3, Basis.DATA_SHEET)
    assert face[1].basis is Basis.FROM_MEMORY


def test_practice_says_that_it_is_practice() -> None:
    """Seating, creep and gauge are common practice until the workshop measures its own."""
    for kept in (COMMON_PRACTICE.seating, COMMON_PRACTICE.creep, COMMON_PRACTICE.gauge):
        assert kept.source.basis is Basis.COMMON_PRACTICE


@given(st.floats(min_value=0.01, max_value=0.4), st.floats(min_value=0.01, max_value=0.4))
def test_a_looser_maker_never_lands_better(a_mm: float, b_mm: float) -> None:
    """The wider a tolerance, the smaller Cpk and the wider the worst case."""
    found = []
    for seat_mm in sorted((a_mm, b_mm)):
        stated = DrawingTolerances.stating(
            barrel_depth_m=0.05e-3, plane_to_seat_m=seat_mm / 1e3, shoulder_to_tip_m=0.05e-3
        )
        assert PLUG.drawing is not None
        loose = replace(PLUG, drawing=replace(PLUG.drawing, tolerances=stated))
        found.append(
            judge_pin_tip(
                VID_60,
                loose,
                strip=strip(4.25),
                pin_across_flats_m=1.6e-3,
                practice=COMMON_PRACTICE,
                draw_count=100,
                seed=1,
            )
        )
    tight, wide = found
    assert isinstance(tight, PinTip)
    assert isinstance(wide, PinTip)
    assert wide.stack.cpk(wide.window) <= tight.stack.cpk(tight.window)
    assert wide.stack.worst_case >= tight.stack.worst_case


def test_the_share_that_counts_as_capable_follows_from_the_aim() -> None:
    """Cpk 1.33, centred: 3.99 standard deviations to either limit, some 66 in a million."""
    assert pytest.approx(6.6e-5, rel=0.01) == CAPABLE_SHARE
