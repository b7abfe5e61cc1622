"""The whole catalogue with every signal beside the plain way, one verdict after the other.

Margins of every cable of the demo workshop with every signal of the list over 200 lengths, the
length at zero margin of each, and one question advised upon. The plain way judges run by run, as
an answer to one customer does; the length it finds by halving. Processor time, the shortest of
several; both ways in this one process, on the same values, whose largest difference is told.
"""

import math
import time
import tracemalloc
from collections.abc import Callable
from typing import Any

import numpy as np

from benchmarks.table import Table
from reelwright.core.advice import (
    CatalogueCable,
    Installed,
    Question,
    advise,
    reach_m,
    reach_table,
)
from reelwright.core.advice.reach_table import LONGEST_M, SHORTEST_M, can_carry
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.length import Length
from reelwright.core.signals import SIGNAL_CHOICES, read_signal
from reelwright.core.signals.run import Run
from reelwright.core.signals.signal import Signal
from reelwright.demo.cables import coax_entries
from reelwright.demo.connectors import connector_entries
from reelwright.demo.other_cables import other_entries

ENTRIES = (*coax_entries(), *other_entries())
CABLES = tuple(entry.cable for entry in ENTRIES)
CONNECTORS = {entry.connector.code: entry.connector for entry in connector_entries()}
END: Connector = CONNECTORS["BNC-60"]
INSTALLED = Installed(connectors=(END, END), adapters=0, temperature_celsius=20.0)
LENGTHS = 200


def signals() -> tuple[Signal, ...]:
    """Every signal that the list names with all it needs."""
    read = (read_signal(choice.typed).signal for choice in SIGNAL_CHOICES)
    return tuple(signal for signal in read if signal is not None)


def _margin(signal: Signal, cable: Cable, length_m: float) -> float:
    run = Run(
        cable=cable,
        lot=None,
        length=Length(mean_m=length_m, standard_uncertainty_m=0.0),
        temperature_celsius=INSTALLED.temperature_celsius,
        connectors=INSTALLED.connectors,
        adapters=INSTALLED.adapters,
    )
    margin = signal.judge(run).verdict.checks[0].margin
    return math.nan if margin is None else margin


def _plain_table(
    cables: tuple[Cable, ...], every: tuple[Signal, ...], lengths: np.ndarray
) -> np.ndarray:
    table = np.full((len(cables), len(every), len(lengths)), np.nan)
    for row, cable in enumerate(cables):
        for column, signal in enumerate(every):
            if can_carry(cable, signal):
                for place, length in enumerate(lengths):
                    table[row, column, place] = _margin(signal, cable, float(length))
    return table


def _plain_reach(signal: Signal, cable: Cable) -> float:
    """The last of 33 lengths that holds, then halving up to the next one, to a millionth."""
    steps = np.geomspace(SHORTEST_M, LONGEST_M, 33)
    holds = [place for place, at in enumerate(steps) if _margin(signal, cable, float(at)) >= 0]
    if not holds or holds[-1] == len(steps) - 1:
        return math.nan
    low, high = float(steps[holds[-1]]), float(steps[holds[-1] + 1])
    while high / low > 1 + 1e-6:
        middle = math.sqrt(low * high)
        if _margin(signal, cable, middle) < 0:
            high = middle
        else:
            low = middle
    return low


def _question() -> Question:
    """What no cable does, so that every kind of change is looked for: O-01 of the demo."""
    fits = {"VID-70": "BNC-70", "VID-60": "BNC-60", "VID-40": "BNC-40", "VID-28": "BNC-28"}
    entries = tuple(
        CatalogueCable(
            cable=entry.cable,
            lot=None,
            connectors=(CONNECTORS[fits[entry.cable.code]],) if entry.cable.code in fits else (),
            price_per_m=entry.price_per_m,
        )
        for entry in ENTRIES
    )
    length = Length(mean_m=137.16, standard_uncertainty_m=0.14)
    signal = read_signal("serial video 2.97 Gb/s").signal
    assert signal is not None
    cable = next(cable for cable in CABLES if cable.code == "VID-60")
    return Question(
        signal=signal,
        length=length,
        temperature_celsius=20.0,
        space=None,
        ends=(tuple(fits.values()), tuple(fits.values())),
        adapters=0,
        catalogue=entries,
        asked=Run(
            cable=cable,
            lot=None,
            length=length,
            temperature_celsius=20.0,
            connectors=(END, END),
            adapters=0,
        ),
    )


def _shortest_ms(run: Callable[[], Any], times: int) -> float:
    took = []
    for _ in range(times):
        began = time.process_time()
        run()
        took.append(time.process_time() - began)
    return 1000 * min(took)


def _peak_mib(run: Callable[[], Any]) -> float:
    tracemalloc.start()
    try:
        run()
        return tracemalloc.get_traced_memory()[1] / 2**20
    finally:
        tracemalloc.stop()


def measure(*, quick: bool) -> Table:
    """Measure table, reach and advice; the plain way on every tenth length where ``quick``."""
    times = 5 if quick else 25
    every = signals()
    lengths = np.linspace(1.0, 400.0, LENGTHS)
    some = lengths[::10] if quick else lengths
    carried = sum(can_carry(cable, signal) for cable in CABLES for signal in every)

    began = time.process_time()
    table = reach_table(CABLES, every, lengths, installed=INSTALLED)
    first_ms = 1000 * (time.process_time() - began)
    table_ms = _shortest_ms(lambda: reach_table(CABLES, every, lengths, installed=INSTALLED), times)
    began = time.process_time()
    plain = _plain_table(CABLES, every, some)
    plain_ms = 1000 * (time.process_time() - began) * len(lengths) / len(some)
    ours = table[:, :, ::10] if quick else table
    if not (np.isnan(ours) == np.isnan(plain)).all():
        raise AssertionError("one way computes what the other does not")
    # A budget may hold more against a run than the check that is told (neighbours of data pairs).
    above = np.nanmax(ours - plain, axis=(0, 2), initial=0.0)
    below = np.nanmax(plain - ours, axis=(0, 2), initial=0.0)
    stricter = [signal.name for signal, by in zip(every, below, strict=True) if by > 1e-6]
    alike = [max(up, by) for up, by in zip(above, below, strict=True) if by <= 1e-6]
    away = float(max(alike))

    reach = reach_m(CABLES, every, installed=INSTALLED)
    reach_ms = _shortest_ms(lambda: reach_m(CABLES, every, installed=INSTALLED), times)
    pairs = [
        (int(row), int(column))
        for row, column in zip(*np.nonzero(np.isfinite(reach) & (reach > 0)), strict=True)
        if every[column].name not in stricter
    ]
    tried = pairs[:: max(1, len(pairs) // 12)] if quick else pairs
    began = time.process_time()
    halved = [_plain_reach(every[column], CABLES[row]) for row, column in tried]
    halved_ms = 1000 * (time.process_time() - began) * len(pairs) / len(tried)
    reach_away = max(
        abs(reach[at] / plain_m - 1) for at, plain_m in zip(tried, halved, strict=True)
    )

    question = _question()
    advice_ms = _shortest_ms(lambda: advise(question), times)
    return Table(
        title="What the catalogue carries, how far, and what would fix a run",
        columns=("job", "beside", "ours, ms", "other, ms", "ratio", "ours, MiB", "difference"),
        rows=[
            (
                f"margins of {len(CABLES)} cables × {len(every)} signals × {LENGTHS} lengths",
                "each run judged",
                table_ms,
                plain_ms,
                plain_ms / table_ms,
                _peak_mib(lambda: reach_table(CABLES, every, lengths, installed=INSTALLED)),
                f"{away:.0e} of its unit" if away else "none",
            ),
            (
                f"length at zero margin of {len(CABLES)} cables × {len(every)} signals",
                "runs judged, searched",
                reach_ms,
                halved_ms,
                halved_ms / reach_ms,
                _peak_mib(lambda: reach_m(CABLES, every, installed=INSTALLED)),
                f"{reach_away:.0e} of the length",
            ),
            (
                "everything that would fix 137 m at 2.97 Gb/s",
                "none",
                advice_ms,
                "",
                "",
                _peak_mib(lambda: advise(question)),
                "",
            ),
        ],
        notes=(
            f"{carried} of the {len(CABLES) * len(every)} pairs of cable and signal suit each "
            f"other at all; the first table of a process took {first_ms:.0f} ms, as every cable's "
            "losses are fitted once.",
            "Judged by more than the one check compared here, so that the table has less to spare: "
            + (", ".join(stricter) or "none")
            + ".",
            "The plain way was run on "
            + (f"{len(some)} of the lengths and {len(tried)} of the pairs, and scaled." if quick
               else "all lengths and pairs."),
        ),
    )  # fmt: skip
