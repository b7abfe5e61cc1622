"""What is entered at the desk: other cables for a run, offers taken up, the hour of the benches."""

import datetime as dt
from dataclasses import dataclass

import pytest

from reelwright.core.errors import InputFaults, UnknownCode
from reelwright.shop.day.desk import (
    alternatives,
    benches_from,
    offer_take_up,
    order_take,
    read_cells,
)
from reelwright.shop.orders.models import OrderLine
from reelwright.shop.orders.selectors import followers_of, line_by_id
from tests.day_world import DayWorld, good_row
from tests.shop.refusals import refused
from tests.small_world import TODAY


@dataclass(frozen=True)
class Clock:
    """A workshop as far as its clock goes."""

    time_zone: str
    fixed_today: dt.date | None


@pytest.mark.parametrize(
    ("utc", "expected"),
    [
        ("2027-03-02T09:15", dt.time(10, 15)),
        ("2027-03-02T06:30", None),
        ("2027-03-02T15:31", None),
    ],
)
def test_benches_have_time_from_the_hour_of_the_workshop(
    monkeypatch: pytest.MonkeyPatch, utc: str, expected: dt.time | None
) -> None:
    """Its own zone counts, an hour ahead here; outside working hours it is a whole day."""
    moment = dt.datetime.fromisoformat(utc).replace(tzinfo=dt.UTC)
    monkeypatch.setattr("django.utils.timezone.now", lambda: moment)
    assert benches_from(Clock("Europe/Vienna", None)) == expected  # type: ignore[arg-type]


def test_the_demo_has_the_whole_of_its_day() -> None:
    """It stands still, so no hour of it has passed."""
    assert benches_from(Clock("Europe/Vienna", TODAY)) is None  # type: ignore[arg-type]


def test_alternatives_carry_the_run_and_have_a_price(day_world: DayWorld) -> None:
    """The one cable of the small world is one, with its margin; a run too long has none."""
    (only,) = alternatives(read_cells(good_row(), on=TODAY), on=TODAY)
    assert (only.cable.code, only.margin_unit, only.in_stock) == ("SW-60", "dB", True)
    assert only.margin is not None
    assert only.margin > 0
    assert not alternatives(read_cells(good_row(length="900 m"), on=TODAY), on=TODAY)


def test_the_same_order_typed_twice_stands_once(day_world: DayWorld) -> None:
    """The second time finds the line of the first; other words under its number are a fault."""
    first = order_take(by=day_world.olga, cells=good_row(), on=TODAY)
    assert order_take(by=day_world.olga, cells=good_row(), on=TODAY) == first
    with pytest.raises(InputFaults):
        order_take(by=day_world.olga, cells=good_row(length="4 m"), on=TODAY)
    assert OrderLine.objects.count() == 1


def test_an_offer_is_taken_up_once_as_the_next_line(day_world: DayWorld) -> None:
    """The new line counts on in its order and is known to follow; a second time is refused."""
    held = order_take(by=day_world.olga, cells=good_row(colour="red", typed="red"), on=TODAY)
    taken = offer_take_up(by=day_world.olga, line_id=held, offer=1, on=TODAY)
    assert line_by_id(taken).label == "W-1/2"
    assert followers_of([held]) == {held: (taken, "W-1/2")}
    with refused("offer_taken"):
        offer_take_up(by=day_world.olga, line_id=held, offer=1, on=TODAY)


def test_offers_that_cannot_be_entered_are_refused(day_world: DayWorld) -> None:
    """None is taken up for an accepted line, none that is not there, none that waits for words."""
    accepted = order_take(by=day_world.olga, cells=good_row(), on=TODAY)
    with refused("offer_moot"):
        offer_take_up(by=day_world.olga, line_id=accepted, offer=1, on=TODAY)
    cells = good_row(order="W-2", colour="red", typed="red")
    held = order_take(by=day_world.olga, cells=cells, on=TODAY)
    offers = line_by_id(held).answer.offers
    with pytest.raises(UnknownCode):
        offer_take_up(by=day_world.olga, line_id=held, offer=len(offers) + 1, on=TODAY)
    waiting = next(n for n, offer in enumerate(offers, start=1) if offer.cells is None)
    with refused("offer_open"):
        offer_take_up(by=day_world.olga, line_id=held, offer=waiting, on=TODAY)
    with refused("not_allowed"):
        offer_take_up(by=day_world.vic, line_id=held, offer=1, on=TODAY)
    assert OrderLine.objects.count() == 2
