"""Hexagons on pins and ferrules."""

import pytest

from reelwright.core.ends.dies.hexagon import ferrule_interference, judge_ferrule_die, judge_pin_die
from reelwright.core.parts.layers import LayerRole
from reelwright.core.verdicts import Outcome
from tests.ends_world import layer

WIRE = layer(LayerRole.CONDUCTOR, 1.024, 0.01)


@pytest.mark.parametrize(
    ("across_flats_mm", "outcome", "told"),
    [
        (1.60, Outcome.GOOD, "6.8\u202f%"),
        (1.73, Outcome.BAD, "the pin is not held"),
        (1.45, Outcome.CAUTION, "grows longer"),
    ],
)
def test_the_pin_die_grips_spares_or_crushes(
    across_flats_mm: float, outcome: Outcome, told: str
) -> None:
    """1.60 grips within the aim, 1.73 does not hold, 1.45 lengthens the pin."""
    check = judge_pin_die(
        barrel_outside_m=1.78e-3,
        barrel_outside_tolerance_m=None,
        barrel_bore_m=1.09e-3,
        barrel_bore_tolerance_m=None,
        conductor=WIRE,
        conductor_area_m2=None,
        across_flats_m=across_flats_mm / 1e3,
    )
    assert check.outcome is outcome
    assert told in check.sentence


def test_interference_is_counted_on_the_braid_stack() -> None:
    """Stem 5.0, braid 0.4 a side, wall 0.5, hexagon 6.6: (5.8 − 5.6)/0.8 = 25 %."""
    value = ferrule_interference(
        stem_outside_m=5.0e-3,
        braid_thickness_m=0.4e-3,
        ferrule_wall_m=0.5e-3,
        across_flats_m=6.6e-3,
    )
    assert value == pytest.approx(0.25, abs=1e-12)


@pytest.mark.parametrize(
    ("across_flats_mm", "outcome"),
    [(6.6, Outcome.GOOD), (6.8, Outcome.BAD), (6.4, Outcome.CAUTION)],
)
def test_the_ferrule_die_has_two_sides(across_flats_mm: float, outcome: Outcome) -> None:
    """Too wide a hexagon leaves the braid loose; too narrow a one crushes what is under it."""
    check = judge_ferrule_die(
        stem_outside_m=5.0e-3,
        stem_tolerance_m=None,
        braid_thickness_m=0.4e-3,
        braid_spread_m=0.0,
        braid_metal_share=None,
        ferrule_wall_m=0.5e-3,
        ferrule_wall_tolerance_m=None,
        across_flats_m=across_flats_mm / 1e3,
    )
    assert check.outcome is outcome
