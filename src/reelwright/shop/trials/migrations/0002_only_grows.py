"""Let the database itself refuse any change of a search's question, trials and windows.

SQLite makes a table anew when a later migration alters it, and its triggers are lost: such a
migration repeats these operations at its end.
"""

from django.db import migrations

from reelwright.shop.append_only import ForbidChanges


class Migration(migrations.Migration):
    """Add the triggers."""

    dependencies = [("trials", "0001_begin")]

    operations = [
        ForbidChanges("trials_searchmove"),
        ForbidChanges("trials_searchsetting"),
        ForbidChanges("trials_searchresponse"),
        ForbidChanges("trials_searchlooks"),
        ForbidChanges("trials_trialfile"),
        ForbidChanges("trials_trialmade"),
        ForbidChanges("trials_trialreading"),
        ForbidChanges("trials_trialseen"),
        ForbidChanges("trials_trialtakenback"),
        ForbidChanges("trials_windowfound"),
        ForbidChanges("trials_windowcited"),
        ForbidChanges("trials_weldgauge"),
    ]
