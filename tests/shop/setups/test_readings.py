"""Readings of ends: taken in whole, once, plausible, kept, and taken back with a reason."""

import dataclasses
import datetime as dt
from decimal import Decimal

import pytest
from django.db import DatabaseError, IntegrityError, connection, transaction

from reelwright.core.errors import InputFaults, UnknownCode
from reelwright.shop.setups import selectors, services
from reelwright.shop.setups.models import EndDimension, Pull
from reelwright.shop.setups.readings.given import Given
from reelwright.shop.setups.readings.selectors import dimensions_read, lengths_mm, pulls_read
from reelwright.shop.setups.readings.services import (
    DIMENSION,
    PULL,
    Recorded,
    reading_take_back,
    readings_record,
)
from reelwright.shop.setups.readings.typed import reading_typed
from reelwright.shop.setups.states import FailureMode, Part
from tests.shop.refusals import refused
from tests.shop.setups.conftest import CRIMPED, GOOD_PULLS_N
from tests.small_world import TODAY, SmallWorld

YESTERDAY = TODAY - dt.timedelta(days=1)


def pulled(revision_id: int, force_n: float = 120.0, end: str = "1") -> Given:
    """One pull of today on which the conductor broke."""
    return Given(
        revision_id=revision_id,
        on=TODAY,
        end=end,
        force_n=force_n,
        failure_mode=FailureMode.CONDUCTOR_BROKE,
    )


def height(revision_id: int, length_mm: str, end: str = "1") -> Given:
    """One height of a pin crimp of today."""
    return Given(
        revision_id=revision_id,
        on=TODAY,
        end=end,
        part=Part.PIN_CRIMP,
        length_mm=Decimal(length_mm),
    )


def record(world: SmallWorld, *given: Given) -> Recorded:
    """Ben records them today."""
    return readings_record(by=world.ben, given=given, on=TODAY)


def faults_of(world: SmallWorld, *given: Given) -> list[tuple[str | None, str | None, str]]:
    """Field, value and problem of each fault of readings that must have some; nothing is kept."""
    before = Pull.objects.count(), EndDimension.objects.count()
    with pytest.raises(InputFaults) as caught:
        record(world, *given)
    assert (Pull.objects.count(), EndDimension.objects.count()) == before
    return [(fault.field, fault.value, fault.problem) for fault in caught.value.faults]


def test_a_reading_keeps_all_that_was_said_of_it(world: SmallWorld, on_trial: int) -> None:
    """End, value, tools, who and when come out as they went in."""
    given = dataclasses.replace(
        height(on_trial, "1.615", end="W-1-1"),
        person_id=world.ada.pk,
        instrument="i-2",
        cavity="P-1",
        tool_count=1200,
        remark="after the die was turned",
    )
    assert record(world, given) == Recorded(new=1, known=0, taken_back=0)
    (read,) = dimensions_read(on_trial)
    assert (read.end, read.part, read.length_mm) == ("W-1-1", Part.PIN_CRIMP, Decimal("1.615"))
    assert (read.by, read.instrument, read.cavity, read.tool_count) == ("Ada", "I-2", "P-1", 1200)
    assert (read.remark, read.file, read.withdrawn) == ("after the die was turned", "", "")


def test_an_instrument_past_its_calibration_is_a_caution_kept_with_the_reading(
    world: SmallWorld, on_trial: int
) -> None:
    """The last day of a calibration still holds; a day past it is written beside the reading."""
    record(
        world,
        dataclasses.replace(pulled(on_trial), instrument="I-1"),
        dataclasses.replace(height(on_trial, "1.62"), instrument="I-2"),
    )
    assert not pulls_read(on_trial)[0].out_of_calibration
    assert dimensions_read(on_trial)[0].out_of_calibration


def test_the_same_again_changes_nothing(world: SmallWorld, on_trial: int) -> None:
    """A second time it is known, also where the second says less of it."""
    said = dataclasses.replace(pulled(on_trial), instrument="I-1", remark="slow")
    assert record(world, said).new == 1
    assert record(world, said) == Recorded(new=0, known=1, taken_back=0)
    assert record(world, pulled(on_trial)) == Recorded(new=0, known=1, taken_back=0)
    assert len(pulls_read(on_trial)) == 1


@pytest.mark.parametrize(
    ("other", "words"),
    [
        ({"force_n": 121.0}, "120.0\u202fN, conductor broke; now 121.0\u202fN, conductor broke"),
        ({"failure_mode": FailureMode.JACKET_SLIPPED}, "now 120.0\u202fN, jacket slipped"),
        ({"instrument": "I-1"}, "stands in the records of 2027-03-02"),
    ],
)
def test_contradictory_repeats_are_refused(
    world: SmallWorld, on_trial: int, other: dict[str, object], words: str
) -> None:
    """The same end of the same day with another value, ending or instrument names both."""
    record(world, pulled(on_trial))
    ((field, value, problem),) = faults_of(
        world,
        dataclasses.replace(pulled(on_trial), **other),  # type: ignore[arg-type]
    )
    assert (field, value) == ("end", "1")
    assert words in problem


def test_one_end_twice_among_the_same_readings_is_refused(world: SmallWorld, on_trial: int) -> None:
    """Also with the same value, and however its serial is spelt: one of the two is a slip."""
    twice = faults_of(world, pulled(on_trial, end="w-1"), pulled(on_trial, end="W-1"))
    assert twice == [
        ("end", "W-1", "end W-1 stands above already with 120.0\u202fN, conductor broke")
    ]


def test_an_end_is_measured_once_for_each_part_and_day(world: SmallWorld, on_trial: int) -> None:
    """End 1 may be pulled, its crimp and its strip measured, and each day has an end 1."""
    strip = dataclasses.replace(
        height(on_trial, "4.20"), part=Part.CONDUCTOR, length_mm=Decimal("4.20")
    )
    record(world, pulled(on_trial), height(on_trial, "1.62"), strip)
    tomorrow = TODAY + dt.timedelta(days=1)
    later = dataclasses.replace(pulled(on_trial, 130.0), on=tomorrow)
    assert readings_record(by=world.ben, given=[later], on=tomorrow).new == 1


@pytest.mark.parametrize(
    ("given", "field", "words"),
    [
        ({"force_n": 450.5}, "value", "more than 5 times the least pull of 90\u202fN"),
        ({"end": ""}, "end", "names no end"),
        ({"end": "x" * 41}, "end", "names no end"),
        ({"end": "1\n2"}, "end", "names no end"),
        ({"remark": "x" * 201}, "remark", "cannot be kept"),
        ({"on": YESTERDAY}, "date", "no end of this revision was measured on that day"),
        ({"on": TODAY + dt.timedelta(days=1)}, "date", "no end of this revision was measured"),
        ({"instrument": "I-9"}, "instrument", "no instrument is called so"),
        ({"cavity": "P-9"}, "cavity", "no cavity is called so"),
        ({"tool_count": -1}, "closings", "below zero"),
    ],
)
def test_what_cannot_be_of_a_pull_is_told_at_its_field(
    world: SmallWorld, on_trial: int, given: dict[str, object], field: str, words: str
) -> None:
    """Unit slips, ends without a name, days before the draft or to come, tools that are not."""
    bad = dataclasses.replace(pulled(on_trial), **given)  # type: ignore[arg-type]
    ((told, _, problem),) = faults_of(world, bad)
    assert told == field
    assert words in problem


@pytest.mark.parametrize(
    ("part", "length", "accepted"),
    [
        (Part.PIN_CRIMP, "2.101", "1.10\u202fmm to 2.10\u202fmm"),
        (Part.PIN_CRIMP, "1.099", "1.10\u202fmm to 2.10\u202fmm"),
        (Part.FERRULE_CRIMP, "1.62", "5.98\u202fmm to 6.98\u202fmm"),
        (Part.CONDUCTOR, "42.5", "2.75\u202fmm to 5.75\u202fmm"),
        (Part.JACKET_BACK, "24.001", "16.00\u202fmm to 24.00\u202fmm"),
        (
            Part.BRAID,
            "7.70",
            "pull, pin crimp, ferrule crimp, a, jacket back, cores bared, pin growth",
        ),
    ],
)
def test_a_length_of_another_part_is_refused(
    world: SmallWorld, on_trial: int, part: Part, length: str, accepted: str
) -> None:
    """Far off the cavity or the sheet, or of a part that this end has not: what would be taken."""
    bad = dataclasses.replace(height(on_trial, length), part=part)
    with pytest.raises(InputFaults) as caught:
        record(world, bad)
    assert [fault.accepted for fault in caught.value.faults] == [accepted]


def test_a_bad_crimp_is_evidence_and_taken_in(world: SmallWorld, on_trial: int) -> None:
    """Half a millimetre off the cavity, and a pull at a tenth of the least, are kept."""
    record(world, height(on_trial, "2.10"), pulled(on_trial, 9.0))
    assert lengths_mm(on_trial, Part.PIN_CRIMP) == (2.1,)


def test_a_cavity_of_the_other_use_is_refused(world: SmallWorld, on_trial: int) -> None:
    """No pin is crimped in a ferrule's cavity; a pull names whichever it likes."""
    bad = dataclasses.replace(height(on_trial, "1.62"), cavity="F-1")
    assert faults_of(world, bad) == [("cavity", "F-1", "this cavity closes on a ferrule")]
    record(world, dataclasses.replace(pulled(on_trial), cavity="P-1"))


def test_all_or_nothing(world: SmallWorld, on_trial: int) -> None:
    """Of three readings with one fault none is kept, and every fault of all three is told."""
    told = faults_of(
        world,
        pulled(on_trial),
        dataclasses.replace(pulled(on_trial, 999.0, end="2"), instrument="I-9"),
        height(on_trial, "9.99"),
    )
    assert [field for field, _, _ in told] == ["value", "instrument", "value"]


def test_drafts_and_withdrawn_revisions_are_not_measured(
    world: SmallWorld, drafted: int, on_trial: int
) -> None:
    """Paper has no ends; what a withdrawn revision was measured at stands and is known."""
    assert faults_of(world, pulled(drafted)) == [("revision", "A", "S-1 rev A is drafted")]
    record(world, pulled(on_trial))
    services.revision_withdraw(by=world.ada, revision_id=on_trial, on=TODAY, reason="Pin bent.")
    assert faults_of(world, pulled(on_trial, end="2"))[0][2] == "S-1 rev B is withdrawn"
    assert record(world, pulled(on_trial)).known == 1


def test_who_only_looks_records_and_takes_back_nothing(world: SmallWorld, on_trial: int) -> None:
    """The viewer is refused."""
    with refused("not_allowed"):
        readings_record(by=world.vic, given=[pulled(on_trial)], on=TODAY)
    record(world, pulled(on_trial))
    (row,) = pulls_read(on_trial)
    with refused("not_allowed"):
        reading_take_back(by=world.vic, kind=PULL, number=row.number, on=TODAY, reason="x")


def test_a_reading_taken_back_stays_and_no_longer_counts(world: SmallWorld, on_trial: int) -> None:
    """Its value and why stand there; the pulls and heights that count are without it."""
    record(world, pulled(on_trial), pulled(on_trial, 130.0, end="2"), height(on_trial, "1.62"))
    second = pulls_read(on_trial)[0]
    reading_take_back(by=world.ben, kind=PULL, number=second.number, on=TODAY, reason=" jerked ")
    (dimension,) = dimensions_read(on_trial)
    reading_take_back(
        by=world.ben, kind=DIMENSION, number=dimension.number, on=TODAY, reason="on the burr"
    )
    assert [pull.force_n for pull in selectors.pulls(on_trial)] == [120.0]
    assert [(row.force_n, row.withdrawn) for row in pulls_read(on_trial)] == [
        (130.0, "Ben: jerked"),
        (120.0, ""),
    ]
    assert lengths_mm(on_trial, Part.PIN_CRIMP) == ()
    assert dimensions_read(on_trial)[0].withdrawn == "Ben: on the burr"


def test_what_was_taken_back_may_be_read_anew_and_its_old_file_again(
    world: SmallWorld, on_trial: int
) -> None:
    """The right value takes the end's place; the wrong one, read again, stays taken back."""
    record(world, pulled(on_trial))
    number = pulls_read(on_trial)[0].number
    reading_take_back(by=world.ben, kind=PULL, number=number, on=TODAY, reason="typed wrong")
    assert record(world, pulled(on_trial)) == Recorded(new=0, known=1, taken_back=1)
    assert record(world, pulled(on_trial, 102.0)).new == 1
    assert record(world, pulled(on_trial)) == Recorded(new=0, known=1, taken_back=1)
    assert [pull.force_n for pull in selectors.pulls(on_trial)] == [102.0]


def test_taking_back_asks_why_once_and_of_what_there_is(world: SmallWorld, on_trial: int) -> None:
    """No reason, a second time, an unknown number or kind: refused."""
    record(world, pulled(on_trial))
    number = pulls_read(on_trial)[0].number
    with refused("reason_missing"):
        reading_take_back(by=world.ben, kind=PULL, number=number, on=TODAY, reason=" ")
    for kind, other in ((PULL, number + 1), (DIMENSION, number), ("other", number)):
        with pytest.raises(UnknownCode):
            reading_take_back(by=world.ben, kind=kind, number=other, on=TODAY, reason="x")
    reading_take_back(by=world.ben, kind=PULL, number=number, on=TODAY, reason="x")
    with refused("already_withdrawn"):
        reading_take_back(by=world.ben, kind=PULL, number=number, on=TODAY, reason="x")


def test_the_bench_takes_back_what_is_of_today_and_the_lead_what_is_older(
    world: SmallWorld, on_trial: int
) -> None:
    """A day later Ben is refused and Ada is not."""
    record(world, pulled(on_trial))
    number, later = pulls_read(on_trial)[0].number, TODAY + dt.timedelta(days=1)
    with refused("not_allowed"):
        reading_take_back(by=world.ben, kind=PULL, number=number, on=later, reason="x")
    reading_take_back(by=world.ada, kind=PULL, number=number, on=later, reason="x")
    assert selectors.pulls(on_trial) == ()


def test_readings_and_what_takes_them_back_are_kept(world: SmallWorld, on_trial: int) -> None:
    """Past the models the database itself refuses to change or remove any of them."""
    record(world, pulled(on_trial), height(on_trial, "1.62"))
    reading_take_back(
        by=world.ben, kind=PULL, number=pulls_read(on_trial)[0].number, on=TODAY, reason="x"
    )
    reading_take_back(
        by=world.ben,
        kind=DIMENSION,
        number=dimensions_read(on_trial)[0].number,
        on=TODAY,
        reason="x",
    )
    for table, column in (
        ("setups_pull", "remark"),
        ("setups_enddimension", "remark"),
        ("setups_pullwithdrawal", "reason"),
        ("setups_enddimensionwithdrawal", "reason"),
    ):
        for statement in (f"UPDATE {table} SET {column} = 'y'", f"DELETE FROM {table}"):
            with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
                cursor.execute(statement)


def test_the_database_keeps_no_dimension_without_its_end(world: SmallWorld, on_trial: int) -> None:
    """Past the service the constraints still hold."""
    for wrong in ({"end": ""}, {"length_mm": Decimal(0)}, {"part": "lid"}):
        row = {
            "revision_id": on_trial,
            "part": "a",
            "length_mm": Decimal("4.2"),
            "end": "1",
            "measured_on": TODAY,
            "measured_by": world.ben,
        }
        with pytest.raises(IntegrityError), transaction.atomic():
            EndDimension.objects.create(**(row | wrong))


def test_five_heights_within_their_tolerance_are_needed_to_prove(
    world: SmallWorld, on_trial: int
) -> None:
    """Four are too few, one outside is one too many; five, some on the very edge, are enough."""
    services.pulls_record(
        by=world.ben,
        revision_id=on_trial,
        pulls_n=[(force_n, FailureMode.CONDUCTOR_BROKE) for force_n in GOOD_PULLS_N],
        on=TODAY,
    )
    sheet = selectors.revision_sheet(on_trial)
    edge = ("1.62", "1.65", "1.59", "1.63")
    record(world, *(height(on_trial, mm, end=str(end)) for end, mm in enumerate(edge)))
    with refused("something_missing") as caught:
        services.revision_prove(by=world.ada, revision_id=on_trial, on=TODAY)
    assert "4 crimp heights of 5 within 1.62 ± 0.03\u202fmm: 1 more is needed." in str(caught.value)
    record(world, height(on_trial, "1.651", end="outside"))
    (reason,) = selectors.next_state(sheet).missing
    assert reason.sentence == (
        "1 of 5 crimp heights lies outside 1.62 ± 0.03\u202fmm, the farthest at 1.651\u202fmm."
    )
    outside = dimensions_read(on_trial)[0]
    reading_take_back(
        by=world.ben, kind=DIMENSION, number=outside.number, on=TODAY, reason="on the burr"
    )
    record(world, height(on_trial, "1.62", end="5"))
    services.revision_prove(by=world.ada, revision_id=on_trial, on=TODAY)


def typed(world: SmallWorld, revision_id: int, **fields: str) -> Given:
    """Ben types one reading."""
    sheet = selectors.revision_sheet(revision_id)
    return reading_typed(by=world.ben, sheet=sheet, fields=fields, on=TODAY)


def test_a_typed_number_is_in_the_unit_of_the_bench(world: SmallWorld, on_trial: int) -> None:
    """194,5 is newtons and 1,62 millimetres; a unit that is typed stands before both."""
    mode = {"gave_way": "conductor broke"}
    assert typed(world, on_trial, what="pull", value="194,5", end="1", **mode).force_n == 194.5
    pounds = typed(world, on_trial, what="pull", value="43.6 lbf", end="2", **mode)
    assert pounds.force_n == pytest.approx(193.94, abs=0.005)
    pin = typed(world, on_trial, what="pin crimp", value="1,62", end="1")
    assert pin.length_mm == Decimal("1.620")
    assert typed(world, on_trial, what="a", value="4,205", end="1").length_mm == Decimal("4.205")
    inches = typed(world, on_trial, what="pin crimp", value="0.064 in", end="2")
    assert inches.length_mm == Decimal("1.626")


def test_the_cavity_in_service_is_known_without_typing(world: SmallWorld, on_trial: int) -> None:
    """A pin's height names the pin's cavity, a pull the ferrule's, each with its count."""
    typed(world, on_trial, what="pin crimp", value="1.62", end="1")
    typed(world, on_trial, what="pull", value="194", end="1", gave_way="held")
    typed(world, on_trial, what="a", value="4.2", end="1")
    found = {row.part: (row.cavity, row.tool_count) for row in dimensions_read(on_trial)}
    assert found == {Part.PIN_CRIMP: ("P-1", 1200), Part.CONDUCTOR: ("", None)}
    assert (pulls_read(on_trial)[0].cavity, pulls_read(on_trial)[0].tool_count) == ("F-1", 3400)


def test_a_second_touch_doubles_nothing(world: SmallWorld, on_trial: int) -> None:
    """The same end typed twice is told the second time."""
    form = {"what": "pull", "value": "194", "gave_way": "held", "end": "1"}
    typed(world, on_trial, **form)
    with pytest.raises(InputFaults, match="end 1 stands there with the same pull already"):
        typed(world, on_trial, **form)
    assert len(pulls_read(on_trial)) == 1


@pytest.mark.parametrize(
    ("form", "fields"),
    [
        ({"what": "lid", "value": "1"}, ["what"]),
        ({"what": "pull", "value": "", "gave_way": ""}, ["value", "gave_way"]),
        ({"what": "pull", "value": "soon", "gave_way": "exploded"}, ["value", "gave_way"]),
        ({"what": "pull", "value": "1,620", "gave_way": "held"}, ["value"]),
        ({"what": "pin crimp", "value": "2 m"}, ["value"]),
        ({"what": "pin crimp", "value": "0.0001 mm"}, ["value"]),
    ],
)
def test_what_cannot_be_read_is_told_field_by_field(
    world: SmallWorld, on_trial: int, form: dict[str, str], fields: list[str]
) -> None:
    """Unknown parts, empty and unreadable values, words that are not known: all at once."""
    with pytest.raises(InputFaults) as caught:
        typed(world, on_trial, end="1", **form)
    assert [fault.field for fault in caught.value.faults] == fields


def test_the_numbers_of_the_sheet_decide_and_not_the_size_of_the_end(
    world: SmallWorld, on_trial: int
) -> None:
    """A set-up without a crimp height asks for no heights."""
    from reelwright.shop.setups.rules import missing_heights

    none = dataclasses.replace(CRIMPED, crimp_height_mm=None, crimp_height_tolerance_mm=None)
    assert missing_heights(none, ()) == ()
    assert [each.code for each in missing_heights(CRIMPED, ())] == ["too_few_heights"]
