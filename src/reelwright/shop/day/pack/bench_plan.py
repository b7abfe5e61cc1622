"""The day at the benches, on one sheet."""

from collections import defaultdict
from collections.abc import Mapping
from typing import Any

from reelwright.documents.bench_plan import BenchPlanSheet, BenchRow, PersonLoad
from reelwright.drawings.day import Day, DayBlock, DayMark, DayRow, draw_day
from reelwright.shop.day.benches_planned import COURIER_AT, DAY_ENDS, DAY_STARTS
from reelwright.shop.day.pack.gather import PackData
from reelwright.shop.day.words import SPACE, counted

_SECONDS_PER_MINUTE = 60
_STATION_NAMES = {
    "cut": "cut",
    "strip": "strip",
    "press": "press",
    "solder": "solder",
    "weld": "weld",
    "polish": "polish",
    "dress": "dress",
    "inspect": "inspect",
    "test": "test",
    "label": "label",
    "pack": "pack",
}


def bench_paper(data: PackData) -> BenchPlanSheet | None:
    """Return the sheet, or None where nothing is to be made."""
    if data.bench_plan is None:
        return None
    content = data.bench_plan.content
    late = [times for times in content["times"] if times["late_s"]]
    change_over_min = round(content["change_over_s"] / _SECONDS_PER_MINUTE)
    proven = all(order["proven"] for order in content["orders"])
    return BenchPlanSheet(
        mark=data.mark("BEN"),
        sentence=(
            f"{counted(len(content['batches']), 'batch', 'batches')}, "
            f"{change_over_min}{SPACE}min of change-over, "
            f"{'all in time' if not late else f'{len(late)} late'}"
        ),
        lead=(
            "The order of each line of machines is "
            + ("proven: no other order changes over less." if proven else "good, not proven best.")
            + " Times are the quoted minutes of each station, without breaks."
        ),
        day_svg=draw_day(day_view(content)),
        rows=_rows(content),
        people=tuple(
            PersonLoad(
                person=load["person_id"],
                load_min=load["busy_s"] / _SECONDS_PER_MINUTE,
                present_min=_minute(DAY_ENDS) - _minute(DAY_STARTS),
                note=(
                    f"{round(load['over_s'] / _SECONDS_PER_MINUTE)}{SPACE}min beyond the day"
                    if load["over_s"]
                    else ""
                ),
            )
            for load in content["loads"]
        ),
        late=(
            *(
                f"{times['batch_id']} is packed at {_clock(times['finish_s'])}, "
                f"{round(times['late_s'] / _SECONDS_PER_MINUTE)}{SPACE}min after the courier."
                for times in late
            ),
            *(
                f"{each['batch']} is not planned: {' '.join(each['reasons'])}"
                for each in content["not_planned"]
            ),
        ),
    )


def _minute(at: Any) -> int:
    return int(at.hour * 60 + at.minute)


def _after(seconds: float) -> float:
    return _minute(DAY_STARTS) + seconds / _SECONDS_PER_MINUTE


def _clock(seconds: float) -> str:
    minute = round(_after(seconds))
    return f"{minute // 60:02d}:{minute % 60:02d}"


def day_view(content: Mapping[str, Any]) -> Day:
    """Return a recorded bench plan as it is drawn."""
    late = {times["batch_id"] for times in content["times"] if times["late_s"]}
    blocks: dict[str, list[DayBlock]] = defaultdict(list)
    who: dict[str, list[str]] = defaultdict(list)
    for row in sorted(content["rows"], key=lambda each: (each["start_s"], each["batch_id"])):
        blocks[row["station"]].append(
            DayBlock(
                change_over_start_min=_after(row["start_s"]),
                start_min=_after(row["start_s"] + row["change_over_s"]),
                finish_min=_after(row["finish_s"]),
                label=row["batch_id"].replace(" rev ", " "),
                note="",
                late=row["batch_id"] in late,
            )
        )
        if row["person_id"] not in who[row["station"]]:
            who[row["station"]].append(row["person_id"])
    end = max([_minute(DAY_ENDS), *(_after(row["finish_s"]) for row in content["rows"])])
    return Day(
        title="The day at the benches",
        begin_min=_minute(DAY_STARTS),
        end_min=end,
        rows=tuple(
            DayRow(station=station, who=", ".join(who[station]), blocks=tuple(blocks[station]))
            for station in _STATION_NAMES
            if station in blocks
        ),
        marks=(DayMark(minute=_minute(COURIER_AT), label="courier"),),
    )


def _rows(content: Mapping[str, Any]) -> tuple[BenchRow, ...]:
    batches = {batch["id"]: batch for batch in content["batches"]}
    change = {each["batch"]: each for order in content["orders"] for each in order["change_overs"]}
    people: dict[str, list[str]] = defaultdict(list)
    for row in content["rows"]:
        if row["person_id"] not in people[row["batch_id"]]:
            people[row["batch_id"]].append(row["person_id"])
    times = sorted(content["times"], key=lambda each: (each["start_s"], each["batch_id"]))
    rows = []
    for number, each in enumerate(times, start=1):
        batch = batches[each["batch_id"]]
        rows.append(
            BenchRow(
                sequence=number,
                start=_clock(each["start_s"]),
                finish=_clock(each["finish_s"]),
                batch=", ".join(batch["lines"]),
                setup=batch["id"],
                pieces=len(batch["pieces"]),
                change_over=_change_over(change.get(batch["id"])),
                person=", ".join(people[batch["id"]]),
                due=batch["due"] or "",
                late=bool(each["late_s"]),
            )
        )
    return tuple(rows)


def _change_over(change: Mapping[str, Any] | None) -> str:
    if change is None or not change["duration_s"]:
        return "none"
    what = ", ".join(part["what"] for part in change["parts"])
    return f"{change['duration_s'] / _SECONDS_PER_MINUTE:g}{SPACE}min: {what}"
