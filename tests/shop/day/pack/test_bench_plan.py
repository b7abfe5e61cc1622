"""The bench plan of a recorded day, as paper, drawing and table."""

import datetime as dt
from typing import Any

import pytest

from reelwright.shop.day.pack.bench_plan import batch_numbers, beyond_the_day, clock, day_view
from tests.shop.day.pack.conftest import Pack

HOUR_S = 3600
ON = dt.date(2026, 11, 24)


def content_of(pack: Pack) -> Any:
    """The recorded plan."""
    assert pack.data.bench_plan is not None
    return pack.data.bench_plan.content


def test_every_row_is_a_batch_of_the_plan(pack: Pack) -> None:
    """Hours, lines, number of cables, people and days due of each row are those recorded."""
    content = content_of(pack)
    rows = pack.rows("bench-plan.csv")
    times = {each["batch_id"]: each for each in content["times"]}
    batches = {each["id"]: each for each in content["batches"]}
    assert {row["set_up"] for row in rows} == times.keys() == batches.keys()
    assert [int(row["sequence"]) for row in rows] == list(range(1, len(rows) + 1))
    for row in rows:
        batch = batches[row["set_up"]]
        assert row["start"] == clock(times[row["set_up"]]["start_s"])
        assert row["finish"] == clock(times[row["set_up"]]["finish_s"])
        assert row["lines"] == ", ".join(batch["lines"])
        assert int(row["cables"]) == len(batch["pieces"])
        assert row["due"] == (batch["due"] or "")
        people = {each["person_id"] for each in content["rows"] if each["batch_id"] == batch["id"]}
        assert set(row["people"].split(", ")) == people


def test_the_drawing_numbers_batches_as_the_table_does(pack: Pack) -> None:
    """Each block carries the number of its batch's row, and both begin with the first begun."""
    content = content_of(pack)
    numbers = batch_numbers(content)
    assert sorted(numbers.values()) == list(range(1, len(content["batches"]) + 1))
    drawn = {
        (row.station, block.label, block.note)
        for row in day_view(content).rows
        for block in row.blocks
    }
    assert drawn == {
        (row["station"], str(numbers[row["batch_id"]]), row["batch_id"].replace(" rev ", " "))
        for row in content["rows"]
    }


def test_the_paper_says_how_long_the_work_runs(pack: Pack) -> None:
    """The hour of the last batch stands in the large sentence, what it means below it."""
    content = content_of(pack)
    last = clock(max(each["finish_s"] for each in content["times"]))
    page = pack.pages("bench-plan.pdf")[0]
    assert f"{len(content['batches'])} batches until {last}" in page
    assert (f"The work runs until {last}" in page) is (last > "16:30")
    assert "16:30 end of the day" in page


def plan(*batches: tuple[str, float, str | None]) -> dict[str, Any]:
    """A recorded plan of batches: id, hours from 08:00 to its end, day due."""
    return {
        "times": [
            {"batch_id": name, "start_s": n, "finish_s": hours * HOUR_S, "late_s": 0}
            for n, (name, hours, _) in enumerate(batches)
        ],
        "batches": [{"id": name, "due": due} for name, _, due in batches],
    }


@pytest.mark.parametrize(
    ("batches", "told"),
    [
        ((("X", 8.5, "2026-11-24"),), ""),
        (
            (("X", 4.0, "2026-11-24"), ("Y", 10.0, "2026-11-25")),
            "The work runs until 18:00; the day ends at 16:30, and batch 2 ends after it; it is "
            "not due today, so the rest of it may wait until tomorrow.",
        ),
        (
            (("X", 9.0, None), ("Y", 10.0, "2026-11-25")),
            "The work runs until 18:00; the day ends at 16:30, and batches 1 and 2 end after it; "
            "none is due today, so the rest of them may wait until tomorrow.",
        ),
        (
            (("X", 9.0, "2026-11-24"), ("Y", 10.0, "2026-11-25")),
            "The work runs until 18:00; the day ends at 16:30, and batches 1 and 2 end after it; "
            "batch 1 is due today.",
        ),
    ],
)
def test_what_runs_on_after_the_day_is_said(
    batches: tuple[tuple[str, float, str | None], ...], told: str
) -> None:
    """Nothing for a day that ends in time; else what runs on, and whether it may wait."""
    assert beyond_the_day(plan(*batches), on=ON) == told
