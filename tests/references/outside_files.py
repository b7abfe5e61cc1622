"""Published data files that are not ours to hand on: read from a folder where one is named.

``REELWRIGHT_REFERENCE_DIR`` names it; without it, or without the file, a test says so and is
skipped, and the checks whose numbers are typed out still run.
"""

import csv
import os
from pathlib import Path

import pytest

FOLDER = "REELWRIGHT_REFERENCE_DIR"


def outside_table(name: str) -> list[dict[str, float]]:
    """Return the rows of a published table by column; skip the test where it is not there."""
    named = os.environ.get(FOLDER)
    if not named:
        pytest.skip(f"{FOLDER} names no folder, so {name} was not read")
    found = [
        path
        for path in (Path(named) / "reference" / "process-data" / name,
                     Path(named) / "process-data" / name)
        if path.is_file()
    ]  # fmt: skip
    if not found:
        pytest.skip(f"{name} is not in the folder that {FOLDER} names")
    lines = [line for line in found[0].read_text(encoding="utf-8").splitlines() if line[:1] != "#"]
    return [
        {column: float(value) for column, value in row.items()} for row in csv.DictReader(lines)
    ]
