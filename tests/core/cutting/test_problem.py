"""What a cutting problem refuses, and that the checker of these tests can complain."""

import dataclasses

import pytest

from reelwright.core.cutting import LotGroup, LotRule, SegmentKind, chance_of, plan, usable_mm
from reelwright.core.errors import BadValue, InputFaults
from tests.core.cutting.checker import complaints
from tests.core.cutting.days import RED, RED_REELS, pieces, problem, racks, reel, stretch


def test_all_contradictions_are_named_together() -> None:
    """A piece twice, a reel twice, an item without rules and a group nobody knows: five faults."""
    good = problem(pieces(2, 1000), RED_REELS)
    with pytest.raises(InputFaults) as caught:
        dataclasses.replace(
            good,
            pieces=(*good.pieces, good.pieces[0], *pieces(1, 9, order="X", group="rack 9")),
            reels=(*RED_REELS, RED_REELS[0], reel("R-9", "VID-60 pink", stretch(0, 9, 0))),
        )
    told = "\n".join(str(fault) for fault in caught.value.faults)
    assert len(caught.value.faults) == 4
    for words in ("'O-01': given 2 times", "'R-113'", "'VID-60 pink': no rules", "'rack 9'"):
        assert words in told


def test_a_group_of_two_items_is_a_fault() -> None:
    """Two cables cannot come from one lot."""
    wanted = (
        *pieces(1, 1000, group="set"),
        *pieces(1, 1000, item="VID-60 blue", order="B", group="set"),
    )
    with pytest.raises(InputFaults, match="cannot come from one lot"):
        problem(wanted, (), groups=(LotGroup(id="set", rule=LotRule.SAME),))


def test_stretches_that_touch_or_overlap_are_refused() -> None:
    """Between two stretches there is a flaw; without one they are one stretch."""
    with pytest.raises(BadValue, match="a flaw between each two"):
        reel("R-1", RED, stretch(0, 100, 0), stretch(100, 50, 0))


@pytest.mark.parametrize("chance", [0.4, 1.0, float("nan")])
def test_a_certainty_that_is_none_is_refused(chance: float) -> None:
    """Less likely than not, certain, and not a number are no chance to plan with."""
    with pytest.raises(BadValue):
        dataclasses.replace(problem((), ()), chance_of_enough=chance)


def test_usable_length_and_chance_agree() -> None:
    """What is usable at 98 % is there with at least 98 %; one millimetre more is not."""
    one = stretch(0, 12_200, 250)
    usable = usable_mm(one, chance_of_enough=0.98)
    assert chance_of(one, wanted_mm=usable) >= 0.98
    assert chance_of(one, wanted_mm=usable + 1) < 0.98


def test_the_checker_complains_about_a_spoilt_plan() -> None:
    """A piece moved into the flaw, a dropped warning and a lost segment are each noticed."""
    day = racks(3)
    made = plan(day)
    first = made.reels[0]
    shifted = tuple(
        dataclasses.replace(part, kind=SegmentKind.CUT, piece_id="O-12 1-01")
        if part.kind is SegmentKind.FLAW
        else part
        for part in first.segments
    )
    spoilt = {
        "a flaw inside": dataclasses.replace(first, segments=shifted),
        "a gap": dataclasses.replace(first, segments=first.segments[1:]),
    }
    for words, cuts in spoilt.items():
        bad = dataclasses.replace(made, reels=(cuts, *made.reels[1:]))
        assert any(words in complaint for complaint in complaints(day, bad))
    silent = dataclasses.replace(made, warnings=())
    assert any("without a warning" in complaint for complaint in complaints(day, silent))
