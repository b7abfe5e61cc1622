"""Optical audio: its rates, its bends, too much light, and fibre that is no such fibre."""

from dataclasses import replace

import pytest

from reelwright.core.errors import BadValue
from reelwright.core.signals import read_signal
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.plastic_fibre import SAMPLE_RATES_HZ, PlasticFibreAudio
from reelwright.core.verdicts import Check, Outcome
from tests import signal_world as world

ENDS = (world.PLAIN, world.PLAIN)


def judged(typed: str, length_m: float, loss_db_per_m: float = 0.20) -> Judgement:
    """Return the judgement of optical audio over a fibre of that loss."""
    reading = read_signal(typed)
    assert reading.signal is not None, reading.question
    fibre = replace(world.POF_22, sheet=world.sheet(optical_loss_db_per_m=loss_db_per_m))
    return reading.signal.judge(world.run(fibre, length_m, ends=ENDS))


def named(judgement: Judgement, name: str) -> Check:
    """Return the check of that name."""
    return next(check for check in judgement.verdict.checks if check.name == name)


@pytest.mark.parametrize("rate_hz", SAMPLE_RATES_HZ)
def test_every_rate_passes_the_fibre_within_10_m(rate_hz: int) -> None:
    """Rays leave far more than any rate needs; sockets beyond 96 kHz have to be looked at."""
    judgement = judged(f"optical audio {rate_hz / 1e3:g} kHz", 8.0)
    assert named(judgement, "bandwidth of the fibre").outcome is Outcome.GOOD
    assert judgement.verdict.works
    asked = "please look whether both devices take" in judgement.sentence
    assert asked == (rate_hz > 96_000)


def test_rays_end_a_fast_signal_where_light_alone_would_not() -> None:
    """At 192 kHz a fibre without loss worth naming stops at 80 m, by the spread of its rays."""
    judgement = judged("optical audio 192 kHz", 81.0, loss_db_per_m=0.02)
    assert named(judgement, "light left over in the worst case").outcome is Outcome.GOOD
    assert judgement.deciding == "bandwidth of the fibre"
    assert judged("optical audio 192 kHz", 79.0, loss_db_per_m=0.02).verdict.works
    assert judgement.possible is not None
    assert judgement.possible.length_m == pytest.approx(80.1, abs=0.1)


def test_the_best_parts_reach_50_m() -> None:
    """−15 dBm launched, −27 dBm needed, two ends at 1 dB: 10 dB for the fibre, 50 m at 0.2."""
    possible = judged("optical audio", 15.0).possible
    assert possible is not None
    assert possible.length_m == pytest.approx(50.0)


def test_a_short_run_does_not_blind_the_receiver() -> None:
    """Even with no length at all −15 dBm stay half a decibel below the most it takes."""
    check = named(judged("optical audio", 0.2), "most light at the receiver")
    assert check.outcome is Outcome.GOOD
    assert check.margin == pytest.approx(0.54)


def test_a_tight_bend_is_a_caution() -> None:
    """10 mm is tighter than tested; 30 mm is not; no bend named is none judged."""
    assert named(judged("optical audio, bent to 10 mm", 5.0), "bends").outcome is Outcome.CAUTION
    assert named(judged("optical audio, 30 mm radius", 5.0), "bends").outcome is Outcome.GOOD
    assert named(judged("optical audio", 5.0), "bends").value is None


def test_a_loss_no_such_fibre_has_is_asked_about() -> None:
    """0.45 dB/m is above what the standard lets any fibre of the class lose."""
    judgement = judged("optical audio", 2.0, loss_db_per_m=0.45)
    assert named(judgement, "class of the fibre").outcome is Outcome.CAUTION
    assert "is the data sheet right?" in judgement.sentence


@pytest.mark.parametrize(
    ("typed", "asked"),
    [("optical 50 kHz", "Which sample rate"), ("optical, bend radius 0 mm", "which radius")],
)
def test_what_is_not_settled_is_asked(typed: str, asked: str) -> None:
    """A rate that no socket has, and a bend of no radius."""
    question = read_signal(typed).question
    assert question is not None
    assert asked in question


def test_nonsense_is_refused() -> None:
    """No samples, a radius of nothing."""
    for rate_hz, radius_m in ((0, None), (48_000, 0.0), (48_000, -0.01)):
        with pytest.raises(BadValue):
            PlasticFibreAudio(sample_rate_hz=rate_hz, bend_radius_m=radius_m)
