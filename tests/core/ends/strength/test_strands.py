"""Nicked and broken strands against the table, row by row as printed."""

import pytest

from reelwright.core.ends.strength.strands import (
    StrandRules,
    StrippedWire,
    judge_strands,
    strands_allowed,
)
from reelwright.core.errors import BadValue
from reelwright.core.verdicts import Outcome

AIRCRAFT, SPACE = StrandRules.AIRCRAFT_WIRE, StrandRules.SPACE_SHIELD


def wire(
    awg: int | None, strands: int, nicked: int = 0, broken: int = 0, aluminium: bool = False
) -> StrippedWire:
    """A stripped wire with that much hurt."""
    return StrippedWire(
        awg=awg,
        strands=strands,
        nicked_strands=nicked,
        broken_strands=broken,
        aluminium=aluminium,
    )


@pytest.mark.parametrize(
    ("nicked", "broken", "outcome"),
    [(0, 0, Outcome.GOOD), (2, 0, Outcome.GOOD), (3, 0, Outcome.BAD), (0, 1, Outcome.BAD)],
)
def test_nineteen_strands_bear_two_nicks_and_no_break(
    nicked: int, broken: int, outcome: Outcome
) -> None:
    """A broken strand is not made up for by nicks that are left over."""
    assert judge_strands(wire(16, 19, nicked, broken), AIRCRAFT).outcome is outcome


def test_a_construction_between_two_rows_is_not_computed() -> None:
    """Seven strands, 41 strands, or 19 strands of 12 AWG stand in no row, hurt or not."""
    for one in (wire(18, 7), wire(14, 41), wire(12, 19), wire(None, 19)):
        check = judge_strands(one, AIRCRAFT)
        assert check.outcome is Outcome.NOT_COMPUTED
        assert "no row" in check.sentence


def test_aluminium_bears_nothing() -> None:
    """Neither nicked nor broken, from 8 AWG to 3/0; a thinner one is not tabulated."""
    assert judge_strands(wire(4, 133, 1, aluminium=True), AIRCRAFT).outcome is Outcome.BAD
    assert judge_strands(wire(4, 133, aluminium=True), AIRCRAFT).outcome is Outcome.GOOD
    assert strands_allowed(wire(10, 37, aluminium=True), AIRCRAFT) is None


def test_a_screen_bears_a_tenth_nicked_and_none_severed() -> None:
    """Of 96 strands nine may be nicked, not ten, and none cut through."""
    assert judge_strands(wire(None, 96, 9), SPACE).outcome is Outcome.GOOD
    assert judge_strands(wire(None, 96, 10), SPACE).outcome is Outcome.BAD
    assert judge_strands(wire(None, 96, 0, 1), SPACE).outcome is Outcome.BAD


def test_more_strands_hurt_than_there_are_is_refused() -> None:
    """Ten nicked and ten broken of nineteen is a slip of the pen."""
    with pytest.raises(BadValue):
        wire(16, 19, 10, 10)
