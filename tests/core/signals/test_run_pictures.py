"""What is shown of a run: its eye, its trace, its loss with the fit's residuals."""

import math

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.known_loss import KnownLoss, known_loss
from reelwright.core.signals.run_eye import Eye, RunEyes, eyes_of_run
from reelwright.core.signals.run_loss import RunLoss, loss_of_run
from reelwright.core.signals.run_trace import RunTrace, end_section, trace_of_run
from reelwright.core.verdicts import Reason
from tests import signal_world as world

COAX = world.cable(
    "VID-70 with its screen",
    world.sheet(74.4, 54.0, 4.019, 20.93, (1.93, 7.26, 17.72, 25.78), screen_ohm_per_km=7.5),
)
RATE = 1.485e9


def eyes(length_m: float, rate_bit_per_s: float = RATE) -> RunEyes:
    """Return the eyes of the coax over a length [m]."""
    found = eyes_of_run(world.run(COAX, length_m), rate_bit_per_s=rate_bit_per_s)
    assert isinstance(found, RunEyes)
    return found


def test_a_run_within_its_limit_is_open_only_behind_an_equaliser() -> None:
    """100 m at 1.485 Gb/s lose 18 dB: closed as it arrives, half open behind the equaliser."""
    found = eyes(100.0)
    assert found.loss_db == pytest.approx(17.72 + 0.2, abs=0.02)
    assert found.arrives.height_ratio == 0.0
    assert found.equalised.height_ratio > 0.5
    assert found.equalised.width_ratio > 0.5


def test_an_unequalised_eye_closes_near_ten_decibels() -> None:
    """The closed form of a root-f line closes at 10.6 dB; our low-pass takes one of them."""
    heights = {
        loss: float(eyes(loss / 17.72 * 100.0).arrives.opening_ratio.max()) for loss in (8.0, 11.0)
    }
    assert heights[8.0] > 0 > heights[11.0]


def test_the_statistical_eye_lies_inside_every_pattern() -> None:
    """No bit of the 127 comes nearer to the middle than the opening at 1e-12, noise left out."""
    found = eyes(60.0).equalised
    middle = int(np.argmax(found.opening_ratio))
    assert np.abs(found.level_ratio[middle]).min() >= found.opening_ratio[middle]
    assert found.stress_opening_ratio > 0


def between_phases(eye: Eye) -> float:
    """How far the opening falls from its best phase to the next: what sampling leaves open."""
    opening = eye.opening_ratio
    best = int(np.argmax(opening))
    beside = opening[max(best - 1, 0)], opening[min(best + 1, opening.size - 1)]
    return float(opening[best] - min(beside))


@settings(max_examples=8, deadline=None)
@given(length_m=st.floats(10.0, 250.0))
@example(length_m=18.0)
def test_a_longer_run_is_never_more_open(length_m: float) -> None:
    """Opening falls with the length, equalised or not, but for what lies between two phases."""
    # A longer run slides the best phase along the 32 sampled: at 18 m that alone makes 0.005.
    near, far = eyes(length_m), eyes(1.2 * length_m)
    for shorter, longer in ((near.equalised, far.equalised), (near.arrives, far.arrives)):
        assert longer.height_ratio <= shorter.height_ratio + between_phases(shorter)


def test_eyes_that_are_not_known_say_why() -> None:
    """Without a screen's resistance, or without losses, the reason comes back."""
    for cable in (world.VID_70, world.cable("no losses", world.sheet(75.0))):
        found = eyes_of_run(world.run(cable, 10.0), rate_bit_per_s=RATE)
        assert isinstance(found, Reason)
        assert "stated" in found.sentence
        shown = trace_of_run(world.run(cable, 10.0), rise_s=200e-12, reference_ohm=75.0)
        assert isinstance(shown, Reason)


@pytest.mark.parametrize("rate", [0.0, -1.0, math.nan])
def test_a_rate_that_is_none_is_refused(rate: float) -> None:
    """The fault names the field."""
    with pytest.raises(BadValue, match="rate_bit_per_s"):
        eyes_of_run(world.run(COAX, 10.0), rate_bit_per_s=rate)


def test_an_eye_of_other_shapes_is_refused() -> None:
    """Openings must stand at the phases."""
    phases: FloatArray = np.linspace(-0.5, 0.5, 4)
    with pytest.raises(BadValue, match="opening_ratio"):
        Eye(
            phase_ratio=phases,
            opening_ratio=phases[:3],
            level_ratio=np.zeros((4, 7)),
            stress_opening_ratio=0.0,
        )


def shown_trace(length_m: float, rise_s: float = 200e-12) -> RunTrace:
    """Return the trace of the coax on an instrument of 75 ohm."""
    found = trace_of_run(world.run(COAX, length_m), rise_s=rise_s, reference_ohm=75.0)
    assert isinstance(found, RunTrace)
    return found


def test_the_trace_shows_both_ends_where_they_are() -> None:
    """Peaks stand at either end of 20 m, within the resolution and the plug's own length."""
    found = shown_trace(20.0)
    above = found.seen_ohm - found.own_ohm
    near = found.distance_m < 10.0
    at_near = float(found.distance_m[near][np.argmax(above[near])])
    before_far = (found.distance_m > 15.0) & (found.distance_m < 20.0 + 3 * found.resolution_m)
    at_far = float(found.distance_m[before_far][np.argmax(above[before_far])])
    assert abs(at_near) < found.resolution_m + 0.06
    assert at_far == pytest.approx(20.0, abs=2 * found.resolution_m + 0.06)


def test_the_trace_between_the_ends_is_the_slope_of_the_cable() -> None:
    """Between the ends stands the cable's own slope, and that is 2·K·√(t/π) of its impedance."""
    # By hand: a loss α = τ·K·√(πf) of skin effect adds K/√s to the impedance; 1.93 dB per 100 m at
    # 10 MHz give K, and t is the way there and back to 5 m.
    found = shown_trace(20.0)
    between = (found.distance_m > 5.0) & (found.distance_m < 15.0)
    assert np.abs(found.seen_ohm - found.own_ohm)[between].max() < 0.1
    assert found.own_ohm[between][-1] > found.own_ohm[between][0]
    skin = 0.0193 / 8.685889638 / (4.019e-9 * math.sqrt(math.pi * 10e6))
    by_hand = 74.4 * (1 + 2 * skin * math.sqrt(2 * 5.0 * 4.019e-9 / math.pi))
    assert found.own_ohm[between][0] == pytest.approx(by_hand, abs=0.15)


def test_a_slow_instrument_shows_the_near_end_smaller() -> None:
    """The plug of 30 mm shrinks as the rise grows past its length, and the resolution with it."""
    fast, slow = shown_trace(5.0, 100e-12), shown_trace(5.0, 1e-9)
    assert fast.seen_ohm.max() > slow.seen_ohm[slow.distance_m < 2.5].max() + 0.5
    assert slow.resolution_m == pytest.approx(10 * fast.resolution_m, rel=1e-9)


def test_a_very_long_run_is_shown_by_a_slower_edge() -> None:
    """What a page can hold is kept, and the rise that was used is told."""
    found = shown_trace(2000.0)
    assert found.rise_s > 200e-12
    assert found.distance_m.size <= 40_001
    assert found.distance_m[-1] > 2000.0


def test_ends_are_drawn_at_the_edge_of_their_class() -> None:
    """75 ohm is drawn as 78.75; a plug made to none as the phono plug it may be, far below."""
    assert end_section(world.BNC).impedance_ohm == pytest.approx(78.75)
    assert end_section(world.PLAIN).impedance_ohm < 50.0


@pytest.mark.parametrize(("rise_s", "reference_ohm"), [(0.0, 75.0), (1e-10, 0.0), (-1.0, 75.0)])
def test_an_instrument_that_is_none_is_refused(rise_s: float, reference_ohm: float) -> None:
    """The fault names the rise and what would be accepted."""
    with pytest.raises(BadValue, match="rise_s"):
        trace_of_run(world.run(COAX, 10.0), rise_s=rise_s, reference_ohm=reference_ohm)


def test_the_loss_passes_through_what_is_stated_and_shows_the_fit() -> None:
    """At 20 °C the curve meets each stated point; the residuals are those of the fit, not zero."""
    found = loss_of_run(world.run(COAX, 100.0), lowest_hz=1e6, highest_hz=3e9)
    assert isinstance(found, RunLoss)
    for point in found.stated:
        at_point = np.interp(np.log(point.frequency_hz), np.log(found.frequency_hz), found.loss_db)
        assert at_point == pytest.approx(point.loss_db, rel=2e-3)
    known = known_loss(COAX, None)
    assert isinstance(known, KnownLoss)
    assert tuple(point.residual for point in found.stated) == known.line.relative_residuals
    assert found.worst_residual == max(abs(point.residual) for point in found.stated) > 0
    assert (found.low_db < found.loss_db).all()
    assert (found.high_db > found.loss_db).all()


def test_a_loss_that_is_not_known_says_why_and_a_band_that_is_none_is_refused() -> None:
    """No losses, a band too low for a cable of losses alone, a falling band."""
    nothing = world.run(world.cable("no losses", world.sheet(75.0)), 10.0)
    assert isinstance(loss_of_run(nothing, lowest_hz=1e6, highest_hz=1e9), Reason)
    low = loss_of_run(world.run(world.VID_70, 10.0), lowest_hz=1e3, highest_hz=1e4)
    assert isinstance(low, Reason)
    assert low.code == "loss-below-what-is-known"
    with pytest.raises(BadValue, match="highest_hz"):
        loss_of_run(world.run(COAX, 10.0), lowest_hz=1e9, highest_hz=1e6)
