"""Words for sound that travels as light on plastic fibre."""

import re

from reelwright.core.signals.plastic_fibre import SAMPLE_RATES_HZ, PlasticFibreAudio
from reelwright.core.signals.read_video import decimal
from reelwright.core.signals.reading import SignalReading, asking, reading

_KILOHERTZ = re.compile(r"(\d+(?:[.,]\d+)?)\s*khz")
_RADIUS = re.compile(
    r"(?:radius|bent|bends?)\D{0,12}?(\d+(?:[.,]\d+)?)\s*mm"
    r"|(\d+(?:[.,]\d+)?)\s*mm\s*(?:bend\s*)?radius"
)
_USUAL_RATE_HZ = 48_000


def read_optical(typed: str, text: str) -> SignalReading:
    """Return optical audio at the sample rate in ``text``, 48 kHz assumed, with its bend."""
    found, bend = _KILOHERTZ.search(text), _RADIUS.search(text)
    rate_hz = _USUAL_RATE_HZ if found is None else round(decimal(found[1]) * 1e3)
    if rate_hz not in SAMPLE_RATES_HZ:
        *most, last = (f"{each / 1e3:g}" for each in SAMPLE_RATES_HZ)
        return asking(typed, f"Which sample rate: {', '.join(most)} or {last} kHz?")
    radius_mm = 0.0 if bend is None else decimal(bend[1] or bend[2])
    if bend is not None and radius_mm == 0:
        return asking(typed, "How tight is the fibre bent: which radius, in mm?")
    assumed = ("sample rate 48 kHz, as none was stated",) if found is None else ()
    return reading(
        typed,
        PlasticFibreAudio(sample_rate_hz=rate_hz, bend_radius_m=radius_mm / 1e3 or None),
        *assumed,
    )
