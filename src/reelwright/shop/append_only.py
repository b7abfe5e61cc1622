"""Tables that only grow: the model refuses change first, the database itself last.

Migrations import ``ForbidChanges``: its SQL never changes once released; another form would get
another name.
"""

from typing import Any, NoReturn

from django.db import models
from django.db.migrations.operations.base import Operation

from reelwright.core.errors import ShopRuleBroken


def _refuse(table: str) -> NoReturn:
    raise ShopRuleBroken(
        "append_only",
        "An entry is never changed or removed. A mistake is put right by a second entry that "
        "says why.",
        table=table,
    )


class AppendOnlyQuerySet(models.QuerySet[Any]):
    """Refuses to change or remove many rows at once."""

    def update(self, **_changes: Any) -> NoReturn:
        _refuse(self.model._meta.db_table)

    def delete(self) -> NoReturn:
        _refuse(self.model._meta.db_table)

    def bulk_update(self, *_args: Any, **_options: Any) -> NoReturn:
        _refuse(self.model._meta.db_table)


class AppendOnly(models.Model):
    """A row that is written once. Its migration adds ``ForbidChanges(table)``."""

    objects: models.Manager[Any] = models.Manager.from_queryset(AppendOnlyQuerySet)()

    class Meta:
        abstract = True
        base_manager_name = "objects"

    def save(self, *args: Any, **options: Any) -> None:
        if not self._state.adding:
            _refuse(self._meta.db_table)
        super().save(*args, **options)

    def delete(self, *_args: Any, **_options: Any) -> NoReturn:
        _refuse(self._meta.db_table)


_MESSAGE = "an entry of {table} is never changed or removed"

_SQLITE = """
CREATE TRIGGER {table}_no_{verb} BEFORE {verb} ON {table}
BEGIN SELECT RAISE(ABORT, '{message}'); END
"""

_POSTGRESQL_FUNCTION = """
CREATE FUNCTION {table}_only_grows() RETURNS trigger LANGUAGE plpgsql AS
$$ BEGIN RAISE EXCEPTION '{message}' USING ERRCODE = 'integrity_constraint_violation'; END $$
"""

_POSTGRESQL_TRIGGER = """
CREATE TRIGGER {table}_only_grows BEFORE UPDATE OR DELETE ON {table}
FOR EACH ROW EXECUTE FUNCTION {table}_only_grows()
"""


class ForbidChanges(Operation):
    """Let the database refuse every UPDATE and DELETE of one table."""

    reduces_to_sql = True
    reversible = True

    def __init__(self, table: str) -> None:
        self.table = table

    def state_forwards(self, app_label: str, state: Any) -> None:
        """Change nothing: models do not know of triggers."""

    def database_forwards(
        self, _app_label: str, schema_editor: Any, _from_state: Any, _to_state: Any
    ) -> None:
        """Make the triggers."""
        words = {"table": self.table, "message": _MESSAGE.format(table=self.table)}
        if schema_editor.connection.vendor == "sqlite":
            for verb in ("update", "delete"):
                schema_editor.execute(_SQLITE.format(verb=verb, **words), None)
        else:
            schema_editor.execute(_POSTGRESQL_FUNCTION.format(**words), None)
            schema_editor.execute(_POSTGRESQL_TRIGGER.format(**words), None)

    def database_backwards(
        self, _app_label: str, schema_editor: Any, _from_state: Any, _to_state: Any
    ) -> None:
        """Remove the triggers."""
        if schema_editor.connection.vendor == "sqlite":
            for verb in ("update", "delete"):
                schema_editor.execute(f"DROP TRIGGER {self.table}_no_{verb}", None)
        else:
            schema_editor.execute(f"DROP TRIGGER {self.table}_only_grows ON {self.table}", None)
            schema_editor.execute(f"DROP FUNCTION {self.table}_only_grows()", None)

    def describe(self) -> str:
        """Say what it does."""
        return f"Let the database refuse changes of {self.table}"


class AllowChanges(ForbidChanges):
    """Take the triggers of one table away, for a migration that adds columns to it.

    SQLite makes such a table anew and would lose them without a word: ``ForbidChanges`` follows.
    """

    def database_forwards(
        self, app_label: str, schema_editor: Any, from_state: Any, to_state: Any
    ) -> None:
        """Remove the triggers."""
        super().database_backwards(app_label, schema_editor, from_state, to_state)

    def database_backwards(
        self, app_label: str, schema_editor: Any, from_state: Any, to_state: Any
    ) -> None:
        """Make the triggers."""
        super().database_forwards(app_label, schema_editor, from_state, to_state)

    def describe(self) -> str:
        """Say what it does."""
        return f"Let the columns of {self.table} change"
