"""One written table: its header understood, its cells handed out, every fault remembered."""

import re
from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import TypeVar

from reelwright.core.errors import Fault, UnreadableQuantity
from reelwright.core.quantities.length_units import UNIT_NAMES
from reelwright.core.quantities.reading import Reading

LONGEST_TEXT = 80
LONGEST_CELL = 1_000
MOST_NAMED = 8
_HEADING = re.compile(r"(?P<name>[^\[(]*?)\s*(?:[\[(]\s*(?P<unit>[^\])]*?)\s*[\])])?")
_WHOLE = re.compile(r"\d{1,6}")

Value = TypeVar("Value")


@dataclass(frozen=True, kw_only=True)
class WrittenTable:
    """A file split into cells; each line with its number in the file, the header first.

    ``faults``: why it could not be split, where it could not; it then has no lines.
    """

    file: str
    lines: tuple[tuple[int, tuple[str, ...]], ...]
    faults: tuple[Fault, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Column:
    """A column: ``needed`` or not; ``lengths``: its unit may stand in brackets behind its name."""

    name: str
    needed: bool
    lengths: bool = False


class Table:
    """Reads one table. ``faults`` holds all that is wrong with it so far."""

    def __init__(self, written: WrittenTable, columns: Sequence[Column], *, each: str) -> None:
        self.file, self._each = written.file, each
        self.faults = list(written.faults)
        self._columns = {column.name: column for column in columns}
        self.units: dict[str, str] = {}
        self.missing: set[str] = set()
        if not written.lines:
            if not written.faults:
                accepted = f"a header and one row for each {each}"
                self.fault(None, None, None, "the file is empty", accepted)
            self._header: list[str | None] = []
            self._lines: Sequence[tuple[int, Sequence[str]]] = ()
            return
        (_, header), *self._lines = written.lines
        self._header = self._read_header(header)

    def tell_no_rows(self) -> None:
        """Remember it as a fault where a header stands above nothing."""
        if self._header and not self._lines:
            problem = "there is a header but no row below it"
            self.fault(None, None, None, problem, f"one row for each {self._each}")

    def rows(self) -> "Iterator[Cells]":
        """Yield each row; one with more cells than columns is told and passed over."""
        for number, cells in self._lines:
            if len(cells) > len(self._header):
                self.fault(
                    number,
                    None,
                    None,
                    f"{len(cells)} cells under {len(self._header)} columns",
                    "as many cells as columns; a text with the divider in it stands in quotes",
                )
                continue
            told = zip(self._header, cells, strict=False)
            yield Cells(self, number, {name: cell.strip() for name, cell in told if name})

    def fault(
        self, row: int | None, field: str | None, value: str | None, problem: str, accepted: str
    ) -> None:
        """Remember one fault."""
        self.faults.append(
            Fault(
                file=self.file,
                row=row,
                field=field,
                value=value or None,
                problem=problem,
                accepted=accepted,
            )
        )

    def _read_header(self, cells: Sequence[str]) -> list[str | None]:
        header = [self._read_heading(cell.strip()) for cell in cells]
        known = ", ".join(self._columns)
        for column in self._columns.values():
            if column.needed and column.name not in header:
                self.missing.add(column.name)
                self.fault(
                    1, column.name, None, "this column is missing", f"a header row with {known}"
                )
        for name in dict.fromkeys(name for name in header if name is not None):
            if header.count(name) > 1:
                self.fault(1, name, None, "this column stands there twice", "each column once")
        return header

    def _read_heading(self, text: str) -> str | None:
        if not text:
            return None
        told = _HEADING.fullmatch(text)
        name = "_".join((text if told is None else told["name"]).lower().split())
        column = self._columns.get(name)
        if column is None:
            self.fault(1, text, None, "this column is not known", ", ".join(self._columns))
            return None
        unit = None if told is None else told["unit"]
        if unit and (not column.lengths or unit not in UNIT_NAMES):
            units = ", ".join(f"{name} [{unit}]" for unit in ("mm", "m", "ft"))
            self.fault(
                1,
                name,
                unit,
                "this is no unit for the column",
                units if column.lengths else f"{name} without a unit",
            )
        elif unit:
            self.units[name] = unit
        return name


class Cells:
    """One row. What cannot be read is remembered as a fault, and None returned."""

    def __init__(self, table: Table, number: int, cells: dict[str, str]) -> None:
        self._table, self.number, self._cells = table, number, cells

    def typed(self, name: str) -> str:
        """Return what stands in a cell; nothing where the column is not there."""
        return self._cells.get(name, "")

    def fault(self, name: str, problem: str, accepted: str) -> None:
        """Remember a fault of one cell."""
        self._table.fault(self.number, name, self.typed(name), problem, accepted)

    def text(self, name: str, *, needed: bool = True) -> str | None:
        """Return a short text, None where it is empty or cannot be kept."""
        typed = " ".join(self.typed(name).split())
        if not typed:
            if needed and name not in self._table.missing:
                self.fault(name, "there is nothing here", "some text")
            return None
        if len(typed) > LONGEST_TEXT or not typed.isprintable():
            self.fault(name, "this cannot be kept", f"1 to {LONGEST_TEXT} printable characters")
            return None
        return typed

    def whole(self, name: str, *, least: int, accepted: str) -> int | None:
        """Return a whole number from ``least`` on; None where there is none."""
        typed = self.typed(name)
        if not typed:
            return None
        if not _WHOLE.fullmatch(typed) or int(typed) < least:
            self.fault(name, "this is no such number", accepted)
            return None
        return int(typed)

    def read(
        self, name: str, reader: Callable[[str, str], Value], *, needed: bool = True
    ) -> Value | None:
        """Return what ``reader`` makes of a cell and of the unit its column states, or None."""
        typed = self.typed(name)
        if not typed and not needed:
            return None
        if name in self._table.missing:
            return None
        if len(typed) > LONGEST_CELL:
            self.fault(name, "this is too long to be read", f"up to {LONGEST_CELL} characters")
            return None
        try:
            return reader(typed, self._table.units.get(name, ""))
        except UnreadableQuantity as error:
            problem = f"this is not a {error.quantity}" if typed else "there is nothing here"
            self.fault(name, problem, error.accepted)
            return None

    def settled(self, name: str, reading: Callable[[str], Reading[Value]]) -> Value | None:
        """Return what a reader that may ask makes of a cell; its question becomes a fault."""
        typed = self.typed(name)
        if not typed:
            return None
        try:
            found = reading(typed)
        except UnreadableQuantity as error:
            self.fault(name, f"this is not a {error.quantity}", error.accepted)
            return None
        if found.question is not None:
            self.fault(name, found.question.rstrip("."), "what reads in one way only")
        return found.value


def named(names: Collection[str], *, near: str) -> str:
    """Return the names that would be accepted; of many, those most like ``near``."""
    if not names:
        return "none is known"
    if len(names) <= MOST_NAMED:
        return ", ".join(sorted(names))
    like = get_close_matches(near, sorted(names), n=3, cutoff=0.5)
    return f"one of the {len(names)} known" + (f", such as {', '.join(like)}" if like else "")
