"""How far a ferrule's hexagon squeezes the jacket under it."""

import math
from dataclasses import replace

import pytest

from reelwright.core.ends.dies.ferrule_crimp import ferrule_joint
from reelwright.core.ends.dies.jacket_crimp import inside_fill, judge_jacket_part
from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.layers import LayerRole
from reelwright.core.verdicts import Basis, Check, Outcome
from tests.ends_world import BNC_60, BNC_70, F_70, VID_60, VID_70


def plug(**sizes_mm: float) -> Connector:
    """The 6 mm plug with a wall of 0.50 ± 0.01 mm, changed as told."""
    drawing = BNC_60.drawing
    assert drawing is not None
    tolerances = replace(
        drawing.tolerances, ferrule_bore_m=0.01e-3, ferrule_outside_m=0.01e-3, stem_outside_m=None
    )
    drawn = {"stem_outside_m": 5.0, "ferrule_bore_m": 6.5, "ferrule_outside_m": 7.5} | sizes_mm
    changed = {name: value / 1e3 for name, value in drawn.items()}
    return replace(
        BNC_60,
        drawing=replace(drawing, tolerances=tolerances, **changed),  # type: ignore[arg-type]
    )


def cable(jacket_mm: float, off_mm: float) -> Cable:
    """The 6 mm coax with another jacket over a braid of 5.0 ± 0 mm on 4.4 ± 0 mm."""
    sizes = {LayerRole.BRAID: 5.0e-3, LayerRole.FOIL: 4.4e-3}
    layers = [
        replace(
            each,
            outside_diameter_m=sizes.get(each.role, each.outside_diameter_m),
            tolerance_m=0.0,
        )
        for each in VID_60.layers
        if each.role is not LayerRole.JACKET
    ]
    jacket = replace(VID_60.jacket, outside_diameter_m=jacket_mm / 1e3, tolerance_m=off_mm / 1e3)
    return replace(VID_60, layers=(*layers, jacket))


def judged(across_flats_mm: float, *, jacket_mm: float = 6.0, off_mm: float = 0.05) -> Check:
    """What a hexagon does to the jacket of that cable."""
    found = judge_jacket_part(
        cable(jacket_mm, off_mm), plug(), across_flats_m=across_flats_mm / 1e3
    )
    assert found is not None
    return found


def test_the_squeeze_is_counted_on_the_jackets_wall() -> None:
    """Jacket 6.00 ± 0.05 on a braid of 5.0, wall 0.50 ± 0.01, 6.80 across flats, by hand."""
    # Nominal (6.00 − 5.80)/1.00 = 20 %. Loosest (5.95 − 5.82)/0.95 = 13.7 %, tightest
    # (6.05 − 5.78)/1.05 = 25.7 %: the lower side, zero, has less to spare.
    found = judged(6.80)
    assert found.outcome is Outcome.GOOD
    assert found.value == pytest.approx(20.0)
    assert (found.limit, found.margin) == (0.0, pytest.approx(100 * 0.13 / 0.95))
    told = found.sentence.replace("\u202f", " ")
    assert "14 % of its wall squeezed at the loosest, 26 % of its wall squeezed at the" in told
    assert found.source.basis is Basis.COMMON_PRACTICE


@pytest.mark.parametrize(
    ("across_flats_mm", "outcome", "told"),
    [
        (6.90, Outcome.GOOD, "3 % of its wall"),
        (6.92, Outcome.GOOD, "1 % of its wall"),
        (6.96, Outcome.CAUTION, "0.03 mm of play"),
        (6.56, Outcome.GOOD, "49 % of its wall squeezed at the tightest"),
        (6.54, Outcome.CAUTION, "cut or creeps"),
    ],
)
def test_it_must_be_touched_at_the_loosest_and_spared_at_the_tightest(
    across_flats_mm: float, outcome: Outcome, told: str
) -> None:
    """By hand: loose from 5.95 + 0.98 = 6.93, over half below 6.05 − 1.05/2 + 1.02 = 6.545 mm."""
    check = judged(across_flats_mm)
    if across_flats_mm == 6.96:
        # (6.96 − 0.98) − 5.95 = 0.03 mm of play.
        assert check.margin == pytest.approx(-100 * 0.03 / 0.95)
    assert check.outcome is outcome
    assert told in check.sentence.replace("\u202f", " ")


def test_the_room_is_the_rounded_hexagon_inside_the_wall() -> None:
    """Fill of 6.0 mm in 6.80 across flats under a wall of 7.5 mm outside, by hand."""
    joint = ferrule_joint(cable(6.0, 0.05), plug())
    assert joint is not None
    found = inside_fill(joint, jacket_outside_m=6.0e-3, across_flats_m=6.80e-3)
    # The outline of 2√3·6.80 = 23.5559 is 0.0060 shorter than π·7.5 = 23.5619: sharp corners, so
    # (√3/2)·5.80² = 29.1329 mm² of room for π/4·36 = 28.2743 mm².
    assert found == pytest.approx(28.2743 / 29.1329, rel=1e-4)
    # Wider, the corners outside have r = (2√3·7.20 − π·7.5)/(4√3 − 2π) = 2.1403, inside 1.6403.
    wide = inside_fill(joint, jacket_outside_m=6.0e-3, across_flats_m=7.20e-3)
    room = math.sqrt(3) / 2 * 6.20**2 - (2 * math.sqrt(3) - math.pi) * 1.6403**2
    assert wide == pytest.approx(28.2743 / room, rel=1e-4)
    assert inside_fill(joint, jacket_outside_m=6e-3, across_flats_m=0.9e-3) == math.inf


def test_what_is_missing_is_named() -> None:
    """Not computed for want of a dimension, a braid or a drawing; nothing where none is crimped."""
    drawing = BNC_70.drawing
    assert drawing is not None
    bare = replace(drawing.tolerances, stem_outside_m=None, ferrule_bore_m=None)
    no_bore = replace(
        BNC_70,
        drawing=replace(drawing, tolerances=bare, ferrule_bore_m=None, stem_outside_m=None),
    )
    found = judge_jacket_part(VID_70, no_bore, across_flats_m=8.23e-3)
    assert found is not None
    assert found.outcome is Outcome.NOT_COMPUTED
    assert "missing: the outside of the stem and the bore of the ferrule" in found.sentence
    undrawn = judge_jacket_part(VID_70, replace(BNC_70, drawing=None), across_flats_m=8.23e-3)
    assert undrawn is not None
    assert "missing: a drawing of the connector" in undrawn.sentence
    assert judge_jacket_part(VID_70, F_70, across_flats_m=8.23e-3) is None
    with pytest.raises(BadValue):
        judge_jacket_part(VID_70, BNC_70, across_flats_m=math.nan)
