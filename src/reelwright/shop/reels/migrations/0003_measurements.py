"""What is measured of a lot: a table that only grows."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from reelwright.shop.append_only import ForbidChanges


class Migration(migrations.Migration):
    """A new table; lots already here have no measurement but the delay entered with them."""

    dependencies = (
        ("reels", "0002_only_grows"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    )

    operations = (
        migrations.CreateModel(
            name="LotMeasurement",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "what",
                    models.CharField(
                        choices=[
                            ("impedance_ohm", "impedance"),
                            ("delay_s_per_m", "delay"),
                            ("capacitance_f_per_m", "capacitance"),
                            ("resistance_conductor_ohm_per_m", "resistance of a conductor"),
                            ("resistance_screen_ohm_per_m", "resistance of the screen"),
                            ("loss_db_per_m", "loss"),
                        ],
                        max_length=40,
                    ),
                ),
                ("frequency_hz", models.FloatField(null=True)),
                ("value", models.FloatField()),
                ("relative_uncertainty", models.FloatField()),
                ("readings", models.PositiveSmallIntegerField()),
                ("note", models.CharField(blank=True, max_length=200)),
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
                    "lot",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="measurements",
                        to="reels.lot",
                    ),
                ),
            ],
            options={"abstract": False, "base_manager_name": "objects"},
        ),
        migrations.AddConstraint(
            model_name="lotmeasurement",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    (
                        "what__in",
                        [
                            "impedance_ohm",
                            "delay_s_per_m",
                            "capacitance_f_per_m",
                            "resistance_conductor_ohm_per_m",
                            "resistance_screen_ohm_per_m",
                            "loss_db_per_m",
                        ],
                    )
                ),
                name="lot_measurement_of_something_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="lotmeasurement",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("readings__gte", 1), ("relative_uncertainty__gt", 0), ("value__gt", 0)
                ),
                name="lot_measurement_above_zero",
            ),
        ),
        migrations.AddConstraint(
            model_name="lotmeasurement",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(
                        ("frequency_hz__gt", 0),
                        ("frequency_hz__isnull", False),
                        ("what", "loss_db_per_m"),
                    ),
                    models.Q(
                        models.Q(("what", "loss_db_per_m"), _negated=True),
                        ("frequency_hz__isnull", True),
                    ),
                    _connector="OR",
                ),
                name="lot_measurement_of_a_loss_names_its_frequency",
            ),
        ),
        ForbidChanges("reels_lotmeasurement"),
    )
