"""The bench plan: the order of each line, then the hours of everyone."""

from collections.abc import Iterator

from reelwright.core.bench.order import order_line
from reelwright.core.bench.plan import BenchPlan, NotPlanned
from reelwright.core.bench.problem import BenchProblem
from reelwright.core.bench.timetable import Timetable, loads_of, people_for, times_of
from reelwright.core.verdicts import Reason


def sequence(problem: BenchProblem) -> BenchPlan:
    """Return the bench plan. A batch that nobody may make is left out, with the reason."""
    not_planned = tuple(_not_planned(problem))
    left_out = {one.batch_id for one in not_planned}
    batches = tuple(batch for batch in problem.batches if batch.id not in left_out)
    orders = tuple(
        order_line(problem, line, tuple(batch for batch in batches if batch.line == line.name))
        for line in sorted(problem.lines, key=lambda line: line.name)
    )
    rows = Timetable(problem, batches, orders).fill()
    return BenchPlan(
        orders=orders,
        rows=rows,
        times=times_of(batches, rows),
        loads=loads_of(problem, rows),
        not_planned=not_planned,
    )


def _not_planned(problem: BenchProblem) -> Iterator[NotPlanned]:
    for batch in sorted(problem.batches, key=lambda batch: batch.id):
        reasons = tuple(
            Reason(
                code="nobody qualified",
                sentence=f"Nobody who works today may {work.station} {batch.id}.",
            )
            for work in batch.work
            if not people_for(problem, batch, work.station)
        )
        if reasons:
            yield NotPlanned(batch_id=batch.id, reasons=reasons)
