"""What a welder, a plug and a joint can take."""

import math
from dataclasses import replace

import pytest

from reelwright.core.ends.weld.energy import (
    Welder,
    bundle_m,
    judge_barrel,
    judge_compaction,
    judge_gauges,
    judge_welder,
)
from reelwright.core.errors import BadValue
from reelwright.core.parts.connector import Band
from reelwright.core.trials.weld_energy import KnownGauge, guess_energy
from reelwright.core.verdicts import Outcome

WELDER = Welder(code="W-1", most_energy_j=500.0, most_power_w=1500.0, longest_s=1.0)
TAKES = Band(low_m=1.4e-3, high_m=3.1e-3)
KNOWN = tuple(
    KnownGauge(area_m2=area_mm2 * 1e-6, energy_j=energy_j)
    for area_mm2, energy_j in ((1.31, 96.0), (2.08, 149.0), (3.31, 243.0), (5.26, 378.0))
)


def energy_j(area_m2: float) -> float | None:
    """The first guess through the known gauges."""
    return guess_energy(KNOWN, area_m2=area_m2, confidence=0.95).energy_j


def test_loudspeaker_welds_suit_gauges_up_to_10_awg() -> None:
    """What is common practice follows from the plug's bore and the welder's energy by number."""
    found = judge_gauges(WELDER, TAKES, energy_j, gauges=(16, 14, 12, 10, 8, 6))
    assert [each.awg for each in found if each.possible] == [16, 14, 12, 10]
    eight = found[4]
    energy, barrel = eight.checks
    assert energy.outcome is Outcome.BAD
    assert "short" in energy.sentence
    assert barrel.outcome is Outcome.BAD
    assert "too thick" in barrel.sentence
    # Farther than twice the largest gauge known nothing is guessed, and that is no yes.
    assert found[5].checks[0].outcome is Outcome.NOT_COMPUTED
    stronger = replace(WELDER, most_energy_j=900.0)
    wider = Band(low_m=1.4e-3, high_m=4.0e-3)
    assert not judge_gauges(stronger, TAKES, energy_j, gauges=(8,))[0].possible
    assert not judge_gauges(WELDER, wider, energy_j, gauges=(8,))[0].possible
    assert judge_gauges(stronger, wider, energy_j, gauges=(8,))[0].possible


def test_power_over_the_longest_weld_can_be_what_decides() -> None:
    """300 W for a second bring in 300 J, whatever the energy limit is."""
    weak = replace(WELDER, most_power_w=300.0)
    check = judge_welder(weak, energy_j=378.0, area_m2=5.26e-6)
    assert check.outcome is Outcome.BAD
    assert check.margin == pytest.approx(-78.0)
    assert "300\u202fW for 1.0\u202fs" in check.sentence


@pytest.mark.parametrize(
    ("height_mm", "outcome", "told"),
    [
        (1.30, Outcome.GOOD, "80\u202f%"),
        (1.50, Outcome.BAD, "too little"),
        (1.15, Outcome.CAUTION, "too hard"),
        (1.00, Outcome.NOT_COMPUTED, "cannot be"),
    ],
)
def test_compaction_has_two_sides_and_an_impossible_one(
    height_mm: float, outcome: Outcome, told: str
) -> None:
    """2.08 mm² in a joint 2 mm wide: by its measured height."""
    check = judge_compaction(strands_m2=2.08e-6, width_m=2e-3, height_m=height_mm / 1e3)
    assert check.outcome is outcome
    assert told in check.sentence


def test_nineteen_strands_fill_their_circle() -> None:
    """Strands of 0.4 mm make a bundle of 2.0 mm, which a plug takes up to its very bore."""
    assert bundle_m(19 * math.pi / 4 * 0.4e-3**2) == pytest.approx(2.0e-3)
    assert judge_barrel(conductor_m=3.1e-3, takes=TAKES).outcome is Outcome.GOOD
    thin = judge_barrel(conductor_m=1.17e-3, takes=TAKES)
    assert thin.outcome is Outcome.BAD
    assert "0.23\u202fmm too thin" in thin.sentence


def test_nonsense_is_refused() -> None:
    """A welder without power, a joint without height, an area of nothing."""
    with pytest.raises(BadValue):
        replace(WELDER, most_power_w=0.0)
    with pytest.raises(BadValue):
        judge_compaction(strands_m2=2e-6, width_m=2e-3, height_m=0.0)
    with pytest.raises(BadValue):
        bundle_m(0.0)
