"""How far instruments may be off: recorded with a source, by day, and told where it is missing."""

import datetime as dt
from decimal import Decimal
from typing import Any

import pytest
from django.db import DatabaseError, connection, transaction

from reelwright.core.errors import InputFaults, UnknownCode
from reelwright.shop.tools.models import InstrumentUncertainty
from reelwright.shop.tools.services import instrument_add
from reelwright.shop.tools.uncertainty import (
    instrument_uncertainty_record,
    instruments_now,
    shared_uncertainty,
)
from reelwright.shop.tools.uncertainty_typed import instrument_uncertainty_typed
from tests.shop.refusals import refused
from tests.small_world import TODAY, SmallWorld

BEFORE = TODAY - dt.timedelta(days=10)


@pytest.fixture
def gauges(world: SmallWorld) -> SmallWorld:
    """The small world with a height gauge I-1 and a pull tester I-2, of which nothing is known."""
    for code, measures in (("I-1", "crimp height"), ("I-2", "force")):
        instrument_add(by=world.ada, code=code, name=code, measures=measures, calibration_due=TODAY)
    return world


def recorded(world: SmallWorld, **other: Any) -> None:
    """Ada records 0.002 mm of I-1 as of today, or something else."""
    instrument_uncertainty_record(
        **{
            "by": world.ada,
            "code": "I-1",
            "standard_uncertainty": Decimal("0.002"),
            "unit": "mm",
            "source": "certificate 12",
            "on": TODAY,
            "today": TODAY,
            **other,
        }
    )


def shared(*readings: tuple[str, dt.date], unit: str = "mm") -> tuple[float | None, str]:
    """What holds for readings of the height gauge."""
    found = shared_uncertainty(readings, unit=unit, what="height gauge")
    return found.value, found.told


def test_the_newest_by_the_day_of_the_reading_holds(gauges: SmallWorld) -> None:
    """Before anything was recorded nothing is known; a later check changes no earlier reading."""
    recorded(gauges, standard_uncertainty=Decimal("0.004"), on=BEFORE, source="own check")
    recorded(gauges)
    day = dt.timedelta(days=1)
    assert shared(("I-1", TODAY))[0] == 0.002
    assert shared(("I-1", TODAY - day)) == (
        0.004,
        "Standard uncertainty of the height gauge: 0.004\u202fmm of I-1 (own check).",
    )
    assert shared(("I-1", TODAY), ("I-1", TODAY - day))[0] == 0.004
    assert shared(("I-1", BEFORE - day))[0] is None
    recorded(gauges, standard_uncertainty=Decimal("0.003"))
    assert shared(("I-1", TODAY))[0] == 0.003


def test_what_is_missing_is_told(gauges: SmallWorld) -> None:
    """An instrument without a record, one of another unit, readings that name none."""
    recorded(gauges)
    assert shared() == (None, "")
    assert shared(("I-1", TODAY), ("", TODAY)) == (
        None,
        "The height gauge's uncertainty is not recorded: 1 reading of 2 names no instrument.",
    )
    assert shared(("I-2", TODAY), ("", TODAY), ("", TODAY))[1].endswith(
        "none stands for I-2 in mm on those days; 2 readings of 3 name no instrument."
    )
    assert shared(("I-1", TODAY), unit="N")[0] is None


def test_every_instrument_is_told_with_what_is_known(gauges: SmallWorld) -> None:
    """Recorded or not, and whether its calibration holds."""
    recorded(gauges)
    first, second = instruments_now(on=TODAY)
    assert first.uncertainty is not None
    assert (first.uncertainty.told, first.uncertainty.source) == (
        "0.002\u202fmm",
        "certificate 12",
    )
    assert (second.uncertainty, second.holds) == (None, True)
    assert not instruments_now(on=TODAY + dt.timedelta(days=1))[0].holds


@pytest.mark.parametrize(
    ("other", "code"),
    [
        ({"standard_uncertainty": Decimal(0)}, "size_bad"),
        ({"standard_uncertainty": Decimal("2")}, "size_bad"),
        ({"standard_uncertainty": Decimal("NaN")}, "size_bad"),
        ({"unit": "kg"}, "unit_unknown"),
        ({"source": " "}, "source_missing"),
        ({"on": TODAY + dt.timedelta(days=1)}, "day_bad"),
    ],
)
def test_what_cannot_be_is_refused(gauges: SmallWorld, other: dict[str, Any], code: str) -> None:
    """Nothing, a slip of the unit, no unit of it, no source, a day to come."""
    with refused(code):
        recorded(gauges, **other)
    assert InstrumentUncertainty.objects.count() == 0


def test_who_may_record_and_of_what(gauges: SmallWorld) -> None:
    """The bench may not, and an instrument that is not there is none."""
    with refused("not_allowed"):
        recorded(gauges, by=gauges.ben)
    with pytest.raises(UnknownCode):
        recorded(gauges, code="I-9")


def test_a_record_is_never_changed(gauges: SmallWorld) -> None:
    """Not even past the models."""
    recorded(gauges)
    with (
        pytest.raises(DatabaseError, match="never changed"),
        transaction.atomic(),
        connection.cursor() as cursor,
    ):
        cursor.execute("UPDATE tools_instrumentuncertainty SET standard_uncertainty = 1")


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("0.002 mm", "0.002\u202fmm"),
        ("0,002 mm", "0.002\u202fmm"),
        ("2 µm", "0.002\u202fmm"),
        ("1 N", "1\u202fN"),
    ],
)
def test_it_is_read_with_its_unit(gauges: SmallWorld, typed: str, read: str) -> None:
    """Millimetres and micrometres are lengths, newtons a force."""
    fields = {"instrument": "I-1", "uncertainty": typed, "source": "certificate 12", "on": ""}
    told = instrument_uncertainty_typed(by=gauges.ada, fields=fields, today=TODAY)
    assert told == ("I-1", read)


def test_every_field_that_cannot_be_read_is_told(gauges: SmallWorld) -> None:
    """All at once, and a bare number is no uncertainty."""
    for typed in ("0.002", "soon", "", "2 kg"):
        with pytest.raises(InputFaults) as caught:
            instrument_uncertainty_typed(
                by=gauges.ada, fields={"uncertainty": typed, "on": "soon"}, today=TODAY
            )
        assert [fault.field for fault in caught.value.faults] == [
            "instrument",
            "uncertainty",
            "source",
            "on",
        ]
