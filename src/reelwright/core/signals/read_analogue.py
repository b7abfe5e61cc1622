"""Words for analogue sound: loudspeakers and their lines, line and balanced audio, pick-ups."""

import re

from reelwright.core.errors import UnreadableQuantity
from reelwright.core.physics.driver import Driver
from reelwright.core.quantities.length_text import LengthContext, read_length
from reelwright.core.signals.balanced_audio import BalancedAudio, Level
from reelwright.core.signals.cartridge import Cartridge
from reelwright.core.signals.distributed_line import DistributedLine
from reelwright.core.signals.instrument_pickup import InstrumentPickup
from reelwright.core.signals.line_audio import LineAudio
from reelwright.core.signals.loudspeaker import Loudspeaker
from reelwright.core.signals.low_frequency_effects import LowFrequencyEffects
from reelwright.core.signals.read_video import decimal
from reelwright.core.signals.reading import SignalReading, asking, reading

_NUMBER = r"(\d+(?:[.,]\d+)?)"
_OHM = re.compile(rf"{_NUMBER}\s*(k\s*)?(?:ohms?\b|ω|Ω)")
_LOWEST_OHM = re.compile(
    rf"(?:min(?:imum)?\b\.?|lowest|down to|dips? to|falls? to)\D{{0,16}}?{_NUMBER}"
    r"\s*(?:ohms?\b|ω|Ω)"
    rf"|{_NUMBER}\s*(?:ohms?\b|ω|Ω)\s*(?:min(?:imum)?\b|at (?:the|its) lowest)"
)
_LINE_VOLTAGE = re.compile(r"\b(25|70(?:[.,]7)?|100)\s*v(?:olts?)?\b")
_TAPS = re.compile(r"(\d+)\s*(?:x|times|of|loudspeakers?\D{0,12}?|speakers?\D{0,12}?)\s*"
                   r"(\d+(?:[.,]\d+)?)\s*w")  # fmt: skip
_LENGTH = r"\d[\d.,]*\s*(?:ft|feet|foot|m|metres?|meters?|')"
_APART = re.compile(rf"({_LENGTH})\s*(?:apart|spacing|between)")
_WAYS_APART = re.compile(rf"((?:\d+(?:\.\d+)?\s*(?:,|and)\s*)+)({_LENGTH})\s*apart")
_LIMIT_OF_TAPS = 500
_DRIVER = re.compile(
    rf"\bre\s*=?\s*{_NUMBER}.*?\ble\s*=?\s*{_NUMBER}\s*mh.*?\bfs\s*=?\s*{_NUMBER}"
    rf".*?\bqms\s*=?\s*{_NUMBER}.*?\bqes\s*=?\s*{_NUMBER}"
)
_PICOFARAD = re.compile(rf"{_NUMBER}\s*pf")
_RANGE_PICOFARAD = re.compile(rf"{_NUMBER}\s*(?:pf)?\s*(?:-|–|to|\.\.+)\s*{_NUMBER}\s*pf")
_INPUT_PICOFARAD = re.compile(
    rf"\b(?:input|amplifier|amp|phono stage|preamp(?:lifier)?)\b\D{{0,12}}{_NUMBER}\s*pf"
    rf"|{_NUMBER}\s*pf\s*(?:at|of)?\s*(?:the)?\s*(?:input|amplifier|amp|phono stage|preamp)"
)
_HENRY = re.compile(rf"{_NUMBER}\s*(m?)h\b")


def _found(pattern: re.Pattern[str], text: str) -> float | None:
    match = pattern.search(text)
    if match is None:
        return None
    value = decimal(next(group for group in match.groups() if group))
    return value if value > 0 else None


def read_distributed_line(typed: str, text: str) -> SignalReading:
    """Return a line with its taps and the ways between them; ask for what is missing."""
    volts = _LINE_VOLTAGE.search(text)
    taps_w = _taps_w(text)
    between_m = _between_m(text, taps_w)
    missing = []
    if volts is None:
        missing.append("70 V or 100 V")
    if not taps_w and not _TAPS.search(text):
        missing.append("how many loudspeakers and the watts each is set to")
    if between_m is None:
        missing.append("how far they stand apart")
    if volts is None or between_m is None or missing or not taps_w:
        wanted = "; ".join(missing) or "a number of loudspeakers and watts above zero"
        return asking(
            typed,
            f"For the loudspeaker line please tell us: {wanted} "
            "(as in: loudspeaker line 70 V, 8 x 15 W, 20 ft apart).",
        )
    line_v = decimal(volts[1])
    return reading(
        typed,
        DistributedLine(
            line_v=70.7 if line_v == 70 else line_v, taps_w=taps_w, between_m=between_m
        ),
    )


def _taps_w(text: str) -> tuple[float, ...]:
    """The taps in the order typed; none where a number is zero or beyond all reason."""
    found = [(int(count), decimal(watts)) for count, watts in _TAPS.findall(text)]
    if sum(count for count, _ in found) > _LIMIT_OF_TAPS or not all(
        count > 0 and watts > 0 for count, watts in found
    ):
        return ()
    return tuple(watts for count, watts in found for _ in range(count))


def _between_m(text: str, taps_w: tuple[float, ...]) -> tuple[float, ...] | None:
    """The way from each loudspeaker to the next; None where it is not told for every one."""
    ways = max(0, len(taps_w) - 1)
    if len(taps_w) == 1:
        return ()
    several = _WAYS_APART.search(text)
    if several is not None:
        unit = several[2].lstrip("0123456789.,").strip()
        typed = [*re.findall(r"\d+(?:\.\d+)?", several[1])]
        each = [_length_m(f"{number} {unit}") for number in typed]
        lengths = [length for length in (*each, _length_m(several[2])) if length is not None]
        return tuple(lengths) if len(lengths) == ways == len(typed) + 1 else None
    apart = _APART.search(text)
    spacing = None if apart is None else _length_m(apart[1])
    return None if spacing is None else (spacing,) * ways


def _length_m(typed: str) -> float | None:
    try:
        return read_length(typed, context=LengthContext()).length_m
    except UnreadableQuantity:
        return None


def read_loudspeaker(typed: str, text: str) -> SignalReading:
    """Return a loudspeaker of the impedance in ``text``; ask where there is none."""
    lowest = _LOWEST_OHM.search(text)
    rest = text if lowest is None else text.replace(lowest[0], " ")
    found = _OHM.search(rest)
    if found is None or decimal(found[1]) == 0:
        return asking(
            typed, "Which nominal impedance does the loudspeaker have: 4, 6, 8 or 16 ohm?"
        )
    nominal, lowest_ohm = decimal(found[1]), _found(_LOWEST_OHM, text)
    if lowest_ohm is not None and lowest_ohm > nominal:
        return asking(
            typed,
            f"A lowest impedance of {lowest_ohm:g} ohm is above the nominal {nominal:g} ohm: "
            "which is which?",
        )
    return reading(
        typed, Loudspeaker(nominal_ohm=nominal, lowest_ohm=lowest_ohm, driver=_driver(text))
    )


def _driver(text: str) -> Driver | None:
    found = _DRIVER.search(text)
    if found is None:
        return None
    coil_ohm, coil_mh, resonance_hz, mechanical_q, electrical_q = map(decimal, found.groups())
    if min(coil_ohm, resonance_hz, mechanical_q, electrical_q) <= 0:
        return None
    return Driver(
        coil_ohm=coil_ohm,
        coil_henry=coil_mh * 1e-3,
        resonance_hz=resonance_hz,
        mechanical_q=mechanical_q,
        electrical_q=electrical_q,
    )


def read_subwoofer(typed: str, text: str) -> SignalReading:
    """Return a subwoofer's line, or a loudspeaker where ohms are given; ask where it is neither."""
    if re.search(r"\blfe\b|\bline\b|\bactive\b|\bpowered\b|\brca\b|\bphono\b", text):
        return reading(typed, LowFrequencyEffects())
    if _OHM.search(text):
        return read_loudspeaker(typed, text)
    return asking(
        typed,
        "Is the subwoofer fed at line level (then please say: subwoofer line), or from the "
        "loudspeaker terminals of an amplifier (then we need its ohms)?",
    )


def read_cartridge(typed: str, text: str) -> SignalReading:
    """Return a cartridge with the capacitance it wants; ask where a figure is missing."""
    input_pf = _found(_INPUT_PICOFARAD, text)
    matched = _INPUT_PICOFARAD.search(text)
    rest = text if matched is None else text.replace(matched[0], " ")
    between, alone = _RANGE_PICOFARAD.search(rest), _PICOFARAD.search(rest)
    if input_pf is None or (between is None and alone is None):
        return asking(
            typed,
            "A cartridge wants a certain capacitance, that of cable and input together. Which does "
            "yours want, and what has the input, both in pF (as in: cartridge 150 to 300 pF, input "
            "100 pF)?",
        )
    low, high = (
        (decimal(between[1]), decimal(between[2]))
        if between is not None
        else (0.0, decimal(alone[1]) if alone is not None else 0.0)
    )
    if not 0 <= low <= high or high == 0:
        return asking(
            typed,
            f"A capacitance of {low:g} to {high:g} pF cannot be meant: which does the cartridge "
            "want, from the least to the most?",
        )
    henry, ohm = _HENRY.search(text), _OHM.search(text)
    coil_henry = decimal(henry[1]) * (1e-3 if henry[2] else 1.0) if henry else 0.0
    coil_ohm = decimal(ohm[1]) * (1e3 if ohm[2] else 1.0) if ohm else 0.0
    # 47 kΩ is what every such input has, and no coil.
    if coil_ohm == 47e3:
        coil_ohm = 0.0
    usual = "a coil of 500 mH and 1 kΩ, as not all was stated"
    assumed = () if coil_henry and coil_ohm else (usual,)
    return reading(
        typed,
        Cartridge(
            lowest_f=low * 1e-12,
            highest_f=high * 1e-12,
            input_f=input_pf * 1e-12,
            coil_henry=coil_henry or None,
            coil_ohm=coil_ohm or None,
        ),
        *assumed,
    )


def read_pickup(typed: str, text: str) -> SignalReading:
    """Return an instrument's pickup; ask where it may be a turntable's as well."""
    if not re.search(r"\bguitars?\b|\bbass\b|\binstruments?\b", text):
        return asking(
            typed,
            "Is it the pickup of a guitar or other instrument, or the cartridge of a turntable "
            "(then: which capacitance does it want, and what has the input, both in pF)?",
        )
    return reading(
        typed,
        InstrumentPickup(pickup=None),
        "a usual single-coil pickup of 2.5 H with controls of 250 kΩ, as none was described",
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
    source = None if found is None else decimal(found[1]) * (1e3 if found[2] else 1.0)
    if source == 0:
        source = None
    assumed = () if source else ("output resistance 1 kΩ of the source, as none was stated",)
    return reading(typed, LineAudio(source_ohm=source), *assumed)
