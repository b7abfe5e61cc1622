"""Tolerances, what decides where the pin's tip lands, and who drew it; else not stated."""

from django.db import migrations, models

NEW = (
    "pin_crimp_length_mm",
    "plane_to_seat_mm",
    "shoulder_to_tip_mm",
    "floor_to_plane_mm",
    "tip_least_mm",
    "tip_most_mm",
)
TOLERANCES = (
    "barrel_depth_tolerance_mm",
    "barrel_bore_tolerance_mm",
    "barrel_outside_tolerance_mm",
    "hole_far_edge_tolerance_mm",
    "pin_crimp_length_tolerance_mm",
    "seat_to_flange_tolerance_mm",
    "stem_bore_tolerance_mm",
    "stem_outside_tolerance_mm",
    "stem_length_tolerance_mm",
    "ferrule_bore_tolerance_mm",
    "ferrule_outside_tolerance_mm",
    "ferrule_length_tolerance_mm",
    "boot_bore_tolerance_mm",
    "plane_to_seat_tolerance_mm",
    "shoulder_to_tip_tolerance_mm",
    "floor_to_plane_tolerance_mm",
)
BASES = (
    "standard",
    "published",
    "data sheet",
    "computed",
    "common practice, no published source",
    "from memory",
    "asked by the customer",
    "own measurement",
)


def _none_is_negative() -> models.Q:
    condition = models.Q()
    for name in TOLERANCES:
        condition &= models.Q((f"{name}__gte", 0), (f"{name}__isnull", True), _connector="OR")
    return condition


class Migration(migrations.Migration):
    """Existing drawings keep their dimensions; they stand as the maker's, without tolerances."""

    dependencies = (("catalogue", "0003_type_marks"),)

    operations = (
        migrations.AddField(
            model_name="connectordrawing",
            name="source",
            field=models.CharField(default="drawing of the connector", max_length=200),
            preserve_default=False,
        ),
        migrations.AddField(
            model_name="connectordrawing",
            name="basis",
            field=models.CharField(
                choices=[(basis, basis) for basis in BASES], default="data sheet", max_length=60
            ),
            preserve_default=False,
        ),
        *(
            migrations.AddField(
                model_name="connectordrawing",
                name=name,
                field=models.DecimalField(decimal_places=3, max_digits=9, null=True),
            )
            for name in (*NEW, *TOLERANCES)
        ),
        migrations.AddConstraint(
            model_name="connectordrawing",
            constraint=models.CheckConstraint(
                condition=models.Q(("source", ""), _negated=True), name="drawing_has_its_source"
            ),
        ),
        migrations.AddConstraint(
            model_name="connectordrawing",
            constraint=models.CheckConstraint(
                condition=models.Q(("basis__in", list(BASES))), name="drawing_basis_is_known"
            ),
        ),
        migrations.AddConstraint(
            model_name="connectordrawing",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("tip_least_mm__isnull", True), ("tip_most_mm__isnull", True)),
                    models.Q(
                        ("tip_least_mm__isnull", False),
                        ("tip_most_mm__gt", models.F("tip_least_mm")),
                        ("tip_most_mm__isnull", False),
                    ),
                    _connector="OR",
                ),
                name="drawing_tip_window_whole",
            ),
        ),
        migrations.AddConstraint(
            model_name="connectordrawing",
            constraint=models.CheckConstraint(
                condition=_none_is_negative(), name="drawing_tolerances_not_negative"
            ),
        ),
    )
