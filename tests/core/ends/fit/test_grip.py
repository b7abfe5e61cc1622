"""The hexagons that hold an end at the loosest of its tolerances."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.dies.hexagon import ferrule_interference, pin_reduction
from reelwright.core.ends.fit.compatibility import Dies, judge_fit
from reelwright.core.ends.fit.grip import ferrule_window_m, judge_grips, pin_window_m
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.drawing import DrawingTolerances
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.core.verdicts import Basis, Outcome
from tests.ends_world import AUD_BP, BNC_60, BNC_70, F_70, VID_60, VID_70, XLR_F


def with_tolerance(cable: Cable, role: LayerRole, tolerance_m: float) -> Cable:
    """The cable with another tolerance of one layer."""
    layers = tuple(
        replace(each, tolerance_m=tolerance_m) if each.role is role else each
        for each in cable.layers
    )
    return replace(cable, layers=layers)


def found(cable: Cable, role: LayerRole) -> Layer:
    """The layer of that role, which must be there."""
    layer = cable.layer(role)
    assert layer is not None
    return layer


def test_the_widest_pin_hexagon_reduces_the_thinnest_conductor_by_five_percent() -> None:
    """The window's ends give back the two aims when the reduction is computed from them."""
    window = pin_window_m(VID_70, BNC_70)
    assert window is not None
    assert BNC_70.drawing is not None
    conductor = found(VID_70, LayerRole.CONDUCTOR)
    for across_flats_m, diameter_m, aim in (
        (window[1], conductor.smallest_m, 0.05),
        (window[0], conductor.largest_m, 0.15),
    ):
        assert pin_reduction(
            barrel_outside_m=BNC_70.drawing.barrel_outside_m or 0,
            barrel_bore_m=BNC_70.drawing.barrel_bore_m or 0,
            conductor_area_m2=math.pi / 4 * diameter_m**2,
            across_flats_m=across_flats_m,
        ) == pytest.approx(aim, abs=1e-12)


def test_the_widest_ferrule_hexagon_presses_the_braid_by_fifteen_percent() -> None:
    """The window's ends give back the two aims; a braid that follows its foil has no spread."""
    window = ferrule_window_m(VID_60, BNC_60)
    drawing = BNC_60.drawing
    assert window is not None
    assert drawing is not None
    braid, under = found(VID_60, LayerRole.BRAID), found(VID_60, LayerRole.FOIL)
    spread_m = max(0.0, braid.tolerance_m - under.tolerance_m)
    stack_m = braid.outside_diameter_m - under.outside_diameter_m
    wall_m = ((drawing.ferrule_outside_m or 0) - (drawing.ferrule_bore_m or 0)) / 2
    for across_flats_m, share_m, aim in (
        (window[1], stack_m - spread_m, 0.15),
        (window[0], stack_m + spread_m, 0.35),
    ):
        assert ferrule_interference(
            stem_outside_m=drawing.stem_outside_m or 0,
            braid_thickness_m=share_m / 2,
            ferrule_wall_m=wall_m,
            across_flats_m=across_flats_m,
        ) == pytest.approx(aim, abs=1e-12)


def test_a_die_that_grips_the_nominal_and_not_the_thinnest_is_refused_in_millimetres() -> None:
    """A die just over the widest that grips is bad by that much, just under it good."""
    window = pin_window_m(VID_70, BNC_70)
    assert window is not None
    for past_m, outcome in ((0.02e-3, Outcome.BAD), (-0.02e-3, Outcome.GOOD)):
        die_m = window[1] + past_m
        (check, _) = judge_grips(VID_70, BNC_70, pin_across_flats_m=die_m)
        assert check.name == "grip of the pin"
        assert check.outcome is outcome
        assert check.margin == pytest.approx(-past_m * 1e3)
        assert check.source.basis is Basis.COMMON_PRACTICE
    wide = Dies(pin_across_flats_m=window[1] + 0.02e-3, ferrule_across_flats_m=None)
    fit = judge_fit(VID_70, BNC_70, dies=wide)
    assert not fit.possible
    assert "0.02\u202fmm" in fit.reasons[-1].sentence


def test_a_conductor_that_varies_too_much_for_one_hexagon_is_a_caution() -> None:
    """Where the thinnest wants a smaller hexagon than the thickest bears, both figures are told."""
    loose = with_tolerance(VID_70, LayerRole.CONDUCTOR, 0.2e-3)
    (check, _) = judge_grips(loose, BNC_70)
    assert check.outcome is Outcome.CAUTION
    assert check.margin is not None
    assert check.margin < 0
    assert "each lot wants its own die" in check.sentence


def test_both_windows_narrow_by_the_connectors_own_tolerances() -> None:
    """A thinner barrel, stem or ferrule must still be gripped: each side of a window moves in."""
    assert BNC_70.drawing is not None
    stated = DrawingTolerances.stating(
        barrel_outside_m=0.01e-3, stem_outside_m=0.01e-3, ferrule_outside_m=0.02e-3
    )
    loose = replace(BNC_70, drawing=replace(BNC_70.drawing, tolerances=stated))
    for window_m in (pin_window_m, ferrule_window_m):
        tight, wide = window_m(VID_70, loose), window_m(VID_70, BNC_70)
        assert tight is not None
        assert wide is not None
        assert tight[0] > wide[0]
        assert tight[1] < wide[1]
    # The ferrule's hexagon moves by as much as the diameters do, stem and wall together.
    ferrule = (ferrule_window_m(VID_70, loose), ferrule_window_m(VID_70, BNC_70))
    assert ferrule[0] is not None
    assert ferrule[1] is not None
    assert ferrule[1][1] - ferrule[0][1] == pytest.approx(0.03e-3)


def test_ends_that_are_not_crimped_have_no_grip_to_judge() -> None:
    """Compressed and soldered ends close by no hexagon."""
    assert judge_grips(VID_70, F_70) == []
    assert judge_grips(AUD_BP, XLR_F) == []


@given(st.floats(min_value=0.0, max_value=0.3e-3), st.floats(min_value=0.0, max_value=0.3e-3))
def test_a_looser_conductor_never_widens_what_grips(a_m: float, b_m: float) -> None:
    """The larger the tolerance, the narrower the window, on both of its sides."""
    windows = [
        pin_window_m(with_tolerance(VID_70, LayerRole.CONDUCTOR, tolerance_m), BNC_70)
        for tolerance_m in sorted((a_m, b_m))
    ]
    tight, loose = windows
    assert tight is not None
    assert loose is not None
    assert loose[0] >= tight[0]
    assert loose[1] <= tight[1]
