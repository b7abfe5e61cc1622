"""The demo workshop's orders: each signal's answer against figures worked out beforehand."""

import numpy as np
import pytest

from reelwright.core.parts.jacket import Space
from reelwright.core.parts.length import Length
from reelwright.core.physics.prediction import predict
from reelwright.core.signals import judge_space, read_signal
from reelwright.core.signals.distributed_line import even_line
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.matched_set import Leg, MatchedSet, match_set
from reelwright.core.signals.rgbhv import RgbhvVideo
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Check, Outcome
from tests import signal_world as world

FT = 0.3048


def judged(typed: str, run: Run) -> Judgement:
    """Return the judgement of the signal that ``typed`` names."""
    reading = read_signal(typed)
    assert reading.signal is not None, reading.question
    return reading.signal.judge(run)


def named(judgement: Judgement, start: str) -> Check:
    """Return the check whose name starts so."""
    return next(check for check in judgement.verdict.checks if check.name.startswith(start))


@pytest.mark.parametrize(
    ("cable", "signal", "loss_db", "margin_db"),
    [
        (world.VID_60, "3G", 43.6, -23.6),
        (world.VID_70, "3G", 35.6, -15.6),
        (world.VID_70, "serial video 1.485 Gb/s", 24.5, -4.5),
        (world.VID_70, "serial video 270 Mb/s", 10.2, 19.8),
    ],
)
def test_o_01_450_ft_of_video_cable(
    cable: world.Cable, signal: str, loss_db: float, margin_db: float
) -> None:
    """No passive coax carries 2.97 Gb/s over 450 ft; 1.485 is 4.5 dB over; 270 Mb/s is fine."""
    judgement = judged(signal, world.run(cable, 450 * FT))
    check = named(judgement, "loss at")
    assert check.value == pytest.approx(loss_db, abs=0.05)
    assert check.margin == pytest.approx(margin_db, abs=0.05)
    assert judgement.verdict.works is (margin_db > 0)


def test_o_01_a_regenerator_half_way() -> None:
    """Two runs of 68.6 m each have 2.1 dB to spare, and the sentence says so."""
    judgement = judged("3G", world.run(world.VID_70, 68.6))
    assert named(judgement, "loss at").margin == pytest.approx(2.1, abs=0.05)
    assert judgement.verdict.outcome is Outcome.GOOD
    assert "2.1\u202fdB to spare" in judgement.sentence


def test_o_02_plenum_video() -> None:
    """85 ft of plenum coax lose 5.42 dB with their connectors; blue PVC may not lie there."""
    judgement = judged("serial video 1.485 Gb/s", world.run(world.VID_70P, 85 * FT))
    assert named(judgement, "loss at").value == pytest.approx(5.42, abs=0.005)
    assert judge_space(world.VID_70P, Space.AIR_HANDLING).outcome is Outcome.GOOD
    refused = judge_space(world.VID_70, Space.AIR_HANDLING)
    assert refused.outcome is Outcome.BAD
    assert refused.sentence.endswith("The authority having jurisdiction decides.")


def test_o_03_the_tape_deck() -> None:
    """The lead offered has 153 pF, dulls nothing, and says what it assumed."""
    judgement = judged(
        "line level", world.run(world.PHO_61, 12 * FT, ends=(world.PLAIN, world.PLAIN))
    )
    assert judgement.verdict.outcome is Outcome.GOOD
    assert "153\u202fpF" in judgement.sentence
    assert "assumed" in judgement.sentence


COLOURS = {"R": 0.8285, "G": 0.8302, "B": 0.8311, "grey": 0.8290, "black": 0.8296}


def rgbhv_set(tolerance_m: float) -> MatchedSet:
    """Return the matched set of O-05 with a symmetric length tolerance."""
    legs = [
        Leg(name=name, cable=world.VID_40, lot=world.lot(world.VID_40, factor, code=name))
        for name, factor in COLOURS.items()
    ]
    answer = match_set(
        legs,
        nominal_m=15.2,
        tolerance_minus_m=tolerance_m,
        tolerance_plus_m=tolerance_m,
        cut_tolerance_m=0.003,
    )
    assert isinstance(answer, MatchedSet)
    return answer


def test_o_05_equal_lengths_have_191_ps_of_skew() -> None:
    """Five colours are five lots: 191 ps, far below a quarter pixel, and the sentence says it."""
    matched = rgbhv_set(0.025)
    delays = {leg.name: leg.equal_length_delay_s for leg in matched.legs}
    assert delays["R"] == pytest.approx(61.197e-9, abs=0.5e-12)
    assert delays["B"] == pytest.approx(61.006e-9, abs=0.5e-12)
    assert matched.equal_length_skew_s == pytest.approx(191e-12, abs=0.6e-12)
    check = RgbhvVideo(pixel_clock_hz=154e6).judge_skew(delays)
    assert check.outcome is Outcome.GOOD
    assert check.limit == pytest.approx(1.62e-9, abs=0.005e-9)
    assert "191\u202fps, which is 2.9\u202f% of a pixel" in check.sentence


def test_o_05_matched_lengths() -> None:
    """Centred at 61.101 ns the five legs are cut to the lengths worked out, in millimetres."""
    matched = rgbhv_set(0.025)
    assert matched.target_s == pytest.approx(61.101e-9, abs=0.5e-12)
    lengths = {leg.name: round(leg.length_m, 3) for leg in matched.legs}
    assert lengths == {"R": 15.176, "G": 15.207, "B": 15.224, "grey": 15.185, "black": 15.196}


def test_o_05_asks_for_a_wider_tolerance() -> None:
    """±25 mm leave R and B about 1 mm, less than the 3 mm of the cut; ±27 mm are needed."""
    matched = rgbhv_set(0.025)
    spare = {leg.name: leg.spare_m for leg in matched.legs}
    assert matched.within_tolerance
    assert 0.0005 < min(spare["R"], spare["B"]) < 0.002
    assert 0.025 < matched.tolerance_needed_m < 0.030
    assert not rgbhv_set(0.020).within_tolerance


def test_o_05_the_lots_spread_asks_for_measuring() -> None:
    """0.1 % of 61 ns is 61 ps, so closer than that is measured and trimmed, not cut."""
    assert rgbhv_set(0.025).delay_uncertainty_s == pytest.approx(61e-12, abs=0.5e-12)


def test_o_05_loss_at_half_clock_and_at_the_clock() -> None:
    """15.2 m lose 1.44 dB at 77 MHz, and the cable alone 2.05 dB at 154 MHz."""
    judgement = judged("RGBHV 154 MHz", world.run(world.VID_40, 15.2))
    # The author's 1.44 is rounded down from 1.445.
    assert named(judgement, "loss at 77 MHz").value == pytest.approx(1.44, abs=0.006)
    values = predict(
        cable=world.VID_40,
        lot=None,
        length=Length(mean_m=15.2, standard_uncertainty_m=0.0),
        temperature_celsius=20.0,
        frequencies_hz=(154e6,),
    )
    at_clock = next(value for value in values if value.name == "loss at 154 MHz")
    assert at_clock.value == pytest.approx(2.05, abs=0.01)


@pytest.mark.parametrize(
    ("cable", "last_db"), [(world.SPK_16, 0.47), (world.SPK_14, 0.30), (world.SPK_12, 0.19)]
)
def test_o_06_the_church(cable: world.Cable, last_db: float) -> None:
    """All three sizes pass; the wiring class stays open until the amplifier's marking is read."""
    typed = "loudspeaker line 70 V, 8 x 15 W, 20 ft apart"
    judgement = judged(typed, world.run(cable, 360 * FT))
    assert named(judgement, "level at").value == pytest.approx(last_db, abs=0.005)
    assert named(judgement, "level at").outcome is Outcome.GOOD
    assert named(judgement, "wiring class").outcome is Outcome.NOT_COMPUTED
    assert not judgement.verdict.works
    assert "the authority having jurisdiction decides" in judgement.sentence
    assert "150\u202fW or more" in judgement.sentence


def test_o_06_first_and_last_differ_by_0_07_db() -> None:
    """On 2.08 mm² the spread between loudspeakers is printed as 0.07 dB."""
    judgement = judged(
        "70 V loudspeaker line, 8 loudspeakers tapped 15 W, 20 ft apart",
        world.run(world.SPK_14, 360 * FT),
    )
    assert named(judgement, "difference").value == pytest.approx(0.07, abs=0.005)


def test_o_06_the_contrast() -> None:
    """One 8 Ω loudspeaker at 220 ft on the same cable loses 1.13 dB, above the usual limit."""
    judgement = judged("loudspeaker 8 ohm", world.run(world.SPK_14, 220 * FT))
    assert named(judgement, "level lost").value == pytest.approx(1.13, abs=0.005)
    assert not judgement.verdict.works


def test_o_08_optical_at_15_m() -> None:
    """1.0 dB short in the worst case, 1.0 dB over with a usual transmitter, sure up to 10 m."""
    judgement = judged("optical audio", world.run(world.POF_22, 15.0))
    assert named(judgement, "light left").margin == pytest.approx(-1.0, abs=1e-9)
    assert not judgement.verdict.works
    assert judgement.length_at_50_m == pytest.approx(10.0)
    assert "a usual transmitter would have 1.0\u202fdB" in judgement.sentence
    assert "Up to 10\u202fm" in judgement.sentence


def test_o_08_the_coax_offered_instead() -> None:
    """15 m of 6 mm coax lose 0.28 dB at the cell rate of 48 kHz audio."""
    run = world.run(world.VID_60, 15.0, ends=(world.PLAIN, world.PLAIN))
    judgement = judged("coaxial digital audio", run)
    assert named(judgement, "loss at 6.144 MHz").value == pytest.approx(0.28, abs=0.005)
    assert judgement.verdict.works


def test_o_10_the_repeat_from_another_lot() -> None:
    """The new lot is 124 ps later over the same 10.150 m."""
    delays = [
        next(
            value.value
            for value in predict(
                cable=world.VID_60,
                lot=world.lot(world.VID_60, factor),
                length=Length(mean_m=10.150, standard_uncertainty_m=0.0),
                temperature_celsius=20.0,
            )
            if value.name == "delay"
        )
        for factor in (0.8290, 0.8265)
    ]
    assert delays[1] - delays[0] == pytest.approx(124e-12, abs=0.6e-12)
    assert 10.150 * delays[0] / delays[1] == pytest.approx(10.119, abs=0.0005)


def test_o_11_balanced_on_coax_is_refused_by_logic() -> None:
    """A coax has one conductor; balance and phantom power need two, and no figure softens that."""
    judgement = judged("mic with phantom power", world.run(world.VID_28, 100 * FT))
    assert not judgement.verdict.works
    assert "needs a balanced pair" in judgement.sentence
    assert "VID-28 has 1" in judgement.sentence
    assert "supply for the microphone needs both" in judgement.sentence
    assert judgement.chance_within_limit is None
    assert judgement.length_at_95_m is None


def test_a_line_shorter_than_its_taps_is_not_computed() -> None:
    """Eight loudspeakers 20 ft apart do not stand on 100 ft of line."""
    signal = even_line(line_v=70.7, taps=8, tap_w=15.0, spacing_m=20 * FT)
    judgement = signal.judge(world.run(world.SPK_14, 100 * FT))
    assert named(judgement, "level at").outcome is Outcome.NOT_COMPUTED
    assert "already" in judgement.sentence
    assert signal.margin_at(world.run(world.SPK_14, 100 * FT), np.array([10.0])) is None
