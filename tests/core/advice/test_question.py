"""What a question refuses when it is built."""

import dataclasses
from decimal import Decimal

import pytest

from reelwright.core.errors import BadValue
from tests import signal_world as signals
from tests.core.advice import world

ASKED = world.question("3G", signals.VID_60, 60.0)
ENTRY = world.CATALOGUE[0]


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"catalogue": (ENTRY, ENTRY)}, "catalogue"),
        ({"ends": ((), ("BNC-60",))}, "ends"),
        ({"ends": (("BNC-60",),)}, "ends"),
        ({"adapters": -1}, "adapters"),
        ({"adapters": 1}, "adapters"),
        ({"temperature_celsius": float("nan")}, "temperature_celsius"),
        ({"temperature_celsius": 40.0}, "temperature_celsius"),
        ({"length": dataclasses.replace(ASKED.length, mean_m=61.0)}, "length"),
    ],
)
def test_a_question_that_contradicts_itself_is_refused(
    changed: dict[str, object], field: str
) -> None:
    """The fault names the field: a cable twice, no end, or not the run that was asked for."""
    with pytest.raises(BadValue) as refused:
        dataclasses.replace(ASKED, **changed)
    assert refused.value.field == field


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"price_per_m": Decimal(0)}, "price_per_m"),
        ({"price_per_m": Decimal("-1.20")}, "price_per_m"),
        ({"price_per_m": Decimal("NaN")}, "price_per_m"),
        ({"connectors": (signals.BNC, signals.BNC)}, "connectors"),
        ({"lot": signals.lot(signals.VID_28, 0.8)}, "cable_code"),
    ],
)
def test_a_cable_of_the_catalogue_that_cannot_be_is_refused(
    changed: dict[str, object], field: str
) -> None:
    """No price of nothing, no connector twice, no lot of another cable."""
    with pytest.raises(BadValue) as refused:
        dataclasses.replace(ENTRY, **changed)
    assert refused.value.field == field


def test_the_run_asked_for_is_there_where_its_cable_takes_both_its_ends() -> None:
    """A BNC on a video coax is; an XLR on it, or a cable that is not in the catalogue, is not."""
    assert ASKED.asked_is_there
    assert not world.question("3G", signals.VID_60, 60.0, ends=("XLR3F", "BNC-60")).asked_is_there
    assert not dataclasses.replace(ASKED, catalogue=world.CATALOGUE[2:]).asked_is_there
    assert not dataclasses.replace(ASKED, asked=None).asked_is_there
