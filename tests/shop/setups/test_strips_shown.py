"""What a set-up shows of its measured strips: cut by cut, and what is missing to tell."""

import dataclasses
from collections.abc import Sequence
from decimal import Decimal

from reelwright.core.parts.connector import Method
from reelwright.core.verdicts import Outcome
from reelwright.shop.setups.readings.given import Given
from reelwright.shop.setups.readings.selectors import DimensionRead, dimensions_read
from reelwright.shop.setups.readings.services import readings_record
from reelwright.shop.setups.selectors import revision_sheet
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.shown.heights import heights_shown
from reelwright.shop.setups.shown.strips import strips_shown
from reelwright.shop.setups.states import Part
from tests.small_world import CABLE, CONNECTOR, TODAY, SmallWorld

MM = "\u202fmm"


def coax(number: int) -> SetUpSheet:
    """The revision as a crimped coax end with its three cuts."""
    sheet = revision_sheet(number)
    lengths = {
        f"strip_{layer}_{what}": Decimal(value)
        for layer, length, tolerance in (
            ("conductor", "4.25", "0.10"),
            ("dielectric", "5.00", "0.10"),
            ("braid", "7.70", "0.15"),
        )
        for what, value in (("mm", length), ("tolerance_mm", tolerance))
    }
    return dataclasses.replace(
        sheet,
        method=Method.CRIMP_CRIMP,
        numbers=dataclasses.replace(sheet.numbers, **lengths),
    )


def lengths(part: Part, *values_mm: str) -> list[DimensionRead]:
    """Return readings that count of one part."""
    return [
        DimensionRead(
            number=number,
            end=str(number),
            on=TODAY,
            by="Ben",
            instrument="",
            out_of_calibration=False,
            cavity="",
            tool_count=None,
            remark="",
            file="",
            withdrawn="",
            part=part,
            length_mm=Decimal(value),
            before_mm=None,
        )
        for number, value in enumerate(values_mm, start=1)
    ]


def thirty(aim: str) -> Sequence[str]:
    """Thirty lengths about the aim, ±0.02 mm."""
    return [str(Decimal(aim) + Decimal("0.02") * (number % 3 - 1)) for number in range(30)]


def test_each_cut_is_judged_with_its_own_readings(world: SmallWorld, drafted: int) -> None:
    """Thirty of a keep, three of b are few, one of c tells nothing; the figures stand by name."""
    found = strips_shown(
        coax(drafted),
        [
            *lengths(Part.CONDUCTOR, *thirty("4.25")),
            *lengths(Part.DIELECTRIC, "4.98", "5.00", "5.02"),
            *lengths(Part.BRAID, "7.70"),
            *lengths(Part.PIN_CRIMP, "1.62", "1.63"),
        ],
    )
    assert [check.outcome for check in found.checks] == [
        Outcome.GOOD,
        Outcome.CAUTION,
        Outcome.NOT_COMPUTED,
    ]
    assert "measure 27 more to tell" in found.checks[1].sentence
    assert "one strip tells nothing of a spread" in found.checks[2].sentence
    assert set(found.figures) == {"a", "b"}
    # s = 0.02 mm, three standard deviations to either limit are 0.06 mm.
    assert found.figures["b"].cpk == "1.67"
    assert found.missing == ""


def test_what_was_not_measured_is_asked_for(world: SmallWorld, drafted: int) -> None:
    """Cuts without a reading are named with how many strips would tell."""
    sheet = coax(drafted)
    nothing = strips_shown(sheet, [])
    assert nothing.checks == ()
    assert nothing.missing == (
        "No strip was measured for a, b and c: 30 under the comparator tell whether they keep "
        "their tolerance."
    )
    only_a = strips_shown(sheet, lengths(Part.CONDUCTOR, "4.24", "4.26"))
    assert [check.name for check in only_a.checks] == ["capability of a"]
    assert only_a.missing.startswith("No strip was measured for b and c:")


def test_a_strip_that_is_not_given_is_not_judged(world: SmallWorld, drafted: int) -> None:
    """A revision without its tolerances says so, once something was measured of it."""
    sheet = coax(drafted)
    bare = dataclasses.replace(
        sheet, numbers=dataclasses.replace(sheet.numbers, strip_braid_tolerance_mm=None)
    )
    assert strips_shown(bare, []).missing == ""
    told = strips_shown(bare, lengths(Part.CONDUCTOR, "4.24", "4.26"))
    assert "does not give its strip with tolerances yet" in told.missing
    assert (told.checks, told.figures) == ((), {})


def test_recorded_lengths_reach_the_section(world: SmallWorld, on_trial: int) -> None:
    """What was recorded of the bared cores is judged beside its row; what was taken back is not."""
    readings_record(
        by=world.ben,
        given=[
            Given(
                revision_id=on_trial,
                on=TODAY,
                end=str(number),
                part=Part.CORES_BARED,
                length_mm=Decimal(length),
            )
            for number, length in enumerate(("4.9", "5.0", "5.1"), start=1)
        ],
        on=TODAY,
    )
    assert len(dimensions_read(on_trial)) == 3
    shown = heights_shown(revision_sheet(on_trial), CABLE, CONNECTOR)
    (row,) = shown.rows
    assert row.figures is not None
    assert (row.figures.cpk, row.figures.least) == ("1.67", "0.26")
    (check,) = shown.strips.checks
    assert f"3 strips, mean 5.00{MM}" in check.sentence
