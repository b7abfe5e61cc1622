"""Counted parts: received, taken, counted, taken back."""

from decimal import Decimal
from typing import Any

import pytest
from django.db import DatabaseError, IntegrityError, connection, transaction

from reelwright.core.errors import UnknownCode
from reelwright.shop.bins import services
from reelwright.shop.bins.models import BinItem, BinMovement
from reelwright.shop.bins.selectors import connectors_on_hand, on_hand
from tests.shop.refusals import refused
from tests.small_world import CONNECTOR, TODAY, SmallWorld


@pytest.fixture
def plugs(world: SmallWorld) -> SmallWorld:
    """The small world with twenty plugs in a bin."""
    services.bin_item_add(
        by=world.ada,
        code="B-1",
        name="Plug",
        kind="connector",
        unit_price=Decimal("2.50"),
        connector_code=CONNECTOR.code,
    )
    services.bin_receive(by=world.ben, code="B-1", quantity=20, on=TODAY)
    return world


def quantity() -> int:
    """How many plugs the book has."""
    (item,) = on_hand(codes=["B-1"])
    return item.quantity


def take(world: SmallWorld, number: int, **other: Any) -> BinMovement:
    """Take plugs; good unless ``other`` says otherwise."""
    fields: dict[str, Any] = {"by": world.ben, "code": "B-1", "quantity": number, "on": TODAY}
    return services.bin_take(**(fields | other))


def test_receiving_and_taking(plugs: SmallWorld) -> None:
    """Twenty came, four went: sixteen, at their price, under the connector's code as well."""
    take(plugs, 4, used_for="P-1")
    (item,) = on_hand()
    assert (item.quantity, item.unit_price, item.kind) == (16, Decimal("2.50"), "connector")
    assert connectors_on_hand() == {CONNECTOR.code: 16}


def test_never_more_than_there_are(plugs: SmallWorld) -> None:
    """All twenty may go, the twenty-first may not."""
    with refused("not_enough") as caught:
        take(plugs, 21)
    assert caught.value.data["on_hand"] == 20
    take(plugs, 20)
    with refused("not_enough"):
        take(plugs, 1)
    assert quantity() == 0


@pytest.mark.parametrize("number", [0, -1, 1.5, True])
def test_a_count_is_a_whole_number(plugs: SmallWorld, number: Any) -> None:
    """Neither none, nor less, nor half a plug, for taking and receiving."""
    with refused("quantity_bad"):
        take(plugs, number)
    with refused("quantity_bad"):
        services.bin_receive(by=plugs.ben, code="B-1", quantity=number, on=TODAY)
    assert quantity() == 20


def test_who_may_not(plugs: SmallWorld) -> None:
    """A viewer does nothing here, and the bench reverses nothing."""
    movement = take(plugs, 1)
    with refused("not_allowed"):
        take(plugs, 1, by=plugs.vic)
    with refused("not_allowed"):
        services.bin_receive(by=plugs.vic, code="B-1", quantity=1, on=TODAY)
    with refused("not_allowed"):
        services.bin_count(by=plugs.vic, code="B-1", counted=1, on=TODAY, reason="by eye")
    with refused("not_allowed"):
        services.movement_reverse(by=plugs.ben, movement=movement.pk, on=TODAY, reason="mine")
    assert quantity() == 19


def test_counting(plugs: SmallWorld) -> None:
    """The book says what was found, zero too, with a reason."""
    services.bin_count(by=plugs.ben, code="B-1", counted=17, on=TODAY, reason="two on the floor")
    assert quantity() == 17
    with refused("reason_missing"):
        services.bin_count(by=plugs.ben, code="B-1", counted=17, on=TODAY, reason="")
    services.bin_count(by=plugs.ben, code="B-1", counted=0, on=TODAY, reason="empty")
    assert quantity() == 0


def test_taking_back(plugs: SmallWorld) -> None:
    """Once, by the lead, with a reason; never past a count, never a reversal."""
    movement = take(plugs, 4)
    reversal = services.movement_reverse(
        by=plugs.ada, movement=movement.pk, on=TODAY, reason="other bin"
    )
    assert quantity() == 20
    for number, code in ((movement.pk, "already_reversed"), (reversal.pk, "is_reversal")):
        with refused(code):
            services.movement_reverse(by=plugs.ada, movement=number, on=TODAY, reason="again")
    later = take(plugs, 1)
    services.bin_count(by=plugs.ben, code="B-1", counted=19, on=TODAY, reason="by hand")
    with refused("counted_since"):
        services.movement_reverse(by=plugs.ada, movement=later.pk, on=TODAY, reason="late")
    received = BinMovement.objects.filter(kind="received").get()
    with refused("counted_since"):
        services.movement_reverse(by=plugs.ada, movement=received.pk, on=TODAY, reason="late")


@pytest.mark.parametrize(
    ("other", "code"),
    [
        ({"code": ""}, "code_bad"),
        ({"kind": "cable"}, "kind_unknown"),
        ({"unit_price": Decimal("-1")}, "price_bad"),
        ({"unit_price": Decimal("NaN")}, "price_bad"),
        ({"connector_code": "SW-PLUG"}, "connector_needed"),
        ({"kind": "connector"}, "connector_needed"),
        ({"code": "B-1"}, "item_exists"),
        ({"kind": "connector", "connector_code": "SW-PLUG"}, "item_exists"),
    ],
    ids=str,
)
def test_a_bad_part_is_refused(plugs: SmallWorld, other: dict[str, Any], code: str) -> None:
    """Each by its code, and the good one beside it is taken."""
    good: dict[str, Any] = {
        "by": plugs.ada,
        "code": "B-2",
        "name": "Boot",
        "kind": "boot",
        "unit_price": Decimal("0.20"),
    }
    with refused(code):
        services.bin_item_add(**(good | other))
    services.bin_item_add(**good)
    assert [item.code for item in on_hand()] == ["B-1", "B-2"]


def test_unknown_parts(plugs: SmallWorld) -> None:
    """A bin and a connector that are not there."""
    with pytest.raises(UnknownCode):
        take(plugs, 1, code="B-7")
    with pytest.raises(UnknownCode):
        services.bin_item_add(
            by=plugs.ada,
            code="B-3",
            name="Plug",
            kind="connector",
            unit_price=Decimal(1),
            connector_code="NONE",
        )


def test_the_database_refuses(plugs: SmallWorld) -> None:
    """A wrong sign, a change of what was written, and a connector's bin without a connector."""
    item = BinItem.objects.get(code="B-1")
    with pytest.raises(IntegrityError), transaction.atomic():
        BinMovement.objects.create(item=item, kind="taken", change=1, by=plugs.ben, on=TODAY)
    with pytest.raises(IntegrityError), transaction.atomic():
        BinItem.objects.filter(pk=item.pk).update(connector=None)
    with (
        pytest.raises(DatabaseError, match="never changed or removed"),
        transaction.atomic(),
        connection.cursor() as cursor,
    ):
        cursor.execute("UPDATE bins_binmovement SET change = change")
