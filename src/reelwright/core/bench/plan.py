"""What a bench plan says: the order, the change-overs, who does what when, what is late."""

from dataclasses import dataclass

from reelwright.core.bench.problem import Station
from reelwright.core.verdicts import Reason


@dataclass(frozen=True, kw_only=True)
class ChangeOverPart:
    """One thing to change: where, what, how long."""

    station: Station
    what: str
    duration_s: int


@dataclass(frozen=True, kw_only=True)
class ChangeOver:
    """All there is to change in front of one batch."""

    batch_id: str
    parts: tuple[ChangeOverPart, ...]

    @property
    def duration_s(self) -> int:
        """Seconds altogether."""
        return sum(part.duration_s for part in self.parts)

    def at(self, station: Station) -> int:
        """Return the seconds spent at one station."""
        return sum(part.duration_s for part in self.parts if part.station is station)


@dataclass(frozen=True, kw_only=True)
class LineOrder:
    """The order of one line. ``proven``: no order of these batches weighs less (see search)."""

    line: str
    batch_ids: tuple[str, ...]
    change_overs: tuple[ChangeOver, ...]
    proven: bool

    @property
    def change_over_s(self) -> int:
        """Seconds of change-over altogether."""
        return sum(change.duration_s for change in self.change_overs)


@dataclass(frozen=True, kw_only=True)
class StationRow:
    """One batch at one station: the change-over runs from start, the work follows it."""

    station: Station
    batch_id: str
    person_id: str
    start_s: int
    change_over_s: int
    finish_s: int


@dataclass(frozen=True, kw_only=True)
class BatchTimes:
    """When a batch is begun and finished; ``late_s`` is 0 where it is in time."""

    batch_id: str
    start_s: int
    finish_s: int
    due_s: int | None

    @property
    def late_s(self) -> int:
        """Seconds after its hour; 0 where it is in time or has none."""
        return 0 if self.due_s is None else max(0, self.finish_s - self.due_s)


@dataclass(frozen=True, kw_only=True)
class PersonLoad:
    """What one person is given, change-overs included; ``over_s``: beyond the working hours."""

    person_id: str
    busy_s: int
    over_s: int


@dataclass(frozen=True, kw_only=True)
class NotPlanned:
    """A batch that nobody here may make today, and why."""

    batch_id: str
    reasons: tuple[Reason, ...]


@dataclass(frozen=True, kw_only=True)
class BenchPlan:
    """The whole plan of one day."""

    orders: tuple[LineOrder, ...]
    rows: tuple[StationRow, ...]
    times: tuple[BatchTimes, ...]
    loads: tuple[PersonLoad, ...]
    not_planned: tuple[NotPlanned, ...]

    @property
    def change_over_s(self) -> int:
        """Seconds of change-over over all lines."""
        return sum(order.change_over_s for order in self.orders)

    @property
    def late(self) -> tuple[BatchTimes, ...]:
        """The batches that miss their hour, the latest first."""
        return tuple(
            sorted(
                (times for times in self.times if times.late_s),
                key=lambda times: (-times.late_s, times.batch_id),
            )
        )
