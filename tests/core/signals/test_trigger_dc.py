"""Triggers and small supplies: volts at the far end, the class of the circuit, warmth."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.physics.supply import volts_at_far_end, volts_for_power
from reelwright.core.signals import read_signal
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.trigger_dc import DirectSupply
from reelwright.core.verdicts import Check, Outcome
from tests import signal_world as world

ENDS = (world.PLAIN, world.PLAIN)
TRIGGER = DirectSupply(source_v=12.0, current_a=0.1, power_w=None, fall_fraction=0.10, trigger=True)
SWITCHING = DirectSupply(
    source_v=12.0, current_a=None, power_w=5.0, fall_fraction=0.10, trigger=False
)


def judged(typed: str, cable: Cable, length_m: float, celsius: float = 20.0) -> Judgement:
    """Return the judgement of that signal."""
    reading = read_signal(typed)
    assert reading.signal is not None, reading.question
    return reading.signal.judge(world.run(cable, length_m, celsius=celsius, ends=ENDS))


def named(judgement: Judgement, name: str) -> Check:
    """Return the check of that name."""
    return next(check for check in judgement.verdict.checks if check.name == name)


def test_a_trigger_over_a_microphone_pair() -> None:
    """100 mA over 15 m of 85 Ω/km out and back lose 0.255 V of 12 V, of which 1.2 V may go."""
    judgement = judged("trigger 12 V 100 mA", world.AUD_BP, 15.0)
    assert judgement.verdict.outcome is Outcome.GOOD
    assert judgement.verdict.checks[0].value == pytest.approx(0.255)
    assert "11.7\u202fV of 12\u202fV arrive" in judgement.sentence
    assert judgement.length_at_50_m == pytest.approx(1.2 / (0.1 * 0.17), rel=1e-6)


def test_a_coax_returns_on_its_screen() -> None:
    """Centre and screen make the loop; without the screen's resistance nothing is computed."""
    coax = replace(world.VID_60, sheet=world.sheet(75.0, None, None, 33.0, screen_ohm_per_km=9.0))
    judgement = judged("trigger 12 V 100 mA", coax, 100.0)
    assert judgement.verdict.checks[0].value == pytest.approx(0.42)
    silent = judged("trigger 12 V 100 mA", world.VID_60, 100.0)
    assert silent.verdict.outcome is Outcome.NOT_COMPUTED
    assert "conductor and screen" in silent.sentence


def test_a_supply_that_is_too_thin_is_refused_with_what_would_do() -> None:
    """2 A over 20 m of 14 AWG lose 0.66 V where 0.6 V may be lost; 18 m would do."""
    judgement = judged("supply 12 V DC, 2 A, 5 % fall", world.SPK_14, 20.0)
    assert judgement.verdict.outcome is Outcome.BAD
    assert "18\u202fm (58\u202fft) would do" in judgement.sentence


def test_a_switching_load_breaks_down_at_once() -> None:
    """15 W through 6.8 Ω have no voltage to settle at (12²/4/6.8 = 5.3 W), and that is said."""
    judgement = judged("supply 12 V DC, 15 W, 10 % fall", world.AUD_BP, 40.0)
    assert judgement.verdict.outcome is Outcome.BAD
    assert "the volts break down" in judgement.sentence


@given(
    st.floats(min_value=1, max_value=60),
    st.floats(min_value=1e-3, max_value=5),
    st.floats(min_value=0.01, max_value=200),
    st.booleans(),
)
def test_volts_add_up(source_v: float, load: float, length_m: float, steady: bool) -> None:
    """What is lost and what is left make the source's volts, for steady current and power."""
    signal = DirectSupply(
        source_v=source_v,
        current_a=load if steady else None,
        power_w=None if steady else load,
        fall_fraction=0.2,
        trigger=False,
    )
    run = world.run(world.SPK_14, length_m, ends=ENDS)
    budget = signal.budget(run)
    assert not hasattr(budget, "sentence")
    loop = 2 * 8.286e-3 * length_m
    left = (
        volts_at_far_end(source_v=source_v, loop_ohm=loop, current_a=load)
        if steady
        else volts_for_power(source_v=source_v, loop_ohm=loop, power_w=load)
    )
    if left is not None:
        used = float(budget.used(np.array([length_m]))[0])
        assert used == pytest.approx(source_v - left, rel=1e-9, abs=1e-9 * source_v)


@pytest.mark.parametrize("signal", [TRIGGER, SWITCHING], ids=["current", "power"])
def test_margins_fall_with_length_even_past_the_breakdown(signal: DirectSupply) -> None:
    """A longer run never leaves more, and the band holds the margin."""
    lengths_m = np.linspace(1.0, 400.0, 100)
    curve = signal.margin_at(world.run(world.AUD_BP, 5.0, ends=ENDS), lengths_m)
    assert curve is not None
    assert (np.diff(curve.margin) <= 0).all()
    assert (curve.low <= curve.margin).all()


def test_heat_takes_more_volts() -> None:
    """At 60 °C copper resists 15.7 % more, and so much more is lost."""
    cold = judged("trigger 12 V 100 mA", world.AUD_BP, 15.0).verdict.checks[0].value
    hot = judged("trigger 12 V 100 mA", world.AUD_BP, 15.0, 60.0).verdict.checks[0].value
    assert isinstance(cold, float)
    assert hot == pytest.approx(cold * 1.1572)


@pytest.mark.parametrize(
    "typed", ["supply 24 V DC, 6 A, 10 % fall", "supply 72 V DC, 1 A, 10 % fall"]
)
def test_more_than_a_limited_source_is_left_to_the_code(typed: str) -> None:
    """Above 100 W or 60 V the answer waits for what is marked on the supply."""
    judgement = judged(typed, world.SPK_12, 5.0)
    assert judgement.verdict.outcome is Outcome.NOT_COMPUTED
    assert "licensed person" in judgement.sentence


def test_a_hot_cable_is_a_caution_not_a_rating() -> None:
    """5 A in a microphone pair warm it well beyond 10 °C; the sentence calls it an estimate."""
    check = named(
        judged("supply 12 V DC, 5 A, 40 % fall", world.AUD_BP, 1.0), "warmth of the cable"
    )
    assert check.outcome is Outcome.CAUTION
    assert "no design value" in check.sentence


def test_no_current_on_a_light_guide() -> None:
    """Plastic fibre carries no direct current."""
    judgement = judged("trigger 12 V 100 mA", world.POF_22, 5.0)
    assert judgement.deciding == "kind of cable"


@pytest.mark.parametrize(
    ("typed", "signal"),
    [
        ("12V trigger, 100 mA, 10 % fall", TRIGGER),
        ("trigger 12 volts 0,1 A", TRIGGER),
        ("12 V DC, 5 W, 10%", SWITCHING),
        ("power supply 12 V, 5 watts, 1.2 V drop", SWITCHING),
    ],
)
def test_volts_load_and_fall_are_read(typed: str, signal: DirectSupply) -> None:
    """Milliamperes, watts, percent and volts of fall, with comma or point."""
    reading = read_signal(typed)
    assert isinstance(reading.signal, DirectSupply)
    assert reading.signal.fall_fraction == pytest.approx(signal.fall_fraction)
    assert replace(reading.signal, fall_fraction=0.1) == signal


def test_a_microphones_supply_is_its_own_matter() -> None:
    """Phantom supply is read as a microphone, not as a supply of 48 V."""
    assert not isinstance(read_signal("mic with phantom supply 48 V").signal, DirectSupply | None)


def test_a_triggers_fall_is_assumed_aloud() -> None:
    """10 % stand beside the answer where no fall was named; a supply's fall is asked for."""
    assert "10\u202f%" in read_signal("trigger 12 V 100 mA").assumed[0]
    assert read_signal("supply 12 V DC 2 A").question is not None


@pytest.mark.parametrize(
    ("typed", "asked"),
    [
        ("12 V DC trigger", "volts, the amperes or watts"),
        ("trigger 0 V 100 mA", "volts, the amperes or watts"),
        ("supply 12 V DC, 2 A, 80 % fall", "fall of volts that is allowed"),
        ("power supply 230 V", "nothing for the mains"),
        ("supply 230 V", "nothing for the mains"),
        ("mains lead", "nothing for the mains"),
        ("24 V AC power supply 1 A", "nothing for the mains"),
    ],
)
def test_what_is_missing_or_is_mains_is_asked(typed: str, asked: str) -> None:
    """A figure that decides is asked for; the mains is not for us."""
    question = read_signal(typed).question
    assert question is not None
    assert asked in question


@pytest.mark.parametrize(
    "change",
    [
        {"source_v": 0.0},
        {"current_a": None},
        {"power_w": 1.0},
        {"current_a": -0.1},
        {"fall_fraction": 0.5},
        {"fall_fraction": math.nan},
    ],
)
def test_nonsense_is_refused(change: dict[str, float]) -> None:
    """No volts, no load or two, a fall of half the volts."""
    with pytest.raises(BadValue):
        replace(TRIGGER, **change)  # type: ignore[arg-type]
