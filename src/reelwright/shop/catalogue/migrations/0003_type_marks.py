"""The mark printed on a jacket; where none was entered, none is stated."""

from django.db import migrations, models

MARKS = (
    *("CMP", "CL3P", "CL2P", "FPLP", "MPP"),
    *("CMR", "CL3R", "CL2R", "FPLR", "MPR"),
    *("CM", "CMG", "CL3", "CL2", "FPL", "MP", "MPG"),
    *("CMX", "CL3X", "CL2X"),
)


class Migration(migrations.Migration):
    """Existing cables keep their class and state no mark."""

    dependencies = (("catalogue", "0002_ratings"),)

    operations = (
        migrations.AddField(
            model_name="cabletype",
            name="type_mark",
            field=models.CharField(blank=True, default="", max_length=8),
            preserve_default=False,
        ),
        migrations.AddConstraint(
            model_name="cabletype",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("type_mark", ""),
                    models.Q(
                        ("type_mark__in", MARKS), models.Q(("jacket_class", ""), _negated=True)
                    ),
                    _connector="OR",
                ),
                name="cable_type_mark_is_known_and_of_a_class",
            ),
        ),
    )
