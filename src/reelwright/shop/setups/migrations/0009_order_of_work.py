"""The order of the operations, where a revision lays one down; the database refuses any change."""

import django.db.models.deletion
from django.db import migrations, models

from reelwright.shop.append_only import ForbidChanges


class Migration(migrations.Migration):
    """Add the table and its triggers; the revisions there are keep the worked-out order."""

    dependencies = [("setups", "0008_weld_trace_step")]

    operations = [
        migrations.CreateModel(
            name="RevisionOperation",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("position", models.PositiveSmallIntegerField()),
                ("code", models.CharField(max_length=40)),
                (
                    "revision",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="operations",
                        to="setups.revision",
                    ),
                ),
            ],
            options={
                "ordering": ("revision", "position"),
                "abstract": False,
                "base_manager_name": "objects",
                "constraints": [
                    models.UniqueConstraint(
                        fields=("revision", "position"), name="operation_position_once"
                    ),
                    models.UniqueConstraint(fields=("revision", "code"), name="operation_once"),
                    models.CheckConstraint(
                        condition=models.Q(("code", ""), _negated=True), name="operation_is_named"
                    ),
                ],
            },
        ),
        ForbidChanges("setups_revisionoperation"),
    ]
