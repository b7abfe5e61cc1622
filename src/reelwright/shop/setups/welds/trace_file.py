"""A file with the power trace of one weld -> the trace, or every fault of the file."""

from collections.abc import Callable
from itertools import pairwise

import numpy as np

from reelwright.core.ends.weld.trace import POINTS_LEAST, PowerTrace
from reelwright.core.errors import Fault, InputFaults, UnreadableQuantity
from reelwright.core.trials.number_text import read_plain_number
from reelwright.shop.tables import Row, read_table

REQUIRED = ("time_s", "power_w")
OPTIONAL = ("height_mm",)
LONGEST_S = 60.0
MOST_W = 50_000.0
HIGHEST_MM = 100.0
MOST_MOMENTS = 2000
"""More than a weld needs; finding the knee takes the square of their number."""


def read_trace(*, name: str, content: bytes) -> PowerTrace:
    """Return the trace; ``height_mm``, where it is given, holds the joint from first to last row.

    Raises InputFaults with everything that is wrong, each with its row and its column.
    """
    rows = read_table(
        name=name, content=content, required=REQUIRED, optional=OPTIONAL, each="moment of the weld"
    )
    reader = _Reader(name)
    if len(rows) > MOST_MOMENTS:
        reader.whole(f"{len(rows)} rows", f"at most {MOST_MOMENTS} moments: take every second one")
        raise InputFaults(reader.faults)
    times = reader.column(rows, "time_s", "s", lambda value: 0 <= value <= LONGEST_S,
                          f"0 to {LONGEST_S:g} s")  # fmt: skip
    powers = reader.column(rows, "power_w", "W", lambda value: 0 <= value <= MOST_W,
                           f"0 to {MOST_W:g} W")  # fmt: skip
    heights: list[tuple[Row, float]] = []
    if any(row.cells.get("height_mm") for row in rows):
        accepted = f"above 0, to {HIGHEST_MM:g} mm; in all rows or in none"
        heights = reader.column(
            rows, "height_mm", "mm", lambda value: 0 < value <= HIGHEST_MM, accepted
        )
    for (_, before), (row, now) in pairwise(times):
        if now <= before:
            reader.fault(row, "time_s", "time does not go on here", f"more than {before:g}")
    if not reader.faults and len(rows) < POINTS_LEAST:
        reader.whole(f"{len(rows)} rows", f"{POINTS_LEAST} or more moments of one weld")
    if not reader.faults and not any(value > 0 for _, value in powers):
        reader.whole("no power was taken anywhere", "the trace of a weld")
    if reader.faults:
        raise InputFaults(sorted(reader.faults, key=lambda fault: fault.row or 0))
    return PowerTrace(
        time_s=np.array([value for _, value in times]),
        power_w=np.array([value for _, value in powers]),
        height_before_m=heights[0][1] / 1e3 if heights else None,
        height_after_m=heights[-1][1] / 1e3 if heights else None,
    )


class _Reader:
    def __init__(self, name: str) -> None:
        self._name = name
        self.faults: list[Fault] = []

    def column(
        self,
        rows: list[Row],
        field: str,
        unit: str,
        holds: Callable[[float], bool],
        accepted: str,
    ) -> list[tuple[Row, float]]:
        found = []
        for row in rows:
            typed = row.cells.get(field, "")
            if not typed:
                self.fault(row, field, "there is nothing here", accepted)
                continue
            try:
                value = read_plain_number(typed, unit=unit)
            except UnreadableQuantity as error:
                self.fault(row, field, f"this is not a {error.quantity}", error.accepted)
                continue
            if holds(value):
                found.append((row, value))
            else:
                self.fault(row, field, "this cannot be", accepted)
        return found

    def fault(self, row: Row, field: str, problem: str, accepted: str) -> None:
        self.faults.append(
            Fault(
                file=self._name,
                row=row.number,
                field=field,
                value=row.cells.get(field) or None,
                problem=problem,
                accepted=accepted,
            )
        )

    def whole(self, problem: str, accepted: str) -> None:
        self.faults.append(
            Fault(
                file=self._name,
                row=None,
                field=None,
                value=None,
                problem=problem,
                accepted=accepted,
            )
        )
