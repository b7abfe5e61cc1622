"""One trial as it is typed at a bench or a desk -> the trial, or every fault at its field."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import TypeVar

from reelwright.core.errors import Fault, InputFaults, UnreadableQuantity
from reelwright.core.trials.frame import SearchFrame
from reelwright.core.trials.number_text import read_plain_number, read_plain_numbers
from reelwright.core.trials.record import Trial
from reelwright.core.trials.trials_text import LONGEST_TEXT, make_trial, read_seen

_T = TypeVar("_T")
_TYPED = "the trial"


@dataclass(frozen=True, kw_only=True)
class TypedField:
    """One field of the form: its ``key``, what it asks, its unit, and what may stand there."""

    key: str
    name: str
    unit: str
    kind: str
    hint: str


def typed_fields(frame: SearchFrame) -> tuple[TypedField, ...]:
    """Return the fields that a trial of this search is typed into: settings, responses, looks."""
    settings = [
        TypedField(
            key=f"setting-{place}",
            name=one.name,
            unit=one.unit,
            kind="setting",
            hint=f"{one.show(one.low)} to {one.show(one.high)}",
        )
        for place, one in enumerate(frame.settings, start=1)
    ]
    responses = [
        TypedField(
            key=f"response-{place}",
            name=one.name,
            unit=one.unit,
            kind="response",
            hint="every reading, with spaces between",
        )
        for place, one in enumerate(frame.responses, start=1)
    ]
    looks = [
        TypedField(
            key=f"looks-{place}",
            name=one.name,
            unit="",
            kind="looks",
            hint="ok of looked at, such as 4/5",
        )
        for place, one in enumerate(frame.looks, start=1)
    ]
    return (*settings, *responses, *looks)


def read_typed(frame: SearchFrame, cells: Mapping[str, str]) -> Trial:
    """Return the trial that ``cells`` state, by the keys of ``typed_fields`` and "failure".

    Its number is 1: the records give it another. Raises InputFaults with every fault, the key of
    its field in ``field``.
    """
    reader = _Reader(cells)
    fields = typed_fields(frame)
    values: list[float] = []
    readings: list[tuple[str, tuple[float, ...]]] = []
    seen: list[tuple[str, tuple[int, int]]] = []
    for one in fields:
        typed = reader.cell(one.key)
        if one.kind == "setting":
            value = reader.read(one, partial(read_plain_number, unit=one.unit))
            values.append(0.0 if value is None else value)
        elif one.kind == "response" and typed:
            found = reader.read(one, partial(read_plain_numbers, unit=one.unit))
            readings.append((one.name, found or ()))
        elif one.kind == "looks" and typed:
            count = reader.read(one, read_seen)
            seen.append((one.name, count or (0, 1)))
    failure = reader.cell("failure")
    if len(failure) > LONGEST_TEXT:
        reader.fault("failure", None, "this cannot be kept", f"up to {LONGEST_TEXT} characters")
    if reader.faults:
        raise InputFaults(reader.faults)
    return make_trial(number=1, values=values, readings=readings, seen=seen, failure=failure)


class _Reader:
    def __init__(self, cells: Mapping[str, str]) -> None:
        self._cells = cells
        self.faults: list[Fault] = []

    def cell(self, key: str) -> str:
        return self._cells.get(key, "").strip()

    def read(self, field: TypedField, read: Callable[[str], _T]) -> _T | None:
        typed = self.cell(field.key)
        try:
            return read(typed)
        except UnreadableQuantity as error:
            problem = f"this is not a {error.quantity}" if typed else "there is nothing here"
            self.fault(field.key, typed, problem, error.accepted)
        return None

    def fault(self, key: str, value: str | None, problem: str, accepted: str) -> None:
        self.faults.append(
            Fault(
                file=_TYPED,
                row=None,
                field=key,
                value=value or None,
                problem=problem,
                accepted=accepted,
            )
        )
