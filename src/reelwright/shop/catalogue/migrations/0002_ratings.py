"""Ratings of two systems, and for sun and soil; what was not entered is not stated."""

from django.db import migrations, models


class Migration(migrations.Migration):
    """Existing cables keep their North American class and state nothing else."""

    dependencies = (("catalogue", "0001_tables"),)

    operations = (
        migrations.RemoveConstraint(model_name="cabletype", name="cable_jacket_class_is_known"),
        migrations.AlterField(
            model_name="cabletype",
            name="jacket_class",
            field=models.CharField(
                blank=True,
                choices=[
                    ("limited use", "limited use"),
                    ("general", "general"),
                    ("riser", "riser"),
                    ("plenum", "plenum"),
                ],
                max_length=24,
            ),
        ),
        migrations.AddField(
            model_name="cabletype",
            name="reaction_to_fire",
            field=models.CharField(blank=True, default="", max_length=24),
            preserve_default=False,
        ),
        migrations.AddField(
            model_name="cabletype", name="sunlight_resistant", field=models.BooleanField(null=True)
        ),
        migrations.AddField(
            model_name="cabletype", name="direct_burial", field=models.BooleanField(null=True)
        ),
        migrations.AddConstraint(
            model_name="cabletype",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("jacket_class__in", ["", "limited use", "general", "riser", "plenum"])
                ),
                name="cable_jacket_class_is_known_or_not_stated",
            ),
        ),
    )
