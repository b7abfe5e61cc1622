"""What was measured of a lot stands before the book, and is never changed."""

from typing import Any

import pytest
from django.db import DatabaseError, transaction

from reelwright.core.errors import InputFaults, UnknownCode
from reelwright.core.parts.cable import LossPoint, LotMeasure
from reelwright.shop.reels import services
from reelwright.shop.reels.measuring import lot_measure_typed
from reelwright.shop.reels.models import LotMeasurement
from reelwright.shop.reels.selectors import lot_measurements
from reelwright.shop.reels.to_core import lot_values
from tests.shop.refusals import refused
from tests.small_world import TODAY, SmallWorld


def measure(world: SmallWorld, **other: Any) -> LotMeasurement:
    """Enter a capacitance, good unless ``other`` says otherwise."""
    fields: dict[str, Any] = {
        "by": world.ben,
        "lot_code": "L-1",
        "what": "capacitance_f_per_m",
        "value": 54.2e-12,
        "relative_uncertainty": 0.005,
        "readings": 3,
        "on": TODAY,
    }
    return services.lot_measure(**(fields | other))


def test_the_newest_measurement_of_each_value_counts(world: SmallWorld) -> None:
    """Two capacitances, an impedance and losses: the core's value has the newest of each."""
    measure(world)
    measure(world, value=54.6e-12, relative_uncertainty=0.004)
    measure(world, what="delay_s_per_m", value=4.03e-9, relative_uncertainty=0.0005)
    for frequency_hz, value, spread in ((742.5e6, 0.221, 0.01), (135e6, 0.0912, 0.02)):
        measure(
            world,
            what="loss_db_per_m",
            frequency_hz=frequency_hz,
            value=value,
            relative_uncertainty=spread,
        )
    lot = lot_values()["L-1"]
    assert lot.capacitance_f_per_m == LotMeasure(value=54.6e-12, relative_uncertainty=0.004)
    assert lot.delay_s_per_m == LotMeasure(value=4.03e-9, relative_uncertainty=0.0005)
    assert lot.loss_points == (
        LossPoint(frequency_hz=135e6, loss_db_per_m=0.0912),
        LossPoint(frequency_hz=742.5e6, loss_db_per_m=0.221),
    )
    assert lot.loss_relative_uncertainty == 0.02
    assert [row.value for row in lot_measurements("L-1")][:2] == [0.0912, 0.221]


@pytest.mark.parametrize(
    ("other", "code"),
    [
        ({"value": 0.0}, "value_bad"),
        ({"value": float("nan")}, "value_bad"),
        ({"relative_uncertainty": 1.0}, "value_bad"),
        ({"readings": 0}, "value_bad"),
        ({"frequency_hz": 1e6}, "frequency_bad"),
        ({"what": "loss_db_per_m", "value": 0.09}, "frequency_bad"),
        # 54 pF/ft taken as pF/m the other way round: three times too much.
        ({"value": 177e-12}, "far_from_book"),
    ],
)
def test_what_cannot_have_been_measured_is_refused(
    world: SmallWorld, other: dict[str, Any], code: str
) -> None:
    """Each refusal has its own code, and nothing is written."""
    with refused(code):
        measure(world, **other)
    assert not LotMeasurement.objects.exists()


def test_unknown_lots_and_values_are_named(world: SmallWorld) -> None:
    """A lot that is not there, and a thing that nobody measures of a lot."""
    with pytest.raises(UnknownCode):
        measure(world, lot_code="L-99")
    with pytest.raises(UnknownCode):
        measure(world, what="colour")


def test_who_only_looks_may_not_enter(world: SmallWorld) -> None:
    """A viewer is refused before anything is read."""
    with refused("not_allowed"):
        measure(world, by=world.vic)


def test_the_database_keeps_every_entry(world: SmallWorld) -> None:
    """Neither a change nor a removal passes, not even beside the model."""
    from django.db import connection

    row = measure(world)
    for sql in (
        "UPDATE reels_lotmeasurement SET value = 1",
        "DELETE FROM reels_lotmeasurement",
    ):
        with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
            cursor.execute(sql)
    with refused("append_only"):
        row.delete()


@pytest.mark.parametrize(
    ("what", "typed", "value"),
    [
        ("capacitance_f_per_m", "16.3 pF/ft", 16.3e-12 / 0.3048),
        ("impedance_ohm", "75.4 ohm", 75.4),
        ("delay_s_per_m", "1.23 ns/ft", 1.23e-9 / 0.3048),
        ("resistance_conductor_ohm_per_m", "33.4 ohm/km", 0.0334),
        ("resistance_conductor_ohm_per_m", "33.4 mΩ/m", 0.0334),
    ],
)
def test_values_are_read_as_people_write_them(
    world: SmallWorld, what: str, typed: str, value: float
) -> None:
    """Per foot and per kilometre come to the same metre."""
    fields = {"what": what, "value": typed, "spread": "0.5 %"}
    row = lot_measure_typed(by=world.ben, lot_code="L-1", fields=fields, on=TODAY)
    assert row.value == pytest.approx(value)
    assert row.relative_uncertainty == 0.005


def test_all_faults_of_an_entry_are_told_together(world: SmallWorld) -> None:
    """A loss without frequency, a spread without its sign and no count of readings: three."""
    fields = {
        "what": "loss_db_per_m",
        "value": "7.2 dB/100 ft",
        "spread": "0.5",
        "readings": "many",
        "frequency": "",
    }
    with pytest.raises(InputFaults) as caught:
        lot_measure_typed(by=world.ben, lot_code="L-1", fields=fields, on=TODAY)
    assert {fault.field for fault in caught.value.faults} == {"spread", "readings", "frequency"}
    assert not LotMeasurement.objects.exists()


def test_a_withdrawn_measurement_gives_way_to_what_stood_before(world: SmallWorld) -> None:
    """Back to the earlier one, then to the book; both entries stay."""
    first = measure(world)
    second = measure(world, value=54.6e-12)
    for row in (second, first):
        services.lot_measurement_withdraw(
            by=world.ada, measurement=row.pk, on=TODAY, reason="sample of L-2"
        )
        found = lot_values()["L-1"].capacitance_f_per_m
        assert (None if found is None else found.value) == (54.2e-12 if row is second else None)
    assert len(lot_measurements("L-1")) == 2
    with refused("already_withdrawn"):
        services.lot_measurement_withdraw(
            by=world.ada, measurement=first.pk, on=TODAY, reason="again"
        )


def test_a_withdrawal_says_why_and_is_for_who_may_correct(world: SmallWorld) -> None:
    """Without a reason, by a bench or of nothing it is refused."""
    row = measure(world)
    with refused("reason_missing"):
        services.lot_measurement_withdraw(by=world.ada, measurement=row.pk, on=TODAY, reason=" ")
    with refused("not_allowed"):
        services.lot_measurement_withdraw(by=world.vic, measurement=row.pk, on=TODAY, reason="x")
    with pytest.raises(UnknownCode):
        services.lot_measurement_withdraw(by=world.ada, measurement=0, on=TODAY, reason="x")
    withdrawal = services.lot_measurement_withdraw(
        by=world.ada, measurement=row.pk, on=TODAY, reason="x"
    )
    with refused("append_only"):
        withdrawal.delete()


def test_a_point_measured_again_is_the_same_point(world: SmallWorld) -> None:
    """742.5 MHz and 0.7425 GHz are one frequency, however it was written: the newest counts."""
    for frequency_hz, value in ((742.5e6, 0.221), (0.7425e9 * (1 + 1e-15), 0.224)):
        measure(world, what="loss_db_per_m", frequency_hz=frequency_hz, value=value)
    assert lot_values()["L-1"].loss_points == (
        LossPoint(frequency_hz=742.5e6, loss_db_per_m=0.224),
    )
