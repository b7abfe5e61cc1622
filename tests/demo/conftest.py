"""The demo workshop, built once for all tests that only look at it."""

from collections.abc import Iterator
from typing import Any

import pytest
from django.db import transaction

from reelwright.demo.build import DemoFound, build_or_find


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Ask for the test database wherever the demo is asked for: without the mark there is none,
    and the demo would be built in the workshop of whoever runs the tests."""
    for item in items:
        if "demo" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.django_db)


@pytest.fixture(scope="package")
def demo(django_db_setup: None, django_db_blocker: Any) -> Iterator[DemoFound]:
    """The demo in the test database, rolled back when the last test has looked."""
    with django_db_blocker.unblock(), transaction.atomic():
        yield build_or_find()
        transaction.set_rollback(True)
