"""Measured strips: capable, not capable, too few."""

from dataclasses import replace
from random import Random

import pytest

from reelwright.core.ends.strip.capability import MeasuredStrip, judge_measured_strips
from reelwright.core.errors import BadValue
from reelwright.core.verdicts import Outcome
from tests.ends_world import coax_strip

PLAN = coax_strip(4.25, 5.00, 7.70)


def strips(count: int, *, spread_mm: float, off_mm: float = 0.0) -> list[MeasuredStrip]:
    """Return measured strips, seeded."""
    chance = Random(11)
    return [
        MeasuredStrip(
            conductor_mm=chance.gauss(4.25 + off_mm, spread_mm),
            dielectric_mm=chance.gauss(5.00, spread_mm),
            braid_mm=chance.gauss(7.70, spread_mm),
        )
        for _ in range(count)
    ]


def test_thirty_good_strips_are_capable() -> None:
    """σ 0.02 mm in ±0.10 and ±0.15 mm: a, b and c keep their tolerance."""
    found = judge_measured_strips(PLAN, strips(30, spread_mm=0.02))
    assert [check.name for _, check in found] == [
        "capability of a",
        "capability of b",
        "capability of c",
    ]
    assert {check.outcome for _, check in found} == {Outcome.GOOD}


def test_a_stripper_that_strays_or_lies_off_is_refused() -> None:
    """σ 0.05 mm in ±0.10 mm is not capable; nor is a mean 0.08 mm off."""
    wide = judge_measured_strips(PLAN, strips(30, spread_mm=0.05))
    assert wide[0][1].outcome is Outcome.BAD
    off = judge_measured_strips(PLAN, strips(30, spread_mm=0.02, off_mm=0.08))
    assert off[0][1].outcome is Outcome.BAD
    assert off[1][1].outcome is Outcome.GOOD


def test_few_strips_leave_a_caution() -> None:
    """Five good ones show a Cpk, and say how low it may be."""
    found = judge_measured_strips(PLAN, strips(5, spread_mm=0.01))
    assert {check.outcome for _, check in found} == {Outcome.CAUTION}
    assert "only 5 strips" in found[0][1].sentence


def test_a_length_of_nothing_is_not_measured() -> None:
    """A compressed end has no b."""
    plan = coax_strip(8.0, 0.0, 6.5)
    measured = [
        replace(each, conductor_mm=each.conductor_mm + 3.75, dielectric_mm=0.0)
        for each in strips(30, spread_mm=0.02)
    ]
    found = judge_measured_strips(plan, measured)
    assert [check.name for _, check in found] == ["capability of a", "capability of c"]


def test_fewer_than_two_strips_are_refused() -> None:
    """One strip, and none, tell nothing of a spread."""
    for count in (0, 1):
        with pytest.raises(BadValue, match="two strips or more"):
            judge_measured_strips(PLAN, strips(count, spread_mm=0.02))


def test_a_measured_strip_that_cannot_be_is_refused() -> None:
    """No conductor, no strip."""
    with pytest.raises(BadValue):
        MeasuredStrip(conductor_mm=0.0, dielectric_mm=5.0, braid_mm=7.7)
