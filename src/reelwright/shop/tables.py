"""A file of rows as bytes -> its rows as text, or every reason why it is not one.

Text files are UTF-8 (a byte-order mark is accepted), divided by comma, semicolon or tab; workbooks
are XLSX and their first sheet is read. Nothing is interpreted here.
"""

import csv
import datetime as dt
import io
from collections.abc import Mapping
from dataclasses import dataclass

from reelwright.core.errors import Fault, InputFaults

LARGEST_BYTES = 20 * 1000 * 1000
MOST_ROWS = 20_000
_XLSX_MAGIC = b"PK\x03\x04"


@dataclass(frozen=True, kw_only=True)
class Row:
    """One row as typed; ``number`` counts as a person counts in the file, the header being 1."""

    number: int
    cells: Mapping[str, str]


def read_table(
    *, name: str, content: bytes, required: tuple[str, ...], optional: tuple[str, ...], each: str
) -> list[Row]:
    """Return the rows of a CSV or XLSX file; raise InputFaults with all that is wrong with it.

    Columns may come in any order and their names in any case; blank rows are passed over. ``each``
    names what a row holds, such as "order line".
    """
    lines = read_lines(name=name, content=content, each=each)
    header = _header(name, lines[0][1], required, optional)
    return _rows(name, header, lines[1:], each)


def read_lines(*, name: str, content: bytes, each: str) -> list[tuple[int, list[str]]]:
    """Return every line that is not blank with its number in the file, the header first.

    For files whose columns are known to their reader alone. Raises InputFaults for what is no
    table.
    """
    if len(content) > LARGEST_BYTES:
        raise _whole(
            name,
            f"the file has {len(content) / 1e6:.1f} MB",
            f"at most {LARGEST_BYTES // 1_000_000} MB",
        )
    if not content.strip():
        raise _whole(name, "the file is empty", f"a header row and one row for each {each}")
    lines = _workbook(name, content) if content.startswith(_XLSX_MAGIC) else _text(name, content)
    if not lines:
        raise _whole(name, "the file is empty", f"a header row and one row for each {each}")
    return lines


def _whole(name: str, problem: str, accepted: str) -> InputFaults:
    return InputFaults(
        [Fault(file=name, row=None, field=None, value=None, problem=problem, accepted=accepted)]
    )


def _text(name: str, content: bytes) -> list[tuple[int, list[str]]]:
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = content[: error.start]
        line = before.count(b"\n") + 1
        column = error.start - (before.rfind(b"\n") + 1) + 1
        raise InputFaults(
            [
                Fault(
                    file=name,
                    row=line,
                    field=None,
                    value=f"0x{content[error.start]:02X}",
                    problem=f"byte {column} of line {line} is not UTF-8",
                    accepted="a file saved as UTF-8",
                )
            ]
        ) from error
    if "\x00" in text:
        raise _whole(name, "the file holds binary data", "a CSV or XLSX file")
    # The header alone decides: a typed text further down may hold any of the three.
    first = text.lstrip("\r\n").split("\n", 1)[0]
    delimiter = max(",;\t", key=first.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    lines: list[tuple[int, list[str]]] = []
    row = 0
    try:
        for cells in reader:
            row += 1
            if any(cell.strip() for cell in cells):
                lines.append((row, cells))
            _limit_rows(name, row)
    except csv.Error as error:
        raise InputFaults(
            [
                Fault(
                    file=name,
                    row=row + 1,
                    field=None,
                    value=None,
                    problem=(
                        f"a quoted cell is not closed as it should be ({error})"
                        if "limit" not in str(error)
                        else f"a cell has more than {csv.field_size_limit()} characters; is its "
                        "quote closed?"
                    ),
                    accepted='quotes doubled inside a quoted cell, as in "33\'4"""',
                )
            ]
        ) from error
    return lines


def _workbook(name: str, content: bytes) -> list[tuple[int, list[str]]]:
    from python_calamine import CalamineError, CalamineWorkbook

    try:
        book = CalamineWorkbook.from_filelike(io.BytesIO(content))
        sheet = book.get_sheet_by_index(0)
        found = sheet.to_python(skip_empty_area=False)
    except (CalamineError, IndexError, ValueError) as error:
        raise _whole(name, f"the workbook cannot be read ({error})", "an XLSX file") from error
    _limit_rows(name, len(found))
    lines = [
        (number, cells)
        for number, cells in enumerate(([_cell(value) for value in row] for row in found), start=1)
        if any(cell.strip() for cell in cells)
    ]
    if any("\x00" in cell for _, cells in lines for cell in cells):
        raise _whole(name, "the file holds binary data", "a CSV or XLSX file")
    return lines


def _cell(value: object) -> str:
    """Workbooks hold 12 as 12.0 and dates as dates; people typed neither."""
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    if isinstance(value, dt.datetime):
        return value.date().isoformat()
    if isinstance(value, dt.date):
        return value.isoformat()
    return str(value)


def _limit_rows(name: str, count: int) -> None:
    if count > MOST_ROWS + 1:
        raise _whole(name, f"the file has more than {MOST_ROWS} rows", f"at most {MOST_ROWS} rows")


def _header(
    name: str, cells: list[str], required: tuple[str, ...], optional: tuple[str, ...]
) -> list[str]:
    header = [cell.strip().lower().replace(" ", "_") for cell in cells]
    known = required + optional
    faults = [
        Fault(
            file=name,
            row=1,
            field=column,
            value=None,
            problem="this column is missing",
            accepted="a header row with " + ", ".join(known),
        )
        for column in required
        if column not in header
    ]
    for position, column in enumerate(header):
        if column and header.index(column) != position:
            faults.append(
                Fault(
                    file=name,
                    row=1,
                    field=column,
                    value=None,
                    problem="this column stands there twice",
                    accepted="each column once",
                )
            )
        elif column and column not in known:
            faults.append(
                Fault(
                    file=name,
                    row=1,
                    field=column,
                    value=None,
                    problem="this column is not known",
                    accepted=", ".join(known),
                )
            )
    if faults:
        raise InputFaults(faults)
    return header


def _rows(name: str, header: list[str], lines: list[tuple[int, list[str]]], each: str) -> list[Row]:
    if not lines:
        raise _whole(name, "there is a header but no row below it", f"one row for each {each}")
    faults = [
        Fault(
            file=name,
            row=number,
            field=None,
            value=None,
            problem=f"{len(cells)} cells under {len(header)} columns",
            accepted="as many cells as columns; a text with the divider in it stands in quotes",
        )
        for number, cells in lines
        if len(cells) > len(header)
    ]
    if faults:
        raise InputFaults(faults)
    return [
        Row(
            number=number,
            cells={
                column: (cells[i].strip() if i < len(cells) else "")
                for i, column in enumerate(header)
                if column
            },
        )
        for number, cells in lines
    ]
