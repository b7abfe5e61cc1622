"""The demo's order files: every row reads, and the rack is asked for no more than a day's work."""

import csv
import datetime as dt
from importlib import resources

import pytest

from reelwright.core.parts.connector import Method
from reelwright.core.signals.read import read_signal
from reelwright.demo.build import LATE_ORDERS_FILE, ORDERS_FILE
from reelwright.demo.cables import coax_entries
from reelwright.demo.calendar import WORKING_DAY
from reelwright.demo.connectors import connector_entries
from reelwright.demo.other_cables import other_entries
from reelwright.shop.orders.columns import ReadLine, Vocabulary, read_orders

CABLE_ENTRIES = (*coax_entries(), *other_entries())
CONNECTOR_ENTRIES = tuple(connector_entries())


def content(name: str) -> bytes:
    """An order file as it ships."""
    return (resources.files("reelwright.demo") / "orders" / name).read_bytes()


def vocabulary() -> Vocabulary:
    """The demo catalogue's words, without a database."""
    words: dict[str, tuple[str, ...]] = {}
    for entry in CONNECTOR_ENTRIES:
        for alias in entry.aliases:
            words[alias] = (*words.get(alias, ()), entry.connector.code)
    codes = {
        entry.connector.code.casefold(): (entry.connector.code,) for entry in CONNECTOR_ENTRIES
    }
    return Vocabulary(
        cables={alias: entry.cable.code for entry in CABLE_ENTRIES for alias in entry.aliases}
        | {entry.cable.code.casefold(): entry.cable.code for entry in CABLE_ENTRIES},
        connectors=words | codes,
        light_connectors=frozenset(
            entry.connector.code
            for entry in CONNECTOR_ENTRIES
            if entry.connector.method is Method.POLISH
        ),
    )


def read(name: str) -> list[ReadLine]:
    """The lines of an order file."""
    return read_orders(name=name, content=content(name), vocabulary=vocabulary())


def test_the_night_brought_eleven_and_forty_orders() -> None:
    """Eleven of the twelve with a catch, forty ordinary ones; all read without a fault."""
    lines = read(ORDERS_FILE)
    numbers = [line.order for line in lines]
    assert sum(number.startswith("O-") for number in numbers) == 11
    assert sum(number.startswith("A-") for number in numbers) == 40
    assert len(set(numbers)) == 51


def test_the_twelfth_comes_at_ten_past_two() -> None:
    """The rush order is alone in the second file, due the same day, with two unlike ends."""
    (line,) = read(LATE_ORDERS_FILE)
    assert (line.order, line.due, line.quantity) == ("O-09", WORKING_DAY, 2)
    assert "BNC-70" in line.ends[0]
    assert line.ends[1] == ("F-70",)


def test_all_families_are_ordered() -> None:
    """Video, plenum, audio, balanced, data, loudspeaker and fibre, from 1 to 12 cables a line."""
    ordinary = [line for line in read(ORDERS_FILE) if line.order.startswith("A-")]
    codes = {line.cable_code for line in ordinary}
    for wanted in ("VID-60", "VID-60P", "PHO-61", "AUD-BP", "DAT-6", "SPK-12", "POF-22", None):
        assert wanted in codes
    assert {line.quantity for line in ordinary} <= set(range(1, 13))
    assert {line.unit_family for line in ordinary} == {"ft", "m"}


def test_only_one_signal_is_left_open() -> None:
    """Every signal reads but the serial video whose rate the customer forgot."""
    unread = {
        line.order: reading.question
        for line in read(ORDERS_FILE)
        if (reading := read_signal(line.signal_text)).signal is None
    }
    assert list(unread) == ["A-140"]
    assert "rate" in (unread["A-140"] or "")


def test_customers_keep_to_their_units() -> None:
    """Nobody writes feet here and metres there: that would be asked about."""
    units: dict[str, set[str]] = {}
    for line in read(ORDERS_FILE):
        units.setdefault(line.customer, set()).add(line.unit_family)
    assert [customer for customer, each in units.items() if len(each) > 1] == []


def test_due_days_are_working_days_from_today() -> None:
    """No order of the night is due before it came, nor on a weekend."""
    for line in read(ORDERS_FILE):
        assert line.due is not None
        assert WORKING_DAY <= line.due <= WORKING_DAY + dt.timedelta(days=14)
        assert line.due.weekday() < 5


@pytest.mark.parametrize("name", [ORDERS_FILE, LATE_ORDERS_FILE])
def test_the_files_are_plain(name: str) -> None:
    """UTF-8, comma, one header, every row as long as the header."""
    rows = list(csv.reader(content(name).decode("utf-8").splitlines()))
    assert {len(row) for row in rows} == {15}
