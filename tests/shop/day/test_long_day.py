"""A plan that runs past midnight is drawn as far as the day goes and told to its end."""

from typing import Any

from reelwright.shop.day.pack.bench_plan import clock, day_view

HOUR_S = 3600


def row(batch: str, start_h: float, finish_h: float) -> dict[str, Any]:
    """One batch at the solder station, hours counted from the start of work at 08:00."""
    return {
        "batch_id": batch,
        "station": "solder",
        "person_id": "Ben",
        "start_s": start_h * HOUR_S,
        "change_over_s": 600,
        "finish_s": finish_h * HOUR_S,
    }


def test_hours_after_midnight_are_hours_of_another_day() -> None:
    """15 hours after 08:00 it is 23:00, 18 hours after it 02:00 of the next day."""
    assert clock(15 * HOUR_S) == "23:00"
    assert clock(18 * HOUR_S) == "02:00 (+1 day)"
    assert clock(42 * HOUR_S) == "02:00 (+2 days)"


def test_the_drawing_ends_at_midnight() -> None:
    """What passes midnight is cut off there, what begins after it is left to the table."""
    rows = [row("S-1 rev A", 0, 15.5), row("S-2 rev A", 15.5, 20), row("S-3 rev A", 20, 21)]
    times = [
        {
            "batch_id": each["batch_id"],
            "start_s": each["start_s"],
            "finish_s": each["finish_s"],
            "late_s": 0,
        }
        for each in rows
    ]
    view = day_view({"rows": rows, "times": times})
    assert view.end_min == 24 * 60
    (drawn,) = view.rows
    assert [block.finish_min for block in drawn.blocks] == [23.5 * 60, 24 * 60]
