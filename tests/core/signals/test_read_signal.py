"""Signals as customers and columns name them."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.signals import SIGNAL_CHOICES, Signal, SignalReading, read_signal
from reelwright.core.signals.balanced_audio import BalancedAudio, Level
from reelwright.core.signals.cable_television import CableTelevision, Channels
from reelwright.core.signals.component_video import ComponentVideo
from reelwright.core.signals.composite_video import CompositeVideo
from reelwright.core.signals.data_channel import DataChannel
from reelwright.core.signals.digital_audio_75 import DigitalAudio75
from reelwright.core.signals.digital_audio_110 import DigitalAudio110
from reelwright.core.signals.distributed_line import DistributedLine, even_line
from reelwright.core.signals.line_audio import LineAudio
from reelwright.core.signals.loudspeaker import Loudspeaker
from reelwright.core.signals.plastic_fibre import PlasticFibreAudio
from reelwright.core.signals.rgbhv import RgbhvVideo
from reelwright.core.signals.serial_video import SerialVideo

CATEGORY_DATA = DataChannel(rate=None, power=None)
CHURCH = even_line(line_v=70.7, taps=8, tap_w=15.0, spacing_m=6.096)
CABLE_TELEVISION = CableTelevision(
    outlet_level_dbuv=None, channels=Channels.DIGITAL, highest_hz=862e6
)
MICROPHONE = BalancedAudio(level=Level.MICROPHONE, phantom_power=False)
PHANTOM = BalancedAudio(level=Level.MICROPHONE, phantom_power=True)


@pytest.mark.parametrize(
    ("typed", "signal"),
    [
        ("serial video 2.97 Gb/s", SerialVideo(rate_bit_per_s=2_970_000_000)),
        ("3G", SerialVideo(rate_bit_per_s=2_970_000_000)),
        ("3G-SDI", SerialVideo(rate_bit_per_s=2_970_000_000)),
        ("HD 1.485", SerialVideo(rate_bit_per_s=1_485_000_000)),
        ("HD serial video", SerialVideo(rate_bit_per_s=1_485_000_000)),
        ("HD-SDI", SerialVideo(rate_bit_per_s=1_485_000_000)),
        ("serial video, 1,485 Gb/s", SerialVideo(rate_bit_per_s=1_485_000_000)),
        ("SERIAL VIDEO 270 MB/S", SerialVideo(rate_bit_per_s=270_000_000)),
        ("SD serial video", SerialVideo(rate_bit_per_s=270_000_000)),
        ("serial video 6G", SerialVideo(rate_bit_per_s=5_940_000_000)),
        ("12G", SerialVideo(rate_bit_per_s=11_880_000_000)),
        ("11.88 Gb/s", SerialVideo(rate_bit_per_s=11_880_000_000)),
        ("RGBHV 154 MHz", RgbhvVideo(pixel_clock_hz=154e6)),
        ("RGBHV 1920×1200 at 154 MHz pixel clock", RgbhvVideo(pixel_clock_hz=154e6)),
        ("composite video", CompositeVideo()),
        ("Component", ComponentVideo()),
        ("cable TV", CABLE_TELEVISION),
        (
            "cable television, 65 dBµV at the outlet",
            replace(CABLE_TELEVISION, outlet_level_dbuv=65.0),
        ),
        ("coaxial digital audio 96 kHz", DigitalAudio75(sample_rate_hz=96_000)),
        ("digital coax 44.1 kHz", DigitalAudio75(sample_rate_hz=44_100)),
        ("balanced digital audio 48 kHz", DigitalAudio110(sample_rate_hz=48_000)),
        ("AES3", DigitalAudio110(sample_rate_hz=48_000)),
        ("15 m optical audio", PlasticFibreAudio(sample_rate_hz=48_000, bend_radius_m=None)),
        ("unbalanced line audio", LineAudio(source_ohm=None)),
        ("line level, source 600 ohm", LineAudio(source_ohm=600.0)),
        ("unbalanced, 10 kohm source", LineAudio(source_ohm=10_000.0)),
        ("balanced line audio", BalancedAudio(level=Level.LINE, phantom_power=False)),
        ("mic", MICROPHONE),
        ("balanced microphone, no phantom", MICROPHONE),
        ("condenser mic with phantom", PHANTOM),
        ("loudspeaker 4 ohm", Loudspeaker(nominal_ohm=4.0, lowest_ohm=None, driver=None)),
        ("speaker 8Ω", Loudspeaker(nominal_ohm=8.0, lowest_ohm=None, driver=None)),
        ("loudspeaker line 70 V, 8 x 15 W, 20 ft apart", CHURCH),
        ("70V line, 8 × 15 W, 20 ft apart", CHURCH),
        ("70.7 V speaker line, 8 loudspeakers of 15 W, 6.096 m apart", CHURCH),
        (
            "100 V loudspeaker line, 1 x 30 W",
            DistributedLine(line_v=100.0, taps_w=(30.0,), between_m=()),
        ),
        ("cat 6 patch", CATEGORY_DATA),
        ("category data", CATEGORY_DATA),
        ("ethernet", CATEGORY_DATA),
    ],
)
def test_words_of_customers_are_read(typed: str, signal: Signal) -> None:
    """What is typed is the signal meant, and the typed text stays beside it."""
    reading = read_signal(typed)
    assert reading.signal == signal
    assert reading.typed == typed
    assert reading.question is None


@pytest.mark.parametrize(
    ("typed", "asked"),
    [
        ("serial video", "Which rate"),
        ("SDI", "Which rate"),
        ("serial video 3.5 Gb/s", "Which rate"),
        ("3G or 6G serial video", "Which rate"),
        ("RGBHV", "pixel clock"),
        ("RGBHV 0 MHz", "pixel clock"),
        ("loudspeaker", "nominal impedance"),
        ("loudspeaker 0 ohm", "nominal impedance"),
        ("loudspeaker line", "70 V or 100 V; how many"),
        ("loudspeaker line 70 V, 8 x 15 W", "how far they stand apart"),
        ("loudspeaker line 70 V, 20 ft apart", "how many loudspeakers"),
        ("70 V line, 0 x 15 W, 20 ft apart", "above zero"),
        ("digital audio", "coaxial (75 ohm), balanced (110 ohm"),
        ("digital coax 50 kHz", "Which sample rate"),
        ("AES3 32 kHz", "Which sample rate"),
        ("the usual", "We know: serial video"),
        ("video", "We know: serial video"),
        ("", "Which signal will it carry?"),
    ],
)
def test_what_does_not_settle_the_signal_is_asked(typed: str, asked: str) -> None:
    """A missing figure and an unknown word become a question that names what is accepted."""
    reading = read_signal(typed)
    assert reading.signal is None
    assert reading.question is not None
    assert asked in reading.question


def test_what_was_assumed_is_said() -> None:
    """A sample rate and a source resistance that nobody stated are marked as assumed."""
    assert read_signal("digital coax").assumed == ("sample rate 48 kHz, as none was stated",)
    assert "1 kΩ" in read_signal("line level").assumed[0]
    assert read_signal("digital coax 48 kHz").assumed == ()
    assert read_signal("line level, 600 ohm").assumed == ()


@given(st.text(max_size=60))
def test_any_text_is_answered(typed: str) -> None:
    """No text raises: it is a signal or a question."""
    reading = read_signal(typed)
    assert (reading.signal is None) != (reading.question is None)


@pytest.mark.parametrize("choice", SIGNAL_CHOICES, ids=lambda choice: choice.code)
def test_every_choice_of_the_list_reads_as_a_signal(choice: object) -> None:
    """What a page offers is read back without a question."""
    reading = read_signal(choice.typed)  # type: ignore[attr-defined]
    assert reading.question is None


def test_the_choices_are_all_different() -> None:
    """No code stands twice and no two texts read as one signal."""
    assert len({choice.code for choice in SIGNAL_CHOICES}) == len(SIGNAL_CHOICES)
    assert len({read_signal(choice.typed).signal for choice in SIGNAL_CHOICES}) == len(
        SIGNAL_CHOICES
    )


def test_a_reading_is_a_signal_or_a_question() -> None:
    """Both or neither cannot be built."""
    with pytest.raises(BadValue):
        SignalReading(typed="x", signal=None, question=None, assumed=())
    with pytest.raises(BadValue):
        SignalReading(typed="x", signal=CATEGORY_DATA, question="?", assumed=())
