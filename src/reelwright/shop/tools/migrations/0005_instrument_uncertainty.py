"""How far an instrument may be off stands in the records, and only grows."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from reelwright.shop.append_only import ForbidChanges


class Migration(migrations.Migration):
    """Add the table and its triggers."""

    dependencies = [
        ("tools", "0004_rests_and_changes"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="InstrumentUncertainty",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("standard_uncertainty", models.DecimalField(decimal_places=5, max_digits=9)),
                ("unit", models.CharField(choices=[("mm", "mm"), ("N", "N")], max_length=4)),
                ("source", models.CharField(max_length=200)),
                ("on", models.DateField()),
                ("recorded_at", models.DateTimeField(auto_now_add=True)),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "instrument",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="uncertainties",
                        to="tools.instrument",
                    ),
                ),
            ],
            options={
                "abstract": False,
                "base_manager_name": "objects",
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("standard_uncertainty__gt", 0)),
                        name="instrument_uncertainty_above_zero",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("source", ""), _negated=True),
                        name="instrument_uncertainty_has_a_source",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("unit__in", ["mm", "N"])),
                        name="instrument_uncertainty_unit",
                    ),
                ],
            },
        ),
        ForbidChanges("tools_instrumentuncertainty"),
    ]
