"""What a finished cable should measure."""

import math
from dataclasses import replace

import pytest

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.parts.length import Length
from reelwright.core.physics.consistency import judge_sheet
from reelwright.core.physics.prediction import ExpectedValue, predict
from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S
from reelwright.core.verdicts import Outcome
from tests import signal_world as world


def expected(
    cable: Cable,
    length_m: float,
    *,
    spread_m: float = 0.0,
    lot: Lot | None = None,
    celsius: float = 20.0,
    frequencies_hz: tuple[float, ...] = (),
) -> dict[str, ExpectedValue]:
    """Return the prediction by name."""
    values = predict(
        cable=cable,
        lot=lot,
        length=Length(mean_m=length_m, standard_uncertainty_m=spread_m),
        temperature_celsius=celsius,
        frequencies_hz=frequencies_hz,
    )
    assert len({value.name for value in values}) == len(values)
    return {value.name: value for value in values}


def test_a_video_coax_has_loss_resistance_capacitance_delay_and_impedance() -> None:
    """85 ft of plenum coax: 5.22 dB of cable at 742.5 MHz, and what else its sheet states."""
    values = expected(world.VID_70P, 25.908)
    assert values["loss at 742.5 MHz"].value == pytest.approx(5.22, abs=0.005)
    assert values["capacitance, centre to screen"].value == pytest.approx(53.3e-12 * 25.908)
    assert values["delay"].value == pytest.approx(3.971e-9 * 25.908)
    assert values["resistance of one conductor"].value == pytest.approx(0.02093 * 25.908)
    assert values["impedance"].value == 74.6
    assert "loop resistance, centre and screen" not in values


def test_the_screen_closes_the_loop_where_it_is_stated() -> None:
    """Centre and screen together make the loop of a coax."""
    sheet = replace(world.VID_60.sheet, resistance_screen_ohm_per_m=0.010)
    values = expected(replace(world.VID_60, sheet=sheet), 10.0)
    assert values["loop resistance, centre and screen"].value == pytest.approx(0.4329)


def test_the_lead_of_the_tape_deck() -> None:
    """12 ft of audio coax have 153 pF."""
    values = expected(world.PHO_61, 12 * 0.3048)
    assert values["capacitance, centre to screen"].value == pytest.approx(153e-12, abs=0.5e-12)


def test_a_pair_has_its_loop_and_both_capacitances() -> None:
    """18.45 m of microphone pair: loop 3.14 Ω, core to core and core to the rest."""
    values = expected(world.AUD_BP, 18.45)
    assert values["loop resistance, out and back"].value == pytest.approx(3.14, abs=0.005)
    assert values["capacitance, core to core"].value == pytest.approx(46e-12 * 18.45)
    assert values["capacitance, one core to all the rest"].value == pytest.approx(105e-12 * 18.45)
    assert "delay" not in values


def test_a_fibre_has_nothing_but_its_optical_loss() -> None:
    """10 m at 0.20 dB/m: 2 dB, with no spread pretended."""
    values = expected(world.POF_22, 10.0)
    assert list(values) == ["optical loss of the fibre"]
    assert values["optical loss of the fibre"].value == pytest.approx(2.0)
    assert values["optical loss of the fibre"].standard_uncertainty is None


def test_the_lots_own_delay_stands_in_for_the_sheet() -> None:
    """A measured lot gives its delay and its smaller spread, and is named as the source."""
    lot = world.lot(world.VID_60, 0.8265)
    own = expected(world.VID_60, 10.150, lot=lot)["delay"]
    book = expected(world.VID_60, 10.150)["delay"]
    assert own.value == pytest.approx(10.150 / (0.8265 * SPEED_OF_LIGHT_M_PER_S))
    assert own.standard_uncertainty == pytest.approx(own.value * 0.001)
    assert book.standard_uncertainty == pytest.approx(book.value * 0.005)
    assert "L-1" in str(own.source)


def test_spread_of_lots_and_of_length_combine() -> None:
    """3 % of the loss and 1 % of the length combine as independent to 3.16 %."""
    loss = expected(world.VID_60, 100.0, spread_m=1.0)["loss at 1485 MHz"]
    assert loss.standard_uncertainty == pytest.approx(loss.value * math.hypot(0.03, 0.01))


def test_heat_raises_resistance_and_loss() -> None:
    """At 40 °C the conductor has 7.86 % more resistance, the loss rises, capacitance stays."""
    cold, warm = expected(world.VID_60, 10.0), expected(world.VID_60, 10.0, celsius=40.0)
    name = "resistance of one conductor"
    assert warm[name].value / cold[name].value == pytest.approx(1.0786)
    assert 1.03 < warm["loss at 135 MHz"].value / cold["loss at 135 MHz"].value < 1.04
    capacitance = "capacitance, centre to screen"
    assert warm[capacitance].value == cold[capacitance].value


def test_a_frequency_asked_for_is_added_and_marked_where_it_is_beyond() -> None:
    """6.144 MHz and 5.94 GHz join the stated points; the latter says that it is less sure."""
    values = expected(world.VID_60, 15.0, frequencies_hz=(6.144e6, 5940e6))
    assert values["loss at 6.144 MHz"].value == pytest.approx(0.28, abs=0.005)
    assert "less sure" in str(values["loss at 5940 MHz"].source)
    assert "less sure" not in str(values["loss at 1485 MHz"].source)


def test_nonsense_is_refused() -> None:
    """No length, a lot of another cable, and an audio frequency are not predicted."""
    with pytest.raises(BadValue):
        expected(world.VID_60, 0.0)
    with pytest.raises(BadValue):
        expected(world.VID_60, 1.0, lot=world.lot(world.VID_70, 0.83))
    with pytest.raises(BadValue):
        expected(world.VID_60, 1.0, frequencies_hz=(20e3,))


@pytest.mark.parametrize(
    "cable", [world.VID_70, world.VID_60, world.VID_40, world.VID_28, world.VID_70P, world.PHO_61]
)
def test_the_demos_data_sheets_agree_with_themselves(cable: Cable) -> None:
    """Capacitance times impedance is the delay, within 2 %."""
    assert judge_sheet(cable.sheet).outcome is Outcome.GOOD


def test_a_capacitance_per_foot_is_found_out() -> None:
    """A capacitance typed in pF/ft as pF/m is a third of what impedance and delay ask for."""
    sheet = replace(world.VID_60.sheet, capacitance_f_per_m=53.6e-12 / 3.28084)
    check = judge_sheet(sheet)
    assert check.outcome is Outcome.BAD
    assert check.margin is not None
    assert check.margin < 0


def test_a_sheet_that_states_too_little_is_not_computed() -> None:
    """With no impedance there is nothing to hold the others against."""
    sheet = replace(world.VID_60.sheet, impedance_ohm=None)
    assert judge_sheet(sheet).outcome is Outcome.NOT_COMPUTED
