"""Words for data over twisted pairs: rates, categories named in passing, power for the device."""

import re

from reelwright.core.signals.data_channel import DataChannel
from reelwright.core.signals.data_rates import DATA_RATES, DataRate
from reelwright.core.signals.power_over_data import (
    POWER_TYPES,
    PowerAsked,
    power_of_type,
    power_of_watts,
)
from reelwright.core.signals.read_video import decimal
from reelwright.core.signals.reading import SignalReading, asking, reading

WORDS = (
    r"\bcat(egory)?\s*\d|\bcategory data\b|\bethernet\b|\bnetwork\b|\bdata\b|\d\s*g?base-?t"
    r"|\bpoe\b|\bpower over (data|ethernet)\b"
)
"""What names data over twisted pairs."""

_GIGABIT = re.compile(
    r"\b(\d+(?:[.,]\d+)?)\s*(?:g(?:b/?s|bit/?s|bps|base-?t|be|ig(?:abit)?)?\b|gbit\b)"
)
_MEGABIT = re.compile(r"\b(\d+(?:[.,]\d+)?)\s*(?:m(?:b/?s|bit/?s|bps|egabit)\b|base-?tx?\b)")
# "cat 6 gigabit" is category 6, not 6 gigabit.
_CATEGORY = re.compile(r"\bcat(egory)?\s*\d+\s*[ea]?\b")
_BARE_GIGABIT = re.compile(r"\bgig(a?bit)?\b")
_POWER = re.compile(r"\bpoe\b|\bpower\b|\bpowered\b")
_TYPE = re.compile(r"\btype\s*(\d+)")
_WATTS = re.compile(r"(\d+(?:[.,]\d+)?)\s*w(?:atts?)?\b")


def read_data(typed: str, text: str) -> SignalReading:
    """Return data at the rate in ``text``, with power where it is named; ask what is missing."""
    rate = _rate(_CATEGORY.sub(" ", text))
    if isinstance(rate, str):
        return asking(typed, rate)
    power = _power(text)
    if isinstance(power, str):
        return asking(typed, power)
    return reading(typed, DataChannel(rate=rate, power=power))


def _rate(text: str) -> DataRate | str | None:
    named = {round(decimal(found) * 1e9) for found in _GIGABIT.findall(text)}
    named |= {round(decimal(found) * 1e6) for found in _MEGABIT.findall(text)}
    if not named and _BARE_GIGABIT.search(text):
        named = {1_000_000_000}
    if not named:
        return None
    known = {rate.rate_bit_per_s: rate for rate in DATA_RATES}
    if len(named) == 1 and named <= known.keys():
        return known[named.pop()]
    words = ", ".join(rate.words for rate in DATA_RATES[:-1])
    return f"Which data rate: {words} or {DATA_RATES[-1].words}?"


def _power(text: str) -> PowerAsked | str | None:
    if not _POWER.search(text):
        return None
    kind, watts = _TYPE.search(text), _WATTS.search(text)
    asked = power_of_type(int(kind[1])) if kind else None
    if watts is not None:
        device_w = decimal(watts[1])
        if asked is None and kind is None:
            asked = power_of_watts(device_w)
        elif asked is not None and 0 < device_w <= asked.type.device_w:
            asked = PowerAsked(type=asked.type, device_w=device_w)
        else:
            asked = None
    if asked is not None:
        return asked
    return (
        "How much power shall travel with the data: which type is the source (1 to "
        f"{POWER_TYPES[-1].number}), or how many watts does the device take (up to "
        f"{POWER_TYPES[-1].device_w:g})?"
    )
