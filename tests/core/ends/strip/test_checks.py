"""What an end asks of its strip: each check just inside and just outside."""

from dataclasses import replace

import pytest

from reelwright.core.ends.dies.pin_growth import MeasuredGrowth
from reelwright.core.ends.fit.compatibility import Dies
from reelwright.core.ends.strip.checks import check_strip, judge_strip, pin_growth_m
from reelwright.core.ends.strip.plan import MACHINE_STRIP_TOLERANCES, StripPlan
from reelwright.core.ends.strip.spread import COMMON_STRIP_SPREAD, StripSpread
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.verdicts import Basis, Check, Outcome
from tests.ends_world import (
    AUD_BP,
    BNC_60,
    BNC_70,
    F_70,
    SPK_14,
    VID_70,
    XLR_M,
    back,
    coax_strip,
    wire_strip,
)

PIN_160 = Dies(pin_across_flats_m=1.60e-3, ferrule_across_flats_m=None)


def judged(
    strip: StripPlan,
    connector: Connector = BNC_70,
    *,
    cable: Cable = VID_70,
    spread: StripSpread = COMMON_STRIP_SPREAD,
    dies: Dies | None = PIN_160,
) -> dict[str, Check]:
    """Return the checks of a strip by name."""
    checks = judge_strip(strip, cable, connector, spread=spread, dies=dies)
    return {check.name: check for check in checks}


GOOD = coax_strip(4.25, 5.00, 7.70)


def test_released_values_are_held_against_the_drawing() -> None:
    """4.25 shows in the hole and clears the bottom; 3.60 is not seen, 4.45 may touch."""
    assert BNC_70.drawing is not None
    outcomes = {
        a_mm: [check.outcome for check in check_strip(coax_strip(a_mm, 5.0, 7.7), BNC_70.drawing)]
        for a_mm in (4.25, 3.60, 4.45)
    }
    assert outcomes[4.25] == [Outcome.GOOD, Outcome.GOOD]
    assert outcomes[3.60] == [Outcome.BAD, Outcome.GOOD]
    assert outcomes[4.45] == [Outcome.GOOD, Outcome.BAD]


def test_the_levels_of_the_strip_are_those_of_the_connector() -> None:
    """Three for the crimped end; a strip of two on it is refused, and the reverse."""
    assert judged(GOOD)["levels"].outcome is Outcome.GOOD
    two = judged(coax_strip(8.0, 0.0, 6.5))["levels"]
    assert two.outcome is Outcome.BAD
    assert "BNC-70 needs 3" in two.sentence
    assert judged(GOOD, F_70)["levels"].outcome is Outcome.BAD


def test_the_jacket_must_reach_far_enough_into_the_ferrule() -> None:
    """11.0 − 7.70 − 0.15 − 0.50 leaves 2.65 mm: too little; a ferrule of 11.35 has 3.00."""
    short = judged(GOOD)["jacket under the ferrule"]
    assert short.outcome is Outcome.BAD
    assert short.value == pytest.approx(2.65)
    assert short.margin == pytest.approx(-0.35)
    enough = judged(GOOD, back(BNC_70, ferrule_length=11.35))["jacket under the ferrule"]
    assert enough.outcome is Outcome.GOOD
    assert enough.margin == pytest.approx(0.0, abs=1e-9)


def test_a_folded_braid_stays_under_the_sleeve() -> None:
    """6.50 ± 0.15 mm folded back want a sleeve of 6.65 mm at the least."""
    folded = coax_strip(8.0, 0.0, 6.5)
    for length_mm, outcome in ((6.65, Outcome.GOOD), (6.60, Outcome.BAD)):
        connector = back(F_70, ferrule_length=length_mm, ferrule_bore=8.3)
        assert judged(folded, connector)["folded braid in the sleeve"].outcome is outcome


def test_an_oval_jacket_must_still_pass() -> None:
    """7.12 mm at its largest and 10 % oval is 7.48 mm wide: the bore of 7.30 refuses it."""
    assert judged(GOOD)["oval jacket in the ferrule"].outcome is Outcome.GOOD
    flat = replace(COMMON_STRIP_SPREAD, jacket_ovality_share=0.10)
    refused = judged(GOOD, spread=flat)["oval jacket in the ferrule"]
    assert refused.outcome is Outcome.BAD
    assert refused.value == pytest.approx(7.12 * 1.05)
    # The braid folded back lies on both sides: 5.30 − 4.67 mm more.
    folded = judged(coax_strip(8.0, 0.0, 6.5), back(F_70, ferrule_bore=7.70), spread=flat)
    assert folded["oval jacket in the ferrule"].value == pytest.approx(7.12 * 1.05 + 0.63)


def test_a_conductor_beside_the_axis_is_taken_up_by_the_barrel_or_tilts_the_pin() -> None:
    """A wall of 1.773 mm at 0.95 lies 0.045 beside; at 0.80 it is 0.197, which no mate takes."""
    assert judged(GOOD)["pin on the axis"].outcome is Outcome.GOOD
    off = replace(COMMON_STRIP_SPREAD, dielectric_concentricity_ratio=0.80)
    tilted = judged(GOOD, spread=off)["pin on the axis"]
    assert tilted.outcome is Outcome.BAD
    assert tilted.value == pytest.approx(1.773 * 0.2 / 1.8 - (1.09 - 1.034) / 2)


def test_what_does_not_fit_the_hexagon_lengthens_the_pin() -> None:
    """Reduced by 6.80 % over 3.40 mm to the hole's far edge: 3.40 × 0.0730 = 0.25 mm."""
    grown = judged(GOOD)["pin growth"]
    assert grown.value == pytest.approx(3.40 * 0.06804 / (1 - 0.06804), rel=1e-3)
    assert grown.outcome is Outcome.GOOD
    smaller = Dies(pin_across_flats_m=1.53e-3, ferrule_across_flats_m=None)
    assert judged(GOOD, dies=smaller)["pin growth"].outcome is Outcome.CAUTION
    assert "pin growth" not in judged(GOOD, dies=None)


def test_measured_pins_stand_before_the_reckoned_growth() -> None:
    """Mean 0.10 mm with k 7.64 of s 7.9 µm reaches 0.16 mm; four pins leave the 0.25 mm."""
    growths_m = (0.09e-3, 0.10e-3, 0.11e-3, 0.10e-3, 0.10e-3, 0.10e-3)

    def grown(count: int) -> Check:
        measured = MeasuredGrowth(growths_m=growths_m[:count], gauge_uncertainty_m=None)
        checks = judge_strip(
            GOOD, VID_70, BNC_70, spread=COMMON_STRIP_SPREAD, dies=PIN_160, growth=measured
        )
        (found,) = [check for check in checks if check.name == "pin growth"]
        return found

    assert grown(5).value == pytest.approx(0.10 + 7.637 * 0.0070711, abs=1e-4)
    assert grown(5).source.basis is Basis.OWN_SHOP
    assert "by 5 measured pins" in grown(5).sentence
    assert grown(4).value == pytest.approx(3.40 * 0.06804 / (1 - 0.06804), rel=1e-3)
    assert "measured 4 of 5, the reckoned range stands" in grown(4).sentence


def test_a_hexagon_larger_than_the_metal_lengthens_nothing() -> None:
    """Where the metal does not fill it, the pin keeps its length."""

    def growth(connector: Connector, across_flats_m: float) -> float | None:
        return pin_growth_m(
            VID_70, connector, conductor_length_m=4.25e-3, across_flats_m=across_flats_m
        )

    assert growth(BNC_70, 2.5e-3) == 0
    assert growth(back(BNC_70, barrel_bore=None), 1.6e-3) is None


def test_without_a_hole_the_whole_conductor_counts() -> None:
    """A drawing that shows no hole takes the crimp as long as the conductor in the barrel."""
    assert BNC_60.drawing is not None
    assert BNC_60.drawing.hole_far_edge_m is None
    grown = judged(GOOD, back(BNC_70, hole_far_edge=None))["pin growth"]
    assert grown.value == pytest.approx(4.25 * 0.06804 / (1 - 0.06804), rel=1e-3)


def test_what_the_drawing_does_not_give_has_no_check() -> None:
    """A soldered end has its levels judged and nothing else."""
    strip = wire_strip(20.0, 5.0)
    checks = judge_strip(strip, AUD_BP, XLR_M, spread=COMMON_STRIP_SPREAD)
    assert [check.name for check in checks] == ["levels"]


def test_impossible_layers_are_one_bad_check() -> None:
    """A coax strip on a loudspeaker pair says which layer is not there."""
    checks = judge_strip(GOOD, SPK_14, BNC_70, spread=COMMON_STRIP_SPREAD)
    assert [check.outcome for check in checks] == [Outcome.BAD]
    assert "dielectric" in checks[0].sentence


def test_tolerances_are_those_of_the_plan() -> None:
    """A stripper that keeps ±0.30 mm shows the conductor no more."""
    assert BNC_70.drawing is not None
    loose = replace(
        GOOD, tolerances=replace(MACHINE_STRIP_TOLERANCES, conductor_mm=0.30), conductor_mm=3.95
    )
    assert check_strip(loose, BNC_70.drawing)[0].outcome is Outcome.BAD
