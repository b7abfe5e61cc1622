"""The hours of the day: each batch walks through its stations, each station has one person.

Of all batches that could go on, the one that can begin first does; of these the one furthest
along, so that work begun is finished. A batch moves on as a whole. At the stations that are
changed over the batches of a line keep its order. A station is given to the person who can begin
first, of these to the one who can do least else. A change-over is done when the batch is there.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from reelwright.core.bench.plan import BatchTimes, ChangeOver, LineOrder, PersonLoad, StationRow
from reelwright.core.bench.problem import (
    TERMINATING,
    Batch,
    BenchProblem,
    Person,
    Station,
)

IN_LINE_ORDER = frozenset({Station.STRIP, *TERMINATING, Station.TEST})


def people_for(problem: BenchProblem, batch: Batch, station: Station) -> tuple[Person, ...]:
    """Return who may work on a batch at a station, sorted by name."""
    return tuple(
        person
        for person in sorted(problem.people, key=lambda person: person.id)
        if station in person.stations
        and (station not in problem.qualified_stations or person.id in batch.qualified)
    )


@dataclass(frozen=True, slots=True)
class _Turn:
    """One batch at its next station, as it could begin now."""

    start_s: int
    batch: Batch
    step: int
    person: Person
    change_over_s: int


class Timetable:
    """Fills the day; ``rows`` grows in the order in which work begins."""

    def __init__(
        self, problem: BenchProblem, batches: Iterable[Batch], orders: tuple[LineOrder, ...]
    ) -> None:
        self.problem = problem
        self.rows: list[StationRow] = []
        self._batches = {batch.id: batch for batch in batches}
        self._place = {
            name: (order.line, number)
            for order in orders
            for number, name in enumerate(order.batch_ids)
        }
        self._changes: dict[str, ChangeOver] = {
            change.batch_id: change for order in orders for change in order.change_overs
        }
        self._step = dict.fromkeys(self._batches, 0)
        self._free_batch = {name: batch.ready_s for name, batch in self._batches.items()}
        self._free_station: dict[Station, int] = {}
        self._free_person = {person.id: person.from_s for person in problem.people}

    def fill(self) -> tuple[StationRow, ...]:
        """Return the rows of all batches."""
        while True:
            turns = [turn for turn in map(self._turn, sorted(self._batches)) if turn is not None]
            if not turns:
                return tuple(self.rows)
            self._take(min(turns, key=self._preference))

    def _preference(self, turn: _Turn) -> tuple[int, int, int, str]:
        station = turn.batch.work[turn.step].station
        return (turn.start_s, -station.rank, self._place[turn.batch.id][1], turn.batch.id)

    def _turn(self, name: str) -> _Turn | None:
        batch, step = self._batches[name], self._step[name]
        if step == len(batch.work):
            return None
        station = batch.work[step].station
        if station in IN_LINE_ORDER and self._others_go_first(batch, station):
            return None
        ready = max(self._free_batch[name], self._free_station.get(station, 0))
        person = min(
            people_for(self.problem, batch, station),
            key=lambda one: (
                max(ready, self._free_person[one.id]),
                len(one.stations),
                one.id,
            ),
        )
        return _Turn(
            start_s=max(ready, self._free_person[person.id]),
            batch=batch,
            step=step,
            person=person,
            change_over_s=self._changes[name].at(station),
        )

    def _others_go_first(self, batch: Batch, station: Station) -> bool:
        line, place = self._place[batch.id]
        for name, other in self._batches.items():
            other_line, other_place = self._place[name]
            if other_line != line or other_place >= place:
                continue
            if any(work.station is station for work in other.work[self._step[name] :]):
                return True
        return False

    def _take(self, turn: _Turn) -> None:
        work = turn.batch.work[turn.step]
        finish = turn.start_s + turn.change_over_s + work.duration_s
        self.rows.append(
            StationRow(
                station=work.station,
                batch_id=turn.batch.id,
                person_id=turn.person.id,
                start_s=turn.start_s,
                change_over_s=turn.change_over_s,
                finish_s=finish,
            )
        )
        self._step[turn.batch.id] += 1
        self._free_batch[turn.batch.id] = finish
        self._free_station[work.station] = finish
        self._free_person[turn.person.id] = finish


def times_of(batches: Iterable[Batch], rows: tuple[StationRow, ...]) -> tuple[BatchTimes, ...]:
    """Return when each batch is begun and finished, in order of finish."""
    times = []
    for batch in batches:
        mine = [row for row in rows if row.batch_id == batch.id]
        times.append(
            BatchTimes(
                batch_id=batch.id,
                start_s=min(row.start_s for row in mine),
                finish_s=max(row.finish_s for row in mine),
                due_s=batch.due_s,
            )
        )
    return tuple(sorted(times, key=lambda one: (one.finish_s, one.batch_id)))


def loads_of(problem: BenchProblem, rows: tuple[StationRow, ...]) -> tuple[PersonLoad, ...]:
    """Return what each person is given, sorted by name."""
    loads = []
    for person in sorted(problem.people, key=lambda person: person.id):
        mine = [row for row in rows if row.person_id == person.id]
        last = max((row.finish_s for row in mine), default=person.from_s)
        loads.append(
            PersonLoad(
                person_id=person.id,
                busy_s=sum(row.finish_s - row.start_s for row in mine),
                over_s=max(0, last - person.until_s),
            )
        )
    return tuple(loads)
