"""That a measurement was entered in error: a table that only grows."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from reelwright.shop.append_only import ForbidChanges


class Migration(migrations.Migration):
    """A new table; every measurement already here stands."""

    dependencies = (
        ("reels", "0003_measurements"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    )

    operations = (
        migrations.CreateModel(
            name="LotMeasurementWithdrawal",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("on", models.DateField()),
                ("reason", models.CharField(max_length=200)),
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
                    "measurement",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="withdrawal",
                        to="reels.lotmeasurement",
                    ),
                ),
            ],
            options={"abstract": False, "base_manager_name": "objects"},
        ),
        migrations.AddConstraint(
            model_name="lotmeasurementwithdrawal",
            constraint=models.CheckConstraint(
                condition=models.Q(("reason", ""), _negated=True),
                name="lot_measurement_withdrawal_says_why",
            ),
        ),
        ForbidChanges("reels_lotmeasurementwithdrawal"),
    )
