"""The rows of a file of trials -> the trials, or every fault with its row and column.

``docs/guide/trials-file.md`` says what may stand there. Rows of one number are one trial, so
repeats may stand beside each other in several columns, or under each other in several rows.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from reelwright.core.errors import Fault, InputFaults, UnreadableQuantity
from reelwright.core.trials.frame import SearchFrame
from reelwright.core.trials.number_text import read_plain_number, read_plain_numbers
from reelwright.core.trials.record import Readings, Seen, Trial

LONGEST_TEXT = 300
_HEADING = re.compile(r"(?P<name>[^\[(]*?)\s*(?:[\[(]\s*(?P<unit>[^\])]*?)\s*[\])])?")
_NUMBERED = re.compile(r"(?P<name>.*\D)[ _]*\d{1,2}")
_SEEN = re.compile(r"(?P<good>\d{1,6})\s*(?:/|of)\s*(?P<seen>\d{1,6})")
_NUMBER = re.compile(r"[1-9]\d{0,5}")


@dataclass(frozen=True, kw_only=True)
class ReadTrial:
    """One trial of a file: the first ``row`` it stands in, and what was noted beside it."""

    trial: Trial
    note: str
    row: int


@dataclass(frozen=True)
class _Column:
    """What one column holds: its kind and the name of the setting, response or looks."""

    kind: str
    name: str


@dataclass(kw_only=True)
class _Growing:
    """A trial while its rows are read."""

    row: int
    values: tuple[float, ...]
    readings: dict[str, list[float]] = field(default_factory=dict)
    seen: dict[str, tuple[int, int]] = field(default_factory=dict)
    failure: str = ""
    notes: list[str] = field(default_factory=list)


def read_trials(
    lines: Sequence[tuple[int, Sequence[str]]], *, file: str, frame: SearchFrame
) -> tuple[ReadTrial, ...]:
    """Return the trials that ``lines`` hold, by number; each line with its number in the file.

    The first line is the header. Raises InputFaults with all faults together, also those that only
    show when the trials are held against each other.
    """
    found = _Table(file=file, frame=frame).read(lines)
    rows = {one.trial.number: one.row for one in found}
    try:
        frame.problem([one.trial for one in found])
    except InputFaults as error:
        raise InputFaults(
            replace(fault, file=file, row=None if fault.row is None else rows[fault.row])
            for fault in error.faults
        ) from error
    return found


def read_seen(typed: str) -> tuple[int, int]:
    """Return how many were ok and how many looked at, from "9/10"; raise UnreadableQuantity."""
    told = _SEEN.fullmatch(typed.strip())
    if told is None or int(told["seen"]) < 1 or int(told["good"]) > int(told["seen"]):
        raise UnreadableQuantity(
            typed=typed,
            quantity="count of parts that were ok",
            accepted="how many were ok of how many looked at, such as 9/10",
        )
    return int(told["good"]), int(told["seen"])


def _fold(name: str) -> str:
    return " ".join(name.replace("_", " ").split()).casefold()


class _Table:
    """Reads one table and remembers every fault."""

    def __init__(self, *, file: str, frame: SearchFrame) -> None:
        self._file, self._frame = file, frame
        self._faults: list[Fault] = []
        self._missing: set[str] = set()
        self._units = {_fold(one.name): one.unit for one in frame.settings}
        self._units |= {_fold(one.name): one.unit for one in frame.responses}
        self._columns = {
            **{_fold(one.name): _Column("setting", one.name) for one in frame.settings},
            **{_fold(one.name): _Column("response", one.name) for one in frame.responses},
            **{_fold(one.name): _Column("looks", one.name) for one in frame.looks},
            **{name: _Column(name, name) for name in ("number", "failure", "note")},
        }

    def read(self, lines: Sequence[tuple[int, Sequence[str]]]) -> tuple[ReadTrial, ...]:
        (_, header), *rows = lines
        columns = self._header(header)
        if not rows:
            self._fault(None, None, None, "there is a header but no row below it", "a row a trial")
        growing: dict[int, _Growing] = {}
        for row, cells in rows:
            self._row(row, columns, cells, growing)
        trials = [self._trial(number, one) for number, one in sorted(growing.items())]
        if self._faults:
            raise InputFaults(self._faults)
        return tuple(trials)

    def _fault(
        self, row: int | None, name: str | None, value: str | None, problem: str, accepted: str
    ) -> None:
        self._faults.append(
            Fault(
                file=self._file,
                row=row,
                field=name,
                value=value or None,
                problem=problem,
                accepted=accepted,
            )
        )

    def _header(self, cells: Sequence[str]) -> list[_Column | None]:
        columns = [self._column(cell) for cell in cells]
        there = [column for column in columns if column is not None]
        known = ", ".join(one.name for one in self._columns.values())
        needed = [_Column("number", "number")]
        needed += [_Column("setting", one.name) for one in self._frame.settings]
        for column in needed:
            if column not in there:
                self._missing.add(column.name)
                self._fault(
                    1, column.name, None, "this column is missing", f"a header row with {known}"
                )
        for column in dict.fromkeys(there):
            # Repeats of a response stand beside each other; of anything else there is one.
            if column.kind != "response" and there.count(column) > 1:
                self._fault(1, column.name, None, "this column stands there twice", "it once")
        return columns

    def _column(self, cell: str) -> _Column | None:
        text = cell.strip()
        if not text:
            return None
        told = _HEADING.fullmatch(text)
        name = text if told is None else told["name"]
        found = self._columns.get(_fold(name))
        numbered = _NUMBERED.fullmatch(_fold(name))
        if found is None and numbered is not None:
            repeat = self._columns.get(numbered["name"].strip())
            found = repeat if repeat is not None and repeat.kind == "response" else None
        if found is None:
            known = ", ".join(one.name for one in self._columns.values())
            self._fault(1, text, None, "this column is not known", known)
            return None
        unit = None if told is None else told["unit"]
        stated = self._units.get(_fold(found.name), "")
        if unit and unit != stated:
            self._fault(
                1,
                found.name,
                unit,
                "another unit than the search has",
                f"{found.name} [{stated}]" if stated else f"{found.name} without a unit",
            )
        return found

    def _row(
        self,
        row: int,
        columns: Sequence[_Column | None],
        cells: Sequence[str],
        growing: dict[int, _Growing],
    ) -> None:
        if len(cells) > len(columns):
            self._fault(
                row,
                None,
                None,
                f"{len(cells)} cells under {len(columns)} columns",
                "as many cells as columns",
            )
            return
        told = [
            (column, cell.strip())
            for column, cell in zip(columns, cells, strict=False)
            if column is not None
        ]
        typed = next((cell for column, cell in told if column.kind == "number"), "")
        number = int(typed) if _NUMBER.fullmatch(typed) else 0
        # A column that is missing is told once, at the header; what else a row has is still read.
        if not number and all(column.kind != "number" for column in columns if column):
            number = row
        if not number:
            self._fault(
                row, "number", typed, "this is not the number of a trial", "a whole number from 1"
            )
        values = self._values(row, told, growing.get(number))
        if values is None or not number:
            return
        one = growing.setdefault(number, _Growing(row=row, values=values))
        if one.values != values:
            self._fault(
                row,
                "number",
                typed,
                f"trial {number} was set otherwise in row {one.row}",
                "the same settings in all rows of a trial, or a number of its own",
            )
            return
        for column, cell in told:
            if cell:
                self._take(row, one, column, cell)

    def _values(
        self, row: int, told: Sequence[tuple[_Column, str]], begun: _Growing | None
    ) -> tuple[float, ...] | None:
        cells = {column.name: cell for column, cell in told if column.kind == "setting"}
        values: list[float] = []
        for place, one in enumerate(self._frame.settings):
            if one.name in self._missing:
                values.append(one.low)
                continue
            cell = cells.get(one.name, "")
            if not cell and begun is not None:
                values.append(begun.values[place])
                continue
            try:
                value = read_plain_number(cell, unit=one.unit)
            except UnreadableQuantity as error:
                problem = f"this is not a {error.quantity}" if cell else "there is nothing here"
                self._fault(row, one.name, cell, problem, error.accepted)
                continue
            values.append(value)
            if not one.low <= value <= one.high:
                accepted = f"{one.show(one.low)} to {one.show(one.high)}"
                self._fault(row, one.name, cell, "outside what may be tried", accepted)
        return tuple(values) if len(values) == len(self._frame.settings) else None

    def _take(self, row: int, one: _Growing, column: _Column, cell: str) -> None:
        try:
            if column.kind == "response":
                unit = self._units[_fold(column.name)]
                one.readings.setdefault(column.name, []).extend(read_plain_numbers(cell, unit=unit))
            elif column.kind == "looks":
                good, seen = read_seen(cell)
                before = one.seen.get(column.name, (0, 0))
                one.seen[column.name] = (before[0] + good, before[1] + seen)
        except UnreadableQuantity as error:
            self._fault(row, column.name, cell, f"this is not a {error.quantity}", error.accepted)
            return
        if column.kind not in ("failure", "note"):
            return
        if len(cell) > LONGEST_TEXT or not cell.isprintable():
            self._fault(
                row, column.name, None, "this cannot be kept", f"1 to {LONGEST_TEXT} characters"
            )
        elif column.kind == "note":
            one.notes.append(cell)
        elif one.failure not in ("", cell):
            self._fault(
                row, "failure", cell, f"row {one.row} says {one.failure!r}", "one failure a trial"
            )
        else:
            one.failure = cell

    def _trial(self, number: int, one: _Growing) -> ReadTrial:
        return ReadTrial(
            trial=make_trial(
                number=number,
                values=one.values,
                # In the order of the search: the columns may come in any.
                readings=(
                    (response.name, one.readings.get(response.name, []))
                    for response in self._frame.responses
                ),
                seen=(
                    (looks.name, one.seen[looks.name])
                    for looks in self._frame.looks
                    if looks.name in one.seen
                ),
                failure=one.failure,
            ),
            note="; ".join(dict.fromkeys(one.notes))[:LONGEST_TEXT],
            row=one.row,
        )


def make_trial(
    *,
    number: int,
    values: Sequence[float],
    readings: Iterable[tuple[str, Sequence[float]]],
    seen: Iterable[tuple[str, tuple[int, int]]],
    failure: str,
) -> Trial:
    """Return a trial from what was read: ``readings`` by response, ``seen`` (ok, of) by looks."""
    return Trial(
        number=number,
        values=tuple(values),
        readings=tuple(
            Readings(response=name, values=tuple(each)) for name, each in readings if each
        ),
        seen=tuple(Seen(looks=name, good=good, seen_count=count) for name, (good, count) in seen),
        failure=failure or None,
    )
