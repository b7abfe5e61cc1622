"""The section of a crimp, before and after."""

import math
import re
from dataclasses import replace

import pytest

from reelwright.core.ends.dies.ferrule_crimp import ferrule_joint, ferrule_outcome
from reelwright.core.ends.dies.pin_crimp import PinJoint, pin_joint, pin_outcome
from reelwright.core.errors import BadValue
from reelwright.drawings.crimp_section import (
    draw_ferrule_section,
    draw_pin_section,
    ferrule_rows,
    pin_rows,
)
from tests.ends_world import BNC_60, BNC_70, VID_60, VID_70


def pin() -> PinJoint:
    """The pin of the 7 mm plug."""
    found = pin_joint(VID_70, BNC_70)
    assert found is not None
    return found


def polygon(svg: str) -> list[tuple[float, float]]:
    """The first shape with several corners that is no arrow."""
    points = max(re.findall(r'<polygon points="([^"]+)"', svg), key=len)
    return [(float(x), float(y)) for x, y in (pair.split(",") for pair in points.split())]


def test_the_hexagon_is_as_wide_as_its_die_at_scale() -> None:
    """1.60 mm across flats at 10 : 1 is 16 mm of paper, and 2/√3 of that across corners."""
    svg = draw_pin_section(pin(), pin_outcome(pin(), across_flats_m=1.6e-3), scale=10.0)
    points = polygon(svg)
    assert len(points) == 6
    ys, xs = [y for _, y in points], [x for x, _ in points]
    assert max(ys) - min(ys) == pytest.approx(16.0, abs=0.002)
    assert max(xs) - min(xs) == pytest.approx(16.0 * 2 / math.sqrt(3), abs=0.002)
    assert "1.60 across flats" in svg


def test_a_ferrules_corners_are_as_round_as_its_wall_is_long() -> None:
    """The outline drawn has the length of the tube's, within the steps of its corners."""
    joint = ferrule_joint(VID_60, BNC_60)
    assert joint is not None
    outcome = ferrule_outcome(joint, across_flats_m=joint.ferrule_outside_m * 0.95)
    points = polygon(draw_ferrule_section(joint, outcome, scale=5.0))
    length_mm = sum(math.dist(a, b) for a, b in zip(points, points[1:] + points[:1], strict=True))
    assert length_mm == pytest.approx(5 * math.pi * joint.ferrule_outside_m * 1e3, rel=1e-3)


def test_the_figures_are_those_of_the_outcome() -> None:
    """Width and what stays empty; what is not known is said so."""
    outcome = pin_outcome(pin(), across_flats_m=1.73e-3)
    rows = {row.what: row for row in pin_rows(pin(), outcome)}
    assert rows["Width"].after == "1.73\u202fmm"
    assert rows["Empty inside"].after == f"{outcome.free_m2 * 1e6:.2f}\u202fmm²"
    unknown = replace(pin(), crimped_length_m=None)
    told = pin_rows(unknown, pin_outcome(unknown, across_flats_m=1.6e-3))
    assert told[-1].after == "not known"
    joint = ferrule_joint(VID_60, BNC_60)
    assert joint is not None
    narrow = ferrule_rows(joint, ferrule_outcome(joint, across_flats_m=1e-3))
    assert narrow[-1].after == "not known"


def test_a_scale_of_nothing_is_refused() -> None:
    """A drawing has a size."""
    with pytest.raises(BadValue):
        draw_pin_section(pin(), pin_outcome(pin(), across_flats_m=1.6e-3), scale=0.0)
