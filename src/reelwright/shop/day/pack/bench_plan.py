"""The day at the benches, on one sheet."""

import datetime as dt
from collections import defaultdict
from collections.abc import Mapping
from typing import Any

from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.words import counted, listed
from reelwright.documents.bench_plan import BenchPlanSheet, BenchRow, PersonLoad
from reelwright.drawings.day import Day, DayBlock, DayMark, DayRow, draw_day
from reelwright.shop.day.benches_planned import COURIER_AT, DAY_ENDS, DAY_STARTS
from reelwright.shop.day.pack.gather import PackData

_SECONDS_PER_MINUTE = 60
_MINUTES_A_DAY = 24 * 60
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


# A narrower drawing prints its text larger on 170 mm of paper.
_DRAWING_PX = 760.0


def bench_paper(data: PackData) -> BenchPlanSheet | None:
    """Return the sheet, or None where nothing is to be made."""
    if data.bench_plan is None:
        return None
    content = data.bench_plan.content
    late = [times for times in content["times"] if times["late_s"]]
    change_over_min = round(content["change_over_s"] / _SECONDS_PER_MINUTE)
    proven = all(order["proven"] for order in content["orders"])
    finish_s = max((times["finish_s"] for times in content["times"]), default=0)
    return BenchPlanSheet(
        mark=data.mark("BEN"),
        sentence=(
            f"{counted(len(content['batches']), 'batch', 'batches')} until {clock(finish_s)}, "
            f"{change_over_min}{NARROW_SPACE}min of change-over, "
            f"{'all in time' if not late else f'{len(late)} late'}"
        ),
        lead=(
            "The order of each line of machines is "
            + ("proven: no other order changes over less." if proven else "good, not proven best.")
            + " Times are the quoted minutes of each station, without breaks. The numbers in the "
            "drawing are those of the table; hatched is change-over."
        ),
        day_svg=draw_day(day_view(content), width_px=_DRAWING_PX),
        rows=_rows(content),
        people=tuple(_load(content, load) for load in content["loads"]),
        late=(
            *(
                f"{times['batch_id']} is packed at {clock(times['finish_s'])}, "
                f"{_minutes(times['late_s'])} after the courier."
                for times in late
            ),
            *(
                f"{each['batch']} is not planned: {' '.join(each['reasons'])}"
                for each in content["not_planned"]
            ),
        ),
        beyond=beyond_the_day(content, on=data.on),
    )


def beyond_the_day(content: Mapping[str, Any], *, on: dt.date) -> str:
    """Say what is finished after the day's end, and whether it may wait; empty: all is before."""
    ends_s = (_minute(DAY_ENDS) - _minute(DAY_STARTS)) * _SECONDS_PER_MINUTE
    numbers = batch_numbers(content)
    over = [times for times in content["times"] if times["finish_s"] > ends_s]
    if not over:
        return ""
    dues = {batch["id"]: batch["due"] for batch in content["batches"]}
    today = [
        times for times in over if dues[times["batch_id"]] and dues[times["batch_id"]] <= str(on)
    ]
    last = max(times["finish_s"] for times in over)
    told = (
        f"The work runs until {clock(last)}; the day ends at {DAY_ENDS:%H:%M}, and "
        f"{_named([numbers[times['batch_id']] for times in over])} "
        f"{'ends' if len(over) == 1 else 'end'} after it"
    )
    if today:
        due = [numbers[times["batch_id"]] for times in today]
        return f"{told}; {_named(due)} {'is' if len(due) == 1 else 'are'} due today."
    none = (
        "it is not due today, so the rest of it"
        if len(over) == 1
        else ("none is due today, so the rest of them")
    )
    return f"{told}; {none} may wait until tomorrow."


def _named(numbers: list[int]) -> str:
    noun = "batch" if len(numbers) == 1 else "batches"
    return f"{noun} {listed(str(number) for number in sorted(numbers))}"


def batch_numbers(content: Mapping[str, Any]) -> dict[str, int]:
    """Return the number of each batch by its id: its place by when its work begins, from 1."""
    times = sorted(content["times"], key=lambda each: (each["start_s"], each["batch_id"]))
    return {each["batch_id"]: number for number, each in enumerate(times, start=1)}


def _load(content: Mapping[str, Any], load: Mapping[str, Any]) -> PersonLoad:
    person = load["person_id"]
    until_s = max(
        (row["finish_s"] for row in content["rows"] if row["person_id"] == person), default=0
    )
    return PersonLoad(
        person=person,
        load_min=load["busy_s"] / _SECONDS_PER_MINUTE,
        present_min=_minute(DAY_ENDS) - _minute(DAY_STARTS),
        note=f"until {clock(until_s)}, after the day's end" if load["over_s"] else "",
    )


def _minutes(seconds: float) -> str:
    return f"{round(seconds / _SECONDS_PER_MINUTE)}{NARROW_SPACE}min"


def _minute(at: Any) -> int:
    return int(at.hour * 60 + at.minute)


def _after(seconds: float) -> float:
    return _minute(DAY_STARTS) + seconds / _SECONDS_PER_MINUTE


def clock(seconds: float) -> str:
    """Return seconds from the start of work as an hour of the day: 15:37, or 02:10 (+1 day)."""
    days, minute = divmod(round(_after(seconds)), _MINUTES_A_DAY)
    later = f" (+{counted(days, 'day')})" if days else ""
    return f"{minute // 60:02d}:{minute % 60:02d}{later}"


def day_view(content: Mapping[str, Any]) -> Day:
    """Return a recorded bench plan as it is drawn."""
    late = {times["batch_id"] for times in content["times"] if times["late_s"]}
    numbers = batch_numbers(content)
    blocks: dict[str, list[DayBlock]] = defaultdict(list)
    who: dict[str, list[str]] = defaultdict(list)
    for row in sorted(content["rows"], key=lambda each: (each["start_s"], each["batch_id"])):
        if _after(row["start_s"]) >= _MINUTES_A_DAY:
            continue  # The drawing is of one day; the table beside it has every batch.
        blocks[row["station"]].append(
            DayBlock(
                change_over_start_min=_after(row["start_s"]),
                start_min=min(_MINUTES_A_DAY, _after(row["start_s"] + row["change_over_s"])),
                finish_min=min(_MINUTES_A_DAY, _after(row["finish_s"])),
                label=str(numbers[row["batch_id"]]),
                note=row["batch_id"].replace(" rev ", " "),
                late=row["batch_id"] in late,
            )
        )
        if row["person_id"] not in who[row["station"]]:
            who[row["station"]].append(row["person_id"])
    ends = [_minute(DAY_ENDS), *(_after(row["finish_s"]) for row in content["rows"])]
    end = min(_MINUTES_A_DAY, max(ends))
    first = min((_after(row["start_s"]) for row in content["rows"]), default=0.0)
    begin = max(_minute(DAY_STARTS), min(_minute(COURIER_AT), 60 * int(first // 60)))
    return Day(
        title="The day at the benches",
        # From the hour in which the work begins: a plan made in the afternoon shows no morning.
        begin_min=begin,
        end_min=end,
        rows=tuple(
            DayRow(station=station, who=", ".join(who[station]), blocks=tuple(blocks[station]))
            for station in _STATION_NAMES
            if station in blocks
        ),
        marks=(
            DayMark(minute=_minute(COURIER_AT), label="courier"),
            DayMark(minute=_minute(DAY_ENDS), label="end of the day"),
        ),
    )


def _rows(content: Mapping[str, Any]) -> tuple[BenchRow, ...]:
    batches = {batch["id"]: batch for batch in content["batches"]}
    change = {each["batch"]: each for order in content["orders"] for each in order["change_overs"]}
    people: dict[str, list[str]] = defaultdict(list)
    for row in content["rows"]:
        if row["person_id"] not in people[row["batch_id"]]:
            people[row["batch_id"]].append(row["person_id"])
    numbers = batch_numbers(content)
    rows = []
    for each in sorted(content["times"], key=lambda each: numbers[each["batch_id"]]):
        batch = batches[each["batch_id"]]
        rows.append(
            BenchRow(
                sequence=numbers[batch["id"]],
                start=clock(each["start_s"]),
                finish=clock(each["finish_s"]),
                batch=", ".join(batch["lines"]),
                setup=batch["id"],
                pieces=len(batch["pieces"]),
                change_over=_change_over(change.get(batch["id"])),
                person=", ".join(people[batch["id"]]),
                due=_day(batch["due"]),
                late=bool(each["late_s"]),
            )
        )
    return tuple(rows)


def _day(due: str | None) -> str:
    if not due:
        return ""
    day = dt.date.fromisoformat(due)
    return f"{day:%a} {day.day} {day:%b}"


def _change_over(change: Mapping[str, Any] | None) -> str:
    if change is None or not change["duration_s"]:
        return ""
    what = ", ".join(part["what"] for part in change["parts"])
    return f"{change['duration_s'] / _SECONDS_PER_MINUTE:g}{NARROW_SPACE}min: {what}"
