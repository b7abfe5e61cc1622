"""Words for sound that travels as figures: digital audio, on copper and on fibre."""

import re

from reelwright.core.signals.digital_audio_75 import SAMPLE_RATES_HZ, DigitalAudio75
from reelwright.core.signals.digital_audio_110 import DigitalAudio110
from reelwright.core.signals.read_video import decimal
from reelwright.core.signals.reading import SignalReading, asking, reading

_KILOHERTZ = re.compile(r"(\d+(?:[.,]\d+)?)\s*khz")
_USUAL_RATE_HZ = 48_000


def _sample_rate_hz(text: str) -> tuple[int, tuple[str, ...]]:
    found = _KILOHERTZ.search(text)
    if found is None:
        return _USUAL_RATE_HZ, ("sample rate 48 kHz, as none was stated",)
    return round(decimal(found[1]) * 1e3), ()


def read_digital_75(typed: str, text: str) -> SignalReading:
    """Return coaxial digital audio at the sample rate in ``text``, 48 kHz assumed."""
    rate_hz, assumed = _sample_rate_hz(text)
    if rate_hz not in SAMPLE_RATES_HZ:
        return asking(typed, "Which sample rate: 44.1, 48, 96 or 192 kHz?")
    return reading(typed, DigitalAudio75(sample_rate_hz=rate_hz), *assumed)


def read_digital_110(typed: str, text: str) -> SignalReading:
    """Return balanced digital audio at the sample rate in ``text``, 48 kHz assumed."""
    rate_hz, assumed = _sample_rate_hz(text)
    if rate_hz not in SAMPLE_RATES_HZ:
        return asking(typed, "Which sample rate: 44.1, 48, 96 or 192 kHz?")
    return reading(typed, DigitalAudio110(sample_rate_hz=rate_hz), *assumed)


def read_digital(typed: str, text: str) -> SignalReading:
    """Ask which form of digital audio is meant."""
    del text
    return asking(
        typed,
        "Which digital audio: coaxial (75 ohm), balanced (110 ohm, three contacts) or optical?",
    )
