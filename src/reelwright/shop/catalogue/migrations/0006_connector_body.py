"""The section of line that a connector is, where it is stated."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("catalogue", "0005_screws"),
    ]

    operations = [
        migrations.AddField(
            model_name="connectortype",
            name="body_basis",
            field=models.CharField(blank=True, max_length=60),
        ),
        migrations.AddField(
            model_name="connectortype",
            name="body_delay_s",
            field=models.FloatField(null=True),
        ),
        migrations.AddField(
            model_name="connectortype",
            name="body_impedance_ohm",
            field=models.FloatField(null=True),
        ),
        migrations.AddField(
            model_name="connectortype",
            name="body_source",
            field=models.CharField(blank=True, max_length=200),
        ),
        migrations.AddConstraint(
            model_name="connectortype",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("body_delay_s__isnull", True), ("body_impedance_ohm__isnull", True)),
                    models.Q(
                        ("body_delay_s__isnull", False),
                        ("body_impedance_ohm__isnull", False),
                        ("body_delay_s__gt", 0),
                        ("body_impedance_ohm__gt", 0),
                        models.Q(("body_source", ""), _negated=True),
                    ),
                    _connector="OR",
                ),
                name="connector_body_is_whole",
            ),
        ),
    ]
