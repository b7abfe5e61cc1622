"""The columns of a file of readings: rows of text -> readings, or every fault of the file."""

import datetime as dt
import functools
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.errors import Fault, UnreadableQuantity
from reelwright.core.quantities.date_text import ACCEPTED as DATES
from reelwright.core.quantities.date_text import read_date
from reelwright.shop.setups.readings.given import Given, Problem
from reelwright.shop.setups.readings.words import (
    GAVE_WAY,
    WHAT,
    is_pull,
    read_before,
    read_failure,
    read_part,
    read_value,
)
from reelwright.shop.setups.states import FailureMode, Part
from reelwright.shop.tables import Row, read_table

REQUIRED = ("set_up", "revision", "date", "end", "what", "value")
OPTIONAL = ("gave_way", "person", "instrument", "cavity", "closings", "remark", "before")
COLUMNS = (*REQUIRED, *OPTIONAL)
MOST_CLOSINGS = 10_000_000


@dataclass(frozen=True, kw_only=True)
class Vocabulary:
    """What a file can name: revisions by (set-up, letter), people; all in small letters."""

    revisions: Mapping[tuple[str, str], int]
    people: Mapping[str, int]

    @functools.cached_property
    def letters(self) -> dict[str, list[str]]:
        """The letters of each set-up."""
        found: dict[str, list[str]] = {}
        for code, letter in self.revisions:
            found.setdefault(code, []).append(letter.upper())
        return found


def read_readings(
    *, name: str, content: bytes, vocabulary: Vocabulary
) -> tuple[list[Given], list[Fault]]:
    """Return the readings of the rows that can be read, and every fault of those that cannot.

    Raises InputFaults where the file is no table of readings at all.
    """
    rows = read_table(
        name=name, content=content, required=REQUIRED, optional=OPTIONAL, each="reading"
    )
    faults: list[Fault] = []
    readings = []
    for row in rows:
        reader = _RowReader(row, vocabulary)
        given = reader.read()
        faults.extend(problem.fault(file=name, row=row.number) for problem in reader.problems)
        if given is not None:
            readings.append(given)
    return readings, faults


class _RowReader:
    """Reads one row and remembers every problem, so that all are told together."""

    def __init__(self, row: Row, vocabulary: Vocabulary) -> None:
        self.row, self.vocabulary = row, vocabulary
        self.cells = {column: row.cells.get(column, "") for column in COLUMNS}
        self.problems: list[Problem] = []

    def read(self) -> Given | None:
        revision_id = self._revision()
        on = self._date()
        if not self.cells["end"]:
            self._problem(
                "end",
                "there is nothing here",
                "the number of the end within its day, or its serial",
            )
        what = self._what()
        part = what if isinstance(what, Part) else None
        value = self._value(part) if what is not None else None
        before_mm = self._before(part) if what is not None else None
        mode = self._gave_way(part) if what is not None else None
        person_id = self._person()
        tool_count = self._closings()
        if self.problems:
            return None
        # Every reader that came back empty has told its problem above.
        assert revision_id
        assert on
        return Given(
            row=self.row.number,
            revision_id=revision_id,
            on=on,
            end=self.cells["end"],
            force_n=value if isinstance(value, float) else None,
            failure_mode=mode,
            part=part,
            length_mm=value if isinstance(value, Decimal) else None,
            before_mm=before_mm,
            person_id=person_id,
            instrument=self.cells["instrument"],
            cavity=self.cells["cavity"],
            tool_count=tool_count,
            remark=self.cells["remark"],
        )

    def _problem(self, field: str, problem: str, accepted: str) -> None:
        value = self.cells[field] or None
        self.problems.append(Problem(field=field, value=value, problem=problem, accepted=accepted))

    def _revision(self) -> int | None:
        code, letter = self.cells["set_up"].casefold(), self.cells["revision"].casefold()
        letters = self.vocabulary.letters.get(code)
        if letters is None:
            self._problem("set_up", "there is no such set-up", "a code such as T-02")
            return None
        found = self.vocabulary.revisions.get((code, letter))
        if found is None:
            self._problem("revision", "this set-up has no such revision", ", ".join(letters))
        return found

    def _date(self) -> dt.date | None:
        try:
            reading = read_date(self.cells["date"])
        except UnreadableQuantity:
            self._problem("date", "this is not a date", DATES)
            return None
        if reading.value is None:
            self._problem("date", f"this can be read in two ways: {reading.question}", DATES)
        return reading.value

    def _what(self) -> Part | str | None:
        typed = self.cells["what"]
        found = "pull" if is_pull(typed) else read_part(typed)
        if found is None:
            self._problem("what", "this is not measured of an end", ", ".join(WHAT))
        return found

    def _value(self, part: Part | None) -> float | Decimal | None:
        value, problem = read_value(self.cells["value"], part=part)
        if problem is not None:
            self.problems.append(problem)
        return value

    def _before(self, part: Part | None) -> Decimal | None:
        value, problem = read_before(
            self.cells["before"],
            part=part,
            nothing="there is nothing here, and a growth needs the length before the crimp",
        )
        if problem is not None:
            self.problems.append(problem)
        return value

    def _gave_way(self, part: Part | None) -> FailureMode | None:
        typed = self.cells["gave_way"]
        if part is not None:
            if typed:
                self._problem("gave_way", "only a pulled end gives way", "nothing")
            return None
        mode = read_failure(typed)
        if mode is None:
            problem = "these words are not known" if typed else "there is nothing here"
            self._problem("gave_way", problem, GAVE_WAY)
        return mode

    def _person(self) -> int | None:
        typed = self.cells["person"]
        if not typed:
            return None
        found = self.vocabulary.people.get(typed.casefold())
        if found is None:
            self._problem(
                "person",
                "nobody here is called so",
                "the name somebody signs in with or is called by, or nothing",
            )
        return found

    def _closings(self) -> int | None:
        typed = self.cells["closings"]
        if not typed:
            return None
        # Python refuses to make a number of thousands of digits, so their count is looked at first.
        if typed.isascii() and typed.isdigit() and len(typed) < 10 and int(typed) <= MOST_CLOSINGS:
            return int(typed)
        self._problem(
            "closings", "this is no count of closings", f"a whole number, 0 to {MOST_CLOSINGS:,}"
        )
        return None
