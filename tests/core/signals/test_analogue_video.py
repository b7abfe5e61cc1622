"""Composite, component and RGBHV: loss, colour, skew of legs, syncs, hum."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.signals.component_video import ComponentVideo
from reelwright.core.signals.composite_video import (
    COLOUR_NAME,
    CompositeVideo,
    colour_behind_db,
)
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.leg_skew import LOTS_NAME
from reelwright.core.signals.picture_hum import CHECK_NAME as HUM_NAME
from reelwright.core.signals.rgbhv import SYNC_NAME, RgbhvVideo
from reelwright.core.verdicts import Check, Outcome
from tests import signal_world as world

# The 4 mm video coax with its screen's resistance and a loss at 1 MHz that the demo does not state.
COAX = world.cable(
    "screened",
    world.sheet(74.1, 54.2, 4.019, 64.36, (3.39, 12.63, 30.32, 43.60), screen_ohm_per_km=15.0),
)


def named(judgement: Judgement, name: str) -> Check:
    """Return the check of that name."""
    return next(check for check in judgement.verdict.checks if check.name == name)


def test_colour_falls_behind_as_two_loads_and_a_root_law_say() -> None:
    """30 m: 0.66 dB at 4.43 MHz less 0.13 dB of resistance, worked out by hand to 0.05 dB."""
    root_law = 3.39 / 100 * 30 * math.sqrt(4.43361875 / 10)
    resistance = 20 * math.log10(1 + (64.36 + 15.0) * 0.030 / 150)
    behind = colour_behind_db(world.run(COAX, 30.0))
    assert behind == pytest.approx(root_law - resistance, abs=0.05)


@given(length_m=st.floats(0.5, 300.0))
def test_colour_falls_further_behind_on_a_longer_run(length_m: float) -> None:
    """Colour is never ahead of brightness, and a longer run never brings it nearer."""
    near, far = (colour_behind_db(world.run(COAX, each)) for each in (length_m, 1.1 * length_m))
    assert near is not None
    assert far is not None
    assert 0 <= near <= far + 1e-12


def test_a_short_composite_run_is_good_and_a_long_one_is_told_its_colour() -> None:
    """10 m pass with every check good; at 40 m colour is a caution with a share in percent."""
    assert CompositeVideo().judge(world.run(COAX, 10.0)).verdict.outcome is Outcome.GOOD
    pale = named(CompositeVideo().judge(world.run(COAX, 40.0)), COLOUR_NAME)
    assert pale.outcome is Outcome.CAUTION
    assert "paler" in pale.sentence


def test_what_the_sheet_does_not_state_is_not_judged() -> None:
    """Without a screen's resistance there is neither colour, hum nor sync to judge."""
    bare = world.cable("bare", world.sheet(75.0, losses_db_per_100m=(3.39, 12.63, 30.32)))
    for signal in (CompositeVideo(), ComponentVideo(), RgbhvVideo(pixel_clock_hz=154e6)):
        names = {check.name for check in signal.judge(world.run(bare, 10.0)).verdict.checks}
        assert not names & {COLOUR_NAME, HUM_NAME, SYNC_NAME, LOTS_NAME}


def test_hum_in_the_picture_by_hand() -> None:
    """0.25 mA through 15 Ω/km × 100 m and two contacts: 1.07 mV peak to peak, 56 dB below 0.7 V."""
    check = named(CompositeVideo().judge(world.run(COAX, 100.0)), HUM_NAME)
    hum_v = 0.25e-3 * (1.5 + 0.01) * 2 * math.sqrt(2)
    assert check.value == pytest.approx(20 * math.log10(0.7 / hum_v), abs=1e-9)
    assert check.outcome is Outcome.GOOD
    far = named(CompositeVideo().judge(world.run(COAX, 300.0)), HUM_NAME)
    assert far.outcome is Outcome.CAUTION


def test_legs_of_several_lots_by_hand() -> None:
    """20 m at 4.019 ns/m and 0.5 %: 2·√2·0.402 ns = 1.14 ns, within a quarter pixel of 154 MHz."""
    signal = RgbhvVideo(pixel_clock_hz=154e6)
    check = named(signal.judge(world.run(COAX, 20.0)), LOTS_NAME)
    assert check.value == pytest.approx(2 * math.sqrt(2) * 0.005 * 20 * 4.019e-9, rel=1e-9)
    assert check.outcome is Outcome.GOOD
    far = named(signal.judge(world.run(COAX, 40.0)), LOTS_NAME)
    assert far.outcome is Outcome.CAUTION
    assert "one lot" in far.sentence
    measured = world.run(COAX, 40.0, lot_of=world.lot(COAX, 0.83))
    assert named(signal.judge(measured), LOTS_NAME).outcome is Outcome.GOOD


def test_component_legs_are_held_to_ten_nanoseconds() -> None:
    """9 ns are within, 11 ns are not, and 4 ns are far too little to see."""
    signal = ComponentVideo()
    for skew_ns, outcome, words in (
        (4.0, Outcome.GOOD, "far too little"),
        (9.0, Outcome.GOOD, "within the 10"),
        (11.0, Outcome.BAD, "beside their edges"),
    ):
        check = signal.judge_skew({"Y": 100e-9, "Pb": 100e-9 + skew_ns * 1e-9, "Pr": 100e-9})
        assert check.outcome is outcome
        assert words in check.sentence
    with pytest.raises(BadValue, match="delays_s"):
        signal.judge_skew({})


def test_syncs_by_hand() -> None:
    """100 m: 2.4 V · 75/(75 + 7.94 Ω) = 2.17 V; 300 m leave 1.82 V, less than logic needs."""
    signal = RgbhvVideo(pixel_clock_hz=25e6)
    near, far = (named(signal.judge(world.run(COAX, each)), SYNC_NAME) for each in (100.0, 300.0))
    assert near.value == pytest.approx(2.4 * 75 / (75 + 7.936), rel=1e-6)
    assert near.outcome is Outcome.GOOD
    assert far.value == pytest.approx(2.4 * 75 / (75 + 23.808), rel=1e-6)
    assert far.outcome is Outcome.CAUTION


@pytest.mark.parametrize("clock", [0.0, -1.0, math.nan, math.inf])
def test_a_pixel_clock_that_is_none_is_refused(clock: float) -> None:
    """The fault names the field."""
    with pytest.raises(BadValue, match="pixel_clock_hz"):
        RgbhvVideo(pixel_clock_hz=clock)


@given(length_m=st.floats(1.0, 200.0), clock_mhz=st.floats(25.0, 250.0))
def test_a_faster_picture_reaches_less_far(length_m: float, clock_mhz: float) -> None:
    """Margin falls with the pixel clock and with the length."""
    slow, fast = (
        RgbhvVideo(pixel_clock_hz=each * 1e6).margin_at(
            world.run(COAX, length_m), np.array([length_m, 1.2 * length_m])
        )
        for each in (clock_mhz, 1.2 * clock_mhz)
    )
    assert slow is not None
    assert fast is not None
    assert (fast.margin <= slow.margin + 1e-12).all()
    assert slow.margin[1] <= slow.margin[0]
