"""An end may be clamped by a screw."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("catalogue", "0004_drawing_tolerances"),
    ]

    operations = [
        migrations.RemoveConstraint(
            model_name="connectortype",
            name="connector_method_is_known",
        ),
        migrations.AlterField(
            model_name="connectortype",
            name="method",
            field=models.CharField(
                choices=[
                    ("pin and ferrule crimped", "pin and ferrule crimped"),
                    ("compressed", "compressed"),
                    ("soldered", "soldered"),
                    ("welded", "welded"),
                    ("clamped by a screw", "clamped by a screw"),
                    ("insulation displacement", "insulation displacement"),
                    ("cleaved and polished", "cleaved and polished"),
                ],
                max_length=40,
            ),
        ),
        migrations.AddConstraint(
            model_name="connectortype",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    (
                        "method__in",
                        [
                            "pin and ferrule crimped",
                            "compressed",
                            "soldered",
                            "welded",
                            "clamped by a screw",
                            "insulation displacement",
                            "cleaved and polished",
                        ],
                    )
                ),
                name="connector_method_is_known",
            ),
        ),
    ]
