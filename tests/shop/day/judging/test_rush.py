"""A rush line while the benches run: both choices with chance and price, and a person picks."""

import datetime as dt
from typing import Any

import pytest

from reelwright.shop.day.rush import rush_note, with_rush
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.answer import LineAnswer
from tests.shop.day.judging.conftest import Ask
from tests.shop.day.judging.test_states import plain

NOW_S = (6 * 60 + 10) * 60
"""14:10, from eight in the morning."""


def row(
    shelf: Shelf, cable: str, connector: str, start_min: int, finish_min: int
) -> dict[str, Any]:
    """A batch of one set-up at the press, in minutes after 14:10."""
    return {
        "batch_id": shelf.set_ups[cable, connector].name,
        "station": "press",
        "start_s": NOW_S + start_min * 60,
        "change_over_s": 0,
        "finish_s": NOW_S + finish_min * 60,
    }


def plan(*rows: dict[str, Any]) -> dict[str, Any]:
    """A bench plan of these rows."""
    return {
        "batches": [{"id": each["batch_id"], "set_ups": [each["batch_id"]]} for each in rows],
        "rows": list(rows),
    }


@pytest.fixture
def rush(ask: Ask) -> LineAnswer:
    """Two of 50 ft of VID-70, BNC to F, due today."""
    answer = ask(cable="VID-70", end_b="F", length="50 ft", quantity="2", due="2026-11-24")
    assert answer.state == "accepted"
    return answer


def test_both_choices_are_told_while_a_batch_runs(shelf: Shelf, rush: LineAnswer) -> None:
    """30 min of T-02 are left and T-05 follows: broken in the line is packed 30 min earlier, for
    mounting T-02 once more (10.5 min) and T-05 from there instead of from the rush (4 less)."""
    running = row(shelf, "VID-60", "BNC-60", -20, 30)
    following = row(shelf, "VID-70P", "BNC-70P", 30, 60)
    note = plain(rush_note(rush.make, plan(running, following), shelf, NOW_S))
    assert "has 30 min to run" in note
    assert "Broken in now" in note
    assert "behind that batch" in note
    assert "without surcharge" in note
    assert "7 min more of change-over and a surcharge of 29.12" in note
    finished = [word.rstrip(",") for word in note.split() if word[:2].isdigit() and ":" in word]
    first, second = (dt.datetime.strptime(each, "%H:%M") for each in finished)
    assert (second - first) == dt.timedelta(minutes=30)


def test_the_surcharge_is_the_minutes_and_the_floor(shelf: Shelf, rush: LineAnswer) -> None:
    """Nothing follows: what it costs is mounting the running set-up again, at 38.00 an hour, and
    25.00 for the disturbance; never a share of the price."""
    running = row(shelf, "VID-60", "BNC-60", -20, 30)
    note = plain(rush_note(rush.make, plan(running), shelf, NOW_S))
    minutes = int(note.split("for ")[1].split(" min more")[0])
    surcharge = float(note.split("surcharge of ")[1].split(" ")[0])
    assert minutes > 0
    assert surcharge == pytest.approx(25 + minutes * 38 / 60, abs=0.64)


def test_too_late_for_the_courier_is_said(shelf: Shelf, rush: LineAnswer) -> None:
    """Behind three hours of another batch no courier is met."""
    running = row(shelf, "VID-60", "BNC-60", -20, 180)
    note = plain(rush_note(rush.make, plan(running), shelf, NOW_S))
    assert note.count("after the courier") == 1


def test_other_machines_are_not_in_the_way(shelf: Shelf, rush: LineAnswer) -> None:
    """A loudspeaker batch at the welder does not hold up a coax."""
    running = row(shelf, "SPK-14", "BANANA", -20, 30) | {"station": "weld"}
    note = rush_note(rush.make, plan(running), shelf, NOW_S)
    assert "nothing is in its way" in note


def test_only_a_line_due_today_that_comes_late_is_a_rush(shelf: Shelf, rush: LineAnswer) -> None:
    """Before the day's work, without a plan, or due tomorrow, there is nothing to choose."""
    running = plan(row(shelf, "VID-60", "BNC-60", -20, 30))
    late, today = dt.time(14, 10), shelf.today

    def notes(due: dt.date, content: dict[str, Any] | None, now: dt.time | None) -> int:
        answer = with_rush(answer=rush, due=due, plan=content, shelf=shelf, now=now)
        return len(answer.notes) - len(rush.notes)

    assert notes(today, running, late) == 1
    assert notes(today + dt.timedelta(days=1), running, late) == 0
    assert notes(today, None, late) == 0
    assert notes(today, running, None) == 0
    assert notes(today, running, dt.time(8, 0)) == 0
