"""Words for sound: loudspeakers, loudspeaker lines, analogue and digital audio."""

import re

from reelwright.core.errors import UnreadableQuantity
from reelwright.core.quantities.length_text import LengthContext, read_length
from reelwright.core.signals.balanced_audio import BalancedAudio, Level
from reelwright.core.signals.digital_audio_75 import SAMPLE_RATES_HZ, DigitalAudio75
from reelwright.core.signals.digital_audio_110 import DigitalAudio110
from reelwright.core.signals.distributed_line import DistributedLine
from reelwright.core.signals.line_audio import LineAudio
from reelwright.core.signals.loudspeaker import Loudspeaker
from reelwright.core.signals.plastic_fibre import PlasticFibreAudio
from reelwright.core.signals.read_video import decimal
from reelwright.core.signals.reading import SignalReading, asking, reading

_OHM = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:k\s*)?(?:ohms?\b|ω|Ω)")
_KILOHERTZ = re.compile(r"(\d+(?:[.,]\d+)?)\s*khz")
_LINE_VOLTAGE = re.compile(r"\b(70(?:[.,]7)?|100)\s*v(?:olts?)?\b")
_TAPS = re.compile(r"(\d+)\s*(?:x|times|of|loudspeakers?\D{0,12}?|speakers?\D{0,12}?)\s*"
                   r"(\d+(?:[.,]\d+)?)\s*w")  # fmt: skip
_APART = re.compile(r"([\d.,]+\s*(?:ft|feet|foot|m|metres?|meters?|'))\s*(?:apart|spacing|between)")
_USUAL_RATE_HZ = 48_000


def read_distributed_line(typed: str, text: str) -> SignalReading:
    """Return a 70 V or 100 V line with its taps; ask for what is missing."""
    volts, taps, apart = _LINE_VOLTAGE.search(text), _TAPS.search(text), _APART.search(text)
    missing = []
    if volts is None:
        missing.append("70 V or 100 V")
    if taps is None:
        missing.append("how many loudspeakers and the watts each is set to")
    spacing_m = _spacing_m(apart[1]) if apart else None
    alone = taps is not None and int(taps[1]) == 1
    if spacing_m is None and not alone:
        missing.append("how far they stand apart")
    if volts is None or taps is None or missing or int(taps[1]) == 0 or decimal(taps[2]) == 0:
        wanted = "; ".join(missing) or "a number of loudspeakers and watts above zero"
        return asking(
            typed,
            f"For the loudspeaker line please tell us: {wanted} "
            "(as in: loudspeaker line 70 V, 8 x 15 W, 20 ft apart).",
        )
    return reading(
        typed,
        DistributedLine(
            line_v=100.0 if volts[1] == "100" else 70.7,
            taps=int(taps[1]),
            tap_w=decimal(taps[2]),
            spacing_m=spacing_m or 0.0,
        ),
    )


def _spacing_m(typed: str) -> float | None:
    try:
        return read_length(typed, context=LengthContext()).length_m
    except UnreadableQuantity:
        return None


def read_loudspeaker(typed: str, text: str) -> SignalReading:
    """Return a loudspeaker of the impedance in ``text``; ask where there is none."""
    found = _OHM.search(text)
    if found is None or decimal(found[1]) == 0:
        return asking(
            typed, "Which nominal impedance does the loudspeaker have: 4, 6, 8 or 16 ohm?"
        )
    return reading(typed, Loudspeaker(nominal_ohm=decimal(found[1])))


def read_optical(typed: str, text: str) -> SignalReading:
    """Return optical audio on plastic fibre."""
    del text
    return reading(typed, PlasticFibreAudio())


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


def read_balanced(typed: str, text: str) -> SignalReading:
    """Return balanced audio; a microphone where one is named, with phantom power where it is."""
    phantom = re.search(r"\bphantom\b|\b48\s*v\b", text) is not None
    if phantom and re.search(r"\b(no|without)\s+phantom\b", text):
        phantom = False
    microphone = phantom or re.search(r"\bmic(rophone)?s?\b", text) is not None
    level = Level.MICROPHONE if microphone else Level.LINE
    return reading(typed, BalancedAudio(level=level, phantom_power=phantom))


def read_line(typed: str, text: str) -> SignalReading:
    """Return unbalanced line audio, with the source's resistance where it is in ``text``."""
    found = _OHM.search(text)
    source = None if found is None else decimal(found[1]) * (1e3 if "k" in found[0] else 1.0)
    if source == 0:
        source = None
    assumed = () if source else ("output resistance 1 kΩ of the source, as none was stated",)
    return reading(typed, LineAudio(source_ohm=source), *assumed)
