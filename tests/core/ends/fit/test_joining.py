"""Crimped or compressed: what the drawing allows, and the burr that is in the way of a pin."""

from dataclasses import replace

import pytest

from reelwright.core.ends.fit.joining import Joining, judge_joining, ways_to_join
from reelwright.core.ends.order.burr import judge_burr
from reelwright.core.parts.connector import Connector, Method
from reelwright.core.verdicts import Outcome, Reason
from tests.ends_world import BANANA, BNC_70, F_70, SPK_14, VID_70, VID_70F, XLR_M, back

F_SLEEVED = back(F_70, stem_outside=5.6, ferrule_bore=8.3)


def ways(connector: Connector) -> tuple[Joining, Joining]:
    """Return what may be crimped and what may be compressed."""
    found = ways_to_join(VID_70, connector)
    assert not isinstance(found, Reason)
    return found


def test_a_pin_and_a_ring_to_close_are_crimped_and_not_compressed() -> None:
    """Driving a sleeve along the axis closes no barrel."""
    crimp, compression = ways(BNC_70)
    assert crimp.works
    assert any("4.50" in each for each in crimp.speaks_for)
    assert not compression.works
    assert any("barrel" in each for each in compression.rules_out)
    assert judge_joining(VID_70, BNC_70).outcome is Outcome.GOOD


def test_a_conductor_that_is_the_pin_is_compressed_and_not_crimped() -> None:
    """Without a barrel there is nothing to crimp it in."""
    crimp, compression = ways(F_SLEEVED)
    assert not crimp.works
    assert any("no pin" in each for each in crimp.rules_out)
    assert compression.works
    assert judge_joining(VID_70, F_SLEEVED).outcome is Outcome.GOOD
    listed_wrong = replace(F_SLEEVED, method=Method.CRIMP_CRIMP)
    assert judge_joining(VID_70, listed_wrong).outcome is Outcome.BAD


def test_a_stranded_conductor_is_no_pin() -> None:
    """Compressed ends want a solid conductor, since it goes into the mate itself."""
    found = judge_joining(VID_70F, F_SLEEVED)
    assert found.outcome is Outcome.BAD
    assert "stranded" in found.sentence


@pytest.mark.parametrize(
    ("connector", "word"),
    [
        (back(BNC_70, stem_outside=None), "stem"),
        (back(BNC_70, ferrule_bore=None), "ferrule"),
        (back(BNC_70, seat_to_flange=None), "seat"),
        (back(F_SLEEVED, ferrule_bore=None), "sleeve"),
        (back(F_SLEEVED, conductor_protrusion=None), "stand out"),
        (back(F_SLEEVED, stem_length=None), "stem"),
    ],
)
def test_each_feature_that_is_missing_is_named(connector: Connector, word: str) -> None:
    """Take one feature off the drawing and its way of joining falls, by that feature."""
    found = judge_joining(VID_70, connector)
    assert found.outcome is Outcome.BAD
    assert word in found.sentence


def test_without_a_drawing_nothing_is_judged() -> None:
    """No back end, no answer; a drawing of something else neither."""
    assert judge_joining(VID_70, XLR_M).outcome is Outcome.NOT_COMPUTED
    drawn = replace(BNC_70, method=Method.SOLDER)
    assert judge_joining(VID_70, drawn).outcome is Outcome.NOT_COMPUTED


def test_a_burr_on_the_conductor_wants_a_trim_before_the_pin() -> None:
    """1.034 mm with a burr of 0.102 is 1.136 > 1.09; a barrel of 1.15 takes it."""
    burr = judge_burr(VID_70, BNC_70)
    assert burr is not None
    assert burr.outcome is Outcome.CAUTION
    assert burr.value == pytest.approx(1.1364)
    assert "trim it" in burr.sentence
    wide = judge_burr(VID_70, back(BNC_70, barrel_bore=1.15))
    assert wide is not None
    assert wide.outcome is Outcome.GOOD
    clean = judge_burr(VID_70, BNC_70, burr_share=0.01)
    assert clean is not None
    assert clean.outcome is Outcome.GOOD


def test_a_conductor_that_is_the_pin_is_held_against_what_its_mate_takes() -> None:
    """The F end has no barrel: 1.10 mm is the thickest, and the burr reaches 1.136."""
    burr = judge_burr(VID_70, F_SLEEVED)
    assert burr is not None
    assert burr.limit == pytest.approx(1.10)
    assert burr.outcome is Outcome.CAUTION


def test_where_no_bore_is_known_the_burr_comes_off() -> None:
    """Nothing says that it passes, so it is trimmed."""
    unknown = replace(back(BNC_70, barrel_bore=None), accepts_conductor=None)
    burr = judge_burr(VID_70, unknown)
    assert burr is not None
    assert burr.outcome is Outcome.CAUTION
    assert burr.margin is None


def test_no_pin_no_burr() -> None:
    """Soldered and welded ends have nothing slid over the conductor."""
    assert judge_burr(VID_70, XLR_M) is None
    assert judge_burr(SPK_14, BANANA) is None
