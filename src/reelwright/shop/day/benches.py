"""The bench plan of a day from the records, and into them."""

import datetime as dt
from dataclasses import asdict
from typing import Any

from reelwright.core.bench.problem import Person as BenchPerson
from reelwright.core.bench.problem import Station, StationSetting
from reelwright.shop.day.benches_planned import (
    DAY_ENDS,
    NOTHING_YET,
    Benches,
    BenchPiece,
    SoFar,
    line_of,
    plan_benches,
    seconds,
)
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.day.waiting import due_of
from reelwright.shop.orders.selectors import lines_by_id
from reelwright.shop.people.models import Person
from reelwright.shop.people.selectors import skills_on
from reelwright.shop.setups.to_core import setting_value
from reelwright.shop.tools.selectors import stations
from reelwright.shop.work.models import BenchPlan
from reelwright.shop.work.selectors import (
    newest_bench_plan,
    pieces_cut,
    pieces_not_cut,
    travellers_of_lines,
)
from reelwright.shop.work.services import bench_plan_record

# Where the machines of a line are set; what stands there last is what is mounted.
_SETTING_STATIONS = frozenset({"strip", "press", "solder", "weld", "polish"})


def record_benches(
    *, by: Person, shelf: Shelf, on: dt.date, now: dt.time | None
) -> BenchPlan | None:
    """Plan the benches for every piece not finished yet and record it; None where there is none."""
    waiting = pieces_not_cut()
    cut_today = pieces_cut(on=on)
    rows = [*cut_today, *waiting]
    if not rows:
        return None
    line_ids = {row.line_id for row in rows}
    lines = {view.id: view for view in lines_by_id(line_ids)}
    travellers = travellers_of_lines(line_ids)
    by_revision = {sheet.revision_id: sheet for sheet in shelf.set_ups.values()}
    pieces = []
    for row in rows:
        view, sheet = lines[row.line_id], travellers[row.line_id]
        end_a, end_b = by_revision.get(sheet.revision_a), by_revision.get(sheet.revision_b)
        if end_a is None or end_b is None:
            # Withdrawn since: the pieces wait until the line has a set-up that may be sold.
            continue
        pieces.append(
            BenchPiece(
                code=row.code,
                line_label=view.label,
                family=shelf.cables[row.cable].family,
                end_a=end_a,
                end_b=end_b,
                finished_mm=row.finished_mm,
                due=due_of(view),
            )
        )
    people, qualified = _people(on)
    start_s = 0 if now is None else max(0, seconds(now))
    benches = plan_benches(
        pieces=pieces,
        people=people,
        qualified=qualified,
        family_times=shelf.family_times,
        change_over=shelf.change_over,
        today=on,
        start_s=start_s,
        so_far=_so_far(on, start_s, shelf),
    )
    return bench_plan_record(by=by, on=on, content=bench_content(benches))


def _so_far(on: dt.date, start_s: int, shelf: Shelf) -> SoFar:
    """No step of the benches is booked yet: what the last plan had done by now is taken as done."""
    last = newest_bench_plan(on=on)
    if last is None or start_s == 0:
        return NOTHING_YET
    content = last.content
    sheets = {sheet.name: sheet for sheet in shelf.set_ups.values()}
    left_s: dict[tuple[str, str], int] = {}
    mounted_at: dict[str, tuple[int, StationSetting]] = {}
    batches = {batch["id"]: batch for batch in content["batches"]}
    for row in content["rows"]:
        work_start = row["start_s"] + row["change_over_s"]
        left = row["finish_s"] - max(work_start, start_s)
        left_s[row["batch_id"], row["station"]] = max(0, left)
        ends = [sheets[name] for name in batches[row["batch_id"]]["set_ups"] if name in sheets]
        if row["start_s"] >= start_s or not ends or row["station"] not in _SETTING_STATIONS:
            continue
        line = line_of(shelf.cables[ends[0].cable_code].family)
        if line not in mounted_at or mounted_at[line][0] < row["start_s"]:
            mounted_at[line] = (row["start_s"], setting_value(ends))
    return SoFar(
        left_s=left_s,
        pieces={batch["id"]: frozenset(batch["pieces"]) for batch in content["batches"]},
        mounted={line: setting for line, (_, setting) in mounted_at.items()},
    )


def _people(on: dt.date) -> tuple[tuple[BenchPerson, ...], dict[str, frozenset[str]]]:
    kinds = {station.code: Station(station.kind) for station in stations()}
    people: list[BenchPerson] = []
    qualified: dict[str, frozenset[str]] = {}
    for skills in skills_on(on):
        at = frozenset(kinds[code] for code in skills.station_codes if code in kinds)
        if not at:
            continue
        people.append(
            BenchPerson(id=skills.display_name, stations=at, from_s=0, until_s=seconds(DAY_ENDS))
        )
        for method in skills.methods:
            qualified[method] = qualified.get(method, frozenset()) | {skills.display_name}
    return tuple(people), qualified


def bench_content(benches: Benches) -> dict[str, Any]:
    """Return the plan as it is recorded."""
    plan = benches.plan
    return {
        "batches": [
            {
                "id": batch.id,
                "set_ups": list(batch.set_ups),
                "pieces": list(batch.piece_codes),
                "lines": list(batch.line_labels),
                "due": None if batch.due is None else batch.due.isoformat(),
            }
            for batch in benches.batches
        ],
        "orders": [
            {
                "line": order.line,
                "batches": list(order.batch_ids),
                "proven": order.proven,
                "change_overs": [
                    {
                        "batch": change.batch_id,
                        "duration_s": change.duration_s,
                        "parts": [
                            {
                                "station": str(part.station),
                                "what": part.what,
                                "duration_s": part.duration_s,
                            }
                            for part in change.parts
                        ],
                    }
                    for change in order.change_overs
                ],
            }
            for order in plan.orders
        ],
        "rows": [{**asdict(row), "station": str(row.station)} for row in plan.rows],
        "times": [{**asdict(times), "late_s": times.late_s} for times in plan.times],
        "loads": [asdict(load) for load in plan.loads],
        "not_planned": [
            {"batch": each.batch_id, "reasons": [reason.sentence for reason in each.reasons]}
            for each in plan.not_planned
        ],
        "change_over_s": plan.change_over_s,
    }
