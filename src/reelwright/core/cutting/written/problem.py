"""Three tables held against each other -> one cutting problem, or all that is wrong with them."""

from collections.abc import Iterable, Sequence

from reelwright.core.cutting.problem import CutProblem
from reelwright.core.cutting.written import pieces as of_pieces
from reelwright.core.cutting.written import reels as of_reels
from reelwright.core.cutting.written import rules as of_rules
from reelwright.core.cutting.written.pieces import (
    WrittenPieces,
    groups_of,
    pieces_of,
    read_pieces,
)
from reelwright.core.cutting.written.reels import WrittenReel, read_reels, stock_of
from reelwright.core.cutting.written.rules import WrittenRules, read_rules
from reelwright.core.cutting.written.table import Table, WrittenTable, named
from reelwright.core.errors import InputFaults
from reelwright.core.quantities.show import show_metres


def read_problem(
    *,
    pieces: WrittenTable,
    reels: WrittenTable,
    rules: WrittenTable,
    chance_of_enough: float,
) -> CutProblem:
    """Return the problem that three tables state; ``chance_of_enough`` as ``CutProblem`` has it.

    Raises InputFaults with every fault of all three together, those of the pieces first.
    """
    wanted = Table(pieces, of_pieces.COLUMNS, each="length")
    rack = Table(reels, of_reels.COLUMNS, each="reel")
    terms = Table(rules, of_rules.COLUMNS, each="item")
    told = read_rules(terms)
    stock = read_reels(rack)
    rows = read_pieces(wanted)
    _tell_unknown_items(wanted, rows, told, terms)
    _tell_unknown_items(rack, stock, told, terms)
    if not reels.faults:
        _tell_too_long(wanted, rows, stock, told, terms)
        _tell_unknown_reels(wanted, rows, stock, rack)
    faults = [
        fault
        for table in (wanted, rack, terms)
        for fault in sorted(table.faults, key=lambda fault: fault.row or 0)
    ]
    if faults:
        raise InputFaults(faults)
    return CutProblem(
        pieces=tuple(pieces_of(rows)),
        reels=stock_of(stock),
        rules=told.rules,
        groups=groups_of(rows),
        chance_of_enough=chance_of_enough,
    )


def _tell_unknown_items(
    table: Table,
    rows: Iterable[WrittenPieces | WrittenReel],
    told: WrittenRules,
    terms: Table,
) -> None:
    # Without a column of items, or without rows, every item would be unknown: told there, once.
    if not told.known:
        return
    for row in rows:
        if row.item is not None and row.item not in told.known:
            table.fault(
                row.row,
                "item",
                row.item,
                f"{terms.file} has no rules for this item",
                named(told.known, near=row.item),
            )


def _tell_unknown_reels(
    table: Table, rows: Iterable[WrittenPieces], stock: Sequence[WrittenReel], rack: Table
) -> None:
    """Tell of reels and lots that a piece names and its item has not."""
    for row in rows:
        own = [reel for reel in stock if reel.item == row.item]
        reels = {reel.id for reel in own}
        if row.only_reel is not None and row.only_reel not in reels:
            table.fault(
                row.row,
                "only_reel",
                row.only_reel,
                f"{rack.file} has no such reel of {row.item or 'its item'}",
                named(reels, near=row.only_reel),
            )
        lots = {reel.lot for reel in own if reel.lot is not None}
        for lot, _ in row.longer_by_lot_mm:
            # A lot mistyped would be cut to the wrong length, and nobody would see it.
            if lot not in lots:
                table.fault(
                    row.row,
                    "longer_by_lot",
                    lot,
                    f"{rack.file} has no reel of this lot of {row.item or 'its item'}",
                    named(lots, near=lot),
                )


def _tell_too_long(
    table: Table,
    rows: Iterable[WrittenPieces],
    stock: Sequence[WrittenReel],
    told: WrittenRules,
    terms: Table,
) -> None:
    """Tell of pieces that no reel of their item could give, were it whole and free of flaws.

    That is a slip of the hand or a unit mistaken. A piece that some reel is long enough for, but
    that does not come out (flaws, doubt, other pieces), is a result and not a fault; so is one
    whose item has run out.
    """
    unread = {reel.item for reel in stock if reel.length_mm is None}
    longest = dict(told.longest_reel_mm)
    named_by = dict.fromkeys(longest, f"as {terms.file} says")
    for reel in stock:
        if reel.item is None or reel.length_mm is None:
            continue
        if reel.length_mm > longest.get(reel.item, 0):
            longest[reel.item] = reel.length_mm
            named_by[reel.item] = f"{reel.id}; or longest_reel in {terms.file}, where longer come"
    for row in rows:
        least = row.least_cut_mm
        if row.item is None or least is None or row.item in unread:
            continue
        limit = longest.get(row.item)
        if limit is not None and least > limit:
            table.fault(
                row.row,
                "cut_length",
                row.cut_length_typed,
                f"longer than any reel of {row.item}",
                f"up to {show_metres(limit)} ({named_by[row.item]})",
            )
