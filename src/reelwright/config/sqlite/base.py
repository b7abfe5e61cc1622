"""The engine: every write transaction, whoever opens it, runs under the workshop's one lock.

SQLite waits for a busy writer by sleeping longer and longer, so that a late one may starve for
seconds; and below 3.51.3 two writers' checkpoints of a write-ahead log may meet (its release notes
tell). Sessions and sign-in records are written by other people's code, therefore the lock lives
here, where BEGIN and COMMIT pass, and not in our services.
"""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from django.db.backends.sqlite3 import base, operations
from django.db.utils import OperationalError

from reelwright.config.sqlite.lock import WriterLock

_READS = ("SELECT", "PRAGMA", "EXPLAIN", "SAVEPOINT", "RELEASE", "ROLLBACK", "BEGIN", "COMMIT")


class DatabaseOperations(operations.DatabaseOperations):
    """Django's, except that emptying a database also empties the tables that only grow."""

    def sql_flush(self, style: Any, tables: Any, **options: Any) -> list[str]:
        """Set the triggers aside, empty the tables, put the triggers back."""
        with self.connection.cursor() as cursor:
            cursor.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
            triggers = cursor.fetchall()
        statements: list[str] = super().sql_flush(style, tables, **options)
        if not statements:
            return statements
        return [
            *(f"DROP TRIGGER {self.quote_name(name)}" for name, _ in triggers),
            *statements,
            *(sql for _, sql in triggers),
        ]


class LockedCursor(base.SQLiteCursorWrapper):
    """A cursor whose single statements outside a transaction take the lock as well."""

    wrapper: "DatabaseWrapper"

    def execute(self, query: Any, params: Any = None) -> Any:
        with self.wrapper.single_write(str(query)):
            return super().execute(query, params)

    def executemany(self, query: Any, param_list: Iterable[Any]) -> Any:
        with self.wrapper.single_write(str(query)):
            return super().executemany(query, param_list)


class DatabaseWrapper(base.DatabaseWrapper):
    """Django's connection, with the writer's lock."""

    ops_class = DatabaseOperations

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._writer: WriterLock | None = None

    def _lock(self) -> WriterLock:
        if self._writer is None:
            name = str(self.settings_dict["NAME"])
            in_memory = name == ":memory:" or name.startswith("file:")
            self._writer = WriterLock(None if in_memory else Path(name))
        return self._writer

    def _take(self) -> None:
        timeout_s = float(self.settings_dict["OPTIONS"].get("timeout", 20))
        if not self._lock().take(timeout_s=timeout_s):
            raise OperationalError(
                f"database is locked: another command has been writing for over {timeout_s:.0f} s"
            )

    def _give(self) -> None:
        if self._writer is not None:
            self._writer.give()

    @contextmanager
    def single_write(self, query: str) -> Iterator[None]:
        """Hold the lock for one statement that stands outside any transaction."""
        lock_now = (
            not self._lock().held
            and not self.in_atomic_block
            and not query.lstrip().upper().startswith(_READS)
        )
        if lock_now:
            self._take()
        try:
            yield
        finally:
            if lock_now:
                self._give()

    def create_cursor(self, name: str | None = None) -> LockedCursor:
        cursor: LockedCursor = self.connection.cursor(factory=LockedCursor)
        cursor.wrapper = self
        return cursor

    def _start_transaction_under_autocommit(self) -> None:
        self._take()
        try:
            super()._start_transaction_under_autocommit()  # type: ignore[misc]  # absent from the stubs
        except BaseException:
            self._give()
            raise

    def _commit(self) -> None:
        super()._commit()  # type: ignore[misc]  # absent from the stubs
        self._give()

    def _rollback(self) -> None:
        try:
            super()._rollback()  # type: ignore[misc]  # absent from the stubs
        finally:
            self._give()

    def _close(self) -> None:
        try:
            super()._close()  # type: ignore[misc]  # absent from the stubs
        finally:
            if self._writer is not None:
                self._writer.close()
                self._writer = None
