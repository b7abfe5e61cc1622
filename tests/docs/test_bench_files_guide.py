"""What the guide says of the file of readings is what the code does."""

import re
from pathlib import Path

import pytest

from reelwright.core.errors import InputFaults
from reelwright.shop import tables
from reelwright.shop.setups.bench_files import columns
from reelwright.shop.setups.bench_files.services import bench_file_read
from reelwright.shop.setups.readings import given, words
from reelwright.shop.setups.states import FailureMode
from tests.shop.setups.bench_files.test_files import FILES
from tests.small_world import TODAY, SmallWorld, build_small_world

DOCS = Path(__file__).resolve().parents[2] / "docs"
GUIDE = (DOCS / "guide" / "bench-files.md").read_text(encoding="utf-8")
ROWS = [
    [cell.strip() for cell in line.strip("|").split("|")]
    for line in GUIDE.splitlines()
    if line.startswith("| `")
]
WORDS = columns.Vocabulary(revisions={("t-02", "d"): 1}, people={"ana": 2})


@pytest.fixture
def world(db: None) -> SmallWorld:
    """The small world, rolled back afterwards."""
    return build_small_world()


def test_the_columns_are_those_of_the_code() -> None:
    """All of them in the code's order, and the needed ones are those that may not be missing."""
    assert tuple(row[0].strip("`") for row in ROWS) == columns.COLUMNS
    needed = tuple(row[0].strip("`") for row in ROWS if row[1] == "yes")
    assert needed == columns.REQUIRED


def test_the_words_and_limits_are_those_of_the_code() -> None:
    """Parts, ways of giving way, megabytes, rows and what counts as a slip."""
    (what,) = [row for row in ROWS if row[0] == "`what`"]
    assert tuple(re.findall(r"`([^`]+)`", what[2])) == words.WHAT
    assert all(f"`{mode}`" in GUIDE for mode in FailureMode)
    assert f"At most {tables.LARGEST_BYTES // 10**6} MB and {tables.MOST_ROWS:,} rows" in GUIDE
    assert f"more than {given.FAR_PULL:g} times the least pull" in GUIDE
    assert f"more than {given.FAR_HEIGHT_MM} mm off its" in GUIDE
    assert f"than {given.FAR_STRIP_MM} mm or a fifth" in GUIDE
    assert str(given.FAR_STRIP_SHARE) == "0.2"
    assert f"grew by more than {int(given.MOST_GROWTH_MM)} mm" in GUIDE
    assert f"shorter by more than {given.MOST_SHORTER_MM} mm" in GUIDE
    assert f"up to {given.LONGEST_END} characters" in GUIDE
    assert f"up to {given.LONGEST_REMARK} characters" in GUIDE


def test_the_example_is_a_file_of_readings() -> None:
    """Its rows read without a fault, in newtons and millimetres."""
    (example,) = re.findall(r"```csv\n(.*?)```", GUIDE, re.DOTALL)
    readings, faults = columns.read_readings(
        name="readings.csv", content=example.encode(), vocabulary=WORDS
    )
    assert faults == []
    assert [each.force_n for each in readings[:2]] == [203.5, pytest.approx(201.06, abs=0.005)]
    assert [str(each.length_mm) for each in readings[2:]] == ["1.620", "4.580", "17.969"]
    assert [str(each.before_mm) for each in readings[4:]] == ["17.904"]


def test_the_examples_of_the_columns_read() -> None:
    """A file made of the examples of the table has no fault."""
    cells = {row[0].strip("`"): row[3].strip("`") for row in ROWS}
    content = ";".join(cells) + "\n" + ";".join(cells.values())
    readings, faults = columns.read_readings(
        name="readings.csv", content=content.encode(), vocabulary=WORDS
    )
    assert faults == []
    assert (readings[0].tool_count, readings[0].failure_mode) == (41000, "jacket slipped")


def test_the_fault_shown_is_the_one_that_is_told(world: SmallWorld) -> None:
    """The words of the guide's fault are those of the reader."""
    (shown,) = re.findall(r"```text\n(.*?)\n```", GUIDE, re.DOTALL)
    content = (FILES / "value-without-unit.csv").read_bytes()
    with pytest.raises(InputFaults) as caught:
        bench_file_read(by=world.ben, name="readings.csv", content=content, on=TODAY)
    assert shown in [str(fault) for fault in caught.value.faults]
