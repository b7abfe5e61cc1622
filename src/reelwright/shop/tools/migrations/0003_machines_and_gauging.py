"""Presses, welders, what cavities were gauged at, and how often a cavity was serviced."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from reelwright.shop.append_only import ForbidChanges


class Migration(migrations.Migration):
    """Add the tables, and the triggers of what was gauged."""

    dependencies = [
        ("tools", "0002_only_grows"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.AddField(
            model_name="cavity",
            name="services",
            field=models.PositiveIntegerField(default=0),
        ),
        migrations.CreateModel(
            name="CavityGauging",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("across_flats_mm", models.DecimalField(decimal_places=4, max_digits=7)),
                ("uncertainty_mm", models.DecimalField(decimal_places=4, max_digits=7)),
                ("closings_then", models.PositiveIntegerField()),
                ("services_then", models.PositiveIntegerField()),
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
                        related_name="gaugings",
                        to="tools.cavity",
                    ),
                ),
                (
                    "instrument",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="tools.instrument",
                    ),
                ),
            ],
            options={
                "abstract": False,
                "base_manager_name": "objects",
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("across_flats_mm__gt", 0), ("uncertainty_mm__gt", 0)),
                        name="cavity_gauging_above_zero",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="Press",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("code", models.CharField(max_length=40, unique=True)),
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
                (
                    "station",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="presses",
                        to="tools.station",
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "presses",
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("code", ""), _negated=True), name="press_has_a_code"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("known", "computed from its cylinder"),
                                ("force_n__isnull", True),
                                ("bore_mm__isnull", False),
                                ("pressure_kpa__isnull", False),
                                ("efficiency__isnull", False),
                                ("ratio__isnull", False),
                                ("bore_mm__gt", 0),
                                ("pressure_kpa__gt", 0),
                                ("ratio__gt", 0),
                                ("efficiency__gt", 0),
                                ("efficiency__lte", 1),
                            ),
                            models.Q(
                                ("known__in", ["stated by its maker", "measured"]),
                                ("force_n__gt", 0),
                                ("force_n__isnull", False),
                                ("bore_mm__isnull", True),
                                ("pressure_kpa__isnull", True),
                                ("efficiency__isnull", True),
                                ("ratio__isnull", True),
                            ),
                            _connector="OR",
                        ),
                        name="press_force_is_known_one_way",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Welder",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("code", models.CharField(max_length=40, unique=True)),
                ("most_energy_j", models.FloatField()),
                ("most_power_w", models.FloatField()),
                ("longest_s", models.FloatField()),
                (
                    "station",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="welders",
                        to="tools.station",
                    ),
                ),
            ],
            options={
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("code", ""), _negated=True), name="welder_has_a_code"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("longest_s__gt", 0), ("most_energy_j__gt", 0), ("most_power_w__gt", 0)
                        ),
                        name="welder_limits_above_zero",
                    ),
                ],
            },
        ),
        ForbidChanges("tools_cavitygauging"),
    ]
