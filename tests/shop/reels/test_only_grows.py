"""Evidence is never changed: not by a model, not by a query, not by SQL."""

from typing import Any

import pytest
from django.apps import apps
from django.db import DatabaseError, IntegrityError, connection, transaction

from reelwright.shop.append_only import AppendOnly
from reelwright.shop.reels.models import Flaw, LedgerEntry, Reel
from tests.shop.reels.test_booking import cut
from tests.shop.refusals import refused
from tests.small_world import FULL, TODAY, SmallWorld

ONLY_GROW = [model for model in apps.get_models() if issubclass(model, AppendOnly)]


def test_the_model_refuses(world: SmallWorld) -> None:
    """Saving again, deleting, and both by query."""
    entry = cut(world, "P-1", 1_000)
    entry.change_mm = -1
    for change in (
        entry.save,
        entry.delete,
        LedgerEntry.objects.all().delete,
        lambda: LedgerEntry.objects.update(change_mm=1),
        lambda: Flaw.objects.bulk_update([], ["note"]),
    ):
        with refused("append_only"):
            change()


@pytest.mark.parametrize("statement", ["UPDATE {table} SET id = id", "DELETE FROM {table}"])
def test_the_database_refuses(world: SmallWorld, statement: str) -> None:
    """SQL that goes around every line of ours is refused for the ledger and for flaws."""
    for table in ("reels_ledgerentry", "reels_flaw"):
        with (
            pytest.raises(DatabaseError, match="never changed or removed"),
            transaction.atomic(),
            connection.cursor() as cursor,
        ):
            cursor.execute(statement.format(table=table))


@pytest.mark.parametrize("model", ONLY_GROW, ids=lambda model: model.__name__)
def test_every_such_table_has_its_triggers(db: None, model: type[AppendOnly]) -> None:
    """A later migration of SQLite remakes a table and loses them silently: this finds it."""
    table = model._meta.db_table
    question = (
        "SELECT count(*) FROM sqlite_master WHERE type = 'trigger' AND tbl_name = %s"
        if connection.vendor == "sqlite"
        else "SELECT 2 * count(*) FROM pg_trigger WHERE tgrelid = %s::regclass AND NOT tgisinternal"
    )
    with connection.cursor() as cursor:
        cursor.execute(question, [table])
        assert cursor.fetchone() == (2,)


def entry(world: SmallWorld, **other: Any) -> LedgerEntry:
    """Write an entry past the services; good unless ``other`` says otherwise."""
    fields: dict[str, Any] = {
        "reel": Reel.objects.get(code=FULL),
        "kind": "scrapped",
        "change_mm": -10,
        "standard_uncertainty_mm": 1.0,
        "wheel_uncertainty_mm": 0.0,
        "by": world.ben,
        "on": TODAY,
        "reason": "why",
    }
    return LedgerEntry.objects.create(**(fields | other))


@pytest.mark.parametrize(
    "other",
    [
        {"change_mm": 10},
        {"kind": "received"},
        {"kind": "lost"},
        {"reason": ""},
        {"kind": "cut"},
        {"piece": "P-1"},
        {"kind": "reversal"},
        {"standard_uncertainty_mm": -1.0},
        {"wheel_uncertainty_mm": -1.0},
        {"attempt": 0},
    ],
    ids=str,
)
def test_the_database_refuses_nonsense(world: SmallWorld, other: dict[str, Any]) -> None:
    """Each rule of an entry is a constraint; the same entry without the fault is taken."""
    entry(world)
    with pytest.raises(IntegrityError), transaction.atomic():
        entry(world, **other)


def test_the_database_takes_one_cut_and_one_reversal(world: SmallWorld) -> None:
    """A second cut of a piece, and a second reversal of an entry, are refused below services."""
    entry(world, kind="cut", piece="P-1")
    with pytest.raises(IntegrityError), transaction.atomic():
        entry(world, kind="cut", piece="P-1")
    first = entry(world)
    entry(world, kind="reversal", change_mm=10, reverses=first)
    with pytest.raises(IntegrityError), transaction.atomic():
        entry(world, kind="reversal", change_mm=10, reverses=first)


@pytest.mark.django_db(transaction=True)
def test_emptying_a_test_database_keeps_the_triggers() -> None:
    """Between tests the tables are emptied; afterwards they still refuse."""
    from django.core.management import call_command

    from tests.small_world import build_small_world

    build_small_world()
    call_command("flush", interactive=False, verbosity=0)
    assert LedgerEntry.objects.count() == 0
    build_small_world()
    with pytest.raises(DatabaseError), connection.cursor() as cursor:
        cursor.execute("DELETE FROM reels_ledgerentry")
