"""The invented counted parts of the demo workshop: connectors and boots."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.demo.connectors import connector_entries


@dataclass(frozen=True, kw_only=True)
class BinEntry:
    """One bin, with how many parts lay in it when the ledgers were opened."""

    code: str
    name: str
    kind: str
    connector_code: str | None
    unit_price: Decimal
    opened_with: int


_CONNECTORS_AT_OPENING = {"BNC-60": 600, "BNC-40": 300, "8P8C": 400, "BNC-28": 60, "BNC-70F": 60}
_BOOTS = {"70": "7 mm", "60": "6 mm", "40": "4 mm"}
_BOOT_COLOURS = ("BK", "BU", "RD", "GN", "YE", "OG", "WH", "GY")
_BOOT_PRICE = Decimal("0.18")


def bin_entries() -> Iterator[BinEntry]:
    """Yield every bin of the demo workshop."""
    for entry in connector_entries():
        connector = entry.connector
        yield BinEntry(
            code=connector.code,
            name=connector.name,
            kind="connector",
            connector_code=connector.code,
            unit_price=entry.price,
            opened_with=_CONNECTORS_AT_OPENING.get(connector.code, 160),
        )
    for size, words in _BOOTS.items():
        for letters in _BOOT_COLOURS:
            yield BinEntry(
                code=f"BOOT-{size}-{letters}",
                name=f"Boot for {words} coax, {COLOUR_NAMES[letters]}",
                kind="boot",
                connector_code=None,
                unit_price=_BOOT_PRICE,
                opened_with=120,
            )
