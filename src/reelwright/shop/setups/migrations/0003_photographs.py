"""Photographs on the set-up sheets, and those taken back; the database refuses any change of them."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from reelwright.shop.append_only import ForbidChanges


class Migration(migrations.Migration):
    """Add the two tables and their triggers."""

    dependencies = [
        ("setups", "0002_fit_overrides"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="Photograph",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "shows",
                    models.CharField(choices=[("good", "good"), ("bad", "bad")], max_length=8),
                ),
                ("caption", models.CharField(max_length=200)),
                ("digest", models.CharField(max_length=64)),
                (
                    "kind",
                    models.CharField(choices=[("jpeg", "jpeg"), ("png", "png")], max_length=8),
                ),
                ("size_bytes", models.PositiveIntegerField()),
                ("width_px", models.PositiveIntegerField()),
                ("height_px", models.PositiveIntegerField()),
                ("turned", models.PositiveSmallIntegerField()),
                ("on", models.DateField()),
                (
                    "by",
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
                        related_name="photographs",
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
            name="PhotographTakenBack",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("reason", models.CharField(max_length=300)),
                ("on", models.DateField()),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "photograph",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="taken_back",
                        to="setups.photograph",
                    ),
                ),
            ],
            options={
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.AddConstraint(
            model_name="photograph",
            constraint=models.CheckConstraint(
                condition=models.Q(("shows__in", ["good", "bad"])), name="photograph_shows_is_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="photograph",
            constraint=models.CheckConstraint(
                condition=models.Q(("kind__in", ["jpeg", "png"])), name="photograph_kind_is_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="photograph",
            constraint=models.CheckConstraint(
                condition=models.Q(("caption", ""), _negated=True),
                name="photograph_has_its_caption",
            ),
        ),
        migrations.AddConstraint(
            model_name="photograph",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("height_px__gt", 0),
                    ("size_bytes__gt", 0),
                    ("width_px__gt", 0),
                    ("turned__gte", 1),
                    ("turned__lte", 8),
                ),
                name="photograph_has_a_size",
            ),
        ),
        migrations.AddConstraint(
            model_name="photographtakenback",
            constraint=models.CheckConstraint(
                condition=models.Q(("reason", ""), _negated=True),
                name="photograph_taken_back_for_a_reason",
            ),
        ),
        ForbidChanges("setups_photograph"),
        ForbidChanges("setups_photographtakenback"),
    ]
