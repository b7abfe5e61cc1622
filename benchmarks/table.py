"""What a benchmark gives back, and how it is shown and kept."""

import json
import os
import platform
import subprocess
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

RESULTS = Path(__file__).parent / "RESULTS.md"
HEAD = """# Results

Each section is one run, in the order they were made. Past sections are not edited; a jump gets a
note under the run that shows it.
"""


@dataclass(frozen=True, kw_only=True)
class Table:
    """The outcome of one run: columns with their units in their names, and the rows measured.

    ``notes`` say what a reader must know to compare: sizes, seeds, what was left out. ``figures``
    sum the run up; they stand by their names in its JSON object.
    """

    title: str
    columns: tuple[str, ...]
    rows: Sequence[Sequence[Any]]
    notes: tuple[str, ...] = ()
    figures: Mapping[str, Any] = field(default_factory=dict)

    def __post_init__(self) -> None:
        if not self.rows:
            raise ValueError(f"{self.title}: nothing was measured")
        if any(len(row) != len(self.columns) for row in self.rows):
            raise ValueError(f"{self.title}: a row has not as many cells as there are columns")

    def markdown(self) -> str:
        """The table as text that also reads well in a terminal."""
        cells = [list(self.columns), *[[shown(cell) for cell in row] for row in self.rows]]
        widths = [max(len(row[at]) for row in cells) for at in range(len(self.columns))]
        lines = [
            "| "
            + " | ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True))
            + " |"
            for row in cells
        ]
        lines.insert(1, "|" + "|".join("-" * (width + 2) for width in widths) + "|")
        return "\n".join([*lines, *(f"\n{note}" for note in self.notes)])


def shown(cell: Any) -> str:
    """A cell as text; measured numbers with three digits, for more would be noise."""
    if isinstance(cell, float):
        return f"{cell:.3g}" if abs(cell) < 1000 else f"{cell:.0f}"
    return str(cell)


def commit() -> str:
    """The commit measured, with a mark where the tree was not clean."""
    here = Path(__file__).parent
    try:
        done = subprocess.run(
            ["git", "describe", "--always", "--dirty"],
            cwd=here,
            capture_output=True,
            text=True,
            check=True,
        )
    except (OSError, subprocess.CalledProcessError):
        return "unknown"
    return done.stdout.strip()


def environment() -> dict[str, Any]:
    """Where it was measured: without it a figure cannot be compared with another."""
    return {
        "python": platform.python_version(),
        "cores": os.cpu_count(),
        "machine": platform.machine(),
        "commit": commit(),
    }


def environment_line(where: Mapping[str, Any]) -> str:
    """The environment in one line."""
    return (
        f"Python {where['python']}, {where['cores']} cores ({where['machine']}), "
        f"commit {where['commit']}"
    )


def as_json(
    name: str, table: Table, where: Mapping[str, Any], *, quick: bool, took_s: float
) -> str:
    """One run as one JSON object on one line."""
    rows = [dict(zip(table.columns, row, strict=True)) for row in table.rows]
    run = {
        **table.figures,
        "benchmark": name,
        "quick": quick,
        "took_s": round(took_s, 3),
        "environment": dict(where),
    }
    return json.dumps({**run, "rows": rows, "notes": list(table.notes)}, ensure_ascii=False)


def record(
    name: str, table: Table, where: Mapping[str, Any], *, on: date, to: Path = RESULTS
) -> None:
    """Add one run at the end of the results; what stands there is never changed."""
    head = "" if to.exists() else HEAD
    with to.open("a", encoding="utf-8") as results:
        results.write(
            f"{head}\n## {name}, {on.isoformat()}\n\n{table.title}. {environment_line(where)}.\n\n"
            f"{table.markdown()}\n"
        )
