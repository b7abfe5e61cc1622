"""What leads say of a cable with a connector; the database refuses any change of it."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from reelwright.shop.append_only import ForbidChanges


class Migration(migrations.Migration):
    """Add the table and its triggers."""

    dependencies = [
        ("catalogue", "0001_tables"),
        ("setups", "0001_tables"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="FitOverride",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "answer",
                    models.CharField(
                        choices=[
                            ("possible", "possible"),
                            ("impossible", "impossible"),
                            ("as computed", "as computed"),
                        ],
                        max_length=12,
                    ),
                ),
                ("reason", models.CharField(max_length=300)),
                ("said_on", models.DateField()),
                (
                    "cable",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="catalogue.cabletype",
                    ),
                ),
                (
                    "connector",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="catalogue.connectortype",
                    ),
                ),
                (
                    "said_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ("cable", "connector", "id"),
                "abstract": False,
                "base_manager_name": "objects",
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            ("answer__in", ["possible", "impossible", "as computed"])
                        ),
                        name="fit_override_answer_is_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("reason", ""), _negated=True),
                        name="fit_override_has_its_reason",
                    ),
                ],
            },
        ),
        ForbidChanges("setups_fitoverride"),
    ]
