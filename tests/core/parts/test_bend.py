"""Bends against the rules of radius over outside diameter."""

import pytest

from reelwright.core.parts.bend import (
    COAX_BEND,
    DATA_PAIR_BEND,
    POLYIMIDE_BEND,
    judge_bend,
    straight_at_end_m,
)
from reelwright.core.verdicts import Outcome


@pytest.mark.parametrize(
    ("radius_mm", "outcome"), [(35.0, Outcome.BAD), (37.0, Outcome.CAUTION), (61.0, Outcome.GOOD)]
)
def test_a_coax_of_6_mm_bends_to_36_and_better_to_60(radius_mm: float, outcome: Outcome) -> None:
    """Six outside diameters are the least, ten are recommended."""
    check = judge_bend(outside_diameter_m=6e-3, radius_m=radius_mm * 1e-3, rule=COAX_BEND)
    assert check.outcome is outcome
    assert check.margin is not None
    assert (check.margin >= 0) == (outcome is Outcome.GOOD)


def test_one_cable_under_two_rules_has_two_answers() -> None:
    """Eight diameters are allowed for a coax and too tight for polyimide film."""
    bent = {"outside_diameter_m": 5e-3, "radius_m": 40e-3}
    assert judge_bend(**bent, rule=COAX_BEND).outcome is Outcome.CAUTION
    assert judge_bend(**bent, rule=POLYIMIDE_BEND).outcome is Outcome.BAD


def test_data_pairs_have_a_least_radius_and_no_recommended_one() -> None:
    """Four diameters in service; nothing is made up beyond it."""
    bent = {"outside_diameter_m": 5.8e-3, "rule": DATA_PAIR_BEND}
    assert judge_bend(radius_m=24e-3, **bent).outcome is Outcome.GOOD  # type: ignore[arg-type]
    assert judge_bend(radius_m=23e-3, **bent).outcome is Outcome.BAD  # type: ignore[arg-type]


def test_a_finished_end_wants_a_straight_run() -> None:
    """Six outside diameters behind a coax end."""
    assert straight_at_end_m(6.05e-3) == pytest.approx(36.3e-3)
