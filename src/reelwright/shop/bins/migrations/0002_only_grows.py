"""Let the database itself refuse any change of movements.

SQLite makes a table anew when a later migration alters it, and its triggers are lost: such a
migration repeats these operations at its end.
"""

from django.db import migrations

from reelwright.shop.append_only import ForbidChanges


class Migration(migrations.Migration):
    """Add the triggers."""

    dependencies = [("bins", "0001_initial")]

    operations = [
        ForbidChanges("bins_binmovement"),
    ]
