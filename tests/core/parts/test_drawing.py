"""Drawings of connectors: what they state, and what cannot be."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue, InputFaults
from reelwright.core.parts.drawing import DIMENSIONS, TOLERANCED, DrawingTolerances
from reelwright.core.parts.layers import LayerRole
from tests.ends_world import VID_60, drawing, layer


def faults_of(tolerances_mm: dict[str, float] | None = None, **dimensions_mm: float) -> list[str]:
    """What is wrong with a drawing of these dimensions."""
    with pytest.raises(InputFaults) as refused:
        drawing(tolerances_mm, **dimensions_mm)
    return [str(fault) for fault in refused.value.faults]


def test_every_toleranced_dimension_is_one_of_the_drawing() -> None:
    """A tolerance belongs to a dimension; clearances and reliefs have none."""
    assert set(TOLERANCED) < set(DIMENSIONS)
    assert not {"barrel_clearance_m", "dielectric_relief_m", "braid_relief_m"} & set(TOLERANCED)


def test_a_tolerance_widens_its_dimension_to_both_sides() -> None:
    """4.90 ± 0.02 mm lies between 4.88 and 4.92; without a tolerance both ends are the nominal."""
    drawn = drawing({"stem_bore": 0.02}, stem_bore=4.90, stem_length=8.2)
    assert drawn.smallest_m("stem_bore_m") == pytest.approx(4.88e-3)
    assert drawn.largest_m("stem_bore_m") == pytest.approx(4.92e-3)
    assert drawn.smallest_m("stem_length_m") == drawn.largest_m("stem_length_m")
    assert drawn.stem_length_m == drawn.largest_m("stem_length_m")
    assert drawn.largest_m("boot_bore_m") is None


@pytest.mark.parametrize(
    ("dimensions_mm", "told"),
    [
        ({"barrel_bore": 1.8, "barrel_outside": 1.78}, "the pin's barrel has no wall"),
        ({"stem_bore": 5.4, "stem_outside": 5.34}, "the stem has no wall"),
        ({"ferrule_bore": 6.9, "ferrule_outside": 6.86}, "the ferrule has no wall"),
        ({"stem_outside": 6.3, "ferrule_bore": 6.26}, "the ferrule does not pass over the stem"),
        ({"barrel_depth": 4.5, "hole_far_edge": 4.6}, "the hole shows nothing"),
        ({"tip_least": 5.79, "tip_most": 5.45}, "the window of the pin's tip is shut"),
        ({"tip_least": 5.45}, "a window has two ends"),
        ({"stem_length": -8.2}, "is less than nothing"),
        ({"stem_bore": 0.0}, "is nothing"),
        ({"stem_bore": float("nan")}, "is no length"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_what_cannot_be_is_refused(dimensions_mm: dict[str, float], told: str) -> None:
    """One fault each, in words."""
    (fault,) = faults_of(**dimensions_mm)
    assert told in fault


def test_all_that_is_wrong_is_told_together() -> None:
    """A stem and a ferrule without a wall, one over the other: three faults at once."""
    found = faults_of(stem_bore=6.0, stem_outside=5.9, ferrule_bore=5.8, ferrule_outside=5.7)
    assert len(found) == 3
    assert found[0].startswith("invented for tests, stem bore")


def test_walls_must_stand_at_the_worst_of_their_tolerances() -> None:
    """A wall of 0.05 mm is fine with ±0.02 mm on each side of it and gone with ±0.03 mm."""
    drawing({"stem_bore": 0.02, "stem_outside": 0.02}, stem_bore=5.30, stem_outside=5.35)
    (fault,) = faults_of(
        {"stem_bore": 0.03, "stem_outside": 0.03}, stem_bore=5.30, stem_outside=5.35
    )
    assert "the stem has no wall" in fault


def test_a_tolerance_needs_its_dimension_and_stays_below_it() -> None:
    """A tolerance of what is not drawn, a negative one and one as large as its size are refused."""
    found = faults_of(
        {"stem_bore": 0.02, "stem_length": -0.1, "ferrule_bore": 7.0},
        stem_length=8.2,
        ferrule_bore=6.3,
    )
    assert len(found) == 3
    assert any("its dimension is not drawn" in each for each in found)


def test_a_tolerance_of_an_unknown_name_is_refused() -> None:
    """A misspelt dimension never counts as not stated."""
    with pytest.raises(TypeError):
        DrawingTolerances.stating(stem_boar_m=0.00002)


@given(st.floats(min_value=0, max_value=0.4e-3), st.floats(min_value=0, max_value=0.4e-3))
def test_a_smaller_tolerance_never_makes_a_drawing_impossible(a_m: float, b_m: float) -> None:
    """What stands with the wider tolerance stands with the narrower one."""
    tight, loose = sorted((a_m, b_m))
    sizes = {"stem_bore": 5.0, "stem_outside": 5.5}
    try:
        drawing({"stem_bore": loose * 1e3}, **sizes)
    except InputFaults:
        return
    assert drawing({"stem_bore": tight * 1e3}, **sizes).tolerance_m("stem_bore_m") == (
        pytest.approx(tight)
    )


def test_layers_that_cannot_be_are_refused_together() -> None:
    """A foil thinner than its dielectric, a braid than its foil, no jacket: three faults."""
    with pytest.raises(InputFaults) as refused:
        replace(
            VID_60,
            layers=(
                layer(LayerRole.DIELECTRIC, 3.66),
                layer(LayerRole.FOIL, 3.60),
                layer(LayerRole.BRAID, 3.50),
            ),
        )
    told = [str(fault) for fault in refused.value.faults]
    assert len(told) == 3
    assert "is thinner than the dielectric beneath it" in told[1]


def test_a_layer_is_thicker_than_its_tolerance() -> None:
    """A conductor of 0.4 ± 0.4 mm may be none at all: refused."""
    with pytest.raises(BadValue, match="less than the diameter"):
        layer(LayerRole.CONDUCTOR, 0.4, 0.4)
