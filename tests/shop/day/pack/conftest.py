"""The pack of the demo's day, made once for all tests that only read it."""

import io
from collections.abc import Iterator, Mapping
from csv import DictReader
from dataclasses import dataclass
from typing import Any

import pytest
from django.db import transaction

from reelwright.demo.build import build_or_find
from reelwright.shop.day.pack.gather import PackData, gather
from reelwright.shop.day.pack.write import pack_files
from reelwright.shop.day.services import day_run
from reelwright.shop.people.selectors import acting_lead
from tests.documents import pdfs


@dataclass(frozen=True, kw_only=True)
class Pack:
    """A run's number in the records, what its papers are made of, and its files."""

    run_id: int
    data: PackData
    files: Mapping[str, bytes]

    def pages(self, name: str) -> list[str]:
        """The text of every page of a paper, narrow spaces as plain ones."""
        return [plain(text) for text in pdfs.texts(self.files[name])]

    def rows(self, name: str) -> list[dict[str, str]]:
        """The rows of a table by its heads."""
        return list(DictReader(io.StringIO(self.files[name].decode(), newline="")))


def plain(text: str) -> str:
    """Text with plain spaces where its typography has others."""
    return text.replace("\u202f", " ").replace("\u00a0", " ")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Ask for the test database wherever the pack is asked for."""
    for item in items:
        if "pack" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.django_db)


@pytest.fixture(scope="package")
def pack(django_db_setup: None, django_db_blocker: Any) -> Iterator[Pack]:
    """The demo's night file taken in and its pack; taken back when the last test has looked."""
    with django_db_blocker.unblock(), transaction.atomic():
        demo = build_or_find()
        result = day_run(
            by=acting_lead(),
            name=demo.orders.name,
            content=demo.orders.read_bytes(),
            on=demo.working_day,
        )
        data = gather(result.run_id)
        yield Pack(run_id=result.run_id, data=data, files=dict(pack_files(data)))
        transaction.set_rollback(True)
