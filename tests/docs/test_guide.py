"""What the guide says of the order file is what the code does."""

import csv
import io
import re
from pathlib import Path

import pytest

from reelwright.core.errors import InputFaults
from reelwright.shop import tables
from reelwright.shop.orders import columns
from reelwright.shop.orders.set_wish import SetKind, read_set
from tests.shop.orders.test_files import FILES, WORDS

DOCS = Path(__file__).resolve().parents[2] / "docs"
GUIDE = (DOCS / "guide" / "order-file.md").read_text(encoding="utf-8")
ROWS = [
    [cell.strip() for cell in line.strip("|").split("|")]
    for line in GUIDE.splitlines()
    if line.startswith("| `")
]


def test_the_columns_are_those_of_the_code() -> None:
    """All of them in the code's order, and the needed ones are those that may not be missing."""
    named = [row[0].strip("`") for row in ROWS]
    assert named == [*columns.COLUMNS]
    needed = tuple(row[0].strip("`") for row in ROWS if row[1] == "yes")
    assert needed == columns.REQUIRED


def test_the_limits_are_those_of_the_code() -> None:
    """Megabytes, rows, cables of a line and lengths of names."""
    assert f"At most {tables.LARGEST_BYTES // 10**6} MB and {tables.MOST_ROWS:,} rows" in GUIDE
    assert f"1 to {columns.MOST_OF_ONE_LINE}" in GUIDE
    assert f"up to {columns.LONGEST_ORDER} characters" in GUIDE
    assert f"up to {columns.LONGEST_CUSTOMER} characters" in GUIDE


def test_the_example_is_an_order_file() -> None:
    """It reads with the words of a catalogue that has its cable and its connector."""
    (example,) = re.findall(r"```csv\n(.*?)```", GUIDE, re.DOTALL)
    vocabulary = columns.Vocabulary(
        cables={"vid-60": "VID-60"}, connectors={"bnc": ("BNC-60",)}, light_connectors=frozenset()
    )
    (line,) = columns.read_orders(
        name="orders.csv", content=example.encode(), vocabulary=vocabulary
    )
    assert (line.order, line.quantity, line.length_m) == ("O-04", 4, pytest.approx(7.62))


def test_the_examples_of_the_columns_read() -> None:
    """A file made of the examples of the table has no fault but those of its catalogue."""
    cells = {row[0].strip("`"): row[3].strip("`") for row in ROWS} | {"quantity": "3"}
    text = io.StringIO()
    writer = csv.DictWriter(text, list(cells))
    writer.writeheader()
    writer.writerow(cells)
    vocabulary = columns.Vocabulary(
        cables={"vid-60": "VID-60"}, connectors={"bnc": ("BNC-60",)}, light_connectors=frozenset()
    )
    (line,) = columns.read_orders(
        name="orders.csv", content=text.getvalue().encode(), vocabulary=vocabulary
    )
    assert (line.number, line.colours, line.wish.kind) == (
        2,
        ("RD", "GN", "BU"),
        SetKind.SAME_LOT,
    )


def test_every_wish_for_a_set_that_is_named_reads() -> None:
    """Each of the words in the table's row for sets is one that the code knows."""
    (row,) = [each for each in ROWS if each[0] == "`set`"]
    wishes = re.findall(r"`([^`]+)`", row[2])
    assert len(wishes) == 5
    assert all(read_set(wish) is not None for wish in wishes)


def test_the_fault_shown_is_the_one_that_is_told() -> None:
    """The words of the guide's fault are those of the reader, but for the file and the row."""
    (shown,) = re.findall(r"```text\n(.*?)```", GUIDE, re.DOTALL)
    content = (FILES / "unit-unknown.csv").read_bytes()
    with pytest.raises(InputFaults) as caught:
        columns.read_orders(name="orders.csv", content=content, vocabulary=WORDS)
    assert shown.splitlines()[1] == str(caught.value).replace("row 3", "row 2")


def test_the_glossary_has_each_word_once_and_in_order() -> None:
    """No word has two meanings in two rows, and a reader finds it by its letters."""
    text = (DOCS / "glossary.md").read_text(encoding="utf-8")
    words = [line.split("|")[1].strip() for line in text.splitlines()[5:] if line.startswith("| ")]
    words = [word for word in words if word != "word"]
    assert len(words) > 40
    assert words == sorted(set(words), key=str.casefold)
