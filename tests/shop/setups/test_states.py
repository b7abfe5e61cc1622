"""A revision's way from draft to release, and every gate on it."""

import dataclasses

import pytest
from django.db import IntegrityError, transaction

from reelwright.core.errors import ShopRuleBroken
from reelwright.shop.setups import selectors, services
from reelwright.shop.setups.models import Pull, Revision, StateMove
from reelwright.shop.setups.states import FailureMode, State
from tests.shop.refusals import refused
from tests.shop.setups.conftest import COMPLETE, GOOD_PULLS_N
from tests.small_world import CABLE, CONNECTOR, TODAY, SmallWorld


def pull(world: SmallWorld, revision_id: int, forces_n: tuple[float, ...]) -> None:
    """Record pulls on which the conductor broke."""
    services.pulls_record(
        by=world.ben,
        revision_id=revision_id,
        pulls_n=[(force, FailureMode.CONDUCTOR_BROKE) for force in forces_n],
        on=TODAY,
    )


def release(world: SmallWorld, revision_id: int) -> None:
    """Take a drafted, complete revision all the way."""
    services.revision_try(by=world.ben, revision_id=revision_id, on=TODAY)
    pull(world, revision_id, GOOD_PULLS_N)
    services.revision_prove(by=world.ada, revision_id=revision_id, on=TODAY)
    services.revision_release(by=world.ada, revision_id=revision_id, on=TODAY)


def test_the_whole_way(world: SmallWorld, drafted: int) -> None:
    """Drafted, on trial, proven, released; who and when is written down at each step."""
    assert selectors.released_set_up(CABLE.code, CONNECTOR.code) is None
    release(world, drafted)
    sheet = selectors.released_set_up(CABLE.code, CONNECTOR.code)
    assert sheet is not None
    assert (sheet.name, sheet.approved_by, sheet.approved_on) == ("S-1 rev A", "Ada", TODAY)
    assert sheet.numbers == COMPLETE
    moved = StateMove.objects.filter(revision_id=drafted).order_by("pk")
    assert [(move.old, move.new) for move in moved] == [
        ("drafted", "on trial"),
        ("on trial", "proven"),
        ("proven", "released"),
    ]


def test_a_draft_with_gaps_is_not_tried(world: SmallWorld, drafted: int) -> None:
    """All that is missing is named at once, and the state stays."""
    gaps = dataclasses.replace(COMPLETE, cores_bared_mm=None, steps=(), test_adapter="")
    row = services.revision_draft(
        by=world.ben, set_up_code="S-1", letter="B", numbers=gaps, on=TODAY
    )
    with refused("something_missing") as caught:
        services.revision_try(by=world.ben, revision_id=row.pk, on=TODAY)
    assert set(caught.value.data["missing"]) == {
        "missing_cores_bared_mm",
        "missing_steps",
        "missing_test_adapter",
    }
    assert selectors.revision_sheet(row.pk).state is State.DRAFTED


def test_nine_pulls_do_not_prove(world: SmallWorld, drafted: int) -> None:
    """One pull fewer than asked for, however good, and the answer says how many more."""
    services.revision_try(by=world.ben, revision_id=drafted, on=TODAY)
    pull(world, drafted, GOOD_PULLS_N[:9])
    with refused("something_missing") as caught:
        services.revision_prove(by=world.ada, revision_id=drafted, on=TODAY)
    assert caught.value.data["missing"] == ("too_few_pulls",)
    pull(world, drafted, GOOD_PULLS_N[9:])
    services.revision_prove(by=world.ada, revision_id=drafted, on=TODAY)


def test_ten_pulls_above_the_minimum_may_still_not_prove(world: SmallWorld, drafted: int) -> None:
    """All ten held 90 N, but their spread says that one end in a hundred need not."""
    services.revision_try(by=world.ben, revision_id=drafted, on=TODAY)
    pull(world, drafted, (92.0, 150.0, 95.0, 140.0, 93.0, 160.0, 99.0, 131.0, 96.0, 145.0))
    with refused("something_missing") as caught:
        services.revision_prove(by=world.ada, revision_id=drafted, on=TODAY)
    assert caught.value.data["missing"] == ("pull_not_proven",)


def test_the_bench_proves_and_releases_nothing(world: SmallWorld, drafted: int) -> None:
    """Approval is the lead's."""
    services.revision_try(by=world.ben, revision_id=drafted, on=TODAY)
    pull(world, drafted, GOOD_PULLS_N)
    with refused("not_allowed"):
        services.revision_prove(by=world.ben, revision_id=drafted, on=TODAY)
    services.revision_prove(by=world.ada, revision_id=drafted, on=TODAY)
    with refused("not_allowed"):
        services.revision_release(by=world.ben, revision_id=drafted, on=TODAY)


def test_no_step_is_jumped_and_none_taken_twice(world: SmallWorld, drafted: int) -> None:
    """A state moves only from the state before it."""
    with refused("state_moved"):
        services.revision_release(by=world.ada, revision_id=drafted, on=TODAY)
    services.revision_try(by=world.ben, revision_id=drafted, on=TODAY)
    with refused("state_moved"):
        services.revision_try(by=world.ben, revision_id=drafted, on=TODAY)


def test_a_move_lost_to_another_changes_nothing(
    world: SmallWorld, drafted: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the row moved between reading and writing, no row is changed and no move recorded."""
    sheet = selectors.revision_sheet(drafted)
    Revision.objects.filter(pk=drafted).update(state=State.WITHDRAWN.value)
    monkeypatch.setattr(services, "revision_sheet", lambda _: sheet)
    with pytest.raises(ShopRuleBroken):
        services.revision_try(by=world.ben, revision_id=drafted, on=TODAY)
    assert Revision.objects.get(pk=drafted).state == State.WITHDRAWN.value
    assert not StateMove.objects.filter(revision_id=drafted).exists()


def test_a_release_withdraws_the_one_before(world: SmallWorld, drafted: int) -> None:
    """One released revision at a time, and the old one says what superseded it."""
    release(world, drafted)
    newer = services.revision_draft(
        by=world.ben, set_up_code="S-1", letter="B", numbers=COMPLETE, on=TODAY
    )
    release(world, newer.pk)
    assert [sheet.state for sheet in selectors.set_up_sheets("S-1")] == [
        State.RELEASED,
        State.WITHDRAWN,
    ]
    assert "Superseded by rev B" in selectors.moves(drafted)[-1]


def test_a_failed_release_leaves_the_old_one_released(world: SmallWorld, drafted: int) -> None:
    """Withdrawal and release stand or fall together."""
    release(world, drafted)
    newer = services.revision_draft(
        by=world.ben, set_up_code="S-1", letter="B", numbers=COMPLETE, on=TODAY
    )
    with refused("state_moved"):
        services.revision_release(by=world.ada, revision_id=newer.pk, on=TODAY)
    sheet = selectors.released_set_up(CABLE.code, CONNECTOR.code)
    assert sheet is not None
    assert sheet.letter == "A"


def test_the_database_refuses_two_released_revisions(world: SmallWorld, drafted: int) -> None:
    """Past the services, the constraint says no too."""
    release(world, drafted)
    newer = services.revision_draft(
        by=world.ben, set_up_code="S-1", letter="B", numbers=COMPLETE, on=TODAY
    )
    with pytest.raises(IntegrityError), transaction.atomic():
        Revision.objects.filter(pk=newer.pk).update(
            state=State.RELEASED.value, approved_by=world.ada, approved_on=TODAY
        )


def test_withdrawing_asks_why(world: SmallWorld, drafted: int) -> None:
    """And once withdrawn, a revision is not withdrawn again."""
    with refused("reason_missing"):
        services.revision_withdraw(by=world.ada, revision_id=drafted, on=TODAY, reason=" ")
    services.revision_withdraw(by=world.ada, revision_id=drafted, on=TODAY, reason="Pin bent.")
    with refused("state_moved"):
        services.revision_withdraw(by=world.ada, revision_id=drafted, on=TODAY, reason="Again.")


def test_a_draft_is_not_pulled(world: SmallWorld, drafted: int) -> None:
    """Pulls count for a revision that was made at the bench, not for paper."""
    with refused("not_pulled_yet"):
        pull(world, drafted, (100.0,))


def test_pulls_are_kept(world: SmallWorld, drafted: int) -> None:
    """A pull is evidence: neither model nor database lets it be changed or removed."""
    services.revision_try(by=world.ben, revision_id=drafted, on=TODAY)
    pull(world, drafted, (100.0,))
    row = Pull.objects.get(revision_id=drafted)
    row.force_n = 200.0
    with refused("append_only"):
        row.save()
    with pytest.raises(IntegrityError), transaction.atomic():
        Pull._base_manager.filter(pk=row.pk)._raw_delete("default")  # type: ignore[attr-defined]


def test_letters_only_rise(world: SmallWorld, drafted: int) -> None:
    """A revision is superseded by a later letter, never by an earlier one or itself."""
    for letter in ("A", "a", "", "AB"):
        with refused("letter_not_next"):
            services.revision_draft(
                by=world.ben, set_up_code="S-1", letter=letter, numbers=COMPLETE, on=TODAY
            )


def test_a_pair_has_one_set_up(world: SmallWorld, drafted: int) -> None:
    """A second code for the same cable and connector is refused, naming the first."""
    with refused("set_up_exists") as caught:
        services.set_up_add(
            by=world.ben, code="S-2", cable_code=CABLE.code, connector_code=CONNECTOR.code
        )
    assert caught.value.data["set_up"] == "S-1"
