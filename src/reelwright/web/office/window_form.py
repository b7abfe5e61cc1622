"""The form of a new search: typed cells -> the tables that the reader of searches takes."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from reelwright.core.errors import Fault, InputFaults, UnreadableQuantity
from reelwright.core.trials.number_text import read_plain_number
from reelwright.core.trials.search_text import GUESSES, SearchText, read_search_tables

_FORM = "the form"
MOST = {"setting": 5, "response": 3, "looks": 2}
KEYS = {
    "setting": ("name", "unit", "low", "high", "step", "drift"),
    "response": (
        "name",
        "unit",
        "lower_limit",
        "upper_limit",
        "unsafe_below",
        "unsafe_above",
        "guess-kind",
        "guess-setting",
        "guess-best_at",
        "guess-ratio_factor",
    ),
    "looks": ("name", "least_share"),
}
DEMAND = (
    "coverage",
    "confidence",
    "unsafe_chance",
    "expected_good_fraction",
    "clear_drifts_ratio",
)
_TEXTS = ("name", "unit", "guess-kind", "guess-setting")
_LABELS = {
    "name": "Name",
    "unit": "Unit",
    "low": "Lowest",
    "high": "Highest",
    "step": "In steps of",
    "drift": "Holds to ±",
    "lower_limit": "Good above",
    "upper_limit": "Good below",
    "unsafe_below": "Harms below",
    "unsafe_above": "Harms above",
    "guess-kind": "First guess",
    "guess-setting": "Peak of which setting",
    "guess-best_at": "Peak at",
    "guess-ratio_factor": "Worse at that times this",
    "least_share": "Share that must be ok",
}


@dataclass(frozen=True, kw_only=True)
class Cell:
    """One cell: its name and id, its label, what stands in it, what is wrong with it."""

    key: str
    label: str
    value: str
    fault: str
    choices: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Row:
    """One setting, response or look of the form."""

    place: int
    cells: tuple[Cell, ...]


def packed(cells: Mapping[str, str]) -> dict[str, str]:
    """Return the cells with empty rows moved behind: rows are numbered as they are read."""
    found = {key: value.strip() for key, value in cells.items()}
    for kind, keys in KEYS.items():
        names = [[f"{kind}-{place}-{key}" for key in keys] for place in range(1, MOST[kind] + 1)]
        rows = [[found.get(name, "") for name in row] for row in names]
        # The kind of a guess is always chosen, so that it says nothing of a row.
        full = [row for row in rows if any(cell for cell in row if cell not in GUESSES)]
        full += [[""] * len(keys)] * (MOST[kind] - len(full))
        for row, values in zip(names, full, strict=True):
            found.update(zip(row, values, strict=True))
    return found


def rows_of(kind: str, cells: Mapping[str, str], faults: Mapping[str, str]) -> list[Row]:
    """Return the rows of one kind as the page shows them."""
    return [
        Row(
            place=place,
            cells=tuple(
                Cell(
                    key=(name := f"{kind}-{place}-{key}"),
                    label=_LABELS[key],
                    value=cells.get(name, ""),
                    fault=faults.get(name, ""),
                    choices=GUESSES if key == "guess-kind" else (),
                )
                for key in KEYS[kind]
            ),
        )
        for place in range(1, MOST[kind] + 1)
    ]


def read_form(cells: Mapping[str, str]) -> SearchText:
    """Return the search that packed cells state; raise InputFaults, ``field`` the cell's name."""
    reader = _Reader(cells)
    tables = reader.tables()
    faults = list(reader.faults)
    told = {fault.field for fault in faults}
    try:
        found = read_search_tables(tables, file=_FORM)
    except InputFaults as error:
        for fault in error.faults:
            field = (fault.field or "").replace(" ", "-")
            # A number that cannot be read is missing to the reader of tables: told once.
            if field not in told:
                faults.append(_fault(field, fault.value, fault.problem, fault.accepted))
        raise InputFaults(faults) from error
    if faults:
        raise InputFaults(faults)
    return found


def _fault(field: str, value: str | None, problem: str, accepted: str) -> Fault:
    return Fault(file=_FORM, row=None, field=field, value=value, problem=problem, accepted=accepted)


class _Reader:
    def __init__(self, cells: Mapping[str, str]) -> None:
        self._cells = cells
        self.faults: list[Fault] = []

    def tables(self) -> dict[str, Any]:
        most = self._number("most_trials")
        demand = {
            key: value for key in DEMAND if (value := self._number(f"demand-{key}")) is not None
        }
        # The form asks for percents, but for the standard deviations.
        demand = {
            key: value if key == "clear_drifts_ratio" else value / 100
            for key, value in demand.items()
        }
        tables: dict[str, Any] = {
            "name": self._cells.get("name", ""),
            "question": self._cells.get("question", ""),
            "demand": demand,
        }
        if most is not None:
            tables["most_trials"] = int(most) if most == int(most) else most
        for kind in KEYS:
            rows = [self._row(kind, place) for place in range(1, MOST[kind] + 1)]
            tables[kind] = [row for row in rows if row]
        return tables

    def _row(self, kind: str, place: int) -> dict[str, Any]:
        row: dict[str, Any] = {}
        guess: dict[str, Any] = {}
        for key in KEYS[kind]:
            name = f"{kind}-{place}-{key}"
            typed = self._cells.get(name, "")
            if not typed:
                continue
            into, short = (guess, key[6:]) if key.startswith("guess-") else (row, key)
            if key in _TEXTS:
                into[short] = typed
            elif (value := self._number(name)) is not None:
                into[short] = value
        if row and guess:
            row["guess"] = guess if guess.get("kind") == "peak" else {"kind": guess.get("kind", "")}
        return row

    def _number(self, name: str) -> float | None:
        typed = self._cells.get(name, "")
        if not typed:
            return None
        try:
            return read_plain_number(typed)
        except UnreadableQuantity as error:
            problem = f"this is not a {error.quantity}"
            self.faults.append(_fault(name, typed, problem, error.accepted))
        return None
