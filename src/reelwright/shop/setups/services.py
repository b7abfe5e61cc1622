"""Every write to the set-ups. A state moves only from the state that was asked for."""

import datetime
from decimal import Decimal

from reelwright.core.bench.problem import Station
from reelwright.core.errors import ShopRuleBroken
from reelwright.core.parts.cable import Family
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.setups.drafting import revision_draft, set_up_add, set_up_open
from reelwright.shop.setups.models import (
    ChangeOverTimes,
    Revision,
    StateMove,
    WorkTime,
)
from reelwright.shop.setups.readings.services import pulls_record
from reelwright.shop.setups.selectors import next_state, revision_sheet
from reelwright.shop.setups.states import State
from reelwright.shop.transactions import write_transaction

__all__ = [
    "change_over_times_add",
    "pulls_record",
    "revision_draft",
    "revision_prove",
    "revision_release",
    "revision_try",
    "revision_withdraw",
    "set_up_add",
    "set_up_open",
    "work_time_set",
]


@write_transaction()
def revision_try(*, by: Person, revision_id: int, on: datetime.date) -> None:
    """Take a drafted revision to the benches for trial. See ``_advance`` for the errors."""
    require_may(by, Action.DRAFT_SETUPS)
    _advance(by=by, revision_id=revision_id, old=State.DRAFTED, on=on, reason="Complete on paper.")


@write_transaction()
def revision_prove(*, by: Person, revision_id: int, on: datetime.date) -> None:
    """Declare a revision on trial proven by its pulls. See ``_advance`` for the errors."""
    require_may(by, Action.RELEASE_SETUPS)
    _advance(
        by=by,
        revision_id=revision_id,
        old=State.ON_TRIAL,
        on=on,
        reason="Its pulls hold the minimum.",
    )


@write_transaction()
def revision_release(*, by: Person, revision_id: int, on: datetime.date) -> None:
    """Release a proven revision; the one released before it is withdrawn in the same breath.

    See ``_advance`` for the errors.
    """
    require_may(by, Action.RELEASE_SETUPS)
    sheet = revision_sheet(revision_id)
    before = (
        Revision.objects.select_for_update()
        .filter(set_up__code=sheet.code, state=State.RELEASED.value)
        .exclude(pk=revision_id)
        .first()
    )
    if before is not None:
        _move(
            by=by,
            revision_id=before.pk,
            old=State.RELEASED,
            new=State.WITHDRAWN,
            on=on,
            reason=f"Superseded by rev {sheet.letter}.",
        )
    _advance(by=by, revision_id=revision_id, old=State.PROVEN, on=on, reason="Approved.")


@write_transaction()
def revision_withdraw(*, by: Person, revision_id: int, on: datetime.date, reason: str) -> None:
    """Take a revision out of use, whatever its state.

    Raises ShopRuleBroken ``not_allowed``, ``reason_missing``, ``state_moved``.
    """
    require_may(by, Action.RELEASE_SETUPS)
    if not reason.strip():
        raise ShopRuleBroken("reason_missing", "Say why this revision is withdrawn.")
    old = revision_sheet(revision_id).state
    _move(by=by, revision_id=revision_id, old=old, new=State.WITHDRAWN, on=on, reason=reason)


def _advance(*, by: Person, revision_id: int, old: State, on: datetime.date, reason: str) -> None:
    """Move a revision from ``old`` to the state after it; a write transaction must be open.

    Raises ShopRuleBroken ``state_moved`` where it is not in ``old``, ``something_missing`` with
    every reason; UnknownCode.
    """
    sheet = revision_sheet(revision_id)
    if sheet.state is not old:
        _refuse_moved(sheet.name, old, sheet.state)
    ahead = next_state(sheet)
    if ahead.missing:
        raise ShopRuleBroken(
            "something_missing",
            f"{sheet.name} cannot be {ahead.state} yet. "
            + " ".join(reason.sentence for reason in ahead.missing),
            missing=tuple(reason.code for reason in ahead.missing),
        )
    assert ahead.state is not None  # callers only pass states that have a next one
    _move(by=by, revision_id=revision_id, old=old, new=ahead.state, on=on, reason=reason)


def _move(
    *, by: Person, revision_id: int, old: State, new: State, on: datetime.date, reason: str
) -> None:
    approval = {"approved_by": by, "approved_on": on} if new is State.RELEASED else {}
    changed = Revision.objects.filter(pk=revision_id, state=old.value).update(
        state=new.value, **approval
    )
    if changed != 1 or old is new:
        sheet = revision_sheet(revision_id)
        _refuse_moved(sheet.name, old, sheet.state)
    StateMove.objects.create(
        revision_id=revision_id,
        old=old.value,
        new=new.value,
        moved_on=on,
        moved_by=by,
        reason=reason,
    )


def _refuse_moved(name: str, old: State, now: State) -> None:
    raise ShopRuleBroken(
        "state_moved", f"{name} is {now}, not {old}: look at it again.", old=old, now=now
    )


@write_transaction()
def work_time_set(
    *,
    by: Person,
    family: Family,
    station: Station,
    set_up_min: Decimal,
    per_cable_min: Decimal,
    per_metre_min: Decimal,
) -> None:
    """Set the quoted minutes of a family at a station. Raises ShopRuleBroken ``not_allowed``."""
    require_may(by, Action.KEEP_TOOLS)
    WorkTime.objects.update_or_create(
        family=family.value,
        station=station.value,
        defaults={
            "set_up_min": set_up_min,
            "per_cable_min": per_cable_min,
            "per_metre_min": per_metre_min,
        },
    )


@write_transaction()
def change_over_times_add(
    *,
    by: Person,
    valid_from: datetime.date,
    first_article_min: Decimal,
    program_min: Decimal,
    blade_set_min: Decimal,
    die_min: Decimal,
    test_adapters_min: Decimal,
    weld_horn_min: Decimal,
) -> None:
    """Set the change-over times from a day on.

    Raises ShopRuleBroken ``not_allowed``, ``change_over_exists``.
    """
    require_may(by, Action.KEEP_TOOLS)
    if ChangeOverTimes.objects.filter(valid_from=valid_from).exists():
        raise ShopRuleBroken(
            "change_over_exists",
            f"Change-over times from {valid_from} are set already: set them from another day.",
            valid_from=valid_from,
        )
    ChangeOverTimes.objects.create(
        valid_from=valid_from,
        first_article_min=first_article_min,
        program_min=program_min,
        blade_set_min=blade_set_min,
        die_min=die_min,
        test_adapters_min=test_adapters_min,
        weld_horn_min=weld_horn_min,
    )
