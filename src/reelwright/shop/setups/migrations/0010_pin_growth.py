"""The growth of a pin is read as two lengths with one gauge; the database asks for all three."""

from django.db import migrations, models

from reelwright.shop.append_only import AllowChanges, ForbidChanges


class Migration(migrations.Migration):
    """Add the column and what it must hold; the triggers are made anew with the table."""

    dependencies = [("setups", "0009_order_of_work")]

    operations = [
        AllowChanges("setups_enddimension"),
        migrations.RemoveConstraint(
            model_name="enddimension",
            name="end_dimension_part_is_known",
        ),
        migrations.AddField(
            model_name="enddimension",
            name="before_mm",
            field=models.DecimalField(
                decimal_places=3,
                help_text="the length of the pin before its crimp",
                max_digits=9,
                null=True,
            ),
        ),
        migrations.AlterField(
            model_name="enddimension",
            name="part",
            field=models.CharField(
                choices=[
                    ("pin crimp", "pin crimp"),
                    ("ferrule crimp", "ferrule crimp"),
                    ("a", "a"),
                    ("b", "b"),
                    ("c", "c"),
                    ("jacket back", "jacket back"),
                    ("cores bared", "cores bared"),
                    ("pin growth", "pin growth"),
                ],
                max_length=16,
            ),
        ),
        migrations.AddConstraint(
            model_name="enddimension",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    (
                        "part__in",
                        [
                            "pin crimp",
                            "ferrule crimp",
                            "a",
                            "b",
                            "c",
                            "jacket back",
                            "cores bared",
                            "pin growth",
                        ],
                    )
                ),
                name="end_dimension_part_is_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="enddimension",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(
                        ("before_mm__gt", 0),
                        ("before_mm__isnull", False),
                        ("instrument__isnull", False),
                        ("part", "pin growth"),
                    ),
                    models.Q(
                        models.Q(("part", "pin growth"), _negated=True), ("before_mm__isnull", True)
                    ),
                    _connector="OR",
                ),
                name="pin_growth_has_both_lengths_and_its_gauge",
            ),
        ),
        ForbidChanges("setups_enddimension"),
    ]
