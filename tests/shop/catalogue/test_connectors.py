"""Connectors in the catalogue, with their drawings, and the words that mean several."""

import dataclasses
from decimal import Decimal

import pytest
from django.db import IntegrityError, transaction
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import UnknownCode
from reelwright.core.parts.connector import BodySection, Method
from reelwright.core.parts.drawing import Drawing, DrawingTolerances
from reelwright.core.verdicts import Basis, Source
from reelwright.shop.catalogue import selectors, services
from reelwright.shop.catalogue.models import ConnectorDrawing, ConnectorType
from reelwright.shop.catalogue.to_core import metres, millimetres
from tests.shop.refusals import refused
from tests.small_world import CONNECTOR, SHEET, SmallWorld

DRAWN = dataclasses.replace(
    CONNECTOR,
    code="SW-CRIMP",
    body=BodySection(
        impedance_ohm=41.5,
        delay_s=130e-12,
        source=Source(text="seen by a reflection trace", basis=Basis.OWN_SHOP),
    ),
    method=Method.CRIMP_CRIMP,
    solid_conductor_only=True,
    accepts_conductor=None,
    drawing=Drawing(
        source=Source(text="drawing of SW-CRIMP", basis=Basis.DATA_SHEET),
        tolerances=DrawingTolerances.stating(stem_bore_m=0.00002, shoulder_to_tip_m=0.00005),
        barrel_depth_m=0.0045,
        barrel_bore_m=0.00109,
        barrel_outside_m=0.00178,
        barrel_clearance_m=0.00025,
        hole_far_edge_m=0.0038,
        pin_crimp_length_m=0.0018,
        seat_to_flange_m=0.0051,
        dielectric_relief_m=0.0001,
        stem_bore_m=0.0049,
        stem_outside_m=0.00653,
        stem_length_m=0.0082,
        braid_relief_m=0.0005,
        ferrule_bore_m=0.0075,
        ferrule_outside_m=0.0086,
        ferrule_length_m=0.0125,
        boot_bore_m=None,
        conductor_protrusion_m=None,
        plane_to_seat_m=0.0048,
        shoulder_to_tip_m=0.0104,
        floor_to_plane_m=None,
        tip_least_m=0.00545,
        tip_most_m=0.00579,
    ),
)


def add_drawn(world: SmallWorld, **other: object) -> None:
    """Enter the connector with a drawing, good unless ``other`` says otherwise."""
    fields: dict[str, object] = {
        "by": world.ada,
        "connector": DRAWN,
        "price": Decimal("2.60"),
        "loss_db": None,
        "loss_source": None,
        "aliases": ("plug",),
    }
    services.connector_add(**(fields | other))  # type: ignore[arg-type]


def test_a_connector_comes_out_as_it_went_in(world: SmallWorld) -> None:
    """With and without a drawing and a body, every value the same float."""
    add_drawn(world)
    found = selectors.connectors()
    assert found[CONNECTOR.code] == CONNECTOR
    assert found[DRAWN.code] == DRAWN


@given(st.integers(min_value=0, max_value=999_999))
def test_a_drawing_dimension_survives_storage(micrometres: int) -> None:
    """Every whole micrometre goes to decimal millimetres and back to the float it was typed as."""
    typed_m = float(f"{micrometres}e-6")
    assert metres(millimetres(typed_m)) == typed_m


def test_a_loss_stands_with_its_source(world: SmallWorld) -> None:
    """Not known is None, never zero."""
    add_drawn(world)
    terms = selectors.connector_terms()
    assert (terms[CONNECTOR.code].loss_db, terms[CONNECTOR.code].loss_source) == (0.1, SHEET)
    assert (terms[DRAWN.code].loss_db, terms[DRAWN.code].loss_source) == (None, None)


def test_the_database_refuses_a_loss_without_source(world: SmallWorld) -> None:
    """A number nobody stands behind cannot be stored."""
    with pytest.raises(IntegrityError), transaction.atomic():
        ConnectorType.objects.filter(code=CONNECTOR.code).update(loss_source="")


@pytest.mark.parametrize(
    "wrong", [{"body_delay_s": None}, {"body_source": ""}, {"body_impedance_ohm": 0.0}]
)
def test_the_database_refuses_half_a_body(world: SmallWorld, wrong: dict[str, object]) -> None:
    """Impedance, delay and source stand together, above zero, or none of them does."""
    add_drawn(world)
    with pytest.raises(IntegrityError), transaction.atomic():
        ConnectorType.objects.filter(code=DRAWN.code).update(**wrong)


def test_a_word_may_mean_a_family_of_connectors(world: SmallWorld) -> None:
    """The cable then picks; a code means one alone."""
    services.connector_add(
        by=world.ada,
        connector=dataclasses.replace(CONNECTOR, code="SW-PLUG-2"),
        price=Decimal(3),
        loss_db=None,
        loss_source=None,
        aliases=("Plug",),
    )
    add_drawn(world)
    assert selectors.find_connectors("PLUG") == ("SW-CRIMP", "SW-PLUG-2")
    assert selectors.find_connectors("sw-crimp") == ("SW-CRIMP",)
    with pytest.raises(UnknownCode) as caught:
        selectors.find_connectors("plugs")
    assert "plug" in caught.value.near


def test_a_connector_is_entered_once(world: SmallWorld) -> None:
    """The same code again, in any case, is refused."""
    add_drawn(world)
    with refused("connector_exists"):
        add_drawn(world, connector=dataclasses.replace(DRAWN, code="sw-crimp"))


@pytest.mark.parametrize(
    "wrong",
    [
        {"stem_bore_tolerance_mm": -1},
        {"tip_most_mm": None},
        {"tip_most_mm": 1},
        {"source": ""},
        {"basis": "hearsay"},
    ],
    ids=lambda wrong: next(iter(wrong)),
)
def test_the_database_refuses_half_a_drawing(world: SmallWorld, wrong: dict[str, object]) -> None:
    """A tolerance below zero, half a window or one that is shut, a drawing nobody made."""
    add_drawn(world)
    with pytest.raises(IntegrityError), transaction.atomic():
        ConnectorDrawing.objects.update(**wrong)
