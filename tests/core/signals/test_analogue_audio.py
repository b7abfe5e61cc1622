"""Analogue audio as signals: treble by the exact line, hum, supply and balance, pick-ups."""

import dataclasses

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.materials.dielectrics import GAS_FOAMED_POLYETHYLENE, SOLID_POLYETHYLENE
from reelwright.core.materials.metals import COPPER
from reelwright.core.parts.cable import Cable, LotMeasure
from reelwright.core.physics import coax
from reelwright.core.physics.audio import droop_db
from reelwright.core.physics.resistance import wire_resistance_ohm_per_m
from reelwright.core.physics.sheet_line import SheetLine, line_of_sheet
from reelwright.core.physics.terminations import voltage_ratio
from reelwright.core.physics.two_port import line
from reelwright.core.signals.balanced_audio import BalancedAudio, Level
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.cartridge import Cartridge
from reelwright.core.signals.hum import CONSUMER_LINE, EarthCurrent, hum_budget
from reelwright.core.signals.instrument_pickup import USUAL_PICKUP, InstrumentPickup, Pickup
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.line_audio import LineAudio
from reelwright.core.signals.low_frequency_effects import LowFrequencyEffects
from reelwright.core.verdicts import Check, Outcome
from tests import signal_world as world

LINE = LineAudio(source_ohm=None)
MICROPHONE = BalancedAudio(level=Level.MICROPHONE, phantom_power=True)
CARTRIDGE = Cartridge(
    lowest_f=150e-12, highest_f=300e-12, input_f=100e-12, coil_henry=None, coil_ohm=None
)
PICKUP = InstrumentPickup(pickup=None)


def unscreened_value(cable: Cable) -> Cable:
    """Return the cable with the resistance of its screen not stated."""
    return dataclasses.replace(
        cable, sheet=dataclasses.replace(cable.sheet, resistance_screen_ohm_per_m=None)
    )


def named(judgement: Judgement, name: str) -> Check:
    """Return the check of that name."""
    return next(check for check in judgement.verdict.checks if check.name == name)


def names(judgement: Judgement) -> set[str]:
    """Return the names of all checks."""
    return {check.name for check in judgement.verdict.checks}


def budget_of(signal: LineAudio | BalancedAudio, cable: Cable) -> Budget:
    """Return the budget of a signal on a cable."""
    budget = signal.budget(world.run(cable, 10.0, ends=(world.PLAIN, world.PLAIN)))
    assert isinstance(budget, Budget)
    return budget


def test_the_treble_of_a_known_line_is_that_of_its_two_port() -> None:
    """Where resistance and losses are stated, R, L, G and C of the line at 20 kHz decide."""
    lengths = np.array([1.0, 10.0, 60.0, 300.0])
    known = line_of_sheet(world.PHO_61, None)
    assert isinstance(known, SheetLine)
    at_top = known.parameters([20e3], temperature_celsius=20.0)
    two_port = line(parameters=at_top, length_m=lengths, reference_ohm=600.0)
    ratio = voltage_ratio(two_port, source_ohm=1000.0, load_ohm=np.inf)[:, 0]
    used = budget_of(LINE, world.PHO_61).used(lengths)
    # The line's own capacitance is delay over impedance and what the foam adds towards low
    # frequencies; the stated one is rounded to 0.1 pF/m.
    np.testing.assert_allclose(used, -20 * np.log10(np.abs(ratio)), rtol=0.01)


def test_without_the_screen_only_source_and_capacitance_are_left() -> None:
    """Where no line is known the droop of the source into the capacitance stands, 2 % from it."""
    lengths = np.array([3.66, 60.0])
    alone = budget_of(LINE, unscreened_value(world.PHO_61)).used(lengths)
    np.testing.assert_allclose(
        alone, droop_db(source_ohm=1000.0, capacitance_f=41.9e-12 * lengths, frequency_hz=20e3)
    )
    exact = budget_of(LINE, world.PHO_61).used(lengths)
    np.testing.assert_allclose(alone, exact, rtol=0.02)
    assert not np.allclose(alone, exact, rtol=1e-3)


def test_one_leg_of_a_pair_sees_all_the_rest() -> None:
    """Unbalanced on a pair is 105 pF/m, not the 46 pF/m from core to core."""
    used = budget_of(LINE, world.AUD_BP).used(np.array([10.0]))
    expected = droop_db(source_ohm=1000.0, capacitance_f=1050e-12, frequency_hz=20e3)
    assert used[0] == pytest.approx(float(expected))


def test_a_measured_lot_decides() -> None:
    """A lot of 10 % more capacitance dulls as 10 % more cable would, and is surer than the book."""
    lot = dataclasses.replace(
        world.lot(world.PHO_61, 0.8),
        capacitance_f_per_m=LotMeasure(value=46.09e-12, relative_uncertainty=0.005),
    )
    book = LINE.judge(world.run(world.PHO_61, 60.0))
    measured = LINE.judge(world.run(world.PHO_61, 60.0, lot_of=lot))
    treble = "treble lost at 20 kHz"
    assert named(measured, treble).value == pytest.approx(
        1.1**2 * float(named(book, treble).value or 0), rel=0.03
    )
    assert measured.length_at_95_m is not None
    assert measured.length_at_50_m is not None
    assert measured.length_at_95_m > 0.98 * measured.length_at_50_m


@given(
    length_m=st.floats(min_value=0.5, max_value=500),
    source_ohm=st.floats(min_value=50, max_value=20e3),
)
def test_more_length_and_more_source_never_brighten(length_m: float, source_ohm: float) -> None:
    """Treble lost rises with both on every audio cable."""
    for cable in (world.PHO_61, world.VID_70, world.AUD_BP):
        budget = budget_of(LineAudio(source_ohm=source_ohm), cable)
        short, long = budget.used(np.array([length_m, 1.5 * length_m]))
        more = budget_of(LineAudio(source_ohm=2 * source_ohm), cable).used_at(length_m)
        assert 0 < short <= long
        assert more >= short


def test_many_lengths_are_one_call() -> None:
    """Two hundred lengths at once give what each gives alone."""
    lengths = np.linspace(0.1, 200.0, 200)
    budget = budget_of(LINE, world.PHO_61)
    together = budget.used(lengths)
    alone = [budget.used_at(float(length)) for length in lengths]
    np.testing.assert_allclose(together, alone, rtol=1e-12)


def test_hum_beside_the_treble_is_a_caution_at_most() -> None:
    """89 dB below at 12 ft, 70 dB at 40 m: told with its assumption, and never alone a no."""
    short = LINE.judge(world.run(world.PHO_61, 3.6576, ends=(world.PLAIN, world.PLAIN)))
    long = LINE.judge(world.run(world.PHO_61, 40.0, ends=(world.PLAIN, world.PLAIN)))
    assert named(short, "hum").value == pytest.approx(-89.0, abs=0.05)
    assert named(long, "hum").outcome is Outcome.CAUTION
    assert long.verdict.works
    assert "assumed" in named(long, "hum").sentence
    assert "up to 12" in long.sentence


def test_an_unknown_screen_takes_no_good_answer_back() -> None:
    """Hum, supply and noise are left out where they cannot be computed, and nothing is held."""
    bare = LINE.judge(world.run(unscreened_value(world.PHO_61), 5.0))
    assert "hum" not in names(bare)
    assert bare.verdict.outcome is Outcome.GOOD
    microphone = MICROPHONE.judge(world.run(unscreened_value(world.AUD_BP), 5.0))
    assert not {"phantom power", "noise through the screen"} & names(microphone)
    assert microphone.verdict.outcome is Outcome.GOOD


def built(conductor_mm: float, screen_ohm_per_km: float, *, foamed: bool) -> Cable:
    """Return a 4.57 mm audio coax of that conductor and screen, its values from its geometry."""
    dielectric = GAS_FOAMED_POLYETHYLENE if foamed else SOLID_POLYETHYLENE
    sizes = {
        "inner_m": conductor_mm * 1e-3,
        "outer_m": 4.57e-3,
        "velocity_factor": dielectric.relative_permittivity**-0.5,
    }
    impedance = coax.impedance_ohm(**sizes)
    delay_s_per_m = 1 / (sizes["velocity_factor"] * 299_792_458.0)
    resistance = wire_resistance_ohm_per_m(
        diameter_m=sizes["inner_m"], metal=COPPER, lay_factor=1.0
    )
    return world.cable(
        f"A-{conductor_mm}-{foamed}",
        world.sheet(
            impedance,
            delay_s_per_m / impedance * 1e12,
            delay_s_per_m * 1e9,
            resistance * 1e3,
            (3.0, 11.0, 26.0, 38.0),
            screen_ohm_per_km=screen_ohm_per_km,
        ),
    )


def test_a_thin_conductor_in_foam_under_a_heavy_screen_is_the_better_audio_cable() -> None:
    """Less capacitance, less treble lost and less hum than a thick one in solid dielectric."""
    # Common practice, no published source.
    thin, thick = built(0.575, 9.5, foamed=True), built(1.2, 25.0, foamed=False)
    assert thin.sheet.capacitance_f_per_m is not None
    assert thick.sheet.capacitance_f_per_m is not None
    assert thin.sheet.capacitance_f_per_m < 0.6 * thick.sheet.capacitance_f_per_m
    good, worse = (
        LINE.judge(world.run(cable, 10.0, ends=(world.PLAIN, world.PLAIN)))
        for cable in (thin, thick)
    )
    for name in ("treble lost at 20 kHz", "hum"):
        better, other = named(good, name).margin, named(worse, name).margin
        assert better is not None
        assert other is not None
        assert better > other


def test_a_subwoofer_is_judged_by_its_hum() -> None:
    """12 m keep 80 dB on the audio coax; 30 m do not, and capacitance has no say at 200 Hz."""
    signal = LowFrequencyEffects()
    near = signal.judge(world.run(world.PHO_61, 5.0, ends=(world.PLAIN, world.PLAIN)))
    far = signal.judge(world.run(world.PHO_61, 30.0, ends=(world.PLAIN, world.PLAIN)))
    assert near.verdict.outcome is Outcome.GOOD
    assert far.verdict.outcome is Outcome.BAD
    assert far.deciding == "hum"
    assert near.length_at_50_m == pytest.approx((0.316e-4 / 0.25e-3 - 0.01) / 9.5e-3)
    assert named(near, "level lost at 200 Hz").value < 0.001  # type: ignore[operator]


def test_a_subwoofer_on_a_screen_that_nobody_knows_is_not_computed() -> None:
    """What decides must be known: the answer says what is missing."""
    judgement = LowFrequencyEffects().judge(world.run(unscreened_value(world.PHO_61), 5.0))
    assert named(judgement, "hum").outcome is Outcome.NOT_COMPUTED
    assert "screen of PHO-61 is not stated" in judgement.sentence


def test_contacts_that_hum_too_much_leave_no_length() -> None:
    """A current that is too much for the contacts alone has no longest run."""
    loud = EarthCurrent(current_a=0.1, why="a broken earth", signal_v=0.316, instead="mend it")
    budget = hum_budget(world.run(world.PHO_61, 5.0), loud)
    assert isinstance(budget, Budget)
    assert budget.length_at_m(0.5) == 0.0
    with pytest.raises(BadValue, match="current_a"):
        dataclasses.replace(CONSUMER_LINE, current_a=0.0)


@pytest.mark.parametrize(
    ("length_m", "outcome", "said"),
    [
        (0.5, Outcome.CAUTION, "set the input to 29 pF more"),
        (1.5, Outcome.GOOD, "the cartridge sees 163 pF"),
        (6.0, Outcome.BAD, "more than the 150 pF to 300 pF it is made for"),
    ],
)
def test_a_cartridge_wants_its_capacitance(length_m: float, outcome: Outcome, said: str) -> None:
    """Cable and input together lie below, within or above what the cartridge is made for."""
    judgement = CARTRIDGE.judge(world.run(world.PHO_61, length_m, ends=(world.PLAIN, world.PLAIN)))
    check = named(judgement, "load capacitance")
    assert check.outcome is outcome
    assert said in check.sentence.replace("\u202f", " ")
    assert check.value == pytest.approx(100e-12 + 41.9e-12 * length_m)


def test_the_longest_lead_of_a_cartridge_fills_its_range() -> None:
    """(300 − 100) pF at 41.9 pF/m."""
    judgement = CARTRIDGE.judge(world.run(world.PHO_61, 1.5))
    assert judgement.length_at_50_m == pytest.approx(200 / 41.9, rel=1e-6)


def test_a_cartridge_in_the_middle_of_its_range_sounds_as_meant() -> None:
    """225 pF is the middle: there the response at 20 kHz is away by nothing."""
    middle = dataclasses.replace(CARTRIDGE, input_f=225e-12 - 41.9e-12)
    check = named(middle.judge(world.run(world.PHO_61, 1.0)), "response at 20 kHz")
    assert check.value == pytest.approx(0.0, abs=1e-9)


def test_cartridges_that_cannot_be_are_refused() -> None:
    """A range has its lower end below, and a coil is something."""
    with pytest.raises(BadValue, match="lowest_f"):
        dataclasses.replace(CARTRIDGE, lowest_f=400e-12)
    with pytest.raises(BadValue, match="coil_henry"):
        dataclasses.replace(CARTRIDGE, coil_henry=0.0)


def test_a_pickup_is_judged_by_its_resonance() -> None:
    """6 m of 41.9 pF/m leave 2.5 H at 5.3 kHz; 30 m pull it below 3 kHz."""
    near = PICKUP.judge(world.run(world.PHO_61, 6.0, ends=(world.PLAIN, world.PLAIN)))
    far = PICKUP.judge(world.run(world.PHO_61, 30.0, ends=(world.PLAIN, world.PLAIN)))
    assert named(near, "resonance").value == pytest.approx(
        1 / (2 * np.pi * np.sqrt(2.5 * (110e-12 + 6 * 41.9e-12)))
    )
    assert near.verdict.outcome is Outcome.GOOD
    assert far.verdict.outcome is Outcome.BAD
    assert "keeps it bright up to 24" in far.sentence
    assert near.chance_within_limit == pytest.approx(1.0)


def test_the_reference_lead_shifts_nothing() -> None:
    """3 m of 100 pF/m are what the shift is told against."""
    usual = world.cable("U", world.sheet(None, 100.0))
    check = named(PICKUP.judge(world.run(usual, 3.0)), "shift of the resonance")
    assert check.value == pytest.approx(0.0, abs=1e-6)


def test_a_stated_pickup_is_used() -> None:
    """A quarter of the inductance doubles the resonance; a coil of nothing is refused."""
    stated = InstrumentPickup(pickup=dataclasses.replace(USUAL_PICKUP, coil_henry=2.5 / 4))
    values = [
        named(signal.judge(world.run(world.PHO_61, 6.0)), "resonance").value
        for signal in (PICKUP, stated)
    ]
    assert values[1] == pytest.approx(2 * values[0])  # type: ignore[operator]
    with pytest.raises(BadValue, match="tone_ohm"):
        Pickup(coil_henry=1.0, coil_ohm=1.0, own_f=1e-12, volume_ohm=1.0, tone_ohm=0.0)


@pytest.mark.parametrize("signal", [LINE, CARTRIDGE, PICKUP])
def test_a_capacitance_that_is_not_stated_is_asked_for(
    signal: LineAudio | Cartridge | InstrumentPickup,
) -> None:
    """What decides and is not known is not computed."""
    judgement = signal.judge(world.run(world.cable("X", world.sheet(screen_ohm_per_km=9.0)), 5.0))
    assert judgement.verdict.outcome is Outcome.NOT_COMPUTED
    assert "capacitance of X is not stated" in judgement.sentence


def test_phantom_power_reaches_the_microphone() -> None:
    """30 m take 22 mV of 13.95 V at 10 mA; only what it does with a supply at 44 V is needed."""
    check = named(MICROPHONE.judge(world.run(world.AUD_BP, 30.0)), "phantom power")
    assert check.value == pytest.approx(48 - 0.01 * (6810 / 2 + 30 * (0.085 / 2 + 0.030)))
    assert check.limit == pytest.approx(44 - 0.01 * 6810 / 2)
    assert check.outcome is Outcome.GOOD
    far = named(MICROPHONE.judge(world.run(world.AUD_BP, 6000.0)), "phantom power")
    assert far.outcome is Outcome.BAD


def test_phantom_power_is_judged_with_phantom_power_only() -> None:
    """A microphone without it and a line have no supply to look at."""
    for level in Level:
        signal = BalancedAudio(level=level, phantom_power=False)
        assert "phantom power" not in names(signal.judge(world.run(world.AUD_BP, 30.0)))


def test_balance_takes_away_what_an_unbalanced_line_would_hum() -> None:
    """With the same current on the same screen the balanced line is 60 dB quieter and more."""
    signal = BalancedAudio(level=Level.LINE, phantom_power=False)
    noise = named(signal.judge(world.run(world.AUD_BP, 20.0)), "noise through the screen")
    unbalanced = hum_budget(
        world.run(world.AUD_BP, 20.0),
        EarthCurrent(current_a=10e-3, why="the same", signal_v=1.23, instead="nothing"),
    )
    assert isinstance(unbalanced, Budget)
    assert float(noise.value or 0) < unbalanced.used_at(20.0) - 60
    assert noise.outcome is Outcome.GOOD
