"""Energy, pressure and amplitude of a weld, as a revision lays them down."""

from django.db import migrations, models


class Migration(migrations.Migration):
    """Add the columns; none is filled, as nobody wrote them down before."""

    dependencies = [
        ("setups", "0004_pull_rules"),
    ]

    operations = [
        migrations.AddField(
            model_name="revision",
            name="weld_amplitude_um",
            field=models.FloatField(null=True),
        ),
        migrations.AddField(
            model_name="revision",
            name="weld_energy_j",
            field=models.FloatField(null=True),
        ),
        migrations.AddField(
            model_name="revision",
            name="weld_pressure_kpa",
            field=models.FloatField(null=True),
        ),
        migrations.AddConstraint(
            model_name="revision",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(
                        ("weld_energy_j__gt", 0), ("weld_energy_j__isnull", True), _connector="OR"
                    ),
                    models.Q(
                        ("weld_pressure_kpa__gt", 0),
                        ("weld_pressure_kpa__isnull", True),
                        _connector="OR",
                    ),
                    models.Q(
                        ("weld_amplitude_um__gt", 0),
                        ("weld_amplitude_um__isnull", True),
                        _connector="OR",
                    ),
                ),
                name="revision_weld_above_zero",
            ),
        ),
    ]
