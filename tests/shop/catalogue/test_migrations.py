"""What happens to the rows of a shop that began before a column was there."""

import pytest
from django.db import connection
from django.db.migrations.executor import MigrationExecutor

from reelwright.core.parts.drawing import DrawingTolerances
from reelwright.shop.catalogue.to_core import cable_value, drawing_value


@pytest.mark.django_db(transaction=True)
def test_a_cable_entered_before_keeps_its_class_and_states_nothing_more() -> None:
    """Neither a European class nor sun nor soil nor a mark is made up for an existing row."""
    newest = MigrationExecutor(connection).loader.graph.leaf_nodes()
    before = [("catalogue", "0001_tables")]
    MigrationExecutor(connection).migrate(before)
    try:
        old = MigrationExecutor(connection).loader.project_state(before).apps
        old.get_model("catalogue", "CableType").objects.create(
            code="OLD-1",
            name="Coax of an older shop",
            family="coax",
            conductors=1,
            screened=True,
            solid_conductor=True,
            jacket_class="riser",
            mass_kg_per_m=0.04,
            bend_radius_fixed_mm=60,
            sheet_source="data sheet",
            sheet_basis="data sheet",
            price_per_m=1,
            smallest_remnant_mm=1500,
        ).layers.create(
            position=0, role="jacket", material="PVC", outside_diameter_mm=6, tolerance_mm=0
        )
    finally:
        MigrationExecutor(connection).migrate(newest)
    from reelwright.shop.catalogue.models import CableType

    rating = cable_value(CableType.objects.get(code="OLD-1")).rating
    assert str(rating) == "riser"
    assert rating.type_mark is rating.reaction is None
    assert rating.sunlight_resistant is rating.direct_burial is None


@pytest.mark.django_db(transaction=True)
def test_a_drawing_entered_before_states_no_tolerance() -> None:
    """No tolerance, no place of the pin's tip is made up; the dimensions stay as they were."""
    newest = MigrationExecutor(connection).loader.graph.leaf_nodes()
    before = [("catalogue", "0003_type_marks")]
    MigrationExecutor(connection).migrate(before)
    try:
        old = MigrationExecutor(connection).loader.project_state(before).apps
        plug = old.get_model("catalogue", "ConnectorType").objects.create(
            code="OLD-PLUG",
            name="Plug of an older shop",
            mating="BNC",
            method="pin and ferrule crimped",
            contacts=1,
            shell_contact=True,
            carries_balanced=False,
            jacket_low_mm=5,
            jacket_high_mm=6,
            conductor_setback_mm=10,
            trim_mm=10,
            price=1,
        )
        old.get_model("catalogue", "ConnectorDrawing").objects.create(
            connector=plug, stem_bore_mm="4.900"
        )
    finally:
        MigrationExecutor(connection).migrate(newest)
    from reelwright.shop.catalogue.models import ConnectorDrawing

    drawn = drawing_value(ConnectorDrawing.objects.get(connector__code="OLD-PLUG"))
    assert drawn.stem_bore_m == 0.0049
    assert drawn.tolerances == DrawingTolerances.stating()
    assert drawn.tip_least_m is drawn.shoulder_to_tip_m is None
