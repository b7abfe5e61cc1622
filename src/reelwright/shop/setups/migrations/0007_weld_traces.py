"""Power traces of welds with what they came to, and why one no longer counts."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from reelwright.shop.append_only import ForbidChanges


class Migration(migrations.Migration):
    """Add both tables and their triggers; no table that is there is touched."""

    dependencies = [
        ("setups", "0006_end_readings"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="WeldTrace",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "digest",
                    models.CharField(help_text="SHA-256 of the file's bytes", max_length=64),
                ),
                ("name", models.CharField(max_length=200)),
                ("energy_j", models.FloatField()),
                ("peak_w", models.FloatField()),
                ("peak_s", models.FloatField()),
                ("weld_s", models.FloatField()),
                ("knee_s", models.FloatField()),
                ("rise_w_per_s", models.FloatField()),
                ("collapse_m", models.FloatField(null=True)),
                ("joint_height_m", models.FloatField(null=True)),
                ("joint_width_m", models.FloatField(null=True)),
                ("curve", models.JSONField(help_text="pairs of time in s and power in W")),
                ("good", models.BooleanField()),
                ("reason", models.CharField(blank=True, max_length=200)),
                ("read_on", models.DateField()),
                (
                    "read_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "revision",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="weld_traces",
                        to="setups.revision",
                    ),
                ),
            ],
            options={
                "ordering": ("revision", "id"),
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.CreateModel(
            name="WeldTraceWithdrawal",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("withdrawn_on", models.DateField()),
                ("reason", models.CharField(max_length=200)),
                (
                    "trace",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="withdrawal",
                        to="setups.weldtrace",
                    ),
                ),
                (
                    "withdrawn_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.AddConstraint(
            model_name="weldtrace",
            constraint=models.UniqueConstraint(
                fields=("revision", "digest"), name="weld_trace_read_once"
            ),
        ),
        migrations.AddConstraint(
            model_name="weldtrace",
            constraint=models.CheckConstraint(
                condition=models.Q(("energy_j__gt", 0), ("peak_w__gt", 0), ("weld_s__gt", 0)),
                name="weld_trace_took_power",
            ),
        ),
        migrations.AddConstraint(
            model_name="weldtrace",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("good", True), models.Q(("reason", ""), _negated=True), _connector="OR"
                ),
                name="weld_trace_doubtful_says_why",
            ),
        ),
        migrations.AddConstraint(
            model_name="weldtracewithdrawal",
            constraint=models.CheckConstraint(
                condition=models.Q(("reason", ""), _negated=True),
                name="weld_trace_withdrawal_says_why",
            ),
        ),
        ForbidChanges("setups_weldtrace"),
        ForbidChanges("setups_weldtracewithdrawal"),
    ]
