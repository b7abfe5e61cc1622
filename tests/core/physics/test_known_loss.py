"""The loss of the cable in hand: stated, between, beyond, below, and as its lot was measured."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, LossPoint, Lot, LotMeasure
from reelwright.core.physics.known_loss import KnownLoss, known_loss
from reelwright.core.physics.lot_values import Stated, known_value
from reelwright.core.physics.sheet_line import SheetLine, line_of_sheet
from reelwright.core.verdicts import Basis, Reason
from tests import signal_world as world

WHOLE = world.cable(
    "VID-X", world.sheet(75.0, 53.6, 4.019, 21.0, (2.6, 9.4, 22.3, 31.8), screen_ohm_per_km=9.0)
)


def known(cable: Cable, lot: Lot | None = None) -> KnownLoss:
    """Return the loss of a cable for which it is known."""
    found = known_loss(cable, lot)
    assert isinstance(found, KnownLoss)
    return found


def loss_db_per_100m(cable: Cable, frequency_hz: float, lot: Lot | None = None) -> float:
    """Return the loss at 20 °C."""
    return 100 * float(known(cable, lot).loss_db_per_m(frequency_hz, temperature_celsius=20.0))


def measured(*points: tuple[float, float]) -> Lot:
    """Return a lot of WHOLE with losses measured to 1 % at (MHz, dB/100 m)."""
    return replace(
        world.lot(WHOLE, 0.83),
        loss_points=tuple(
            LossPoint(frequency_hz=at * 1e6, loss_db_per_m=loss / 100) for at, loss in points
        ),
        loss_relative_uncertainty=0.01,
    )


@pytest.mark.parametrize("cable", [WHOLE, world.VID_60, world.VID_70P, world.PHO_61, world.VID_28])
def test_a_stated_loss_is_the_answer_at_its_frequency(cable: Cable) -> None:
    """Whatever was fitted, at a stated frequency the data sheet is not contradicted."""
    for point in cable.sheet.loss_points:
        ours = loss_db_per_100m(cable, point.frequency_hz)
        assert ours == pytest.approx(100 * point.loss_db_per_m, rel=1e-9)


@given(factor=st.floats(min_value=0.8, max_value=1.25), at=st.sampled_from([1e6, 50e6, 3e9]))
def test_a_lot_that_loses_more_everywhere_loses_more_between(factor: float, at: float) -> None:
    """All losses measured a factor higher make every other loss that factor higher, within 2 %."""
    # Not exactly: the resistance at direct current was not measured and stays the book's.
    points = [(p.frequency_hz / 1e6, 100 * p.loss_db_per_m * factor) for p in stated_of(WHOLE)]
    ratio = loss_db_per_100m(WHOLE, at, measured(*points)) / loss_db_per_100m(WHOLE, at)
    assert ratio == pytest.approx(factor, rel=0.12 if at < 3e6 else 0.02)


def stated_of(cable: Cable) -> tuple[LossPoint, ...]:
    """Return the losses of the data sheet."""
    return cable.sheet.loss_points


def test_losses_measured_on_the_lot_stand_before_the_book() -> None:
    """Measured at two frequencies: those are the answer, and the book's others move along."""
    lot = measured((135.0, 9.7), (742.5, 23.0))
    assert loss_db_per_100m(WHOLE, 135e6, lot) == pytest.approx(9.7, rel=1e-9)
    assert loss_db_per_100m(WHOLE, 742.5e6, lot) == pytest.approx(23.0, rel=1e-9)
    assert loss_db_per_100m(WHOLE, 1485e6, lot) == pytest.approx(31.8 * 23.0 / 22.3, rel=1e-9)
    assert loss_db_per_100m(WHOLE, 10e6, lot) == pytest.approx(2.6 * 9.7 / 9.4, rel=1e-9)
    found = known(WHOLE, lot)
    assert (found.spread_at(500e6), found.spread_at(1485e6)) == (0.01, 0.03)
    assert found.source.basis is Basis.OWN_SHOP


def test_audio_is_answered_by_resistance_and_capacitance() -> None:
    """At 100 Hz the loss is √(ωRC/2), with the resistance and capacitance that the sheet states."""
    wanted = 8.686 * math.sqrt(2 * math.pi * 1e2 * 0.030 * 53.6e-12 / 2) * 100
    assert loss_db_per_100m(WHOLE, 1e2) == pytest.approx(wanted, rel=0.005)


def test_without_a_stated_resistance_nothing_is_said_below_3_mhz() -> None:
    """Losses alone say nothing of audio: asked there, the answer is an error naming the field."""
    with pytest.raises(BadValue, match="frequency_hz"):
        loss_db_per_100m(world.VID_60, 1e6)


def test_a_sheet_of_losses_alone_has_a_loss_but_no_line() -> None:
    """Two losses make a loss; without impedance and delay no line is claimed."""
    losses_only = world.cable("X", world.sheet(losses_db_per_100m=(2.41, 9.02, 21.85, 31.62)))
    assert isinstance(line_of_sheet(losses_only, None), Reason)
    ours, full = (loss_db_per_100m(each, 400e6) for each in (losses_only, world.VID_60))
    assert ours == pytest.approx(full, rel=1e-3)


def test_one_loss_is_a_reason() -> None:
    """One stated loss says nothing of how it changes with frequency."""
    found = known_loss(world.cable("X", world.sheet(75.0, losses_db_per_100m=(2.4,))), None)
    assert isinstance(found, Reason)
    assert "1 frequency; two are needed" in found.sentence


def test_many_frequencies_are_answered_as_one_by_one() -> None:
    """An array gives what each of its frequencies gives."""
    frequencies = np.geomspace(1e3, 6e9, 23)
    many = known(WHOLE).loss_db_per_m(frequencies, temperature_celsius=40.0)
    single = [known(WHOLE).loss_db_per_m(float(f), temperature_celsius=40.0) for f in frequencies]
    np.testing.assert_allclose(many, single, rtol=1e-12)
    assert (np.diff(many) > 0).all()


def test_a_measured_impedance_and_resistance_make_the_line() -> None:
    """The line of a measured lot has its impedance, and its resistance at direct current."""
    lot = replace(
        world.lot(WHOLE, 0.83),
        impedance_ohm=LotMeasure(value=76.2, relative_uncertainty=0.005),
        resistance_conductor_ohm_per_m=LotMeasure(value=0.0205, relative_uncertainty=0.005),
    )
    line = line_of_sheet(WHOLE, lot)
    assert isinstance(line, SheetLine)
    assert line.impedance_ohm == 76.2
    assert line.direct_ohm_per_m == pytest.approx(0.0205 + 0.009)
    own, book = (known_value(WHOLE, each, Stated.IMPEDANCE) for each in (lot, None))
    assert own is not None
    assert book is not None
    assert (own.relative_uncertainty, book.relative_uncertainty) == (0.005, 0.02)
    assert "lot L-1" in str(own.source)


def test_measured_losses_need_their_uncertainty() -> None:
    """Losses without their spread, or a spread without losses, are refused."""
    lot = measured((135.0, 9.7), (742.5, 23.0))
    with pytest.raises(BadValue, match="loss_relative_uncertainty"):
        replace(lot, loss_relative_uncertainty=None)
    with pytest.raises(BadValue, match="loss_relative_uncertainty"):
        replace(lot, loss_points=())
