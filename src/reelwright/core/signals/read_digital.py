"""Words for digital audio on copper: consumer, balanced, professional coax, multichannel."""

import re
from collections.abc import Callable

from reelwright.core.signals.digital_audio_75 import DigitalAudio75
from reelwright.core.signals.digital_audio_110 import DigitalAudio110
from reelwright.core.signals.digital_audio_coax import SAMPLE_RATES_HZ
from reelwright.core.signals.multichannel_digital_audio import MultichannelDigitalAudio
from reelwright.core.signals.professional_digital_audio_75 import ProfessionalDigitalAudio75
from reelwright.core.signals.read_video import decimal
from reelwright.core.signals.reading import SignalReading, asking, reading
from reelwright.core.signals.signal import Signal

MULTICHANNEL = (
    r"\bmadi\b|\baes-?10\b|\bmulti-?channel\b.*\b(digital|aes)\b|\b(56|64) channels?\b.*\bdigital\b"
)
"""Words for multichannel digital audio."""

_AES = r"\baes-?3?\b"
_ON_COAX = r"\b(coax\w*|75\s*(ohms?\b|ω|Ω)|bncs?\b|unbalanced)"
PROFESSIONAL = (
    r"\baes[- ]?3[- ]?id\b|\bsmpte[- ]?276|"
    rf"\bprofessional coax\w* digital\b|{_AES}.*{_ON_COAX}|{_ON_COAX}.*{_AES}"
)
"""Words for professional digital audio on coax."""

BALANCED = r"\baes-?3?\b|\baes/|balanced digital|\b110\s*(ohms?\b|ω|Ω)"
"""Words for balanced digital audio."""

CONSUMER = r"\bs/?p-?dif\b|coax\w* digital|digital coax\w*"
"""Words for consumer digital audio on coax."""

UNSAID = r"\bdigital audio\b"
"""Digital audio of a form that is not said."""

# "96 k" is said of the usual rates; of other figures it may be a resistance.
_KILOHERTZ = re.compile(
    r"(\d+(?:[.,]\d+)?)\s*khz|\b(32|44[.,]1|48|88[.,]2|96|176[.,]4|192)\s*k\b(?!\s*(?:ohm|ω))"
)
_USUAL_RATE_HZ = 48_000
_RATE_QUESTION = "Which sample rate: 44.1, 48, 96 or 192 kHz?"


def sample_rate_hz(text: str) -> tuple[int, tuple[str, ...]]:
    """Return the sample rate [Hz] in ``text``, 48 kHz where none is, and what was assumed."""
    found = _KILOHERTZ.search(text)
    if found is None:
        return _USUAL_RATE_HZ, ("sample rate 48 kHz, as none was stated",)
    return round(decimal(found[1] or found[2]) * 1e3), ()


def says_sample_rate(text: str) -> bool:
    """Return whether a sample rate stands in ``text`` (small letters)."""
    return _KILOHERTZ.search(text) is not None


def _at_rate(typed: str, text: str, build: Callable[[int], Signal]) -> SignalReading:
    rate_hz, assumed = sample_rate_hz(text)
    if rate_hz not in SAMPLE_RATES_HZ:
        return asking(typed, _RATE_QUESTION)
    return reading(typed, build(rate_hz), *assumed)


def read_multichannel(typed: str, text: str) -> SignalReading:
    """Return multichannel digital audio on coax; on glass fibre it is bought finished."""
    if re.search(r"\boptical\b|\bfib(re|er)\b", text):
        return asking(
            typed,
            "Multichannel digital audio on glass fibre is bought finished and not made to length. "
            "Have both devices the coaxial (75 ohm) socket as well?",
        )
    return reading(typed, MultichannelDigitalAudio())


def read_professional(typed: str, text: str) -> SignalReading:
    """Return professional digital audio on coax at the rate in ``text``, 48 kHz assumed."""
    return _at_rate(typed, text, lambda rate: ProfessionalDigitalAudio75(sample_rate_hz=rate))


def read_balanced(typed: str, text: str) -> SignalReading:
    """Return balanced digital audio at the sample rate in ``text``, 48 kHz assumed."""
    return _at_rate(typed, text, lambda rate: DigitalAudio110(sample_rate_hz=rate))


def read_consumer(typed: str, text: str) -> SignalReading:
    """Return coaxial digital audio at the sample rate in ``text``, 48 kHz assumed."""
    return _at_rate(typed, text, lambda rate: DigitalAudio75(sample_rate_hz=rate))


def ask_form(typed: str, text: str) -> SignalReading:
    """Ask which form of digital audio is meant."""
    del text
    return asking(
        typed,
        "Which digital audio: coaxial (75 ohm), balanced (110 ohm, three contacts) or optical?",
    )
