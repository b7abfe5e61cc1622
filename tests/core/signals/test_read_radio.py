"""Words of customers for antennas, heads, television outlets and 50 Ω feeds."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.signals import read_signal
from reelwright.core.signals.cable_television import CableTelevision, Channels
from reelwright.core.signals.radio_feed_50 import RadioFeed50
from reelwright.core.signals.satellite_if import SatelliteIf
from reelwright.core.signals.signal import Signal
from reelwright.core.signals.terrestrial_antenna import Service, TerrestrialAntenna

TELEVISION = CableTelevision(outlet_level_dbuv=None, channels=Channels.DIGITAL, highest_hz=862e6)
DVB_T = TerrestrialAntenna(
    service=Service.DVB_T, highest_hz=694e6, level_dbuv=None, mast_supply=None, at_outlet=False
)
FEED = RadioFeed50(what="50\u202fΩ feed", frequency_hz=600e6, allowed_db=None, antenna_supply=None)
MICROPHONE = "radio microphone antenna"


@pytest.mark.parametrize(
    ("typed", "signal"),
    [
        ("satellite", SatelliteIf(head_level_dbuv=None, head_current_a=None)),
        ("LNB 78 dBµV 180 mA", SatelliteIf(head_level_dbuv=78.0, head_current_a=0.18)),
        ("satellite 78,5 dBuV, 0.25 A", SatelliteIf(head_level_dbuv=78.5, head_current_a=0.25)),
        (
            "satellite, head 75 dBuV, receiver needs 50 dBuV",
            SatelliteIf(head_level_dbuv=75.0, head_current_a=None),
        ),
        ("DVB-T", DVB_T),
        ("dvbt antenna", DVB_T),
        ("DVB-T2 aerial", replace(DVB_T, service=Service.DVB_T2)),
        ("DVB-T antenna 470-790 MHz", replace(DVB_T, highest_hz=790e6)),
        ("DVB-T from the wall outlet, 60 dBµV", replace(DVB_T, at_outlet=True, level_dbuv=60.0)),
        ("FM", replace(DVB_T, service=Service.FM, highest_hz=108e6)),
        ("FM antenna", replace(DVB_T, service=Service.FM, highest_hz=108e6)),
        ("aerial for FM and DAB", replace(DVB_T, service=Service.DAB, highest_hz=240e6)),
        ("FM, DVB-T and DVB-T2 antenna", DVB_T),
        ("cable tv", TELEVISION),
        ("catv 65 dBuV", replace(TELEVISION, outlet_level_dbuv=65.0)),
        (
            "cable tv −3 dBmV",
            replace(TELEVISION, outlet_level_dbuv=57.0, channels=Channels.UNITED_STATES),
        ),
        ("analog cable tv", replace(TELEVISION, channels=Channels.ANALOGUE)),
        ("digital cable tv up to 1 GHz", replace(TELEVISION, highest_hz=1e9)),
        ("50 ohm feed 600 MHz", FEED),
        ("50Ω 0.6 GHz, at most 6 dB", replace(FEED, allowed_db=6.0)),
        ("wireless mic antenna 470 to 600 MHz", replace(FEED, what=MICROPHONE)),
        ("antenna of the radio microphones, 600 MHz", replace(FEED, what=MICROPHONE)),
        ("GPS antenna", replace(FEED, what="positioning antenna", frequency_hz=1610e6)),
        ("timing receiver 600 MHz", replace(FEED, what="positioning antenna")),
    ],
)
def test_words_of_customers_are_read(typed: str, signal: Signal) -> None:
    """What is typed is the signal meant."""
    reading = read_signal(typed)
    assert reading.question is None
    assert reading.signal == signal


@pytest.mark.parametrize(
    ("typed", "asked"),
    [
        ("antenna", "What comes from the antenna"),
        ("terrestrial television", "What comes from the antenna"),
        ("DVB-T antenna to 2 GHz", "up to which frequency"),
        ("FM radio antenna 500 MHz", "up to which frequency"),
        ("cable tv up to 2 GHz", "Up to which frequency do the channels go"),
        ("cable tv 60 dBuV and 70 dBuV", "which of them"),
        ("satellite 60 dBuV or 3 dBmV", "which of them"),
        ("satellite 0 mA", "more than none"),
        ("50 ohm", "At which frequency"),
        ("50 ohm 10 GHz", "At which frequency"),
        ("wireless mic antenna", "At which frequency"),
        ("50 ohm 600 MHz, 3 dB or 6 dB", "one figure"),
        ("50 ohm 600 MHz, 0 dB", "one figure"),
        ("50 ohm 600 MHz with DC", "which voltage is sent"),
        ("DVB-T antenna with mast-head amplifier", "which voltage is sent"),
        ("DVB-T antenna, amplifier 12 V needs 14 V", "which voltage is sent"),
        ("DVB-T antenna, amplifier 5 V or 12 V", "which voltage is sent"),
        ("DVB-T antenna, amplifier 0 V 100 mA", "which voltage is sent"),
        ("DVB-T antenna, amplifier 100 mA", "which voltage is sent"),
    ],
)
def test_what_does_not_settle_it_is_asked(typed: str, asked: str) -> None:
    """A missing or a contradictory figure becomes one question."""
    reading = read_signal(typed)
    assert reading.signal is None
    assert reading.question is not None
    assert asked in reading.question


@pytest.mark.parametrize(
    ("typed", "kind"),
    [
        ("line level, source 50 ohm", "LineAudio"),
        ("balanced line for our FM studio", "BalancedAudio"),
        ("composite video from the antenna mast", "CompositeVideo"),
        ("mic", "BalancedAudio"),
    ],
)
def test_other_signals_are_not_taken_for_antennas(typed: str, kind: str) -> None:
    """A word in passing does not make a sound or a picture an antenna feed."""
    assert type(read_signal(typed).signal).__name__ == kind


def test_a_supply_is_read_with_its_need() -> None:
    """Volts, milliamperes and the least voltage each land where they belong."""
    of = read_signal("DVB-T2 antenna 60 dBuV, amplifier 12 V, 100 mA, needs 10 V").signal
    assert isinstance(of, TerrestrialAntenna)
    assert of.mast_supply is not None
    assert of.mast_supply.current_a == pytest.approx(0.1)
    assert of.mast_supply.steps[0].source_v == 12.0
    assert of.mast_supply.steps[0].needed_v == 10.0
    assert of.level_dbuv == 60.0
    unfed = read_signal("DVB-T antenna without amplifier").signal
    assert isinstance(unfed, TerrestrialAntenna)
    assert unfed.mast_supply is None


def test_what_was_assumed_is_said() -> None:
    """Channels, highest frequency and the service that decides stand beside the answer."""
    assert "digital channels" in read_signal("cable tv").assumed[0]
    assert read_signal("digital cable tv").assumed == ()
    assert "694\u202fMHz" in read_signal("DVB-T antenna").assumed[0]
    assert "1610\u202fMHz" in read_signal("GPS antenna").assumed[0]
    assert "loses most" in read_signal("FM and DAB antenna").assumed[0]


@given(
    st.lists(
        st.sampled_from(
            ["satellite", "antenna", "dvb-t", "fm", "50 ohm", "cable tv", "12 V", "0 V", "100 mA",
             "-5 dBmV", "65 dBuV", "600 MHz", "9 GHz", "needs 10 V", "6 dB", "no", "amplifier"]
        ),
        max_size=8,
    )
)  # fmt: skip
def test_any_mixture_of_words_is_answered(words: list[str]) -> None:
    """No order of words and figures raises: each is a signal or a question."""
    reading = read_signal(" ".join(words))
    assert (reading.signal is None) != (reading.question is None)
