"""Measured strips: capable, not capable, too few."""

import math
from random import Random

import pytest

from reelwright.core.ends.strip.capability import judge_measured_strips
from reelwright.core.ends.strip.plan import WireStrip
from reelwright.core.errors import BadValue
from reelwright.core.verdicts import Outcome
from tests.ends_world import coax_strip

PLAN = coax_strip(4.25, 5.00, 7.70)


def strips(count: int, *, spread_mm: float, off_mm: float = 0.0) -> dict[str, list[float]]:
    """Return the measured lengths of as many strips, by cut, seeded."""
    chance = Random(11)
    made = [
        (
            chance.gauss(4.25 + off_mm, spread_mm),
            chance.gauss(5.00, spread_mm),
            chance.gauss(7.70, spread_mm),
        )
        for _ in range(count)
    ]
    return {name: [each[place] for each in made] for place, name in enumerate("abc")}


def test_thirty_good_strips_are_capable() -> None:
    """σ 0.02 mm in ±0.10 and ±0.15 mm: a, b and c keep their tolerance."""
    found = judge_measured_strips(PLAN, strips(30, spread_mm=0.02))
    assert [(cut.letter, cut.check.name) for cut in found] == [
        ("a", "capability of a"),
        ("b", "capability of b"),
        ("c", "capability of c"),
    ]
    assert {cut.check.outcome for cut in found} == {Outcome.GOOD}


def test_a_stripper_that_strays_or_lies_off_is_refused_with_what_to_do() -> None:
    """σ 0.05 mm in ±0.10 mm strays; a mean 0.08 mm too long wants a shorter strip."""
    wide = judge_measured_strips(PLAN, strips(30, spread_mm=0.05))
    assert wide[0].check.outcome is Outcome.BAD
    assert "look at clamp, blades, tolerance" in wide[0].check.sentence
    off = judge_measured_strips(PLAN, strips(30, spread_mm=0.02, off_mm=0.08))
    assert off[0].check.outcome is Outcome.BAD
    assert "off its aim: strip shorter" in off[0].check.sentence
    assert off[1].check.outcome is Outcome.GOOD
    short = judge_measured_strips(PLAN, strips(30, spread_mm=0.02, off_mm=-0.2))
    assert "strip longer" in short[0].check.sentence


def test_few_strips_leave_a_caution_with_how_many_more() -> None:
    """Five good ones show a Cpk, how low it may be, and what is missing of thirty."""
    found = judge_measured_strips(PLAN, strips(5, spread_mm=0.01))
    assert {cut.check.outcome for cut in found} == {Outcome.CAUTION}
    assert "5 strips" in found[0].check.sentence
    assert "good so far; measure 25 more to tell" in found[0].check.sentence
    made, least = found[0].made, found[0].cpk_least
    assert made is not None
    assert least is not None
    assert least < made.cpk


def test_few_strips_are_bad_only_once_no_more_could_mend_it() -> None:
    """Five strips somewhat under 1.33 may still be of a capable cut; five wild ones are not."""
    under = judge_measured_strips(PLAN, {"a": [4.20, 4.23, 4.25, 4.27, 4.30]})[0]
    assert under.made is not None
    assert under.made.cpk < 1.33 < under.made.cpk_most(confidence=0.95)
    assert under.check.outcome is Outcome.CAUTION
    wild = judge_measured_strips(PLAN, {"a": [4.05, 4.15, 4.25, 4.35, 4.45]})[0]
    assert wild.made is not None
    assert wild.made.cpk_most(confidence=0.95) < 1.33
    assert wild.check.outcome is Outcome.BAD


def test_the_figures_follow_by_hand() -> None:
    """Four lengths about 4.25 mm: s = 0.0183 mm, Cpk = 0.10/(3 s), its bound by Bissell."""
    (found,) = judge_measured_strips(
        WireStrip(jacket_back_mm=None, bared_mm=4.25, tolerance_mm=0.10),
        {"cores bared": [4.23, 4.24, 4.26, 4.27]},
    )
    deviation_mm = ((0.02**2 + 0.01**2 + 0.01**2 + 0.02**2) / 3) ** 0.5
    cpk = 0.10 / (3 * deviation_mm)
    assert found.check.value == pytest.approx(cpk, rel=1e-9)
    spread = (1 / (9 * 4) + cpk**2 / (2 * 3)) ** 0.5
    assert found.cpk_least == pytest.approx(cpk - 1.6448536 * spread, rel=1e-6)
    # Both tails of a normal at 0.10/s = 5.477 standard deviations, by the error function.
    assert found.outside_chance == pytest.approx(math.erfc(3 * cpk / math.sqrt(2)), rel=1e-9)


def test_a_length_of_nothing_is_not_measured() -> None:
    """A compressed end has no b."""
    lengths = strips(30, spread_mm=0.02)
    plan = coax_strip(4.25, 0.0, 7.70)
    found = judge_measured_strips(plan, {"a": lengths["a"], "c": lengths["c"]})
    assert [cut.letter for cut in found] == ["a", "c"]
    with pytest.raises(BadValue, match="a cut of this strip: a, c"):
        judge_measured_strips(plan, lengths)


@pytest.mark.parametrize(
    ("lengths_mm", "words"),
    [
        ([], "no strip was measured: that tells nothing of a spread; measure 30 more"),
        ([4.25], "one strip tells nothing of a spread; measure 29 more"),
        ([4.25] * 6, "6 strips all alike at 4.250\u202fmm tell nothing of a spread"),
    ],
)
def test_what_tells_nothing_of_a_spread_is_not_computed(
    lengths_mm: list[float], words: str
) -> None:
    """None, one, and lengths all alike say what is missing, and give no figure."""
    found = judge_measured_strips(PLAN, {"a": lengths_mm})[0]
    assert found.check.outcome is Outcome.NOT_COMPUTED
    assert words in found.check.sentence
    assert (found.made, found.cpk_least, found.outside_chance) == (None, None, None)


def test_a_cut_without_a_tolerance_is_not_judged() -> None:
    """There is nothing to judge it by."""
    strip = WireStrip(jacket_back_mm=None, bared_mm=5.0, tolerance_mm=0.0)
    (found,) = judge_measured_strips(strip, {"cores bared": [4.9, 5.1]})
    assert found.check.outcome is Outcome.NOT_COMPUTED
    assert "no tolerance is laid down" in found.check.sentence


@pytest.mark.parametrize("length_mm", [0.0, -4.25, math.nan])
def test_a_length_that_cannot_be_is_refused(length_mm: float) -> None:
    """No conductor, no strip."""
    with pytest.raises(BadValue, match="lengths above zero"):
        judge_measured_strips(PLAN, {"a": [4.25, length_mm]})
