"""What happens to the cables of a shop that began before ratings had two ladders."""

import pytest
from django.db import connection
from django.db.migrations.executor import MigrationExecutor

from reelwright.shop.catalogue.to_core import cable_value


@pytest.mark.django_db(transaction=True)
def test_a_cable_entered_before_keeps_its_class_and_states_nothing_more() -> None:
    """Neither a European class nor sun nor soil nor a mark is made up for an existing row."""
    newest = MigrationExecutor(connection).loader.graph.leaf_nodes("catalogue")
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
