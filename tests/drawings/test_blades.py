"""The closing blades: to scale, legible, plain, and refused where there is nothing to draw."""

import pytest

from reelwright.core.ends.strip.blades import Blade, plan_blades
from reelwright.core.ends.strip.plan import StripPlan, WireStrip
from reelwright.core.ends.strip.spread import COMMON_STRIP_SPREAD
from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.verdicts import Reason
from reelwright.drawings.blades import draw_blades
from tests.drawings.look import SVG, assert_plain, outside, overlaps, parsed
from tests.ends_world import POF_22, SPK_14, VID_28, VID_70, coax_strip, wire_strip

CASES = (
    (VID_70, coax_strip(4.25, 5.0, 7.7)),
    (VID_28, coax_strip(3.4, 3.6, 5.5)),
    (VID_70, coax_strip(8.0, 0.0, 6.5)),
    (SPK_14, wire_strip(35.0, 12.0)),
    (POF_22, wire_strip(7.0, 7.0)),
)


def planned(cable: Cable, strip: StripPlan | WireStrip) -> tuple[Blade, ...]:
    """Return the blades of a strip."""
    found = plan_blades(cable, strip, COMMON_STRIP_SPREAD)
    assert not isinstance(found, Reason)
    return found


def drawn(cable: Cable, strip: StripPlan | WireStrip) -> str:
    """Return the drawing of a strip's blades."""
    blades = planned(cable, strip)
    return draw_blades(cable, blades, COMMON_STRIP_SPREAD, jacket="BK", title=cable.code)


@pytest.mark.parametrize(("cable", "strip"), CASES)
def test_it_is_plain_and_legible(cable: Cable, strip: StripPlan | WireStrip) -> None:
    """No style, no script; no text leaves the sheet and none lies on another."""
    svg = drawn(cable, strip)
    assert_plain(svg)
    assert outside(svg) == []
    assert overlaps(svg) == []


@pytest.mark.parametrize(("cable", "strip"), CASES)
def test_each_blade_stands_where_it_closes(cable: Cable, strip: StripPlan | WireStrip) -> None:
    """The edge of every blade lies at half its closing diameter, at the scale that is stated."""
    svg = drawn(cable, strip)
    blades = planned(cable, strip)
    root = parsed(svg)
    title = root.find(f"{SVG}title")
    assert title is not None
    assert title.text
    scale = float(title.text.rsplit(", ", 1)[1].split(" :")[0])
    points = [each.get("points", "") for each in root.iter(f"{SVG}polygon")]
    edges = [float(each.split(",")[0]) for each in points]
    assert edges == pytest.approx([2.0 + blade.best_mm / 2 * scale for blade in blades], abs=0.01)


def test_nothing_to_draw_is_refused() -> None:
    """No blades, and a width that leaves no room."""
    with pytest.raises(BadValue):
        draw_blades(VID_70, (), COMMON_STRIP_SPREAD, jacket="BK", title="none")
    blades = planned(*CASES[0])
    with pytest.raises(BadValue):
        draw_blades(VID_70, blades, COMMON_STRIP_SPREAD, jacket="BK", title="narrow", width_mm=20.0)
