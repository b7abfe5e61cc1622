"""Why cavities rested and what presses were known by: histories that only grow."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from reelwright.shop.append_only import ForbidChanges


class Migration(migrations.Migration):
    """Add the tables, their triggers, and whether a press is in use."""

    dependencies = [
        ("tools", "0003_machines_and_gauging"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.AddField(
            model_name="press",
            name="in_use",
            field=models.BooleanField(default=True),
        ),
        migrations.CreateModel(
            name="CavityGaugingTakenBack",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("reason", models.CharField(max_length=200)),
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
                    "gauging",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="taken_back",
                        to="tools.cavitygauging",
                    ),
                ),
            ],
            options={
                "abstract": False,
                "base_manager_name": "objects",
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("reason", ""), _negated=True),
                        name="gauging_taken_back_for_a_reason",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="CavityMove",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("into_service", models.BooleanField()),
                ("serviced", models.BooleanField()),
                ("closings_then", models.PositiveIntegerField()),
                ("reason", models.CharField(max_length=200)),
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
                    "cavity",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="moves",
                        to="tools.cavity",
                    ),
                ),
            ],
            options={
                "abstract": False,
                "base_manager_name": "objects",
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("reason", ""), _negated=True),
                        name="cavity_moved_for_a_reason",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("into_service", True), ("serviced", False), _connector="OR"
                        ),
                        name="cavity_serviced_when_put_back",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="PressChange",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "known",
                    models.CharField(
                        choices=[
                            ("stated by its maker", "stated by its maker"),
                            ("measured", "measured"),
                            ("computed from its cylinder", "computed from its cylinder"),
                        ],
                        max_length=40,
                    ),
                ),
                ("force_n", models.FloatField(null=True)),
                ("bore_mm", models.FloatField(null=True)),
                ("pressure_kpa", models.FloatField(null=True)),
                ("ratio", models.FloatField(null=True)),
                ("efficiency", models.FloatField(null=True)),
                ("in_use", models.BooleanField(default=True)),
                ("reason", models.CharField(max_length=200)),
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
                    "press",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="changes",
                        to="tools.press",
                    ),
                ),
            ],
            options={
                "abstract": False,
                "base_manager_name": "objects",
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("reason", ""), _negated=True),
                        name="press_changed_for_a_reason",
                    )
                ],
            },
        ),
        ForbidChanges("tools_cavitygaugingtakenback"),
        ForbidChanges("tools_cavitymove"),
        ForbidChanges("tools_presschange"),
    ]
