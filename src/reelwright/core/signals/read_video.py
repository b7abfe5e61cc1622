"""Words for pictures: serial, RGBHV, composite, component."""

import re

from reelwright.core.signals.component_video import ComponentVideo
from reelwright.core.signals.composite_video import CompositeVideo
from reelwright.core.signals.reading import SignalReading, asking, reading
from reelwright.core.signals.rgbhv import RgbhvVideo
from reelwright.core.signals.serial_video import SerialVideo

_RATES = (
    (r"\b270\s*(m|mb/s|mbit/s|mbps)?\b|\bsd\b", 270_000_000),
    (r"\b(1[.,]485|1[.,]4835|1[.,]5)\b|\b1[.,](485|5)\s*g|\bhd\b", 1_485_000_000),
    (r"\b2[.,]97\b|\b2[.,]967\b|\b2[.,]97\s*g|\b3\s*g", 2_970_000_000),
    (r"\b5[.,]94\b|\b5[.,]94\s*g|\b6\s*g", 5_940_000_000),
    (r"\b11[.,]88\b|\b11[.,]88\s*g|\b12\s*g", 11_880_000_000),
)
_RATE_QUESTION = (
    "Which rate does the serial video run at: 270 Mb/s, 1.485, 2.97, 5.94 or 11.88 Gb/s?"
)
_MEGAHERTZ = re.compile(r"(\d+(?:[.,]\d+)?)\s*mhz")


def decimal(text: str) -> float:
    """Return a figure with a decimal point or comma as a number (in the unit that follows it)."""
    return float(text.replace(",", "."))


def read_serial(typed: str, text: str) -> SignalReading:
    """Return serial video at the rate in ``text``; ask where none or several are in it."""
    found = [rate for pattern, rate in _RATES if re.search(pattern, text)]
    # "HD 2.97" and "SD 1.485" are said: the figure decides, the class word does not.
    if len(found) > 1:
        bare = re.sub(r"\b(sd|hd)\b", " ", text)
        found = [rate for pattern, rate in _RATES if re.search(pattern, bare)]
    if len(found) != 1:
        return asking(typed, _RATE_QUESTION)
    return reading(typed, SerialVideo(rate_bit_per_s=found[0]))


def ask_rate(typed: str, text: str) -> SignalReading:
    """Ask for the rate where only a class of picture is named."""
    del text
    return asking(typed, _RATE_QUESTION)


def read_rgbhv(typed: str, text: str) -> SignalReading:
    """Return RGBHV at the pixel clock in ``text``; ask where there is none."""
    found = _MEGAHERTZ.search(text)
    if found is None or decimal(found[1]) == 0:
        return asking(
            typed, "Which pixel clock does the picture have, in MHz (1920×1200: 154 MHz)?"
        )
    return reading(typed, RgbhvVideo(pixel_clock_hz=decimal(found[1]) * 1e6))


def read_composite(typed: str, text: str) -> SignalReading:
    """Return composite video."""
    del text
    return reading(typed, CompositeVideo())


def read_component(typed: str, text: str) -> SignalReading:
    """Return component video."""
    del text
    return reading(typed, ComponentVideo())
