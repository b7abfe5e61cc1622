"""Sets of legs cut to one delay: what is refused and what is not known."""

from dataclasses import replace

import pytest

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.signals.matched_set import Leg, MatchedSet, match_set
from reelwright.core.verdicts import Reason
from tests import signal_world as world


def matched(*legs: Leg, tolerance_m: float = 0.025) -> MatchedSet | Reason:
    """Return the set of 10 m legs."""
    return match_set(
        legs,
        nominal_m=10.0,
        tolerance_minus_m=tolerance_m,
        tolerance_plus_m=2 * tolerance_m,
        cut_tolerance_m=0.003,
    )


def leg(name: str, factor: float, cable: Cable = world.VID_40) -> Leg:
    """Return a leg of a lot with that velocity factor."""
    return Leg(name=name, cable=cable, lot=world.lot(cable, factor))


def test_one_lot_needs_no_matching() -> None:
    """Legs of one lot stay as long as asked, with nothing of the tolerance used."""
    answer = matched(leg("R", 0.83), leg("G", 0.83))
    assert isinstance(answer, MatchedSet)
    assert [one.length_m for one in answer.legs] == pytest.approx([10.0, 10.0])
    assert answer.equal_length_skew_s == pytest.approx(0.0, abs=1e-20)
    assert answer.tolerance_needed_m == pytest.approx(0.003)


def test_the_plus_side_has_its_own_tolerance() -> None:
    """The faster leg is made longer and has twice the tolerance of the shorter one."""
    answer = matched(leg("slow", 0.828), leg("fast", 0.832))
    assert isinstance(answer, MatchedSet)
    slow, fast = answer.legs
    assert slow.change_m < 0 < fast.change_m
    assert slow.spare_m == pytest.approx(0.025 + slow.change_m)
    assert fast.spare_m == pytest.approx(0.050 - fast.change_m)


def test_an_unknown_delay_is_a_reason() -> None:
    """A leg of which neither lot nor sheet states a delay stops the set, by name."""
    silent = replace(world.VID_40, sheet=replace(world.VID_40.sheet, delay_s_per_m=None))
    answer = matched(leg("R", 0.83), Leg(name="G", cable=silent, lot=None))
    assert isinstance(answer, Reason)
    assert "leg G" in answer.sentence


def test_single_and_double_legs_are_refused() -> None:
    """One leg is no set, and two of one name cannot be told apart."""
    with pytest.raises(BadValue):
        matched(leg("R", 0.83))
    with pytest.raises(BadValue):
        matched(leg("R", 0.83), leg("R", 0.829))
