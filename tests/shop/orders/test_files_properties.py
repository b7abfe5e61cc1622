"""Whatever a file holds, it is read or its faults are told: nothing else happens."""

import functools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import InputFaults
from reelwright.shop.orders.columns import COLUMNS, MOST_OF_ONE_LINE, read_orders
from reelwright.shop.orders.services import line_digest
from tests.day_world import good_row, order_file
from tests.shop.orders.test_files import WORDS, workbook

CELLS = st.one_of(
    st.text(max_size=30),
    st.sampled_from(
        ["10'", '10"', "33'4\"", "1/2 m", "-3 m", "1e9 m", "9" * 5000, "½", "٣ m", "∞"]
    ),
)


def read_or_told(name: str, content: bytes) -> None:
    """Read a file; where it is refused, every fault has its words."""
    try:
        lines = read_orders(name=name, content=content, vocabulary=WORDS)
    except InputFaults as error:
        for fault in error.faults:
            assert fault.file == name
            assert fault.problem
            assert fault.accepted
        return
    for line in lines:
        assert 1 <= line.quantity <= MOST_OF_ONE_LINE
        assert line.length_m > 0


@given(content=st.binary(max_size=300))
def test_random_bytes_never_break_the_reader(content: bytes) -> None:
    """Any bytes are read or refused with faults."""
    read_or_told("bytes.csv", content)


@given(content=st.binary(max_size=100))
def test_random_bytes_behind_the_mark_of_a_workbook(content: bytes) -> None:
    """Any bytes that begin like a workbook are refused with faults."""
    with pytest.raises(InputFaults):
        read_orders(name="b.xlsx", content=b"PK\x03\x04" + content, vocabulary=WORDS)


@given(column=st.sampled_from(COLUMNS), cell=CELLS)
def test_a_strange_cell_never_breaks_the_reader(column: str, cell: str) -> None:
    """Any text in any column is read or refused with faults."""
    read_or_told("cell.csv", order_file(good_row(**{column: cell})))


@given(text=st.text(max_size=200))
def test_random_text_below_a_good_header(text: str) -> None:
    """Any text below a header is read or refused with faults."""
    read_or_told("text.csv", ",".join(COLUMNS).encode() + b"\n" + text.encode())


@given(at=st.integers(min_value=0), byte=st.integers(min_value=0, max_value=255))
def test_a_workbook_with_one_wrong_byte(at: int, byte: int) -> None:
    """A damaged workbook is read or refused with faults."""
    content = bytearray(good_workbook())
    content[at % len(content)] = byte
    read_or_told("damaged.xlsx", bytes(content))


@functools.cache
def good_workbook() -> bytes:
    """A workbook of one line, made once."""
    row = good_row()
    return workbook([list(row), list(row.values())])


@given(spaces=st.lists(st.sampled_from([" ", "  ", "\t"]), min_size=1, max_size=3))
def test_spaces_are_no_content(spaces: list[str]) -> None:
    """However a customer spaces the words, the line is the same."""
    row = good_row()
    spaced = row | {"typed": row["typed"].replace(" ", "".join(spaces)), "length": " 3 m "}
    assert line_digest(row) == line_digest(spaced)


@given(column=st.sampled_from([each for each in COLUMNS if each != "line"]))
def test_every_column_is_content(column: str) -> None:
    """A line that differs in one column is another line; its number alone is not content."""
    row = good_row()
    assert line_digest(row) != line_digest(row | {column: row.get(column, "") + "x"})
    assert line_digest(row) == line_digest(row | {"line": "7"})
