"""Published data files that are not ours to hand on: read from a folder where one is named.

``REELWRIGHT_REFERENCE_DIR`` names it; without it, or without the file, a test says so and is
skipped, and the checks whose numbers are typed out still run.
"""

import csv
import os
from pathlib import Path

import pytest

FOLDER = "REELWRIGHT_REFERENCE_DIR"


def outside_path(folder: str, name: str) -> Path:
    """Return the path of a published file; skip the test where it is not there."""
    named = os.environ.get(FOLDER)
    if not named:
        pytest.skip(f"{FOLDER} names no folder, so {name} was not read")
    for path in (Path(named) / "reference" / folder / name, Path(named) / folder / name):
        if path.is_file():
            return path
    pytest.skip(f"{name} is not in the folder that {FOLDER} names")


def outside_table(name: str) -> list[dict[str, float]]:
    """Return the rows of a published table by column; skip the test where it is not there."""
    text = outside_path("process-data", name).read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if line[:1] != "#"]
    return [
        {column: float(value) for column, value in row.items()} for row in csv.DictReader(lines)
    ]
