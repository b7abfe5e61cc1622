"""All of physics in one run: lines, cascade, trace, eye, sweep, each beside the plain ways."""

from typing import Any

from benchmarks import physics_lines, physics_networks, physics_sweep
from benchmarks.table import Table

COLUMNS = ("job", "way", "time_ms", "ratio", "memory_mib", "agreement")


def measure(*, quick: bool) -> Table:
    """Measure the parts one after the other in this one process."""
    lines = physics_lines.measure(quick=quick)
    networks = physics_networks.measure(quick=quick)
    sweep = physics_sweep.measure(quick=quick)
    rows: list[tuple[Any, ...]] = []
    for job, other, ours_ms, other_ms, ratio, ours_mib, other_mib, agreement in lines.rows:
        rows += [
            (job, "ours", ours_ms, 1.0, ours_mib, f"{agreement} to the other"),
            (job, other, other_ms, ratio, other_mib, "the same"),
        ]
    rows += [tuple(row) for row in networks.rows]
    rows += [(*row[:4], "", row[4]) for row in sweep.rows]
    notes = dict.fromkeys((*lines.notes, *networks.notes, *sweep.notes))
    return Table(
        title="Physics: lines, cascade, trace, eye, sweep",
        columns=COLUMNS,
        rows=rows,
        notes=tuple(notes),
    )
