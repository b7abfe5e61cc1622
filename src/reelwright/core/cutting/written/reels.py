"""The reels as they are written: what lies in the rack, how well that is known, and its flaws."""

import datetime
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise

from reelwright.core.cutting.problem import ReelStock, Stretch
from reelwright.core.cutting.written.lengths import WrittenFlaw, down_mm, flaws, uncertainty_mm
from reelwright.core.cutting.written.table import Cells, Column, Table
from reelwright.core.quantities.date_text import read_date
from reelwright.core.quantities.show import show_metres

COLUMNS = (
    Column(name="id", needed=True),
    Column(name="item", needed=True),
    Column(name="lot", needed=True),
    Column(name="length", needed=True, lengths=True),
    Column(name="uncertainty", needed=True, lengths=True),
    Column(name="flaws", needed=False, lengths=True),
    Column(name="received", needed=False),
    Column(name="age", needed=False),
    Column(name="location", needed=False),
)


@dataclass(frozen=True, kw_only=True)
class WrittenReel:
    """One row. ``length_mm`` is None where it could not be read; the other reading goes on."""

    row: int
    id: str
    item: str | None
    lot: str | None
    length_mm: int | None
    standard_uncertainty_mm: float | None
    flaws: tuple[WrittenFlaw, ...]
    received_on: datetime.date | None
    age_rank: int | None
    location: str | None


def read_reels(table: Table) -> tuple[WrittenReel, ...]:
    """Return the rows that name a reel; ``table.faults`` has what is wrong with the table.

    A rack with no reel in it is none of the faults.
    """
    seen: dict[str, int] = {}
    found = []
    for row in table.rows():
        one = _reel(row)
        if one is None:
            continue
        if one.id in seen:
            row.fault("id", f"row {seen[one.id]} is a reel of this id", "each reel once")
        else:
            seen[one.id] = row.number
            found.append(one)
    _tell_mixed_ages(table, found)
    return tuple(found)


def stock_of(reels: Sequence[WrittenReel]) -> tuple[ReelStock, ...]:
    """Return the reels of a table without fault as a plan takes them.

    Where dates are given, they count the ages from the oldest of each item; lots of one day are
    of one age, and so are reels of which nothing is said.
    """
    days: dict[str, set[datetime.date]] = {}
    for reel in reels:
        if reel.item is not None and reel.received_on is not None:
            days.setdefault(reel.item, set()).add(reel.received_on)
    oldest_first = {item: sorted(each) for item, each in days.items()}
    stock = []
    for reel in reels:
        # A table without fault has all of these.
        assert reel.item is not None
        assert reel.lot is not None
        rank = reel.age_rank or 0
        if reel.received_on is not None:
            rank = oldest_first[reel.item].index(reel.received_on)
        stock.append(
            ReelStock(
                id=reel.id,
                item=reel.item,
                lot=reel.lot,
                location=reel.location,
                stretches=_stretches(reel),
                age_rank=rank,
            )
        )
    return tuple(stock)


def _reel(row: Cells) -> WrittenReel | None:
    name = row.text("id")
    length = row.read("length", down_mm)
    uncertainty = row.read("uncertainty", partial(uncertainty_mm, length_mm=length or 0))
    skipped = _flaws(row, length)
    received = row.settled("received", read_date)
    age = row.whole("age", least=0, accepted="0 for the oldest lot, 1 for the next, and so on")
    if row.typed("received") and row.typed("age"):
        row.fault("age", "the day received says how old it is", "one of the two")
    item, lot = row.text("item"), row.text("lot")
    location = row.text("location", needed=False)
    if name is None:
        return None
    return WrittenReel(
        row=row.number,
        id=name,
        item=item,
        lot=lot,
        length_mm=length,
        standard_uncertainty_mm=uncertainty,
        flaws=skipped,
        received_on=received,
        age_rank=age,
        location=location,
    )


def _flaws(row: Cells, length_mm: int | None) -> tuple[WrittenFlaw, ...]:
    """Return the flaws of a reel, and tell of those that lie beyond its end or on each other."""
    found = row.read("flaws", flaws, needed=False) or ()
    for flaw in found:
        if length_mm is not None and flaw.end_mm > length_mm:
            row.fault(
                "flaws",
                f"the flaw {_span(flaw)} is not on the reel",
                f"from 0 to its length, {show_metres(length_mm)}",
            )
    for before, after in pairwise(found):
        if after.start_mm < before.end_mm:
            row.fault(
                "flaws",
                f"the flaws {_span(before)} and {_span(after)} overlap",
                "each where the one before has ended, or both as one",
            )
    return found


def _span(flaw: WrittenFlaw) -> str:
    return f"{show_metres(flaw.start_mm)} to {show_metres(flaw.end_mm)}"


def _tell_mixed_ages(table: Table, reels: Iterable[WrittenReel]) -> None:
    """Ages of one item are held against each other, so that all are told in one way."""
    told: dict[str, tuple[str, int]] = {}
    for reel in reels:
        if reel.item is None:
            continue
        way = "age" if reel.age_rank is not None else "nothing"
        way = "received" if reel.received_on is not None else way
        before, row = told.setdefault(reel.item, (way, reel.row))
        if way != before:
            table.fault(
                reel.row,
                "received",
                None,
                f"row {row} tells the age of {reel.item} by {before}, this one by {way}",
                "the day received for every reel of an item, or age for every one, or neither",
            )


def _stretches(reel: WrittenReel) -> tuple[Stretch, ...]:
    """What lies between the flaws; each stretch is known as well as the whole reel is."""
    assert reel.length_mm is not None
    assert reel.standard_uncertainty_mm is not None
    ends = [(flaw.start_mm, flaw.end_mm) for flaw in reel.flaws]
    stretches = []
    at_mm = 0
    for start_mm, end_mm in [*ends, (reel.length_mm, reel.length_mm)]:
        if start_mm > at_mm:
            stretches.append(
                Stretch(
                    start_mm=at_mm,
                    length_mm=start_mm - at_mm,
                    standard_uncertainty_mm=reel.standard_uncertainty_mm,
                )
            )
        at_mm = end_mm
    return tuple(stretches)
