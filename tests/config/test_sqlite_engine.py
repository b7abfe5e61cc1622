"""The engine takes the writer's lock for everything that writes, and for nothing that reads."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from django.db import DatabaseError
from django.db.utils import ConnectionHandler, OperationalError

from reelwright.config.sqlite.base import DatabaseWrapper
from reelwright.config.sqlite.lock import WriterLock

pytestmark = pytest.mark.django_db


@pytest.fixture
def connection(tmp_path: Path) -> Iterator[DatabaseWrapper]:
    """A connection of its own to a fresh file, that waits a tenth of a second at most."""
    options = {"transaction_mode": "IMMEDIATE", "timeout": 0.1}
    settings = {
        "ENGINE": "reelwright.config.sqlite",
        "NAME": tmp_path / "workshop.sqlite3",
        "OPTIONS": options,
    }
    made = ConnectionHandler({"default": settings})["default"]
    assert isinstance(made, DatabaseWrapper)
    with made.cursor() as cursor:
        cursor.execute("CREATE TABLE note (text TEXT)")
    yield made
    made.close()


@pytest.fixture
def other_writer(connection: DatabaseWrapper, tmp_path: Path) -> Iterator[WriterLock]:
    """Somebody else who writes at this moment."""
    lock = WriterLock(tmp_path / "workshop.sqlite3")
    assert lock.take(timeout_s=1)
    yield lock
    lock.close()


def write(connection: DatabaseWrapper) -> None:
    """One statement, as sessions do it: outside any transaction."""
    with connection.cursor() as cursor:
        cursor.execute("INSERT INTO note VALUES (%s)", ["x"])


def begin(connection: DatabaseWrapper) -> None:
    """Begin a transaction as Django's ``atomic`` does it."""
    connection.set_autocommit(False, force_begin_transaction_with_broken_autocommit=True)


def notes(connection: DatabaseWrapper) -> int:
    """How many notes there are."""
    with connection.cursor() as cursor:
        cursor.execute("SELECT count(*) FROM note")
        return int(cursor.fetchone()[0])


def test_a_single_statement_waits_for_the_writer(
    connection: DatabaseWrapper, other_writer: WriterLock
) -> None:
    """It is told who was in the way; after the other has done, it goes through."""
    with pytest.raises(OperationalError, match="another command has been writing"):
        write(connection)
    with connection.cursor() as cursor, pytest.raises(OperationalError):
        cursor.executemany("INSERT INTO note VALUES (%s)", [["x"], ["y"]])
    assert notes(connection) == 0
    other_writer.give()
    write(connection)
    assert notes(connection) == 1


def test_a_transaction_waits_for_the_writer(
    connection: DatabaseWrapper, other_writer: WriterLock
) -> None:
    """Before its first statement, and it can be tried again."""
    with pytest.raises(OperationalError):
        begin(connection)
    other_writer.give()
    begin(connection)
    assert not other_writer.take(timeout_s=0.05)
    connection.commit()
    connection.set_autocommit(True)
    assert other_writer.take(timeout_s=0.05)


@pytest.mark.parametrize("ending", ["commit", "rollback", "close"])
def test_each_ending_gives_the_lock_back(
    connection: DatabaseWrapper, tmp_path: Path, ending: str
) -> None:
    """Whether the writes stand, fall, or the connection breaks off."""
    begin(connection)
    write(connection)
    getattr(connection, ending)()
    lock = WriterLock(tmp_path / "workshop.sqlite3")
    assert lock.take(timeout_s=0.05)
    lock.close()


def test_reading_waits_for_nobody(connection: DatabaseWrapper, other_writer: WriterLock) -> None:
    """A page is shown while a plan is written."""
    assert other_writer.held
    assert notes(connection) == 0


def test_services_write_as_one(db: None) -> None:
    """An error inside undoes all of it, also what inner services had finished."""
    from reelwright.shop.people.models import Workshop
    from reelwright.shop.transactions import write_transaction
    from tests.small_world import build_small_world

    @write_transaction()
    def build_and_fail() -> None:
        build_small_world()
        assert Workshop.objects.exists()
        raise DatabaseError("the power went")

    with pytest.raises(DatabaseError, match="the power went"):
        build_and_fail()
    assert not Workshop.objects.exists()
