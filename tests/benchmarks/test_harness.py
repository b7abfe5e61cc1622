"""A benchmark's run is shown, kept and handed on as it was measured."""

import json
import subprocess
import sys
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from benchmarks.__main__ import names
from benchmarks.table import Table, as_json, record
from tests.conventions.reading import ROOT

WHERE = {"python": "3.11.2", "cores": 2, "machine": "x86_64", "commit": "abc1234"}
TABLE = Table(
    title="Growth with size",
    columns=("lines", "time_s"),
    rows=[(50, 2.34567), (200, 1234.5)],
    notes=("Seed 7.",),
)


def test_a_table_shows_three_digits_of_what_was_measured() -> None:
    """Measured numbers are shown with three digits, counts as they are, notes below."""
    assert TABLE.markdown().splitlines() == [
        "| lines | time_s |",
        "|-------|--------|",
        "| 50    | 2.35   |",
        "| 200   | 1234   |",
        "",
        "Seed 7.",
    ]


@pytest.mark.parametrize("rows", [[], [(50,)]])
def test_a_table_without_what_it_promises_is_refused(rows: list[tuple[int, ...]]) -> None:
    """A table with no rows, or with a cell missing, cannot be made."""
    with pytest.raises(ValueError, match="Growth"):
        Table(title="Growth", columns=("lines", "time_s"), rows=rows)


def test_the_json_object_is_one_line_with_full_numbers() -> None:
    """The JSON object stands on one line and keeps every digit."""
    line = as_json("day", TABLE, WHERE, quick=True, took_s=3.0)
    assert "\n" not in line
    assert json.loads(line)["rows"][0] == {"lines": 50, "time_s": 2.34567}


def test_figures_that_sum_a_run_up_stand_by_their_names() -> None:
    """A figure of the table is a key of the object, and none takes the place of the harness's."""
    table = replace(TABLE, figures={"proven": 7, "quick": "no"})
    line = json.loads(as_json("day", table, WHERE, quick=True, took_s=3.0))
    assert (line["proven"], line["quick"]) == (7, True)


def test_runs_are_added_and_what_stood_there_stays(tmp_path: Path) -> None:
    """A second run is written below the first, which stays as it was."""
    results = tmp_path / "RESULTS.md"
    record("day", TABLE, WHERE, on=date(2026, 3, 2), to=results)
    first = results.read_text()
    record("day", TABLE, WHERE, on=date(2026, 3, 3), to=results)
    assert results.read_text().startswith(first)
    assert results.read_text().count("# Results") == 1
    assert "## day, 2026-03-03" in results.read_text()


def test_each_module_of_a_folder_is_a_benchmark(tmp_path: Path) -> None:
    """A module is found by its name, and the parts of the harness are none."""
    for name in ("day", "cutting", "table", "__main__"):
        (tmp_path / f"{name}.py").write_text("")
    assert names(tmp_path) == ["cutting", "day"]


def test_an_unknown_benchmark_is_told_and_ends_with_2() -> None:
    """A name that no benchmark has is said back, and the command ends with 2."""
    done = subprocess.run(
        [sys.executable, "-m", "benchmarks", "nonesuch"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert "nonesuch" in done.stderr
