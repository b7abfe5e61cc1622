"""The rules of each item as they are written: what is worth keeping of it."""

from collections.abc import Mapping
from dataclasses import dataclass

from reelwright.core.cutting.problem import ItemRules
from reelwright.core.cutting.written.lengths import down_mm_or_none, remnant_uses, up_mm
from reelwright.core.cutting.written.table import Cells, Column, Table
from reelwright.core.quantities.show import show_metres

COLUMNS = (
    Column(name="item", needed=True),
    Column(name="smallest_remnant", needed=True, lengths=True),
    Column(name="swarf", needed=True, lengths=True),
    Column(name="remnant_uses", needed=False),
    Column(name="longest_reel", needed=False, lengths=True),
)


@dataclass(frozen=True, kw_only=True)
class WrittenRules:
    """The rules that could be read; ``known`` has every item named, readable or not.

    ``longest_reel_mm``: the longest that a reel of the item is ever bought, where that is said.
    """

    rules: tuple[ItemRules, ...]
    known: Mapping[str, int]
    longest_reel_mm: Mapping[str, int]


def read_rules(table: Table) -> WrittenRules:
    """Return what a table of rules says; ``table.faults`` has what is wrong with it."""
    table.tell_no_rows()
    rules: list[ItemRules] = []
    known: dict[str, int] = {}
    longest: dict[str, int] = {}
    for row in table.rows():
        item = row.text("item")
        found = _rules(row, item)
        reel_mm = row.read("longest_reel", down_mm_or_none, needed=False)
        if item is None:
            continue
        if item in known:
            row.fault("item", f"row {known[item]} has rules for it", "each item once")
            continue
        known[item] = row.number
        if reel_mm:
            longest[item] = reel_mm
        if found is not None:
            rules.append(found)
    return WrittenRules(rules=tuple(rules), known=known, longest_reel_mm=longest)


def _rules(row: Cells, item: str | None) -> ItemRules | None:
    smallest = row.read("smallest_remnant", up_mm)
    swarf = row.read("swarf", down_mm_or_none)
    uses = row.read("remnant_uses", remnant_uses, needed=False)
    if smallest is None or swarf is None:
        return None
    if smallest <= swarf:
        row.fault(
            "smallest_remnant",
            "what is swept up would be worth keeping",
            f"more than the swarf, {show_metres(swarf)}",
        )
        return None
    if item is None:
        return None
    return ItemRules(
        item=item, smallest_remnant_mm=smallest, swarf_mm=swarf, remnant_uses=uses or ()
    )
