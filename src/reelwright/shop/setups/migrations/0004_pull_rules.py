"""Whose least pull counts for a revision, and who lifted that rule set's bar on solid wire."""

from django.db import migrations, models


class Migration(migrations.Migration):
    """Add both columns; what is there keeps the shop's own least pull."""

    dependencies = [
        ("setups", "0003_photographs"),
    ]

    operations = [
        migrations.AddField(
            model_name="revision",
            name="pull_rules",
            field=models.CharField(
                blank=True,
                choices=[
                    ("commercial", "commercial"),
                    ("military", "military"),
                    ("IEC 60352-2", "IEC 60352-2"),
                    ("NASA-STD-8739.4", "NASA-STD-8739.4"),
                    ("MIL-DTL-55235A", "MIL-DTL-55235A"),
                ],
                max_length=40,
            ),
        ),
        migrations.AddField(
            model_name="revision",
            name="solid_wire_waiver",
            field=models.CharField(blank=True, max_length=200),
        ),
        migrations.AddConstraint(
            model_name="revision",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("pull_rules", ""),
                    (
                        "pull_rules__in",
                        [
                            "commercial",
                            "military",
                            "IEC 60352-2",
                            "NASA-STD-8739.4",
                            "MIL-DTL-55235A",
                        ],
                    ),
                    _connector="OR",
                ),
                name="pull_rules_are_known",
            ),
        ),
        migrations.AddConstraint(
            model_name="revision",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("solid_wire_waiver", ""),
                    models.Q(("pull_rules", ""), _negated=True),
                    _connector="OR",
                ),
                name="solid_wire_waiver_has_its_rules",
            ),
        ),
    ]
