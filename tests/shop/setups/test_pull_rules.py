"""Which rule set counts for a set-up: a switch of its revision, kept to when it is drafted."""

import dataclasses

import pytest
from django.db import IntegrityError, transaction

from reelwright.core.ends.strength.pull_rules import PullMinimum, PullRules, rule_set, wire_of
from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.verdicts import Reason
from reelwright.demo.other_cables import other_entries
from reelwright.demo.set_ups import set_up_entries
from reelwright.shop.setups import selectors, services
from reelwright.shop.setups.models import Revision
from reelwright.shop.setups.pull_rules import rules_minimum
from reelwright.shop.setups.rules import missing_for_proof
from reelwright.shop.setups.sheet import Numbers
from reelwright.shop.setups.states import FailureMode
from tests.shop.refusals import refused
from tests.shop.setups.conftest import COMPLETE, GOOD_PULLS_N
from tests.small_world import CABLE, TODAY, SmallWorld

LIFTED = "Ada, 2 March: the crimp was sectioned and holds."


def numbers(rules: PullRules | None, minimum_n: float | None, *, waiver: str = "") -> Numbers:
    """The complete numbers under a rule set, asking for this least pull."""
    return dataclasses.replace(
        COMPLETE,
        pull_rules=rules,
        minimum_pull_n=minimum_n,
        minimum_pull_source=None if minimum_n is None else COMPLETE.minimum_pull_source,
        solid_wire_waiver=waiver,
    )


def draft(world: SmallWorld, chosen: Numbers) -> int:
    """The next revision of S-1 with these numbers."""
    return services.revision_draft(
        by=world.ben, set_up_code="S-1", letter="B", numbers=chosen, on=TODAY
    ).pk


@pytest.mark.parametrize("minimum_n", [60.0, 75.0])
def test_a_rule_set_is_kept_with_the_revision(
    world: SmallWorld, drafted: int, minimum_n: float
) -> None:
    """Its own least pull, or more of the shop's own, and the sheet tells which rule set counts."""
    chosen = numbers(PullRules.IEC, minimum_n)
    row = draft(world, chosen)
    assert selectors.revision_sheet(row).numbers == chosen
    assert selectors.revision_sheet(drafted).numbers.pull_rules is None


def test_a_least_pull_under_its_rule_set_is_refused_with_both_numbers(
    world: SmallWorld, drafted: int
) -> None:
    """59 N is under the 60 N that IEC 60352-2 asks of 0.5 mm²; nothing is drafted."""
    with refused("pull_under_rules") as caught:
        draft(world, numbers(PullRules.IEC, 59.0))
    assert "59\u202fN" in caught.value.sentence
    assert "60\u202fN" in caught.value.sentence
    assert Revision.objects.count() == 1
    draft(world, numbers(None, 59.0))


def test_a_rule_set_that_is_silent_on_the_wire_cannot_be_chosen(
    world: SmallWorld, drafted: int
) -> None:
    """0.50 mm² is of no gauge, so the commercial column has no row and names its neighbours."""
    with refused("pull_rules_silent") as caught:
        draft(world, numbers(PullRules.COMMERCIAL, 500.0))
    assert "22\u202fAWG (35.6\u202fN)" in caught.value.sentence
    assert "20\u202fAWG (57.9\u202fN)" in caught.value.sentence


def test_solid_wire_is_barred_until_somebody_lifts_the_bar(world: SmallWorld, drafted: int) -> None:
    """The small world's coax is solid inside; the waiver says who lifted the bar, and why."""
    with refused("pull_rules_silent") as caught:
        draft(world, numbers(PullRules.NASA, 500.0))
    assert caught.value.data["reason"] == "solid_wire_barred"
    row = draft(world, numbers(PullRules.NASA, 500.0, waiver=LIFTED))
    assert selectors.revision_sheet(row).numbers.solid_wire_waiver == LIFTED


def test_the_lifted_bar_still_asks_for_its_least_pull(world: SmallWorld, drafted: int) -> None:
    """60 % of 0.503 mm² of soft copper at 250 MPa is 75.4 N: 75 N is refused, 76 N is not."""
    with refused("pull_under_rules"):
        draft(world, numbers(PullRules.NASA, 75.0, waiver=LIFTED))
    draft(world, numbers(PullRules.NASA, 76.0, waiver=LIFTED))


def test_a_draft_may_still_lack_its_least_pull(world: SmallWorld, drafted: int) -> None:
    """A draft may have gaps: what is missing is shown, and the rule set is not asked yet."""
    row = draft(world, numbers(PullRules.IEC, None))
    missing = selectors.next_state(selectors.revision_sheet(row)).missing
    assert [reason.code for reason in missing] == ["missing_minimum_pull_n"]


def test_a_waiver_of_no_rule_set_is_refused_by_the_value_and_the_database(
    world: SmallWorld, drafted: int
) -> None:
    """There is no bar to lift where the shop's own least pull counts."""
    with pytest.raises(BadValue):
        numbers(None, 90.0, waiver=LIFTED)
    with pytest.raises(IntegrityError), transaction.atomic():
        Revision.objects.filter(pk=drafted).update(solid_wire_waiver=LIFTED)
    with pytest.raises(IntegrityError), transaction.atomic():
        Revision.objects.filter(pk=drafted).update(pull_rules="hearsay")


@pytest.mark.parametrize("rules", list(PullRules))
def test_the_source_of_every_rule_set_fits_its_column(rules: PullRules) -> None:
    """A least pull is never kept with half of its source."""
    width = Revision._meta.get_field("minimum_pull_source").max_length
    found = rule_set(rules, solid_wire_barred=False).minimum_for(
        wire_of(demo_cable("SPK-14"))  # type: ignore[arg-type]
    )
    if isinstance(found, Reason):
        assert rules is PullRules.CABLE_RETENTION
        found = rule_set(rules).minimum_for(wire_of(CABLE))  # type: ignore[arg-type]
    assert isinstance(found, PullMinimum)
    assert width is not None
    assert len(found.source.text) <= width


def demo_cable(code: str) -> Cable:
    """A cable of the demo workshop that is no coax."""
    return next(entry.cable for entry in other_entries() if entry.cable.code == code)


def test_the_demo_keeps_to_the_rule_sets_that_it_names() -> None:
    """Every welded end asks for what the commercial column does; coax ends name no rule set."""
    welded = [entry for entry in set_up_entries() if entry.numbers.weld_horn]
    assert len(welded) == 5
    for entry in welded:
        asked = rules_minimum(demo_cable(entry.cable_code), entry.numbers)
        assert isinstance(asked, PullMinimum)
        assert entry.numbers.minimum_pull_n == asked.minimum_n
        assert entry.numbers.minimum_pull_source == asked.source
    coax = [entry for entry in set_up_entries() if entry.numbers.strip_conductor_mm is not None]
    assert {entry.numbers.pull_rules for entry in coax} == {None}


def test_pulls_that_were_stopped_do_not_prove_a_revision() -> None:
    """Ten that gave way prove it; the same ten stopped and held are only a count of ten."""
    held = [FailureMode.NOT_BROKEN] * 10
    broke = [FailureMode.CONDUCTOR_BROKE] * 10
    assert missing_for_proof(90.0, GOOD_PULLS_N, broke) == ()
    (reason,) = missing_for_proof(90.0, GOOD_PULLS_N, held)
    assert reason.code == "pull_not_proven"
    assert "299" in reason.sentence


def test_the_records_keep_stopped_pulls_apart(world: SmallWorld, drafted: int) -> None:
    """Ten ends that held at the tester's limit leave a revision on trial; ten that gave way not."""
    services.revision_try(by=world.ben, revision_id=drafted, on=TODAY)
    services.pulls_record(
        by=world.ben,
        revision_id=drafted,
        pulls_n=[(force_n, FailureMode.NOT_BROKEN) for force_n in GOOD_PULLS_N],
        on=TODAY,
    )
    with refused("something_missing") as caught:
        services.revision_prove(by=world.ada, revision_id=drafted, on=TODAY)
    assert caught.value.data["missing"] == ("pull_not_proven",)
    assert "stopped and held" in caught.value.sentence


def test_what_is_not_proven_says_how_many_more_pulls_would_do() -> None:
    """The refusal ends with what to do: so many more pulls, or that none will help."""
    (reason,) = missing_for_proof(108.0, GOOD_PULLS_N)
    assert "more pulls would show 108\u202fN" in reason.sentence
    (reason,) = missing_for_proof(115.0, GOOD_PULLS_N)
    assert "No number of pulls will do" in reason.sentence
