"""What a bench plan is made from: batches, people, settings and the change-over rule.

Times are whole seconds from the start of the working day.
"""

import enum
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from reelwright.core.errors import BadValue, Fault, InputFaults
from reelwright.core.quantities.guard import require_count, require_positive, require_text


class Station(enum.StrEnum):
    """Where work is done, in the order in which a cable passes."""

    CUT = "cut"
    STRIP = "strip"
    PRESS = "press"
    SOLDER = "solder"
    WELD = "weld"
    POLISH = "polish"
    DRESS = "dress"
    INSPECT = "inspect"
    TEST = "test"
    LABEL = "label"
    PACK = "pack"

    @property
    def rank(self) -> int:
        """0 for the first station."""
        return list(Station).index(self)


TERMINATING = (Station.PRESS, Station.SOLDER, Station.WELD, Station.POLISH)


@dataclass(frozen=True, kw_only=True)
class StationSetting:
    """How the machines stand for one set-up; ``None`` or empty: not needed by it.

    Two ends made in one go (another connector at each end) are one setting: its ``program``
    names both. The tester carries one set of ``test_adapters`` at a time.
    """

    program: str | None
    blade_set: str | None
    dies: frozenset[str]
    test_adapters: frozenset[str]
    weld_horn: str | None


@dataclass(frozen=True, kw_only=True)
class ChangeOverRule:
    """Seconds to change a machine over, one figure for each thing that differs.

    The first article is made whenever anything differs; ``die_s`` counts for each die to mount.
    """

    first_article_s: int
    program_s: int
    blade_set_s: int
    die_s: int
    test_adapters_s: int
    weld_horn_s: int

    def __post_init__(self) -> None:
        require_count(
            self,
            "first_article_s",
            "program_s",
            "blade_set_s",
            "die_s",
            "test_adapters_s",
            "weld_horn_s",
        )


@dataclass(frozen=True, kw_only=True)
class StationWork:
    """What a whole batch takes at one station, the change-over left out."""

    station: Station
    duration_s: int

    def __post_init__(self) -> None:
        require_count(self, "duration_s")


@dataclass(frozen=True, kw_only=True)
class Batch:
    """Cables made in one go with one set-up.

    ``line`` names the machines whose settings follow each other ("coax", "solder"): batches of
    different lines do not change each other over. ``qualified``: who may make this set-up; it
    counts at the stations the problem names in ``qualified_stations``. ``due_s``: when the
    packed batch must be there, ``None`` for no hour. ``late_weight``: how much a second late
    counts against the other batches.
    """

    id: str
    line: str
    setting: StationSetting
    piece_ids: tuple[str, ...]
    work: tuple[StationWork, ...]
    ready_s: int
    due_s: int | None
    late_weight: float
    qualified: frozenset[str]

    def __post_init__(self) -> None:
        require_text(self, "id", "line")
        require_count(self, "ready_s")
        require_positive(self, "late_weight")
        if self.due_s is not None:
            require_count(self, "due_s")
        ranks = [work.station.rank for work in self.work]
        if not ranks or ranks != sorted(set(ranks)):
            raise BadValue(
                owner="Batch",
                field="work",
                value=tuple(str(work.station) for work in self.work),
                accepted="one or more stations, each once, in the order a cable passes them",
            )


@dataclass(frozen=True, kw_only=True)
class Person:
    """Who works at which stations, from when until when."""

    id: str
    stations: frozenset[Station]
    from_s: int
    until_s: int

    def __post_init__(self) -> None:
        require_text(self, "id")
        require_count(self, "from_s")
        require_count(self, "until_s", at_least=self.from_s + 1)


@dataclass(frozen=True, kw_only=True)
class Line:
    """A line of machines and how it stands now; ``None``: nothing is mounted."""

    name: str
    setting_now: StationSetting | None

    def __post_init__(self) -> None:
        require_text(self, "name")


@dataclass(frozen=True, kw_only=True)
class Weights:
    """What a second of change-over and a second of lateness count against each other.

    The order of batches is the one with the least
    ``change_over x seconds of change-over + late x sum(late_weight x seconds late)``.
    """

    change_over: float
    late: float

    def __post_init__(self) -> None:
        require_positive(self, "change_over", "late")


@dataclass(frozen=True, kw_only=True)
class BenchProblem:
    """Everything one bench plan needs, checked as a whole; raises InputFaults with all faults."""

    batches: tuple[Batch, ...]
    people: tuple[Person, ...]
    lines: tuple[Line, ...]
    rule: ChangeOverRule
    weights: Weights
    qualified_stations: frozenset[Station]

    def __post_init__(self) -> None:
        faults = list(self._faults())
        if faults:
            raise InputFaults(faults)

    def _faults(self) -> Iterator[Fault]:
        for field, names in (
            ("batches", [batch.id for batch in self.batches]),
            ("people", [person.id for person in self.people]),
            ("lines", [line.name for line in self.lines]),
        ):
            for name, count in sorted(Counter(names).items()):
                if count > 1:
                    yield _fault(field, name, f"given {count} times", "each once")
        lines = {line.name for line in self.lines}
        people = {person.id for person in self.people}
        for batch in self.batches:
            if batch.line not in lines:
                yield _fault(
                    f"batch {batch.id}, line", batch.line, "no such line", ", ".join(sorted(lines))
                )
            for unknown in sorted(batch.qualified - people):
                yield _fault(
                    f"batch {batch.id}, qualified",
                    unknown,
                    "nobody of that name works today",
                    ", ".join(sorted(people)),
                )


def _fault(field: str, value: str, problem: str, accepted: str) -> Fault:
    return Fault(
        file="bench problem",
        row=None,
        field=field,
        value=value,
        problem=problem,
        accepted=accepted or "none is known",
    )
