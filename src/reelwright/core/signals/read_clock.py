"""Words for clocks, references, timecode and control buses."""

import re

from reelwright.core.errors import UnreadableQuantity
from reelwright.core.quantities.length_text import LengthContext, read_length
from reelwright.core.signals.control_bus import LIGHTING_RATE_BIT_PER_S, ControlBus
from reelwright.core.signals.control_checks import MOST_UNIT_LOADS
from reelwright.core.signals.read_digital import sample_rate_hz
from reelwright.core.signals.read_video import decimal
from reelwright.core.signals.reading import SignalReading, asking, reading
from reelwright.core.signals.reference_sync import ReferenceFormat, ReferenceSync
from reelwright.core.signals.termination import Ending, FarEnd
from reelwright.core.signals.timecode import Timecode
from reelwright.core.signals.word_clock import WordClock

WORD_CLOCK = r"\bword ?clocks?\b"
"""Words for word clock."""

REFERENCE = r"\bblack ?(and ?)?burst\b|\bcolou?r black\b|\btri[- ]?level\b"
"""Words for a video reference whose form is said."""

TIMECODE = r"\btime ?codes?\b|\bltc\b"
"""Words for timecode."""

LIGHTING = r"\bdmx(-?512)?(-?a)?\b"
"""Words for lighting control."""

BUS = r"\b(rs|eia|tia)-?\s?(485|422)\b"
"""Words for a balanced bus."""

UNSAID = (
    r"^(?!.*\bcomposite video\b).*"
    r"\b(gen-?lock|sync|(house|video|\d+ ?[mk]hz) reference|clock|reference (signal|input))\b"
    r"|^reference$"
)
"""A clock or a reference of a form that is not said."""

UNSAID_CONTROL = r"\bcontrol (bus|cable|line)\b|\blighting (control|cable|desk|lead)\b"
"""A control line of a kind that is not said."""

_MULTIPLE = r"\b\d+ ?x? ?fs\b"
_OPEN = r"\b(un-?terminated|not terminated|no termination|without (a )?termina\w+)\b"
_TWICE = r"\b(doubl[ye][- ]terminated|terminated twice|two terminat\w+|2 terminat\w+)\b"
_INPUTS = re.compile(
    r"\b(\d+|one|two|three|four|five|six)\s*(?:x\s*)?"
    r"(?:taps?|t-?pieces?|tees?|bridging inputs?|inputs? on the way|loop-?throughs?)\b"
)
_WORDS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
_OHM = re.compile(r"(\d+(?:[.,]\d+)?)\s*(k)?\s*(?:ohms?\b|ω|Ω)")
_RATE = re.compile(
    r"(\d+(?:[.,]\d+)?)\s*(k|m)?\s*(?:b/s|bits?/s|bps|baud|bd)\b|(\d+(?:[.,]\d+)?)\s*(k|m)b\b"
)
_RECEIVERS = re.compile(
    r"(\d+)\s*(?:x\s*)?(?:fixtures?|receivers?|devices?|unit loads?|dimmers?|lamps?|heads?)\b"
)
_STUB = re.compile(r"stubs?\s*(?:of|up to|:)?\s*([\d.,]+\s*(?:mm|cm|m|ft|in)\b)")
_STUB_BEFORE = re.compile(r"([\d.,]+\s*(?:mm|cm|m|ft|in))\s*stubs?\b")
_SCALE = {"k": 1e3, "m": 1e6, None: 1.0}


def _ending(text: str) -> tuple[Ending, tuple[str, ...]]:
    found = _INPUTS.search(text)
    taps = 0 if found is None else _WORDS.get(found[1]) or int(found[1])
    if re.search(_OPEN, text):
        return Ending(far_end=FarEnd.OPEN, taps=taps), ()
    if re.search(_TWICE, text):
        return Ending(far_end=FarEnd.TWICE, taps=taps), ()
    said = re.search(r"\bterminated\b", text) is not None
    assumed = () if said else ("one termination of 75 Ω, at the last input",)
    return Ending(far_end=FarEnd.TERMINATED, taps=taps), assumed


def read_word_clock(typed: str, text: str) -> SignalReading:
    """Return word clock at the rate in ``text``, 48 kHz and one termination assumed."""
    if re.search(_MULTIPLE, text):
        return asking(
            typed,
            "A clock at a multiple of the sample rate is not judged here, only word clock at the "
            "rate itself. Can both devices be set to that, and at which rate?",
        )
    rate_hz, assumed = sample_rate_hz(text)
    ending, assumed_end = _ending(text)
    if not 8_000 <= rate_hz <= 400_000:
        return asking(typed, "Which sample rate has the word clock, as in 44.1, 48, 96 or 192 kHz?")
    return reading(typed, WordClock(sample_rate_hz=rate_hz, ending=ending), *assumed, *assumed_end)


def read_reference(typed: str, text: str) -> SignalReading:
    """Return black burst or tri-level sync; ask where both are named."""
    ending, assumed = _ending(text)
    tri, black = "tri" in text, re.search(r"\bburst\b|\bcolou?r black\b", text) is not None
    if tri and black:
        return asking(typed, "Which reference is it: black burst, or tri-level sync?")
    form = ReferenceFormat.TRI_LEVEL if tri else ReferenceFormat.BLACK_BURST
    return reading(typed, ReferenceSync(format=form, ending=ending), *assumed)


def read_timecode(typed: str, text: str) -> SignalReading:
    """Return longitudinal timecode, balanced where that or its connector is said."""
    if re.search(r"\bmidi\b|\bmtc\b", text):
        return asking(
            typed,
            "Timecode over a MIDI cable is not judged here. Have both devices the longitudinal "
            "form of it, on a plug for audio, as well?",
        )
    unbalanced = re.search(r"\bunbalanced\b|\bbncs?\b|\bcoax|\bphono\b|\brca\b", text)
    balanced = re.search(r"(?<!un)(?<!un-)\bbalanced\b|\bxlr", text)
    if bool(unbalanced) == bool(balanced):
        return asking(
            typed,
            "Is the timecode balanced (three contacts) or unbalanced (phono, BNC)?",
        )
    found = _OHM.search(text)
    source = None if found is None else decimal(found[1]) * (1e3 if found[2] else 1.0)
    if source == 0:
        source = None
    assumed = () if source else ("output resistance 600 Ω of the source, as none was stated",)
    return reading(typed, Timecode(balanced=bool(balanced), source_ohm=source), *assumed)


def _bus(typed: str, text: str, *, rate: int, lighting: bool) -> SignalReading:
    found, stub_m = _RECEIVERS.search(text), _stub_m(text)
    loads = MOST_UNIT_LOADS if found is None else int(found[1])
    if loads == 0:
        return asking(typed, "How many receivers stand on the line?")
    open_end = re.search(_OPEN, text) is not None
    assumed = []
    if found is None:
        assumed.append("32 receivers of one unit load, the most for one driver")
    if not open_end and not re.search(r"\bterminat", text):
        assumed.append("120 Ω across the last receiver")
    if stub_m is None:
        assumed.append("the line loops through every receiver, without stubs")
    return reading(
        typed,
        ControlBus(
            rate_bit_per_s=rate,
            lighting=lighting,
            unit_load_count=loads,
            terminated=not open_end,
            stub_m=stub_m,
        ),
        *assumed,
    )


def read_lighting(typed: str, text: str) -> SignalReading:
    """Return lighting control, with the receivers, the end and the stubs in ``text``."""
    return _bus(typed, text, rate=LIGHTING_RATE_BIT_PER_S, lighting=True)


def read_bus(typed: str, text: str) -> SignalReading:
    """Return a bus at the rate in ``text``; ask where there is none."""
    found = _RATE.search(text)
    rate = 0
    if found is not None:
        figure, scale = (found[1], found[2]) if found[1] else (found[3], found[4])
        rate = round(decimal(figure) * _SCALE[scale])
    if not 0 < rate <= 50_000_000:
        return asking(typed, "Which rate does the bus run at, as in 9600 b/s, 250 kb/s or 1 Mb/s?")
    return _bus(typed, text, rate=rate, lighting=False)


def _stub_m(text: str) -> float | None:
    found = _STUB.search(text) or _STUB_BEFORE.search(text)
    if found is None:
        return None
    try:
        return read_length(found[1], context=LengthContext()).length_m
    except UnreadableQuantity:
        return None


def ask_clock(typed: str, text: str) -> SignalReading:
    """Ask which clock or reference is meant."""
    del text
    return asking(
        typed, "Which is it: black burst, tri-level sync, or word clock with its sample rate?"
    )


def ask_control(typed: str, text: str) -> SignalReading:
    """Ask which control line is meant."""
    del text
    return asking(
        typed,
        "Which control is it: lighting control DMX512, or RS-485 with its rate in kb/s?",
    )
