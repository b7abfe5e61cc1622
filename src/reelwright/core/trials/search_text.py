"""A search as it is written down (TOML, or the same tables from elsewhere), or all its faults.

``docs/guide/trials-file.md`` says what may stand there. A fault names its key as a person finds it:
"setting 2 low" is the key ``low`` of the second ``[[setting]]``.
"""

import tomllib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from reelwright.core.errors import BadValue, Fault, InputFaults
from reelwright.core.trials.frame import SearchFrame
from reelwright.core.trials.guess import Guess, Level, Peak, Slope
from reelwright.core.trials.problem import Demand
from reelwright.core.trials.response import Looks, Response
from reelwright.core.trials.settings import Setting
from reelwright.core.trials.weld_energy import (
    FARTHEST_FACTOR,
    EnergyLaw,
    KnownGauge,
    fit_energy_law,
)

RESERVED = ("number", "failure", "note")
"""Names that the columns of a file of trials have already."""

GUESSES = ("level", "slope", "peak")
LONGEST_NAME = 40

_TOP = ("name", "question", "most_trials", "setting", "response", "looks", "demand")
_SETTING = ("name", "unit", "low", "high", "step", "drift")
_LIMITS = ("lower_limit", "upper_limit", "unsafe_below", "unsafe_above")
_RESPONSE = ("name", "unit", *_LIMITS, "guess")
_LOOKS = ("name", "least_share")
_DEMAND = (
    "coverage",
    "confidence",
    "unsafe_chance",
    "expected_good_fraction",
    "clear_drifts_ratio",
)
_GUESS = ("kind", "setting", "best_at", "ratio_factor", "area_mm2", "gauges")
_T = TypeVar("_T")


@dataclass(frozen=True, kw_only=True)
class SearchText:
    """A search read: its name, its question, what it asks, and after how many trials to give up."""

    name: str
    question: str
    frame: SearchFrame
    most_trials: int | None


def read_search(text: str, *, file: str) -> SearchText:
    """Return the search that a TOML text states. Raises InputFaults with every fault of it."""
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise InputFaults(
            [
                Fault(
                    file=file,
                    row=None,
                    field=None,
                    value=None,
                    problem=f"this is not TOML: {error}",
                    accepted='keys with their values, such as name = "energy", texts in quotes',
                )
            ]
        ) from error
    return read_search_tables(tables, file=file)


def read_search_tables(tables: Mapping[str, Any], *, file: str) -> SearchText:
    """Return the search that these tables state. Raises InputFaults with every fault of them."""
    return _Reader(file).search(tables)


class _Reader:
    """Reads table by table and remembers every fault, so that all are told together."""

    def __init__(self, file: str) -> None:
        self._file = file
        self._faults: list[Fault] = []

    def search(self, tables: Mapping[str, Any]) -> SearchText:
        self._known("", tables, _TOP)
        name = self._text("", tables, "name", needed=True)
        question = self._text("", tables, "question", needed=False)
        most = self._count(tables, "most_trials")
        settings = self._each(tables, "setting", self._setting)
        responses = self._each(tables, "response", self._response)
        looks = self._each(tables, "looks", self._looks)
        demand = self._demand(tables)
        if self._faults or demand is None:
            raise InputFaults(self._faults)
        try:
            frame = SearchFrame(
                settings=tuple(settings),
                responses=tuple(responses),
                looks=tuple(looks),
                demand=demand,
            )
        except InputFaults as error:
            raise InputFaults(replace(fault, file=self._file) for fault in error.faults) from error
        return SearchText(name=name, question=question, frame=frame, most_trials=most)

    def _fault(self, field: str, value: object, problem: str, accepted: str) -> None:
        self._faults.append(
            Fault(
                file=self._file,
                row=None,
                field=field.strip(),
                value=None if value is None else str(value),
                problem=problem,
                accepted=accepted,
            )
        )

    def _known(self, path: str, table: Mapping[str, Any], keys: Sequence[str]) -> None:
        for key in table:
            if key not in keys:
                self._fault(f"{path} {key}", None, "this key is not known", ", ".join(keys))

    def _text(self, path: str, table: Mapping[str, Any], key: str, *, needed: bool) -> str:
        value = table.get(key, "")
        if not isinstance(value, str):
            self._fault(f"{path} {key}", value, "this is no text", 'text in quotes, such as "pull"')
            return ""
        if needed and not value.strip():
            self._fault(f"{path} {key}", None, "this is missing", "some text")
        return value.strip()

    def _name(self, path: str, table: Mapping[str, Any]) -> str:
        name = self._text(path, table, "name", needed=True)
        if len(name) > LONGEST_NAME or not name.isprintable() or any(c in name for c in ",;[]()"):
            self._fault(
                f"{path} name",
                name,
                "this cannot be the name of a column",
                f"1 to {LONGEST_NAME} characters without commas and brackets",
            )
        elif name.casefold() in RESERVED:
            self._fault(
                f"{path} name",
                name,
                "a column of the trials has this name already",
                f"another name than {', '.join(RESERVED)}",
            )
        return name

    def _number(self, path: str, table: Mapping[str, Any], key: str, *, needed: bool) -> float:
        value = table.get(key)
        if value is None:
            if needed:
                self._fault(f"{path} {key}", None, "this is missing", "a number")
            return 0.0
        if isinstance(value, bool) or not isinstance(value, int | float):
            self._fault(f"{path} {key}", value, "this is no number", "a number such as 2.5")
            return 0.0
        return value

    def _count(self, table: Mapping[str, Any], key: str) -> int | None:
        value = table.get(key)
        if value is None:
            return None
        if isinstance(value, bool) or not isinstance(value, int) or value < 1:
            self._fault(key, value, "this is no number of trials", "a whole number, 1 or more")
            return None
        return value

    def _tables(self, path: str, value: object) -> list[Mapping[str, Any]]:
        if isinstance(value, list) and all(isinstance(one, Mapping) for one in value):
            return value
        self._fault(path, value, "this is no list of tables", f"[[{path}]] before each of them")
        return []

    def _each(
        self,
        tables: Mapping[str, Any],
        kind: str,
        read: Callable[[str, Mapping[str, Any]], _T | None],
    ) -> list[_T]:
        found = self._tables(kind, tables.get(kind, []))
        values = [read(f"{kind} {place}", table) for place, table in enumerate(found, start=1)]
        return [value for value in values if value is not None]

    def _built(self, path: str, begun: int, build: Callable[[], _T]) -> _T | None:
        """Build a value unless a fault was told since ``begun``; a refusal becomes a fault."""
        if len(self._faults) > begun:
            return None
        try:
            return build()
        except BadValue as error:
            value = error.value
            if isinstance(value, tuple):
                value = ", ".join(str(one) for one in value if one is not None)
            self._fault(f"{path} {error.field}", value, "this makes no sense here", error.accepted)
            return None

    def _setting(self, path: str, table: Mapping[str, Any]) -> Setting | None:
        begun = len(self._faults)
        self._known(path, table, _SETTING)
        name = self._name(path, table)
        unit = self._text(path, table, "unit", needed=True)
        low, high, step, drift = (
            self._number(path, table, key, needed=True) for key in ("low", "high", "step", "drift")
        )
        return self._built(
            path,
            begun,
            lambda: Setting(name=name, unit=unit, low=low, high=high, step=step, drift=drift),
        )

    def _response(self, path: str, table: Mapping[str, Any]) -> Response | None:
        begun = len(self._faults)
        self._known(path, table, _RESPONSE)
        name = self._name(path, table)
        unit = self._text(path, table, "unit", needed=True)
        limits = {
            key: self._number(path, table, key, needed=False) if key in table else None
            for key in _LIMITS
        }
        guess = self._guess(f"{path} guess", table.get("guess", {"kind": "level"}))
        if guess is None:
            return None
        return self._built(
            path, begun, lambda: Response(name=name, unit=unit, guess=guess, **limits)
        )

    def _guess(self, path: str, table: object) -> Guess | None:
        if not isinstance(table, Mapping):
            self._fault(path, table, "this is no table", '{ kind = "peak", … }')
            return None
        begun = len(self._faults)
        self._known(path, table, _GUESS)
        kind = self._text(path, table, "kind", needed=True)
        if kind == "level":
            return Level()
        if kind == "slope":
            return Slope()
        if kind != "peak":
            if kind:
                self._fault(f"{path} kind", kind, "no such first guess", ", ".join(GUESSES))
            return None
        setting = self._text(path, table, "setting", needed=True)
        ratio = self._number(path, table, "ratio_factor", needed=True)
        best = (
            self._from_gauges(path, table)
            if "gauges" in table or "area_mm2" in table
            else self._number(path, table, "best_at", needed=True)
        )
        return self._built(
            path, begun, lambda: Peak(setting=setting, best_at=best, ratio_factor=ratio)
        )

    def _from_gauges(self, path: str, table: Mapping[str, Any]) -> float:
        """Return the energy that the law through the known gauges gives for the area."""
        if "best_at" in table:
            self._fault(
                f"{path} best_at", table["best_at"], "told in two ways", "best_at, or the gauges"
            )
        begun = len(self._faults)
        area = self._number(path, table, "area_mm2", needed=True)
        gauges = table.get("gauges", [])
        pairs = gauges if isinstance(gauges, list) else []
        good = [
            pair
            for pair in pairs
            if isinstance(pair, list)
            and len(pair) == 2
            and all(isinstance(one, int | float) and not isinstance(one, bool) for one in pair)
        ]
        if not good or len(good) != len(pairs):
            self._fault(
                f"{path} gauges",
                gauges,
                "these are no gauges that weld well",
                "two or more of [area in mm², energy in J], such as [[1.31, 96], [2.08, 149]]",
            )

        def laid() -> tuple[EnergyLaw, float]:
            known = [KnownGauge(area_m2=one / 1e6, energy_j=energy) for one, energy in good]
            law = fit_energy_law(known)
            return law, law.energy_j(area_m2=area / 1e6)

        found = self._built(path, begun, laid)
        if found is None:
            return 1.0
        law, energy_j = found
        if law.beyond_factor(area_m2=area / 1e6) > FARTHEST_FACTOR:
            self._fault(
                f"{path} area_mm2",
                area,
                "this lies too far beyond the gauges to be guessed",
                f"from half of the smallest, {law.smallest_m2 * 0.5e6:.3g}, to twice the largest, "
                f"{law.largest_m2 * 2e6:.3g}",
            )
        return energy_j

    def _looks(self, path: str, table: Mapping[str, Any]) -> Looks | None:
        begun = len(self._faults)
        self._known(path, table, _LOOKS)
        name = self._name(path, table)
        share = self._number(path, table, "least_share", needed=True)
        return self._built(path, begun, lambda: Looks(name=name, least_share=share))

    def _demand(self, tables: Mapping[str, Any]) -> Demand | None:
        table = tables.get("demand")
        if not isinstance(table, Mapping):
            self._fault("demand", None, "this is missing", f"[demand] with {', '.join(_DEMAND)}")
            return None
        begun = len(self._faults)
        self._known("demand", table, _DEMAND)
        numbers = {key: self._number("demand", table, key, needed=True) for key in _DEMAND}
        return self._built("demand", begun, lambda: Demand(**numbers))
