"""A line due today that comes when the benches run: break in, or let the running batch finish?

Both are told with their chance and their price; a person picks. The bench plan itself is made anew
with the line in it, as the engine finds best.
"""

import dataclasses
import datetime as dt
import math
from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from reelwright.core.bench.change_over import differences
from reelwright.core.bench.problem import StationSetting
from reelwright.core.bench.rush import RushCase, RushChoice, rush_choices
from reelwright.core.pricing.price import minutes_each, rush_surcharge
from reelwright.core.quantities.show import show_chance
from reelwright.shop.day.benches_planned import COURIER_AT, DAY_STARTS, line_of, seconds
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.answer import ACCEPTED, LineAnswer, Make
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.to_core import setting_value

# Station times of a small shop against their quotes (common practice, no published source).
RELATIVE_SPREAD = 0.15
# One failed article made again while the rest waits (common practice, no published source).
REMAKE_S = 600
_ALMOST_SURE = 0.99
_MAKES_ENDS = ("press", "solder", "weld", "polish")


def with_rush(
    *,
    answer: LineAnswer,
    due: dt.date | None,
    plan: Mapping[str, Any] | None,
    shelf: Shelf,
    now: dt.time | None,
) -> LineAnswer:
    """Return the answer with a note on both choices, where the line is due today and comes late.

    ``plan``: the content of the bench plan in force; None where none was made.
    """
    make = answer.make
    if answer.state != ACCEPTED or make is None or plan is None or now is None:
        return answer
    if due != shelf.today or seconds(now) <= 0:
        return answer
    return dataclasses.replace(
        answer, notes=(*answer.notes, rush_note(make, plan, shelf, seconds(now)))
    )


def rush_note(make: Make, plan: Mapping[str, Any], shelf: Shelf, now_s: int) -> str:
    """Return both choices in words, or the only one where no batch is running."""
    family = shelf.cables[make.cable].family
    running = _running(plan, shelf, line_of(family), now_s)
    ends = [
        shelf.set_ups[make.cable, make.connector_a],
        shelf.set_ups[make.cable, make.connector_b],
    ]
    rush = setting_value(ends)
    before = None if running is None else running.setting
    after = None if running is None else running.next_setting
    extra_s = 0
    if running is not None:
        back_s = _seconds(shelf, rush, running.setting)
        onward_s = 0 if after is None else _seconds(shelf, before, after)
        instead_s = 0 if after is None else _seconds(shelf, rush, after)
        extra_s = max(0, back_s + onward_s - instead_s)
    case = RushCase(
        now_s=now_s,
        due_s=seconds(COURIER_AT),
        running_left_s=0 if running is None else running.left_s,
        rush_steps_s=_steps(make, shelf, _parts(shelf, before, rush)),
        break_in_change_over_s=extra_s,
        relative_spread=RELATIVE_SPREAD,
        chance_of_remake=1 - float(shelf.pricing.first_pass_yield) ** make.quantity,
        remake_s=REMAKE_S,
    )
    broken, behind = rush_choices(case)
    if running is None:
        return f"Due today: nothing is in its way at the benches, so that it is {_told(broken)}."
    surcharge = rush_surcharge(
        extra_change_over_minutes=Decimal(extra_s) / 60,
        disturbance=shelf.pricing.rush_floor,
        rates=shelf.pricing.rates,
    )
    more = f"{math.ceil(extra_s / 60)}\u202fmin"
    return (
        f"Due today, while {running.name} has {round(running.left_s / 60)}\u202fmin to run. Broken "
        f"in now it is {_told(broken)}, for {more} more of change-over and "
        f"a surcharge of {surcharge:.2f} {shelf.pricing.currency}; behind that batch it is "
        f"{_told(behind)}, without surcharge."
    )


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Running:
    """The batch whose ends are being made: its name, what is left, its setting and the next."""

    name: str
    left_s: int
    setting: StationSetting
    next_setting: StationSetting | None


def _running(plan: Mapping[str, Any], shelf: Shelf, line: str, now_s: int) -> _Running | None:
    sheets = {sheet.name: sheet for sheet in shelf.set_ups.values()}
    ends_of = {
        batch["id"]: [sheets[name] for name in batch["set_ups"] if name in sheets]
        for batch in plan["batches"]
    }
    rows = sorted(
        (
            row
            for row in plan["rows"]
            if row["station"] in _MAKES_ENDS and _on_line(ends_of[row["batch_id"]], shelf, line)
        ),
        key=lambda row: int(row["start_s"]),
    )
    for place, row in enumerate(rows):
        following = rows[place + 1] if place + 1 < len(rows) else None
        if row["start_s"] <= now_s < row["finish_s"]:
            return _Running(
                name=row["batch_id"],
                left_s=row["finish_s"] - max(now_s, row["start_s"] + row["change_over_s"]),
                setting=setting_value(ends_of[row["batch_id"]]),
                next_setting=None
                if following is None
                else setting_value(ends_of[following["batch_id"]]),
            )
    return None


def _on_line(ends: Sequence[SetUpSheet], shelf: Shelf, line: str) -> bool:
    return bool(ends) and line_of(shelf.cables[ends[0].cable_code].family) == line


def _parts(shelf: Shelf, before: StationSetting | None, after: StationSetting) -> list[int]:
    return [part.duration_s for part in differences(shelf.change_over, before, after)]


def _seconds(shelf: Shelf, before: StationSetting | None, after: StationSetting) -> int:
    return sum(_parts(shelf, before, after))


def _steps(make: Make, shelf: Shelf, change_over_s: Sequence[int]) -> tuple[int, ...]:
    times = shelf.family_times[shelf.cables[make.cable].family]
    length_m = Decimal(make.finished_mm) / 1000
    work = [
        round(float(row.minutes) * 60 * make.quantity)
        for row in minutes_each(times.each, length_m=length_m)
    ]
    return (*change_over_s, *work)


def _told(choice: RushChoice) -> str:
    at = dt.datetime.combine(dt.date.min, DAY_STARTS) + dt.timedelta(seconds=choice.finish_s)
    if choice.slack_s < 0:
        return f"packed at {at:%H:%M}, after the courier"
    # Quoted minutes and a guessed spread support no more than that.
    sure = choice.chance_in_time > _ALMOST_SURE
    chance = (
        f"more than {show_chance(_ALMOST_SURE)}" if sure else show_chance(choice.chance_in_time)
    )
    return (
        f"packed at about {at:%H:%M}, {round(choice.slack_s / 60)}\u202fmin before the courier "
        f"({chance} in time, one remake reckoned with)"
    )
