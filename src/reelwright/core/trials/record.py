"""What was tried: the settings, what each repeat showed, and whether it failed outright."""

import math
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_count, require_text


@dataclass(frozen=True, kw_only=True)
class Readings:
    """The repeats of one measured response at one trial, in the unit of that response."""

    response: str
    values: tuple[float, ...]

    def __post_init__(self) -> None:
        require_text(self, "response")
        if not self.values or not all(math.isfinite(value) for value in self.values):
            raise BadValue(
                owner="Readings",
                field="values",
                value=self.values,
                accepted="one finite number or more",
            )


@dataclass(frozen=True, kw_only=True)
class Seen:
    """How many parts of one trial were looked at, and how many of them were ok."""

    looks: str
    good: int
    seen_count: int

    def __post_init__(self) -> None:
        require_text(self, "looks")
        require_count(self, "good")
        require_count(self, "seen_count", at_least=1)
        if self.good > self.seen_count:
            raise BadValue(
                owner="Seen",
                field="good",
                value=self.good,
                accepted=f"no more than the {self.seen_count} looked at",
            )


@dataclass(frozen=True, kw_only=True)
class Trial:
    """One trial. ``values`` are the settings in the order and the units of the problem.

    ``failure`` says how it failed outright (nothing could be measured), ``None`` where it did not.
    """

    number: int
    values: tuple[float, ...]
    readings: tuple[Readings, ...]
    seen: tuple[Seen, ...]
    failure: str | None

    def __post_init__(self) -> None:
        require_count(self, "number", at_least=1)
        if self.failure is not None:
            require_text(self, "failure")

    def values_of(self, response: str) -> tuple[float, ...]:
        """Return the repeats of this response; none where it was not measured."""
        return next((one.values for one in self.readings if one.response == response), ())

    def seen_of(self, looks: str) -> Seen | None:
        """Return what was seen of these looks; ``None`` where nobody looked."""
        return next((one for one in self.seen if one.looks == looks), None)
