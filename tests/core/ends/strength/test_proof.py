"""What pulls prove together: each way of giving way, pulls that were stopped, the gauge's noise."""

import pytest

from reelwright.core.ends.strength.failure import WHAT_IT_SAYS, FailureMode
from reelwright.core.ends.strength.more_pulls import MorePulls
from reelwright.core.ends.strength.proof import PullProof, PullReading, prove_by_pulls
from reelwright.core.ends.strength.pull_rules import WireMetal
from reelwright.core.ends.strength.pulls import PullMinimum, judge_pulls
from reelwright.core.ends.strength.wire_strength import judge_against_wire, wire_holds_n
from reelwright.core.errors import BadValue
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source
from tests.core.ends.strength.test_pull_rules import of

ASKED = PullMinimum(
    minimum_n=180.0, source=Source(text="the demo workshop's limit", basis=Basis.COMMON_PRACTICE)
)
TEN = (248.0, 262.0, 231.0, 255.0, 240.0, 251.0, 266.0, 235.0, 249.0, 243.0)
BRAID, JACKET = FailureMode.BRAID_PULLED_OUT, FailureMode.JACKET_SLIPPED


def proof(
    *groups: tuple[FailureMode, tuple[float, ...]], gauge_uncertainty_n: float | None = None
) -> PullProof:
    """What pulls prove against 180 N, for 99 % with 95 % confidence."""
    return prove_by_pulls(
        [PullReading(force_n=force, mode=mode) for mode, forces in groups for force in forces],
        ASKED,
        coverage=0.99,
        confidence=0.95,
        least_count=10,
        gauge_uncertainty_n=gauge_uncertainty_n,
    )


def check_of(found: PullProof, name: str) -> Check:
    """The check of that name; fails where there is none."""
    return next(check for check in found.verdict.checks if check.name == name)


def test_pulls_that_give_way_alike_are_judged_as_ever() -> None:
    """One way of giving way: one check, the one over all pulls, and no more of them needed."""
    found = proof((BRAID, TEN))
    assert found.verdict.checks == (judge_pulls(TEN, ASKED, coverage=0.99, confidence=0.95),)
    assert found.verdict.works
    assert isinstance(found.more, MorePulls)
    assert found.more.more_count == 0
    assert [group.says for group in found.groups] == [WHAT_IT_SAYS[BRAID]]


def test_a_weak_way_of_giving_way_cannot_hide_in_a_strong_one() -> None:
    """All seventy clear the minimum together; the ten that slipped do not by themselves."""
    strong = tuple(260 + (pull - 248) * 0.4 for pull in TEN) * 6
    weak = tuple(215 + (pull - 248) * 1.1 for pull in TEN)
    found = proof((BRAID, strong), (JACKET, weak))
    assert found.overall.outcome is Outcome.GOOD
    assert [group.mode for group in found.groups] == [JACKET, BRAID]
    assert check_of(found, str(BRAID)).outcome is Outcome.GOOD
    assert check_of(found, str(JACKET)).outcome is Outcome.BAD
    assert found.verdict.outcome is Outcome.BAD


def test_few_pulls_that_give_way_otherwise_are_a_caution_and_not_judged_alone() -> None:
    """Two of twelve slipped: told, too few to judge, and no refusal."""
    found = proof((BRAID, TEN), (JACKET, (244.0, 252.0)))
    caution = check_of(found, "ways of giving way")
    assert caution.outcome is Outcome.CAUTION
    assert "jacket slipped (2)" in caution.sentence
    assert "too few to judge alone" in caution.sentence
    assert found.groups[1].check is None or found.groups[0].check is None
    assert found.verdict.works


def test_pulls_that_were_stopped_are_counted_and_never_averaged() -> None:
    """Twelve held at their limit prove nothing of 99 %/95 %: 299 would, or ten that give way."""
    found = proof((FailureMode.NOT_BROKEN, TEN))
    assert found.overall.outcome is Outcome.NOT_COMPUTED
    assert found.bound_n is None
    assert "299" in found.overall.sentence
    assert "289 more" in found.overall.sentence
    assert isinstance(found.more, Reason)


def test_one_stopped_pull_among_others_makes_all_of_them_a_count() -> None:
    """Its value is a lower bound, so the spread of all is not known."""
    found = proof((BRAID, TEN), (FailureMode.NOT_BROKEN, (250.0,)))
    assert found.overall.outcome is Outcome.NOT_COMPUTED


def test_299_stopped_pulls_that_all_reached_it_prove_it_and_298_do_not() -> None:
    """0.99^299 is under 5 %, 0.99^298 is not."""
    assert proof((FailureMode.NOT_BROKEN, (200.0,) * 299)).overall.outcome is Outcome.GOOD
    assert proof((FailureMode.NOT_BROKEN, (200.0,) * 298)).overall.outcome is Outcome.NOT_COMPUTED


def test_a_pull_stopped_or_broken_under_the_minimum_refuses_the_count() -> None:
    """Among stopped pulls all must reach the minimum."""
    held = (FailureMode.NOT_BROKEN, (200.0,) * 299)
    assert proof(held, (BRAID, (170.0,))).overall.outcome is Outcome.BAD
    assert proof((FailureMode.NOT_BROKEN, (170.0,) * 299)).overall.outcome is Outcome.BAD


def test_a_pull_far_below_the_others_is_not_outvoted() -> None:
    """Forty good pulls and one of 175 N: the bound may hold, the end that failed is told."""
    found = proof((BRAID, (*(220.0 + 0.02 * i for i in range(40)), 175.0)))
    assert found.overall.outcome is Outcome.GOOD
    assert check_of(found, "weakest pull").outcome is Outcome.BAD
    assert not found.verdict.works


def test_a_spread_under_the_gauges_noise_is_no_spread_of_the_ends() -> None:
    """Pulls that agree better than the tester can read are refused, good as they look."""
    alike = tuple(248 + 0.05 * (pull - 248) for pull in TEN)
    assert proof((BRAID, alike)).verdict.works
    found = proof((BRAID, alike), gauge_uncertainty_n=2.0)
    assert check_of(found, "noise of the gauge").outcome is Outcome.NOT_COMPUTED
    assert not found.verdict.works


def test_a_margin_under_the_gauges_noise_is_no_margin() -> None:
    """The bound of 204.8 N clears 180 N by 24.8 N: enough for 10 N of gauge, not for 13 N."""
    wide = tuple(248 + 1.0 * (pull - 248) for pull in TEN)
    spare_n = proof((BRAID, wide)).overall.margin
    assert spare_n is not None
    # A gauge noisier than the pulls spread is refused for that; this spread is above both.
    below, above = spare_n / 2 - 0.1, spare_n / 2 + 0.1
    wider = tuple(pull - spare_n + 6.0 for pull in wide)
    assert proof((BRAID, wide), gauge_uncertainty_n=min(below, 5.0)).verdict.works
    assert above > below
    refused = proof((BRAID, wider), gauge_uncertainty_n=4.0)
    assert refused.overall.outcome is Outcome.GOOD
    assert "cannot be told apart" in check_of(refused, "noise of the gauge").sentence


def test_what_clears_the_guard_says_what_is_left() -> None:
    """The bound less twice the tester's 2 N is shown beside the minimum, and still holds it."""
    bare = proof((BRAID, TEN))
    found = proof((BRAID, TEN), gauge_uncertainty_n=2.0)
    guard = check_of(found, "guard of the gauge")
    assert bare.bound_n is not None
    assert (guard.outcome, guard.value) == (Outcome.GOOD, pytest.approx(bare.bound_n - 4.0))
    assert found.verdict.works


def test_pulls_that_were_stopped_are_guarded_by_their_weakest() -> None:
    """300 held 181 N: 1 N over the minimum is no margin for a tester of 2 N, and one for 0.4 N."""
    held = (FailureMode.NOT_BROKEN, (181.0,) * 300)
    assert proof(held, gauge_uncertainty_n=0.4).verdict.works
    refused = proof(held, gauge_uncertainty_n=2.0)
    assert "the weakest clears the minimum" in check_of(refused, "noise of the gauge").sentence
    assert not refused.verdict.works


@pytest.mark.parametrize("forces", [(), (248.0,)])
def test_fewer_than_two_pulls_are_refused_clearly(forces: tuple[float, ...]) -> None:
    """Nothing is computed, and what is missing is said."""
    found = proof((BRAID, forces))
    assert found.overall.outcome is Outcome.NOT_COMPUTED
    assert isinstance(found.more, Reason)
    assert found.more.code == "spread_unknown"


def test_pulls_without_spread_are_refused_clearly() -> None:
    """Ten times the same reading is a gauge too coarse, or one reading written ten times."""
    found = proof((BRAID, (248.0,) * 10))
    assert found.overall.outcome is Outcome.NOT_COMPUTED
    assert isinstance(found.more, Reason)
    assert "gauge is too coarse" in found.more.sentence


def test_a_reading_of_nothing_is_none() -> None:
    """Zero newtons is no pull."""
    with pytest.raises(BadValue):
        PullReading(force_n=0.0, mode=BRAID)


def test_the_wire_is_the_most_a_joint_can_hold() -> None:
    """14 AWG of soft copper holds 416 to 520 N: 300 N is fair, 600 N cannot be, 200 N warns."""
    assert wire_holds_n(of()) == pytest.approx((416.0, 520.0))
    fair, high, low = (judge_against_wire((force,), of()) for force in (300.0, 600.0, 200.0))
    assert isinstance(fair, Check)
    assert isinstance(high, Check)
    assert isinstance(low, Check)
    assert (fair.outcome, high.outcome, low.outcome) == (
        Outcome.GOOD,
        Outcome.CAUTION,
        Outcome.CAUTION,
    )
    assert "72\u202f%" in fair.sentence
    assert "gauge" in high.sentence
    assert "weakened" in low.sentence


def test_the_strength_of_an_unknown_wire_is_not_computed() -> None:
    """Clad wire, or one of unknown area, has no ceiling here; a measured one stands."""
    for wire in (of(metal=WireMetal.CLAD), of(area_m2=None)):
        assert isinstance(wire_holds_n(wire), Reason)
        assert isinstance(judge_against_wire((300.0,), wire), Reason)
    assert wire_holds_n(of(metal=WireMetal.CLAD, break_n=700.0)) == (700.0, 700.0)
    with pytest.raises(BadValue):
        judge_against_wire((), of())
