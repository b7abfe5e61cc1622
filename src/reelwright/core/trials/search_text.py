"""A search as it is written down (TOML, or the same tables from elsewhere), or all its faults.

``docs/guide/trials-file.md`` says what may stand there. A fault names its key as a person finds it:
"setting 2 low" is the key ``low`` of the second ``[[setting]]``.
"""

import math
import tomllib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from reelwright.core.errors import BadValue, Fault, InputFaults
from reelwright.core.trials.faults import faults_of_counts, faults_of_guesses, faults_of_names
from reelwright.core.trials.frame import SearchFrame
from reelwright.core.trials.guess import Guess, Level, Peak, Slope
from reelwright.core.trials.problem import Demand
from reelwright.core.trials.response import Looks, Response
from reelwright.core.trials.settings import Setting
from reelwright.core.trials.stand_ins import ReadValue, build_telling, others, setting_stands
from reelwright.core.trials.weld_energy import (
    FARTHEST_FACTOR,
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
            self._together(tables, settings, responses, looks)
            raise InputFaults(self._faults)
        try:
            frame = SearchFrame(
                settings=tuple(each.value for each in settings if each.value is not None),
                responses=tuple(each.value for each in responses if each.value is not None),
                looks=tuple(each.value for each in looks if each.value is not None),
                demand=demand,
            )
        except InputFaults as error:
            raise InputFaults(replace(fault, file=self._file) for fault in error.faults) from error
        return SearchText(name=name, question=question, frame=frame, most_trials=most)

    def _together(
        self,
        tables: Mapping[str, Any],
        settings: Sequence[ReadValue[Setting]],
        responses: Sequence[ReadValue[Response]],
        looks: Sequence[ReadValue[Looks]],
    ) -> None:
        """Tell what does not go together as well; of what could not be read nothing is said."""
        found: list[Fault] = []
        if all(isinstance(tables.get(kind, []), list) for kind in ("setting", "response", "looks")):
            found += faults_of_counts(
                settings_count=len(settings), responses_count=len(responses) + len(looks)
            )
        found += faults_of_names(
            [each.name for each in settings if each.name],
            [
                name
                for name in (*(each.name for each in responses), *(each.name for each in looks))
                if name
            ],
        )
        known = [each.value for each in settings if each.value is not None and not each.stood]
        if known and len(known) == len(settings):
            read = [each.value for each in responses if each.value is not None and each.name]
            found += faults_of_guesses(read, known)
        self._faults += [replace(fault, file=self._file) for fault in found]

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
        refused = len(self._faults)
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
        return name if len(self._faults) == refused else ""

    def _number(self, path: str, table: Mapping[str, Any], key: str) -> float | None:
        """Return the number under a key, or tell that there is none and return None."""
        value = table.get(key)
        if value is None:
            self._fault(f"{path} {key}", None, "this is missing", "a number")
            return None
        if isinstance(value, bool) or not isinstance(value, int | float):
            self._fault(f"{path} {key}", value, "this is no number", "a number such as 2.5")
            return None
        return value

    def _numbers(self, path: str, table: Mapping[str, Any], *keys: str) -> dict[str, float]:
        found = {key: self._number(path, table, key) for key in keys}
        return {key: number for key, number in found.items() if number is not None}

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
        read: Callable[[str, Mapping[str, Any]], ReadValue[_T]],
    ) -> list[ReadValue[_T]]:
        found = self._tables(kind, tables.get(kind, []))
        return [read(f"{kind} {place}", table) for place, table in enumerate(found, start=1)]

    def _built(
        self,
        path: str,
        build: Callable[..., _T],
        given: Mapping[str, Any],
        stands: Callable[[Mapping[str, Any]], dict[str, Any]],
    ) -> ReadValue[_T]:
        """Build a value; whatever is refused becomes a fault, and a stand-in takes its place."""
        return build_telling(build, given, stands, lambda error: self._refused(path, error))

    def _refused(self, path: str, error: BadValue) -> None:
        value = error.value
        if isinstance(value, tuple):
            value = ", ".join(str(one) for one in value if one is not None)
        self._fault(f"{path} {error.field}", value, "this makes no sense here", error.accepted)

    def _named(self, path: str, table: Mapping[str, Any]) -> dict[str, Any]:
        """Return name and unit, each where it can be read."""
        found = {
            "name": self._name(path, table),
            "unit": self._text(path, table, "unit", needed=True),
        }
        return {key: text for key, text in found.items() if text}

    def _setting(self, path: str, table: Mapping[str, Any]) -> ReadValue[Setting]:
        self._known(path, table, _SETTING)
        given = self._named(path, table)
        given |= self._numbers(path, table, "low", "high", "step", "drift")
        low, high = given.get("low"), given.get("high")
        if "step" not in given and low is not None and high is not None and high <= low:
            # Without a step nothing is said of steps.
            self._fault(f"{path} high", high, "this makes no sense here", f"above {low:g}")
            del given["high"]
        return self._built(path, Setting, given, setting_stands)

    def _response(self, path: str, table: Mapping[str, Any]) -> ReadValue[Response]:
        self._known(path, table, _RESPONSE)
        given = self._named(path, table)
        limits = [key for key in _LIMITS if key in table]
        given |= self._numbers(path, table, *limits)
        # A limit that is there and cannot be read is told already: it is not also missing.
        given |= {key: None for key in _LIMITS if key not in table}
        guess = self._guess(f"{path} guess", table.get("guess", {"kind": "level"}))
        if guess is not None:
            given["guess"] = guess
        if not any(key in given and given[key] is not None for key in limits) and limits:
            return ReadValue(value=None, stood=frozenset(limits), name=str(given.get("name", "")))
        no_limit = dict.fromkeys(_LIMITS)
        stands = others(name="this response", unit="1", guess=Level(), **no_limit)
        return self._built(path, Response, given, stands)

    def _guess(self, path: str, table: object) -> Guess | None:
        if not isinstance(table, Mapping):
            self._fault(path, table, "this is no table", '{ kind = "peak", … }')
            return None
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
        given: dict[str, Any] = {"setting": self._text(path, table, "setting", needed=True)}
        given |= self._numbers(path, table, "ratio_factor")
        if "gauges" in table or "area_mm2" in table:
            given["best_at"] = self._from_gauges(path, table)
        else:
            given |= self._numbers(path, table, "best_at")
        known = {key: value for key, value in given.items() if value not in ("", None)}
        stands = others(setting="this setting", best_at=1.0, ratio_factor=2.0)
        read = self._built(path, Peak, known, stands)
        return None if read.stood else read.value

    def _from_gauges(self, path: str, table: Mapping[str, Any]) -> float | None:
        """Return the energy that the law through the known gauges gives for the area, or None."""
        if "best_at" in table:
            self._fault(
                f"{path} best_at", table["best_at"], "told in two ways", "best_at, or the gauges"
            )
        area = self._number(path, table, "area_mm2")
        if area is not None and not (math.isfinite(area) and area > 0):
            self._fault(f"{path} area_mm2", area, "this makes no sense here", "a number above zero")
            area = None
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

            return None
        try:
            law = fit_energy_law(
                [KnownGauge(area_m2=one / 1e6, energy_j=energy) for one, energy in good]
            )
        except BadValue as error:
            self._refused(path, error)
            return None
        if area is None:
            return None
        if law.beyond_factor(area_m2=area / 1e6) > FARTHEST_FACTOR:
            self._fault(
                f"{path} area_mm2",
                area,
                "this lies too far beyond the gauges to be guessed",
                f"from half of the smallest, {law.smallest_m2 * 0.5e6:.3g}, to twice the largest, "
                f"{law.largest_m2 * 2e6:.3g}",
            )
        return law.energy_j(area_m2=area / 1e6)

    def _looks(self, path: str, table: Mapping[str, Any]) -> ReadValue[Looks]:
        self._known(path, table, _LOOKS)
        name = self._name(path, table)
        given = {"name": name} if name else {}
        stands = others(name="this look", least_share=0.5)
        return self._built(path, Looks, given | self._numbers(path, table, "least_share"), stands)

    def _demand(self, tables: Mapping[str, Any]) -> Demand | None:
        table = tables.get("demand")
        if not isinstance(table, Mapping):
            self._fault("demand", None, "this is missing", f"[demand] with {', '.join(_DEMAND)}")
            return None
        self._known("demand", table, _DEMAND)
        given = self._numbers("demand", table, *_DEMAND)
        return self._built("demand", Demand, given, others(**dict.fromkeys(_DEMAND, 0.9))).value
