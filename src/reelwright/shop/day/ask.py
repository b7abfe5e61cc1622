"""One run asked about, for page and command: the line as read, the answer, the margin curve.

Nothing is recorded; the rack is not asked for cable either, since nothing is promised.
"""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from reelwright.charts.margin import MarginCurve
from reelwright.core.parts.cable import Cable
from reelwright.core.signals.read import read_signal
from reelwright.core.signals.run import Run
from reelwright.core.signals.signal import Signal
from reelwright.shop.day.judging.cable_chosen import choose_cable
from reelwright.shop.day.judging.ends_chosen import choose_end
from reelwright.shop.day.judging.judge import Habits, judge_line
from reelwright.shop.day.judging.run_judged import finished_length
from reelwright.shop.day.judging.stated_place import run_celsius
from reelwright.shop.day.load import load_shelf
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.answer import LineAnswer
from reelwright.shop.orders.columns import COLUMNS, ReadLine, read_line

DESK = "what was asked"
_POINTS = 121
# The curve reaches past the customer's point and past where it stops working.
_BEYOND = 1.3


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What a run came to. ``curve`` is None where the signal is not judged by length, or where
    what was asked cannot be made; ``cable`` where none could be chosen."""

    line: ReadLine
    cable: Cable | None
    answer: LineAnswer
    curve: MarginCurve | None


def ask(*, cells: Mapping[str, str], on: dt.date) -> Asked:
    """Return the verdict on one run, its columns named as those of an order file.

    ``order``, ``customer``, ``quantity`` and ``typed`` may be left out. Raises InputFaults with
    everything that cannot be read.
    """
    shelf = load_shelf(on)
    line = read_line(name=DESK, cells=desk_cells(cells), vocabulary=shelf.vocabulary)
    answer = judge_line(line, shelf, Habits(units_before={}))
    signal = read_signal(line.signal_text).signal
    chosen = choose_cable(line, signal, shelf)
    cable = None if isinstance(chosen, str) else chosen
    return Asked(line=line, cable=cable, answer=answer, curve=_curve(line, cable, signal, shelf))


def desk_cells(cells: Mapping[str, str]) -> dict[str, str]:
    """Return all columns of a line typed at the desk, with what may be left out filled in."""
    filled = {column: cells.get(column, "") for column in COLUMNS}
    for column, stands in (("order", "-"), ("customer", "-"), ("quantity", "1")):
        filled[column] = filled[column] or stands
    return filled


def _curve(
    line: ReadLine, cable: Cable | None, signal: Signal | None, shelf: Shelf
) -> MarginCurve | None:
    if cable is None or signal is None or cable.family not in signal.families:
        return None
    ends = (choose_end(cable, line.ends[0], shelf), choose_end(cable, line.ends[1], shelf))
    if any(end.impossible for end in ends):
        return None
    run = Run(
        cable=cable,
        lot=None,
        length=finished_length(line.length_m),
        temperature_celsius=run_celsius(line),
        connectors=(ends[0].connector, ends[1].connector),
        adapters=line.adapters,
    )
    judged = signal.judge(run)
    longest_m = _BEYOND * max(line.length_m, judged.length_at_50_m or 0.0)
    lengths = np.linspace(longest_m / _POINTS, longest_m, _POINTS)
    found = signal.margin_at(run, lengths)
    at_run = signal.margin_at(run, np.array([line.length_m]))
    if found is None or at_run is None:
        return None
    return MarginCurve(
        title=f"What is to spare, by length: {signal.name} on {cable.code}",
        unit=signal.margin_unit,
        lengths_m=lengths,
        margin=found.margin,
        low=found.low,
        high=found.high,
        run_m=line.length_m,
        run_margin=float(at_run.margin[0]),
        length_at_95_m=judged.length_at_95_m or None,
        length_at_50_m=judged.length_at_50_m or None,
    )
