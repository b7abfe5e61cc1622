"""Every reading of an end names it; heights and stripped lengths are kept, files remembered."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from reelwright.shop.append_only import AllowChanges, ForbidChanges


class Migration(migrations.Migration):
    """Add the tables and their triggers; those of the pulls are made anew with the table."""

    dependencies = [
        ("setups", "0005_weld_settings"),
        ("tools", "0002_only_grows"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        AllowChanges("setups_pull"),
        migrations.AddField(
            model_name="pull",
            name="cavity",
            field=models.ForeignKey(
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="+",
                to="tools.cavity",
            ),
        ),
        migrations.AddField(
            model_name="pull",
            name="end",
            field=models.CharField(blank=True, default="", max_length=40),
        ),
        migrations.AddField(
            model_name="pull",
            name="instrument",
            field=models.ForeignKey(
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="+",
                to="tools.instrument",
            ),
        ),
        migrations.AddField(
            model_name="pull",
            name="out_of_calibration",
            field=models.BooleanField(
                default=False, help_text="the instrument's calibration did not hold on that day"
            ),
        ),
        migrations.AddField(
            model_name="pull",
            name="remark",
            field=models.CharField(blank=True, default="", max_length=200),
        ),
        migrations.AlterField(
            model_name="pull",
            name="tool_count",
            field=models.PositiveIntegerField(
                help_text="crimps of the cavity since its last regrind", null=True
            ),
        ),
        migrations.CreateModel(
            name="BenchFile",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "digest",
                    models.CharField(help_text="SHA-256 of its bytes", max_length=64, unique=True),
                ),
                ("name", models.CharField(max_length=200)),
                ("read_on", models.DateField()),
                ("new_rows", models.PositiveIntegerField()),
                (
                    "known_rows",
                    models.PositiveIntegerField(help_text="rows that stood in the records already"),
                ),
                (
                    "read_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ("-id",),
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.AddField(
            model_name="pull",
            name="file",
            field=models.ForeignKey(
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="+",
                to="setups.benchfile",
            ),
        ),
        migrations.CreateModel(
            name="EndDimension",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("end", models.CharField(blank=True, default="", max_length=40)),
                (
                    "out_of_calibration",
                    models.BooleanField(
                        default=False,
                        help_text="the instrument's calibration did not hold on that day",
                    ),
                ),
                (
                    "tool_count",
                    models.PositiveIntegerField(
                        help_text="crimps of the cavity since its last regrind", null=True
                    ),
                ),
                ("remark", models.CharField(blank=True, default="", max_length=200)),
                (
                    "part",
                    models.CharField(
                        choices=[
                            ("pin crimp", "pin crimp"),
                            ("ferrule crimp", "ferrule crimp"),
                            ("a", "a"),
                            ("b", "b"),
                            ("c", "c"),
                            ("jacket back", "jacket back"),
                            ("cores bared", "cores bared"),
                        ],
                        max_length=16,
                    ),
                ),
                ("length_mm", models.DecimalField(decimal_places=3, max_digits=9)),
                ("measured_on", models.DateField()),
                (
                    "cavity",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="tools.cavity",
                    ),
                ),
                (
                    "file",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="setups.benchfile",
                    ),
                ),
                (
                    "instrument",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="tools.instrument",
                    ),
                ),
                (
                    "measured_by",
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
                        related_name="dimensions",
                        to="setups.revision",
                    ),
                ),
            ],
            options={
                "ordering": ("revision", "part", "measured_on", "id"),
                "abstract": False,
                "base_manager_name": "objects",
            },
        ),
        migrations.CreateModel(
            name="EndDimensionWithdrawal",
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
                    "reading",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="withdrawal",
                        to="setups.enddimension",
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
        migrations.CreateModel(
            name="PullWithdrawal",
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
                    "reading",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="withdrawal",
                        to="setups.pull",
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
            model_name="benchfile",
            constraint=models.CheckConstraint(
                condition=models.Q(("new_rows__gte", 1)), name="bench_file_brought_something"
            ),
        ),
        migrations.AddIndex(
            model_name="enddimension",
            index=models.Index(fields=["revision", "part"], name="dimensions_of_a_revision"),
        ),
        migrations.AddConstraint(
            model_name="enddimension",
            constraint=models.CheckConstraint(
                condition=models.Q(("length_mm__gt", 0)), name="end_dimension_above_zero"
            ),
        ),
        migrations.AddConstraint(
            model_name="enddimension",
            constraint=models.CheckConstraint(
                condition=models.Q(("end", ""), _negated=True), name="end_dimension_names_its_end"
            ),
        ),
        migrations.AddConstraint(
            model_name="enddimension",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    (
                        "part__in",
                        ["pin crimp", "ferrule crimp", "a", "b", "c", "jacket back", "cores bared"],
                    )
                ),
                name="end_dimension_part_is_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="enddimensionwithdrawal",
            constraint=models.CheckConstraint(
                condition=models.Q(("reason", ""), _negated=True),
                name="end_dimension_withdrawal_says_why",
            ),
        ),
        migrations.AddConstraint(
            model_name="pullwithdrawal",
            constraint=models.CheckConstraint(
                condition=models.Q(("reason", ""), _negated=True), name="pull_withdrawal_says_why"
            ),
        ),
        ForbidChanges("setups_pull"),
        ForbidChanges("setups_benchfile"),
        ForbidChanges("setups_enddimension"),
        ForbidChanges("setups_enddimensionwithdrawal"),
        ForbidChanges("setups_pullwithdrawal"),
    ]
