"""What the guide says of the files of a cut plan is what the code does."""

import json
import re
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from reelwright.cli.cut import command
from reelwright.cli.main import command_line
from reelwright.core.cutting import LotRule
from reelwright.core.cutting.written import pieces, reels, rules
from reelwright.core.cutting.written.table import Column

DOCS = Path(__file__).resolve().parents[2] / "docs"
GUIDE = (DOCS / "guide" / "cut-files.md").read_text(encoding="utf-8")
FILES = dict(
    zip(
        ("pieces.csv", "reels.csv", "rules.csv"),
        re.findall(r"```csv\n(.*?)```", GUIDE, re.DOTALL),
        strict=True,
    )
)


@pytest.fixture
def files(tmp_path: Path) -> list[str]:
    """The three files of the guide in a folder."""
    for name, text in FILES.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    return [str(tmp_path / name) for name in FILES]


def rows_under(heading: str) -> list[list[str]]:
    """The rows of the table whose first column has this heading."""
    after = GUIDE.split(f"| {heading} |", 1)[1]
    lines = after.split("\n\n", 1)[0].splitlines()
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines[2:]]


@pytest.mark.parametrize(
    ("name", "known"),
    [("pieces", pieces.COLUMNS), ("reels", reels.COLUMNS), ("rules", rules.COLUMNS)],
)
def test_the_columns_are_those_of_the_code(name: str, known: tuple[Column, ...]) -> None:
    """All of them in the code's order, and the needed ones are those that may not be missing."""
    told = rows_under(f"column of {name}")
    assert [row[0].strip("`") for row in told] == [column.name for column in known]
    needed = [row[0].strip("`") for row in told if row[1] == "yes"]
    assert needed == [column.name for column in known if column.needed]


def test_the_limits_and_the_rules_of_groups_are_those_of_the_code() -> None:
    """How many alike a row may hold, and the three rules by their names."""
    assert f"1 to {pieces.MOST_OF_ONE_ROW:,}" in GUIDE
    assert all(f"`{rule}`" in GUIDE for rule in LotRule)


def test_the_options_are_those_of_the_command() -> None:
    """Every option is in the table, and none that is not there."""
    told = {row[0].strip("`").split()[0] for row in rows_under("option")}
    known = {
        parameter.opts[0] for parameter in command.params if isinstance(parameter, click.Option)
    }
    assert told == known


def test_the_keys_are_those_of_the_object(files: list[str]) -> None:
    """What a program finds is what the table names, the parts of a reel among it."""
    done = CliRunner().invoke(command_line, ["cut", *files, "--json"])
    found = json.loads(done.stdout)
    told = rows_under("key")
    assert re.findall(r"`(\w+)`", " ".join(row[0] for row in told)) == list(found)
    (reel_row,) = [row for row in told if row[0] == "`reels`"]
    named = set(re.findall(r"`(\w+)`", reel_row[1]))
    assert named == {"parts", *found["reels"][0]["parts"][0], *found["reels"][0]} - {
        "id",
        "item",
        "lot",
        "location",
    }


def test_the_example_is_a_day(files: list[str]) -> None:
    """All red ones are cut and two orange ones wait, so it ends with 1; the lead comes first."""
    done = CliRunner().invoke(command_line, ["cut", *files, "--json"])
    found = json.loads(done.stdout)
    assert done.exit_code == 1
    assert {one["item"] for one in found["unserved"]} == {"VID-60 orange"}
    assert (found["wanted"], found["served"]) == (35, 33)


def test_the_fault_shown_is_the_one_that_is_told(files: list[str]) -> None:
    """A length ten times too long in the sixth row is refused in the guide's own words."""
    (shown,) = re.findall(r"```text\n(.*?)```", GUIDE, re.DOTALL)
    wanted = Path(files[0])
    wanted.write_text(FILES["pieces.csv"].replace("7643 mm", "76.43 m"), encoding="utf-8")
    done = CliRunner().invoke(command_line, ["cut", *files])
    assert done.exit_code == 2
    assert done.stderr.replace("\u202f", " ").splitlines()[1] == shown.strip()
