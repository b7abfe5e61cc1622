"""A trace keeps the step between its samples; of those read before it is not known."""

from django.db import migrations, models

from reelwright.shop.append_only import AllowChanges, ForbidChanges


class Migration(migrations.Migration):
    """Add the column; the triggers are made anew with the table."""

    dependencies = [("setups", "0007_weld_traces")]

    operations = [
        AllowChanges("setups_weldtrace"),
        migrations.AddField(
            model_name="weldtrace",
            name="step_s",
            field=models.FloatField(
                default=0.0, help_text="the widest step between two samples; 0: not kept"
            ),
            preserve_default=False,
        ),
        ForbidChanges("setups_weldtrace"),
    ]
