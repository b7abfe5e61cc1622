"""The shelf of the demo workshop, built once: judging is pure and only looks at it."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from django.db import transaction

from reelwright.demo.build import build_or_find
from reelwright.shop.day.judging.judge import Habits, judge_line
from reelwright.shop.day.load import load_shelf
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.answer import LineAnswer
from reelwright.shop.orders.columns import COLUMNS, ReadLine, read_line

Ask = Callable[..., LineAnswer]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Ask for the test database wherever the shelf is asked for, as the demo's own tests do."""
    for item in items:
        if "shelf" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.django_db)


@pytest.fixture(scope="package")
def shelf(django_db_setup: None, django_db_blocker: Any) -> Iterator[Shelf]:
    """What the demo workshop has and knows on its working day."""
    with django_db_blocker.unblock(), transaction.atomic():
        yield load_shelf(build_or_find().working_day)
        transaction.set_rollback(True)


@pytest.fixture
def read(shelf: Shelf) -> Callable[..., ReadLine]:
    """Read one line from its columns: ten metres of VID-60, black, in a room."""

    def read_cells(**cells: str) -> ReadLine:
        row = dict.fromkeys(COLUMNS, "") | {
            "order": "Q-1",
            "customer": "Nell Farrow",
            "quantity": "1",
            "cable": "VID-60",
            "signal": "serial video 1.485 Gb/s",
            "end_a": cells.get("ends", "BNC"),
            "end_b": cells.get("ends", "BNC"),
            "length": "10 m",
            "colour": "black",
            "space": "room",
        }
        cells.pop("ends", None)
        return read_line(name="a test", cells=row | cells, vocabulary=shelf.vocabulary)

    return read_cells


@pytest.fixture
def ask(shelf: Shelf, read: Callable[..., ReadLine]) -> Ask:
    """Judge one line given by its columns."""

    def judge(units_before: str = "", **cells: str) -> LineAnswer:
        line = read(**cells)
        before = {line.customer: units_before} if units_before else {}
        return judge_line(line, shelf, Habits(units_before=before))

    return judge
