"""The error tree. A "no" of an engine is a result (see ``core.verdicts``), never one of these.

    ReelwrightError
    ├── BadValue            (ValueError)   a value object refused nonsense when it was built
    ├── UnreadableQuantity  (ValueError)   typed text that is not the quantity asked for
    ├── InputFaults         (ValueError)   all faults of one input, together
    ├── UnknownCode         (LookupError)  a code that names nothing we have
    └── ShopRuleBroken                     a rule of the shop forbids this step, with code and data

Each leaf is also the builtin a caller would expect to catch, and keeps its fields.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any


class ReelwrightError(Exception):
    """Root of every error that Reelwright raises on purpose."""


class BadValue(ReelwrightError, ValueError):
    """A value object refused a field when it was built."""

    def __init__(self, *, owner: str, field: str, value: object, accepted: str) -> None:
        self.owner, self.field, self.value, self.accepted = owner, field, value, accepted
        super().__init__(f"{owner}.{field} is {value!r}; accepted: {accepted}")


class UnreadableQuantity(ReelwrightError, ValueError):
    """Typed text which cannot be read as the quantity asked for."""

    def __init__(self, *, typed: str, quantity: str, accepted: str) -> None:
        self.typed, self.quantity, self.accepted = typed, quantity, accepted
        super().__init__(f"{typed!r} is not a {quantity}; accepted: {accepted}")


@dataclass(frozen=True, kw_only=True)
class Fault:
    """One thing wrong with an input, where it stands and what would be accepted.

    ``row`` counts as a person counts in the file (the header is row 1); ``None``: the whole file.
    """

    file: str
    row: int | None
    field: str | None
    value: str | None
    problem: str
    accepted: str

    def __str__(self) -> str:
        place = self.file
        if self.row is not None:
            place += f", row {self.row}"
        if self.field is not None:
            place += f", {self.field}"
        shown = "" if self.value is None else f" {self.value!r}:"
        stop = "" if self.problem.endswith("?") else "."
        return f"{place}:{shown} {self.problem}{stop} Accepted: {self.accepted}."


class InputFaults(ReelwrightError, ValueError):
    """Every fault found in one input; nothing of that input was used."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        if not self.faults:
            raise BadValue(owner="InputFaults", field="faults", value=(), accepted="one or more")
        super().__init__("\n".join(str(fault) for fault in self.faults))


class UnknownCode(ReelwrightError, LookupError):
    """A code which names nothing we have; ``near`` holds what was perhaps meant."""

    def __init__(self, *, kind: str, code: str, near: Iterable[str] = ()) -> None:
        self.kind, self.code, self.near = kind, code, tuple(near)
        hint = f"; near it: {', '.join(self.near)}" if self.near else ""
        super().__init__(f"no {kind} {code!r}{hint}")


class ShopRuleBroken(ReelwrightError):
    """A rule of the shop forbids this step. ``code`` is for programs, ``sentence`` for people."""

    def __init__(self, code: str, sentence: str, **data: Any) -> None:
        self.code, self.sentence = code, sentence
        self.data: Mapping[str, Any] = data
        super().__init__(sentence)
