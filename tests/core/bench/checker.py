"""Looks a bench plan over without any code of the engine."""

from collections.abc import Iterable
from itertools import pairwise

from reelwright.core.bench import Batch, BenchPlan, BenchProblem, Station, StationRow


def wrong_with(problem: BenchProblem, plan: BenchPlan) -> list[str]:
    """Return everything that is wrong with a plan, in words; an empty list: nothing is."""
    wrong = []
    for person in problem.people:
        if _overlap(row for row in plan.rows if row.person_id == person.id):
            wrong.append(f"{person.id} is at two stations at once")
    for station in Station:
        if _overlap(row for row in plan.rows if row.station is station):
            wrong.append(f"two batches at {station}")
    for batch in problem.batches:
        wrong += _walk(batch, plan)
        wrong += _hands(batch, problem, plan)
    return [*wrong, *_line_order(plan)]


def _overlap(rows: Iterable[StationRow]) -> bool:
    ordered = sorted(rows, key=lambda row: (row.start_s, row.finish_s))
    return any(before.finish_s > after.start_s for before, after in pairwise(ordered))


def _walk(batch: Batch, plan: BenchPlan) -> list[str]:
    rows = [row for row in plan.rows if row.batch_id == batch.id]
    if [row.station for row in rows] != [work.station for work in batch.work]:
        return [f"{batch.id} does not walk its way"]
    wrong = []
    if any(before.finish_s > after.start_s for before, after in pairwise(rows)):
        wrong.append(f"{batch.id} is at two stations at once")
    if rows[0].start_s < batch.ready_s:
        wrong.append(f"{batch.id} begins before it is ready")
    spent = [row.finish_s - row.start_s - row.change_over_s for row in rows]
    if spent != [work.duration_s for work in batch.work]:
        wrong.append(f"{batch.id} loses or gains time")
    changes = [
        change.duration_s
        for order in plan.orders
        for change in order.change_overs
        if change.batch_id == batch.id
    ]
    if changes != [sum(row.change_over_s for row in rows)]:
        wrong.append(f"change-over of {batch.id} lost")
    return wrong


def _hands(batch: Batch, problem: BenchProblem, plan: BenchPlan) -> list[str]:
    people = {person.id: person for person in problem.people}
    wrong = []
    for row in plan.rows:
        person = people[row.person_id]
        if row.station not in person.stations or row.start_s < person.from_s:
            wrong.append(f"{person.id} cannot do {row.station} then")
        guarded = row.station in problem.qualified_stations
        if row.batch_id == batch.id and guarded and person.id not in batch.qualified:
            wrong.append(f"{person.id} is not qualified for {batch.id}")
    return wrong


def _line_order(plan: BenchPlan) -> list[str]:
    wrong = []
    for order in plan.orders:
        for station in (Station.STRIP, Station.PRESS, Station.SOLDER, Station.TEST):
            rows = sorted(
                (row for row in plan.rows if row.station is station),
                key=lambda row: (row.start_s, row.finish_s),
            )
            mine = [row.batch_id for row in rows if row.batch_id in order.batch_ids]
            if mine != [name for name in order.batch_ids if name in mine]:
                wrong.append(f"{order.line} out of its order at {station}")
    return wrong
