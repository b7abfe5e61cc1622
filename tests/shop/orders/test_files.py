"""Order files with one defect each, by name: what is told, and that nothing else gets through."""

import io
from collections.abc import Sequence
from pathlib import Path

import pytest

from reelwright.core.errors import InputFaults
from reelwright.shop import tables
from reelwright.shop.orders.columns import ReadLine, Vocabulary, read_orders
from tests.day_world import COLUMNS, good_row, order_file

FILES = Path(__file__).parent / "files"
WORDS = Vocabulary(
    cables={"sw-60": "SW-60", "the thin one": "SW-60"},
    connectors={"sw-plug": ("SW-PLUG",), "sw-light": ("SW-LIGHT",)},
    light_connectors=frozenset({"SW-LIGHT"}),
)

# What must be told of each file: row, field, value, words of the problem, words of the accepted.
Told = tuple[int | None, str | None, str | None, str, str]
DEFECTS: dict[str, list[Told]] = {
    "column-missing": [(1, "length", None, "missing", "a header row with order, customer")],
    "column-unknown": [(1, "lenght_2", None, "not known", "end_b, length")],
    "column-twice": [(1, "length", None, "twice", "each column once")],
    "unit-unknown": [(3, "length", "5 cubits", "not a length", "12 ft")],
    "length-in-two-ways": [
        (3, "length", '10"', "10 inches (0.254\u202fm) or 10 feet, between racks?", "10 ft 6 in")
    ],
    "length-without-unit": [(3, "length", "12", "feet, inches, metres", "3.05 m")],
    "length-negative": [(3, "length", "-3 m", "not a length", "above zero")],
    "length-zero": [(3, "length", "0 m", "not a length", "above zero")],
    "cable-unknown": [(3, "cable", "SW-06", "not in the catalogue", "perhaps SW-60")],
    "connector-unknown": [(3, "end_b", "SW-PLUGG", "not in the catalogue", "SW-PLUG")],
    "colour-unknown": [(3, "colour", "mauve", "not a colour", "black, brown, red")],
    "colours-too-few": [(3, "colour", "black, red", "2 colours for 3 cables", "one for each")],
    "space-unknown": [
        (3, "space", "under the sea", "not a place", "riser, plenum, escape route, outdoors")
    ],
    "impossible-pair": [
        (3, "end_b", "SW-LIGHT", "SW-PLUG and SW-LIGHT are an impossible pair", "one kind")
    ],
    "line-twice": [(3, "line", "W-1/1", "line 1 already, in row 2", "once")],
    "line-number-bad": [(3, "line", "first", "not a line number", "a whole number")],
    "due-no-such-day": [(3, "due", "2026-02-30", "not a date", "2026-04-03")],
    "due-in-two-ways": [(3, "due", "03/04/2026", "3 April or 4 March?", "3 April 2026")],
    "quantity-zero": [(3, "quantity", "0", "not a number of pieces", "a whole number")],
    "quantity-half": [(3, "quantity", "1.5", "not a number of pieces", "a whole number")],
    "quantity-words": [(3, "quantity", "a few", "not a number of pieces", "a whole number")],
    "quantity-too-many": [(3, "quantity", "1001", "more than one line", "1 to 1000 cables")],
    "tolerance-nonsense": [(3, "tolerance", "±5 cubits", "not a length tolerance", "±25 mm")],
    "set-nonsense": [(3, "set", "twins", "not a wish for a set", '"matched"')],
    "order-missing": [(3, "order", None, "nothing here", "the number of the order")],
    "customer-missing": [(3, "customer", None, "nothing here", "the name of the customer")],
    "signal-missing": [(3, "signal", None, "nothing here", "what the cable shall carry")],
    "order-too-long": [(3, "order", "W-" + "2" * 39, "cannot be kept", "1 to 40 characters")],
    "customer-too-long": [(3, "customer", "O" * 201, "cannot be kept", "1 to 200 characters")],
    "cells-too-many": [(3, None, None, "16 cells under 15 columns", "in quotes")],
    "quote-not-closed": [(3, None, None, "quoted cell is not closed", "quotes doubled")],
    "not-utf-8": [(3, None, "0xE9", "byte 9 of line 3 is not UTF-8", "saved as UTF-8")],
    "binary": [(None, None, None, "binary data", "CSV or XLSX")],
    "empty": [(None, None, None, "the file is empty", "a header row")],
    "blank": [(None, None, None, "the file is empty", "a header row")],
    "header-only": [(None, None, None, "no row below it", "one row for each order line")],
    "workbook-broken": [(None, None, None, "the workbook cannot be read", "XLSX")],
    "many-faults": [
        (3, "signal", None, "nothing here", "shall carry"),
        (3, "quantity", "none", "not a number of pieces", "a whole number"),
        (3, "cable", "SW-06", "not in the catalogue", "SW-60"),
        (3, "end_a", "plugg", "not in the catalogue", "SW-PLUG"),
        (3, "length", "far", "not a length", "12 ft"),
        (3, "colour", "mauve", "not a colour", "black"),
        (3, "space", "attic", "not a place", "riser"),
        (3, "due", "2026-02-30", "not a date", "2026-04-03"),
        (3, "tolerance", "±5 cubits", "not a length tolerance", "±25 mm"),
        (3, "set", "twins", "not a wish for a set", "loom"),
    ],
}


def read(name: str, content: bytes) -> list[ReadLine]:
    """Read a file with the words of the day world."""
    return read_orders(name=name, content=content, vocabulary=WORDS)


def faults_of(name: str, content: bytes) -> InputFaults:
    """The faults of a file that must have some."""
    with pytest.raises(InputFaults) as caught:
        read(name, content)
    return caught.value


def test_each_defect_has_its_file_and_each_file_its_defect() -> None:
    """No file lies here that no test reads, and no defect is told of a file that is not there."""
    there = {path.stem for path in FILES.iterdir()}
    assert {name for name in there if not name.startswith("good")} == set(DEFECTS)


@pytest.mark.parametrize("stem", sorted(DEFECTS))
def test_a_defect_is_told_with_its_place_and_what_is_accepted(stem: str) -> None:
    """File, row, field and value are named, and the words say what is wrong and what is right."""
    (path,) = FILES.glob(f"{stem}.*")
    found = faults_of(path.name, path.read_bytes())
    places = [(fault.row, fault.field, fault.value) for fault in found.faults]
    assert sorted(places, key=str) == sorted([each[:3] for each in DEFECTS[stem]], key=str)
    for row, field, value, problem, accepted in DEFECTS[stem]:
        (fault,) = [
            each
            for each in found.faults
            if (each.row, each.field, each.value) == (row, field, value)
        ]
        assert problem in fault.problem
        assert accepted in fault.accepted
        told = str(fault)
        assert told.startswith(path.name)
        assert told in str(found)
        for part in (value, None if row is None else f"row {row}", field):
            assert part is None or part in told


def test_all_faults_of_a_file_are_told_together_in_the_order_of_its_rows() -> None:
    """Three rows with a fault each: three faults, and the good row between them has none."""
    content = order_file(
        good_row(quantity="0"),
        good_row(order="W-2"),
        good_row(order="W-3", length="5 cubits"),
        good_row(order="W-4", cable="SW-06"),
    )
    assert [fault.row for fault in faults_of("three.csv", content).faults] == [2, 4, 5]


@pytest.mark.parametrize("path", sorted(FILES.glob("good*")), ids=lambda path: path.stem)
def test_the_same_orders_read_alike_in_every_accepted_form(path: Path) -> None:
    """Comma, semicolon, tab, a byte-order mark, other line ends, other row order: same lines."""
    lines = sorted(read(path.name, path.read_bytes()), key=lambda line: line.order)
    assert [(line.order, line.number, line.customer, line.quantity) for line in lines] == [
        ("W-1", 1, "Nell Farrow", 2),
        ("W-2", 1, "Orla Finch", 1),
    ]
    assert [line.length_m for line in lines] == [3.0, pytest.approx(12 * 0.3048)]
    assert lines[1].cells["typed"] == "one lead, 12 ft"


def workbook(rows: Sequence[Sequence[object]]) -> bytes:
    """The rows as an XLSX file."""
    import openpyxl

    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(list(row))
    held = io.BytesIO()
    book.save(held)
    return held.getvalue()


def test_a_workbook_reads_as_its_text_does() -> None:
    """Numbers and dates of a workbook come as people typed them: 2 and not 2.0, the day alone."""
    import datetime as dt

    row = good_row()
    cells: list[object] = [row[column] for column in COLUMNS]
    cells[COLUMNS.index("quantity")] = 2
    cells[COLUMNS.index("due")] = dt.datetime(2027, 3, 4)
    (line,) = read("orders.xlsx", workbook([list(COLUMNS), cells]))
    (same,) = read("orders.csv", order_file(row))
    assert line == same


def test_a_workbook_is_held_to_the_same_words() -> None:
    """A fault in a workbook names its row as the workbook counts it, blank rows included."""
    row = good_row(length="5 cubits")
    cells = [row[column] for column in COLUMNS]
    found = faults_of("orders.xlsx", workbook([list(COLUMNS), [], cells]))
    assert [(fault.row, fault.field) for fault in found.faults] == [(3, "length")]


def test_a_file_over_the_limit_of_bytes_is_refused() -> None:
    """20 MB may be read, a byte more is not looked at."""
    rows = [good_row(order=f"W-{n}", typed="x" * 131_000) for n in range(152)]
    content = order_file(*rows)
    padded = content + b" " * (tables.LARGEST_BYTES - len(content))
    assert len(padded) == 20_000_000
    assert len(read("large.csv", padded)) == 152
    (fault,) = faults_of("large.csv", padded + b" ").faults
    assert (fault.problem, fault.accepted) == ("the file has 20.0 MB", "at most 20 MB")


def test_a_file_over_the_limit_of_rows_is_refused() -> None:
    """20,000 rows under the header are read, one more is refused, in text and in a workbook."""
    header = list(COLUMNS)
    assert len(rows_of(",".join(header), "x" + "," * 14, tables.MOST_ROWS)) == tables.MOST_ROWS
    with pytest.raises(InputFaults, match=r"more than 20000 rows.*at most 20000 rows"):
        rows_of(",".join(header), "x" + "," * 14, tables.MOST_ROWS + 1)
    with pytest.raises(InputFaults, match=r"long.xlsx: the file has more than 20000 rows"):
        read("long.xlsx", workbook([header] + [["x"]] * (tables.MOST_ROWS + 1)))


def test_blank_rows_are_rows_too() -> None:
    """A file of nothing but line ends below its header is refused at the limit of rows."""
    with pytest.raises(InputFaults, match="more than 20000 rows"):
        read("blank.csv", order_file(good_row()) + b"\n" * 1_000_000)


def test_a_cell_of_a_whole_chapter_is_told() -> None:
    """A quote that is closed a long way down has swallowed rows: its row is named."""
    (fault,) = faults_of("long.csv", order_file(good_row(), good_row(typed="x" * 140_000))).faults
    assert (fault.row, "is its quote closed?" in fault.problem) == (3, True)


def rows_of(header: str, row: str, count: int) -> list[tables.Row]:
    """The rows of a text file of ``count`` rows, not interpreted."""
    content = "\n".join([header, *[row] * count]).encode()
    return tables.read_table(
        name="long.csv", content=content, required=(), optional=COLUMNS, each="order line"
    )


def test_one_wrong_word_in_every_row_is_told_quickly() -> None:
    """20,000 faults of one kind are told in seconds, not minutes."""
    import time

    began = time.perf_counter()
    content = order_file(*[good_row(order=f"W-{n}", cable="x" * 5000) for n in range(2000)])
    assert len(faults_of("long.csv", content).faults) == 2000
    assert time.perf_counter() - began < 30
