"""The whole grid of the demo workshop beside the plain way, one fresh call after the other.

The grid judges each pair once and reads the set-ups once. The plain way asks for each pair as an
order does: it looks the parts and the set-up up again, and judges the set-up with its dies. Both in
this one process, on the same values; processor time, the shortest of several.
"""

import time
from collections import Counter
from collections.abc import Callable
from typing import Any

from benchmarks.table import Table
from reelwright.core.ends.fit.compatibility import Dies, judge_fit
from reelwright.core.ends.fit.grid import Cell, PairSetUp, judge_cell, judge_grid
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.demo.cables import coax_entries
from reelwright.demo.connectors import connector_entries
from reelwright.demo.other_cables import other_entries
from reelwright.demo.set_ups import set_up_entries

Pairs = dict[tuple[str, str], PairSetUp]


def _parts() -> tuple[dict[str, Cable], dict[str, Connector]]:
    cables = {entry.cable.code: entry.cable for entry in (*coax_entries(), *other_entries())}
    return cables, {entry.connector.code: entry.connector for entry in connector_entries()}


def _metres(value_mm: Any) -> float | None:
    return None if value_mm is None else float(value_mm) / 1e3


def _set_ups() -> Pairs:
    return {
        (entry.cable_code, entry.connector_code): PairSetUp(
            code=entry.code,
            state=entry.state.value,
            released=entry.state.value == "released",
            dies=Dies(
                pin_across_flats_m=_metres(entry.numbers.pin_die_mm),
                ferrule_across_flats_m=_metres(entry.numbers.ferrule_die_mm),
            ),
        )
        for entry in set_up_entries()
    }


def _plainly(codes: list[tuple[str, str]]) -> dict[tuple[str, str], Cell]:
    found = {}
    for cable_code, connector_code in codes:
        cables, connectors = _parts()
        found[cable_code, connector_code] = judge_cell(
            cables[cable_code],
            connectors[connector_code],
            set_up=_set_ups().get((cable_code, connector_code)),
        )
    return found


def _shortest_ms(work: Callable[[], Any], times: int) -> float:
    took = []
    for _ in range(times):
        began = time.process_time()
        work()
        took.append(time.process_time() - began)
    return 1e3 * min(took)


def measure(*, quick: bool) -> Table:
    """Measure the grid, judging alone pair by pair, and the plain way."""
    cables, connectors, set_ups = *_parts(), _set_ups()
    codes = [(cable, connector) for cable in cables for connector in connectors]
    times = 3 if quick else 15

    def grid() -> dict[tuple[str, str], Cell]:
        return judge_grid(cables.values(), connectors.values(), set_ups=set_ups)

    def fits() -> list[Any]:
        return [judge_fit(cables[one], connectors[other]) for one, other in codes]

    cells = grid()
    grid_ms, fits_ms = _shortest_ms(grid, times), _shortest_ms(fits, times)
    plain_ms = _shortest_ms(lambda: _plainly(codes), 1 if quick else 3)
    differ = sum(cells[pair] != cell for pair, cell in _plainly(codes).items())
    count = Counter(str(cell.state) for cell in cells.values())
    return Table(
        title=f"The grid of {len(cables)} cables × {len(connectors)} connectors",
        columns=("way", "pairs", "ms", "ms_per_pair", "times_the_grid", "cells_that_differ"),
        rows=[
            ("grid", len(cells), grid_ms, grid_ms / len(cells), 1.0, 0),
            ("dimensions alone, pair by pair", len(codes), fits_ms, fits_ms / len(codes),
             fits_ms / grid_ms, ""),
            ("plain, everything looked up again", len(codes), plain_ms, plain_ms / len(codes),
             plain_ms / grid_ms, differ),
        ],
        notes=(
            ", ".join(f"{number} {state}" for state, number in sorted(count.items())) + ".",
            "Asked for: the whole grid within 1000 ms.",
            "What the plain way takes more is looking up, not judging.",
        ),
    )  # fmt: skip
