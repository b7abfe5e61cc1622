"""The page of the instruments: what is known of each, and recording what is not."""

from collections.abc import Callable
from decimal import Decimal

import pytest
from django.test import Client

from reelwright.shop.setups.readings.given import Given
from reelwright.shop.setups.readings.services import readings_record
from reelwright.shop.setups.selectors import pull_uncertainty, set_up_sheets
from reelwright.shop.setups.selectors import pulls as pulls_of
from reelwright.shop.setups.states import FailureMode
from reelwright.shop.tools.services import instrument_add
from reelwright.shop.tools.uncertainty import instrument_uncertainty_record, instruments_now
from tests.day_world import DayWorld
from tests.small_world import TODAY

FORM = {
    "instrument": "I-1",
    "uncertainty": "1 N",
    "source": "certificate 12",
    "on": "",
}


@pytest.fixture
def ada(day_world: DayWorld, signed_in: Callable[[str], Client]) -> Client:
    """Ada, with a pull tester I-1 of which nothing is known."""
    instrument_add(
        by=day_world.ada, code="I-1", name="Pull tester", measures="force", calibration_due=TODAY
    )
    return signed_in("ada")


def test_what_is_not_known_is_said_and_then_recorded(ada: Client) -> None:
    """Not recorded; typed in; there it stands with its source."""
    assert "not recorded" in ada.get("/instruments").text
    told = ada.post("/instruments", FORM, follow=True).text
    assert "I-1: 1\u202fN is recorded." in told
    assert "certificate 12" in told
    assert "not recorded" not in told


@pytest.mark.parametrize(
    ("other", "words"),
    [
        ({"uncertainty": "1"}, "This is no length and no force with its unit"),
        ({"uncertainty": "5000 N"}, "is no standard uncertainty"),
        ({"source": ""}, "Nothing stands here"),
        ({"instrument": "I-9"}, "I-9"),
        ({"on": "2031-01-01"}, "has not come yet"),
    ],
)
def test_what_cannot_be_is_told_at_its_field(
    ada: Client, other: dict[str, str], words: str
) -> None:
    """What was typed stays, nothing is kept."""
    answer = ada.post("/instruments", FORM | other)
    assert answer.status_code == 422
    assert words in answer.text
    assert 'aria-invalid="true"' in answer.text
    assert instruments_now(on=TODAY)[0].uncertainty is None


def test_the_bench_looks_and_records_nothing(
    ada: Client, signed_in: Callable[[str], Client]
) -> None:
    """Whoever may not keep tools sees no form, and is refused one."""
    ben = signed_in("ben")
    assert "Record the uncertainty" not in ben.get("/instruments").text
    assert ben.post("/instruments", FORM).status_code == 403


def test_pulls_say_whether_their_tester_is_known(ada: Client, day_world: DayWorld) -> None:
    """The ten pulls of S-1 name none, and say so; of ten with I-1 the newest record is known."""
    sheet = set_up_sheets("S-1")[0]
    page = ada.get("/set-ups/S-1").text
    assert "uncertainty is not recorded: 10 readings of 10 name no instrument." in page
    bare = pulls_of(sheet.revision_id)
    assert pull_uncertainty(bare).value is None

    readings_record(
        by=day_world.ben,
        given=[
            Given(
                revision_id=sheet.revision_id,
                on=TODAY,
                end=str(number),
                force_n=pull.force_n,
                failure_mode=FailureMode(pull.failure_mode),
                instrument="I-1",
            )
            for number, pull in enumerate(bare, start=1)
        ],
        on=TODAY,
    )
    named = [pull for pull in pulls_of(sheet.revision_id) if pull.instrument]
    assert (len(named), pull_uncertainty(named).value) == (10, None)
    for uncertainty in ("1", "8"):
        instrument_uncertainty_record(
            by=day_world.ada,
            code="I-1",
            standard_uncertainty=Decimal(uncertainty),
            unit="N",
            source="certificate 12",
            on=TODAY,
            today=TODAY,
        )
        assert pull_uncertainty(named).value == float(uncertainty)
