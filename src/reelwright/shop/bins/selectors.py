"""Every read of the bins. Values come out, never rows."""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from django.db.models import Sum
from django.db.models.functions import Coalesce

from reelwright.shop.bins.models import BinItem


@dataclass(frozen=True, kw_only=True)
class OnHand:
    """How many of a part there are, and what one costs to replace."""

    code: str
    name: str
    kind: str
    connector_code: str | None
    location: str
    quantity: int
    unit_price: Decimal


def on_hand(*, codes: Iterable[str] | None = None) -> list[OnHand]:
    """Return all parts, or those of the codes, with their count, by code; one query."""
    rows = BinItem.objects.select_related("connector").order_by("code")
    if codes is not None:
        rows = rows.filter(code__in=list(codes))
    return [
        OnHand(
            code=row.code,
            name=row.name,
            kind=row.kind,
            connector_code=row.connector.code if row.connector is not None else None,
            location=row.location,
            quantity=row.quantity,
            unit_price=row.unit_price,
        )
        for row in rows.annotate(quantity=Coalesce(Sum("movements__change"), 0))
    ]


def connectors_on_hand() -> dict[str, int]:
    """Return how many there are of each connector that has a bin, by the connector's code."""
    return {
        item.connector_code: item.quantity for item in on_hand() if item.connector_code is not None
    }
