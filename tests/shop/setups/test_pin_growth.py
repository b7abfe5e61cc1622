"""The growth of pins: read as two lengths with one gauge, and what the set-up makes of it."""

import dataclasses
from decimal import Decimal

import pytest
from django.db import DatabaseError, IntegrityError, connection, transaction

from reelwright.core.errors import InputFaults
from reelwright.shop.setups.models import EndDimension
from reelwright.shop.setups.readings.given import Given
from reelwright.shop.setups.readings.selectors import dimensions_read
from reelwright.shop.setups.readings.services import (
    DIMENSION,
    Recorded,
    reading_take_back,
    readings_record,
)
from reelwright.shop.setups.readings.typed import reading_typed
from reelwright.shop.setups.selectors import revision_sheet
from reelwright.shop.setups.shown.growth import measured_growth
from reelwright.shop.setups.shown.heights import heights_shown
from reelwright.shop.setups.states import Part
from reelwright.shop.tools.uncertainty import instrument_uncertainty_record
from tests.small_world import CABLE, CONNECTOR, TODAY, SmallWorld

AFTER = ("17.960", "17.955", "17.966", "17.958", "17.961")


def pin(number: int, after: str = "17.960", end: str = "1", **other: object) -> Given:
    """A pin of 17.900 mm, crimped and read again with the gauge I-2."""
    one = Given(
        revision_id=number,
        on=TODAY,
        end=end,
        part=Part.PIN_GROWTH,
        before_mm=Decimal("17.900"),
        length_mm=Decimal(after),
        instrument="I-2",
    )
    return dataclasses.replace(one, **other)  # type: ignore[arg-type]


def record(world: SmallWorld, *given: Given) -> Recorded:
    """Ben records them today."""
    return readings_record(by=world.ben, given=given, on=TODAY)


def five(world: SmallWorld, number: int) -> None:
    """Five pins that grew by 0.055 to 0.066 mm."""
    record(world, *(pin(number, after, end=str(end)) for end, after in enumerate(AFTER, start=1)))


def test_both_lengths_are_kept_and_their_difference_counts(
    world: SmallWorld, on_trial: int
) -> None:
    """17.900 to 17.960 mm: it grew by 0.060 mm; the same again is known, another is refused."""
    record(world, pin(on_trial))
    (read,) = dimensions_read(on_trial)
    assert (read.before_mm, read.length_mm) == (Decimal("17.900"), Decimal("17.960"))
    assert read.result_mm == Decimal("0.060")
    assert record(world, pin(on_trial)) == Recorded(new=0, known=1, taken_back=0)
    for other in ({"before_mm": Decimal("17.901")}, {"length_mm": Decimal("17.961")}):
        with pytest.raises(InputFaults, match=r"17\.900.mm to 17\.960.mm; now 17\.90"):
            record(world, pin(on_trial, **other))


@pytest.mark.parametrize(
    ("other", "field", "words"),
    [
        ({"instrument": ""}, "instrument", "as good as its gauge"),
        ({"length_mm": Decimal("17.799")}, "value", "0.101\u202fmm shorter than before"),
        ({"length_mm": Decimal("18.901")}, "value", "1.001\u202fmm longer than before"),
        ({"cavity": "F-1"}, "cavity", "closes on a ferrule"),
    ],
    ids=["no gauge", "exchanged", "decimal point", "cavity"],
)
def test_a_slip_is_refused(
    world: SmallWorld, on_trial: int, other: dict[str, object], field: str, words: str
) -> None:
    """Just beyond each limit; just inside it is evidence."""
    with pytest.raises(InputFaults) as caught:
        record(world, pin(on_trial, **other))
    (fault,) = caught.value.faults
    assert fault.field == field
    assert words in fault.problem
    inside = (pin(on_trial, "17.800"), pin(on_trial, "18.900", end="2", cavity="P-1"))
    assert record(world, *inside).new == 2


def test_an_end_without_a_crimped_pin_has_no_growth(world: SmallWorld, drafted: int) -> None:
    """A soldered end is told what can be measured of it instead."""
    with pytest.raises(InputFaults) as caught:
        record(world, pin(drafted))
    assert any(
        fault.field == "what" and fault.accepted == "pull, jacket back, cores bared"
        for fault in caught.value.faults
    )


def test_what_is_typed_needs_both_lengths(world: SmallWorld, on_trial: int) -> None:
    """A bare number is in mm; the cavity in service is written down; one length alone is none."""
    sheet = revision_sheet(on_trial)
    fields = {"what": "pin growth", "end": "4", "instrument": "I-2", "value": "17,96"}
    with pytest.raises(InputFaults, match="the length before the crimp is not written"):
        reading_typed(by=world.ben, sheet=sheet, fields=fields, on=TODAY)
    given = reading_typed(by=world.ben, sheet=sheet, fields=fields | {"before": "17.9"}, on=TODAY)
    assert (given.before_mm, given.length_mm) == (Decimal("17.900"), Decimal("17.960"))
    assert (given.cavity, given.tool_count) == ("P-1", 1200)
    with pytest.raises(InputFaults, match="only the growth of a pin has a length before"):
        reading_typed(
            by=world.ben,
            sheet=sheet,
            fields={"what": "pin crimp", "value": "1.62", "end": "1", "before": "1.7"},
            on=TODAY,
        )


def test_four_pins_are_too_few_and_one_taken_back_no_longer_counts(
    world: SmallWorld, on_trial: int
) -> None:
    """Five stand for all; with one taken back it is "measured 4 of 5"."""
    assert measured_growth(on_trial) is None
    five(world, on_trial)
    full = measured_growth(on_trial)
    assert full is not None
    assert full.lacking == ""
    assert full.growths_m == pytest.approx((60e-6, 55e-6, 66e-6, 58e-6, 61e-6))
    number = dimensions_read(on_trial)[0].number
    reading_take_back(by=world.ben, kind=DIMENSION, number=number, on=TODAY, reason="on a burr")
    left = measured_growth(on_trial)
    assert left is not None
    assert left.lacking == "measured 4 of 5, the reckoned range stands"


def test_the_gauge_counts_where_it_is_recorded(world: SmallWorld, on_trial: int) -> None:
    """s is 4.06 µm; √2 × 5 µm of the gauge is more and takes its place."""
    five(world, on_trial)
    without = measured_growth(on_trial)
    instrument_uncertainty_record(
        by=world.ada,
        code="I-2",
        standard_uncertainty=Decimal("0.005"),
        unit="mm",
        source="certificate 12",
        on=TODAY,
        today=TODAY,
    )
    measured = measured_growth(on_trial)
    assert without is not None
    assert measured is not None
    assert without.tolerance_m == pytest.approx(without.factor * 4.06e-6, rel=1e-3)
    assert measured.tolerance_m == pytest.approx(measured.factor * 2**0.5 * 5e-6)


def test_the_table_shows_growth_and_the_list_both_lengths(world: SmallWorld, on_trial: int) -> None:
    """Mean 0.060 mm; no strip is judged by it; the height's checks have nothing of it."""
    five(world, on_trial)
    shown = heights_shown(revision_sheet(on_trial), CABLE, CONNECTOR)
    assert shown.pins
    (row,) = shown.rows
    assert (row.name, row.count, row.mean) == ("pin growth", 5, "0.060\u202fmm")
    assert shown.checks == ()
    assert shown.strips.checks == ()
    assert shown.readings[0].name == "pin growth, 17.90 to 17.961"
    assert shown.readings[0].value == "0.061\u202fmm"


def test_the_database_asks_for_both_lengths_and_the_gauge(world: SmallWorld, on_trial: int) -> None:
    """Past the service a growth without either is refused, and a height with a length before."""
    record(world, pin(on_trial))
    gauge = EndDimension.objects.get().instrument
    row = {
        "revision_id": on_trial,
        "part": "pin growth",
        "before_mm": Decimal("17.9"),
        "length_mm": Decimal("17.96"),
        "instrument": gauge,
        "end": "2",
        "measured_on": TODAY,
        "measured_by": world.ben,
    }
    for wrong in (
        {"before_mm": None},
        {"before_mm": Decimal(0)},
        {"instrument": None},
        {"part": "pin crimp"},
    ):
        with pytest.raises(IntegrityError), transaction.atomic():
            EndDimension.objects.create(**(row | wrong))
    EndDimension.objects.create(**row)
    with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("UPDATE setups_enddimension SET before_mm = 17.8")
    with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("DELETE FROM setups_enddimension")
