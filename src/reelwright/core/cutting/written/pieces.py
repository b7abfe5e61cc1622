"""The pieces as they are written: rows of alike ones, and which of them belong together."""

import datetime
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from reelwright.core.cutting.problem import LotGroup, LotRule, Piece
from reelwright.core.cutting.written.lengths import longer_by_lot, up_mm
from reelwright.core.cutting.written.table import Cells, Column, Table
from reelwright.core.quantities.date_text import read_date

COLUMNS = (
    Column(name="id", needed=True),
    Column(name="item", needed=True),
    Column(name="cut_length", needed=True, lengths=True),
    Column(name="count", needed=False),
    Column(name="due", needed=False),
    Column(name="priority", needed=False),
    Column(name="group", needed=False),
    Column(name="group_rule", needed=False),
    Column(name="longer_by_lot", needed=False, lengths=True),
    Column(name="only_reel", needed=False),
)
MOST_OF_ONE_ROW = 2_000
MOST_PIECES = 20_000
_RULES = ", ".join(LotRule)


@dataclass(frozen=True, kw_only=True)
class WrittenPieces:
    """One row of pieces alike. None where a cell was empty or could not be read.

    ``rule_misread``: something stands there for a rule that is none, and that was told.
    """

    row: int
    id: str
    item: str | None
    cut_length_mm: int | None
    cut_length_typed: str
    count: int
    due_day: datetime.date | None
    priority: int
    group: str | None
    rule: LotRule | None
    rule_misread: bool
    longer_by_lot_mm: tuple[tuple[str, int], ...]
    only_reel: str | None

    @property
    def least_cut_mm(self) -> int | None:
        """The least that is cut from any lot."""
        if self.cut_length_mm is None:
            return None
        return self.cut_length_mm + min((0, *(more for _, more in self.longer_by_lot_mm)))

    @property
    def names(self) -> Iterator[str]:
        """The id of each piece: that of the row, numbered where it holds several."""
        if self.count == 1:
            yield self.id
            return
        for number in range(1, self.count + 1):
            yield f"{self.id}-{number}"


def read_pieces(table: Table) -> tuple[WrittenPieces, ...]:
    """Return the rows that name a piece; ``table.faults`` has what is wrong with the table."""
    table.tell_no_rows()
    found = [one for row in table.rows() if (one := _pieces(row)) is not None]
    wanted = sum(one.count for one in found)
    if wanted > MOST_PIECES:
        table.fault(None, "count", str(wanted), "too many pieces", f"up to {MOST_PIECES:,} in all")
    else:
        _tell_repeated(table, found)
    _tell_groups(table, found)
    return tuple(found)


def pieces_of(rows: Iterable[WrittenPieces]) -> Iterator[Piece]:
    """Yield every piece of a table without fault."""
    for row in rows:
        assert row.item is not None
        assert row.cut_length_mm is not None
        for name in row.names:
            yield Piece(
                id=name,
                item=row.item,
                cut_length_mm=row.cut_length_mm,
                due_day=row.due_day,
                priority=row.priority,
                lot_group=row.group,
                longer_by_lot_mm=row.longer_by_lot_mm,
                only_reel=row.only_reel,
            )


def groups_of(rows: Iterable[WrittenPieces]) -> tuple[LotGroup, ...]:
    """Return the groups of a table without fault, in the order in which they are first named."""
    rules = {row.group: row.rule for row in rows if row.group and row.rule}
    return tuple(LotGroup(id=group, rule=rule) for group, rule in rules.items())


def _pieces(row: Cells) -> WrittenPieces | None:
    name, item = row.text("id"), row.text("item")
    length = row.read("cut_length", up_mm)
    count = row.whole("count", least=1, accepted=f"1 to {MOST_OF_ONE_ROW}")
    if count is not None and count > MOST_OF_ONE_ROW:
        row.fault("count", "too many for one row", f"1 to {MOST_OF_ONE_ROW}")
        count = None
    due = row.settled("due", read_date)
    priority = row.whole("priority", least=0, accepted="0 for ordinary, 1 or more to come first")
    group = row.text("group", needed=False)
    longer = row.read("longer_by_lot", longer_by_lot, needed=False) or ()
    if length is not None and length + min((0, *(more for _, more in longer))) < 1:
        row.fault("longer_by_lot", "nothing would be left to cut", "less than the cut length")
    rule = _rule(row)
    if row.typed("group_rule") and not row.typed("group"):
        row.fault("group_rule", "a rule without a group", "the group it is the rule of, or nothing")
    if name is None:
        return None
    return WrittenPieces(
        row=row.number,
        id=name,
        item=item,
        cut_length_mm=length,
        cut_length_typed=row.typed("cut_length"),
        count=count or 1,
        due_day=due,
        priority=priority or 0,
        group=group,
        rule=rule,
        rule_misread=rule is None and bool(row.typed("group_rule")),
        longer_by_lot_mm=longer,
        only_reel=row.text("only_reel", needed=False),
    )


def _rule(row: Cells) -> LotRule | None:
    typed = " ".join(row.typed("group_rule").casefold().split())
    if not typed:
        return None
    try:
        return LotRule(typed)
    except ValueError:
        row.fault("group_rule", "this rule is not known", _RULES)
        return None


def _tell_repeated(table: Table, rows: Sequence[WrittenPieces]) -> None:
    seen: dict[str, int] = {}
    for row in rows:
        # One fault a row: of a row of fifty that stands there twice, fifty would tell no more.
        again = next((name for name in row.names if name in seen), None)
        if again is not None:
            table.fault(
                row.row, "id", again, f"row {seen[again]} has a piece of this id", "each piece once"
            )
        for name in row.names:
            seen.setdefault(name, row.row)


def _tell_groups(table: Table, rows: Sequence[WrittenPieces]) -> None:
    """Tell of groups with two rules or none, and of those over several items."""
    ruled: dict[str, WrittenPieces] = {}
    misread = {row.group for row in rows if row.rule_misread}
    first: dict[str, WrittenPieces] = {}
    for row in rows:
        if row.group is None:
            continue
        begun = first.setdefault(row.group, row)
        if row.item is not None and begun.item is not None and row.item != begun.item:
            table.fault(
                row.row,
                "group",
                row.group,
                f"row {begun.row} has {begun.item} in this group, here it is {row.item}",
                "pieces of one item: those of several cannot come from one lot",
            )
        if row.rule is None:
            continue
        before = ruled.setdefault(row.group, row)
        if before.rule is not row.rule:
            table.fault(
                row.row,
                "group_rule",
                str(row.rule),
                f"row {before.row} says “{before.rule}” of group {row.group}",
                "one rule for each group",
            )
    for group, row in first.items():
        if group not in ruled and group not in misread:
            table.fault(
                row.row, "group_rule", None, f"nothing says how group {group} holds", _RULES
            )
