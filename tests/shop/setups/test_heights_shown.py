"""Heights are judged with what is recorded of the gauge that read them."""

import dataclasses
from decimal import Decimal

from reelwright.core.verdicts import Outcome
from reelwright.shop.setups.paper_results import measured_told
from reelwright.shop.setups.readings.given import Given
from reelwright.shop.setups.readings.services import readings_record
from reelwright.shop.setups.selectors import revision_sheet
from reelwright.shop.setups.shown.heights import HeightsShown, heights_shown
from reelwright.shop.setups.states import Part
from reelwright.shop.tools.uncertainty import instrument_uncertainty_record
from tests.small_world import CABLE, CONNECTOR, TODAY, SmallWorld


def heights(world: SmallWorld, number: int, *, instrument: str = "I-2") -> HeightsShown:
    """Five heights about 1.62 ± 0.03 mm of a revision, and what is shown of them."""
    one = Given(revision_id=number, on=TODAY, end="", part=Part.PIN_CRIMP, instrument=instrument)
    readings_record(
        by=world.ben,
        given=[
            dataclasses.replace(one, end=str(end), length_mm=Decimal(length))
            for end, length in enumerate(("1.618", "1.621", "1.619", "1.622", "1.620"))
        ],
        on=TODAY,
    )
    return heights_shown(revision_sheet(number), CABLE, CONNECTOR)


def known(world: SmallWorld, uncertainty_mm: str) -> None:
    """The gauge I-2 has this standard uncertainty from today on."""
    instrument_uncertainty_record(
        by=world.ada,
        code="I-2",
        standard_uncertainty=Decimal(uncertainty_mm),
        unit="mm",
        source="certificate 12",
        on=TODAY,
        today=TODAY,
    )


def test_a_gauge_without_a_record_is_said_and_takes_no_part(
    world: SmallWorld, on_trial: int
) -> None:
    """Cpk and interval stand; page and sheet say that its uncertainty is not recorded."""
    shown = heights(world, on_trial)
    assert [check.outcome for check in shown.checks] == [Outcome.GOOD, Outcome.GOOD]
    assert not shown.gauge_known
    assert shown.gauge == (
        "The height gauge's uncertainty is not recorded: none stands for I-2 in mm on those days."
    )
    assert shown.gauge in [each.sentence for each in measured_told(shown)]
    # s = 0.00158 mm in ±0.03 mm: Cpk 6.32, also in the row of the part.
    assert shown.rows[0].figures is not None
    assert shown.rows[0].figures.cpk == "6.32"


def test_the_recorded_uncertainty_is_held_against_the_tolerance(
    world: SmallWorld, on_trial: int
) -> None:
    """0.002 mm is ±0.004 of ±0.030, 13 %; of 0.016 mm the tolerance lies under the noise."""
    known(world, "0.002")
    shown = heights(world, on_trial)
    assert shown.gauge_known
    assert "13\u202f% of the ±0.030\u202fmm that pass" in shown.checks[2].sentence
    known(world, "0.016")
    (refused,) = heights_shown(revision_sheet(on_trial), CABLE, CONNECTOR).checks
    assert refused.outcome is Outcome.NOT_COMPUTED
    assert "lies under the noise" in refused.sentence


def test_readings_that_name_no_instrument_have_no_known_uncertainty(
    world: SmallWorld, on_trial: int
) -> None:
    """What is recorded of a gauge says nothing of readings that do not name it."""
    known(world, "0.002")
    shown = heights(world, on_trial, instrument="")
    assert not shown.gauge_known
    assert "5 readings of 5 name no instrument" in shown.gauge
