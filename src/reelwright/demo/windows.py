"""The searches of the demo workshop: one with its window written down, one in the middle.

The machine and its readings are invented: a weld's pull falls off on both sides of its best energy,
pressure and amplitude, and its height with the work done. Some settings are those that the search
proposed, some what the bench tried of its own accord.
"""

import datetime as dt
import math
import random
from collections.abc import Iterable
from dataclasses import dataclass

from reelwright.core.trials.record import Readings, Seen, Trial
from reelwright.core.trials.search_text import read_search_tables
from reelwright.core.trials.weld_energy import KnownGauge, are_one_gauge
from reelwright.demo.calendar import SEED
from reelwright.demo.opening import NAMES
from reelwright.shop.people.selectors import person
from reelwright.shop.trials import services
from reelwright.shop.trials.gauges import known_gauges
from reelwright.shop.trials.states import Process

_PROVEN_AREA_MM2 = 2.08
_DEMAND = {
    "coverage": 0.95,
    "confidence": 0.9,
    "unsafe_chance": 0.1,
    "expected_good_fraction": 0.95,
    "clear_drifts_ratio": 2,
}
_CONNECTOR = "BANANA"


@dataclass(frozen=True, kw_only=True)
class Weld:
    """An invented weld: what it pulls at its best energy and pressure, and its spread."""

    cable_code: str
    best_j: float
    best_bar: float
    best_um: float
    pull_n: float
    spread_n: float
    height_mm: float

    def work(self, energy_j: float, amplitude_um: float) -> float:
        """Return how much more is done than at the best, as a logarithm (1)."""
        return math.log(energy_j / self.best_j) + 0.5 * math.log(amplitude_um / self.best_um)

    def mean_n(self, work: float, pressure_bar: float) -> float:
        """Return the true mean pull in N."""
        side = math.log(pressure_bar / self.best_bar)
        return self.pull_n * math.exp(-0.5 * (work / 0.32) ** 2 - 0.5 * (side / 0.5) ** 2)


PROVEN = Weld(
    cable_code="SPK-14",
    best_j=141.0,
    best_bar=2.4,
    best_um=30.0,
    pull_n=281.0,
    spread_n=7.0,
    height_mm=1.30,
)
OPEN = Weld(
    cable_code="SPK-10",
    best_j=286.0,
    best_bar=2.9,
    best_um=32.0,
    pull_n=428.0,
    spread_n=11.0,
    height_mm=2.10,
)

PROVEN_AT = ((150.0, 2.7), (120.0, 2.0), (185.0, 3.4), (160.0, 2.5), (135.0, 2.8), (140.0, 2.6))
OPEN_AT = ((380.0, 2.7, 30.0), (380.0, 3.1, 26.0), (380.0, 3.3, 24.0), (500.0, 3.6, 38.0))
_FAILS_ABOVE = 0.45
_PULLS = 4
_LOOKED_AT = 8


def _setting(name: str, unit: str, *numbers: float) -> dict[str, object]:
    keys = ("low", "high", "step", "drift")
    return {"name": name, "unit": unit, **dict(zip(keys, numbers, strict=True))}


def proven_tables(gauges: Iterable[KnownGauge]) -> dict[str, object]:
    """Return the search whose window is found; ``gauges`` that the shop welds give its guess."""
    return {
        "name": "Weld of SPK-14",
        "question": "Which energy and pressure weld the 2.08 mm² pair into a banana plug?",
        "most_trials": 20,
        "setting": [
            _setting("energy", "J", 90, 215, 5, 2.0),
            _setting("pressure", "bar", 1.5, 4.0, 0.1, 0.05),
        ],
        "response": [
            {
                "name": "pull",
                "unit": "N",
                "lower_limit": 223,
                "guess": {
                    "kind": "peak",
                    "setting": "energy",
                    "ratio_factor": 1.5,
                    "area_mm2": _PROVEN_AREA_MM2,
                    "gauges": [
                        [one.area_m2 * 1e6, one.energy_j]
                        for one in gauges
                        # What is asked for is not taken for known.
                        if not are_one_gauge(one.area_m2, _PROVEN_AREA_MM2 * 1e-6)
                    ],
                },
            }
        ],
        "looks": [{"name": "not burnt", "least_share": 0.7}],
        "demand": _DEMAND,
    }


def open_tables() -> dict[str, object]:
    """Return the search in the middle of its way: three settings, two responses."""
    return {
        "name": "Weld of SPK-10, horn ground anew",
        "question": "Where does the 5.26 mm² pair weld now that the horn is ground anew?",
        "most_trials": 25,
        "setting": [
            _setting("energy", "J", 230, 530, 5, 5.0),
            _setting("pressure", "bar", 1.5, 4.0, 0.1, 0.05),
            _setting("amplitude", "µm", 20, 40, 1, 0.4),
        ],
        "response": [
            {
                "name": "pull",
                "unit": "N",
                "lower_limit": 356,
                "guess": {
                    "kind": "peak",
                    "setting": "energy",
                    "ratio_factor": 1.5,
                    "best_at": 378,
                },
            },
            {
                "name": "height",
                "unit": "mm",
                "lower_limit": 1.9,
                "upper_limit": 2.3,
                "unsafe_below": 1.6,
                "guess": {"kind": "slope"},
            },
        ],
        "demand": _DEMAND,
    }


def make_trial(weld: Weld, number: int, values: tuple[float, ...], *, heights: bool) -> Trial:
    """Return what the invented machine shows at these settings; always the same."""
    dice = random.Random(f"{SEED} {weld.cable_code} {number} {values}")
    amplitude_um = values[2] if len(values) > 2 else weld.best_um
    work = weld.work(values[0], amplitude_um)
    if work > _FAILS_ABOVE:
        return Trial(number=number, values=values, readings=(), seen=(), failure="cut through")
    mean_n = weld.mean_n(work, values[1])
    height_mm = weld.height_mm - 0.5 * work - 0.2 * math.log(values[1] / weld.best_bar)
    pulls = tuple(round(dice.gauss(mean_n, weld.spread_n), 0) for _ in range(_PULLS))
    readings = [Readings(response="pull", values=pulls)]
    seen: tuple[Seen, ...] = ()
    if heights:
        measured = tuple(round(dice.gauss(height_mm, 0.015), 2) for _ in range(_PULLS))
        readings.append(Readings(response="height", values=measured))
    else:
        burnt = sum(dice.random() < max(0.0, work - 0.1) for _ in range(_LOOKED_AT))
        seen = (Seen(looks="not burnt", good=_LOOKED_AT - burnt, seen_count=_LOOKED_AT),)
    return Trial(number=number, values=values, readings=tuple(readings), seen=seen, failure=None)


def write_proven(day: dt.date) -> None:
    """Search the window of SPK-14, write it down."""
    code = _begin(proven_tables(known_gauges()), PROVEN.cable_code, day)
    _try(code, PROVEN, PROVEN_AT, day, heights=False)
    services.window_write(by=person(NAMES.lead), search_code=code, on=day)


def write_open(day: dt.date) -> None:
    """Search the window of SPK-10 half way."""
    code = _begin(open_tables(), OPEN.cable_code, day)
    _try(code, OPEN, OPEN_AT, day, heights=True)


def _begin(tables: dict[str, object], cable_code: str, day: dt.date) -> str:
    return services.search_begin(
        by=person(NAMES.lead),
        text=read_search_tables(tables, file="demo"),
        process=Process.WELD,
        cable_code=cable_code,
        connector_code=_CONNECTOR,
        on=day,
    )


def _try(
    code: str,
    weld: Weld,
    settings: tuple[tuple[float, ...], ...],
    day: dt.date,
    *,
    heights: bool,
) -> None:
    for number, values in enumerate(settings, start=1):
        services.trial_record(
            by=person(NAMES.other),
            search_code=code,
            trial=make_trial(weld, number, values, heights=heights),
            on=day,
        )
