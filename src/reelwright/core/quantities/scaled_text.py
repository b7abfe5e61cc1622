"""Readers for one number with one unit: area, loss and capacitance per length, frequency, bit rate,
temperature, percent.

    quantity := [ sign ] number unit
    per      := number numerator ( "/" | "per" ) [ number ] length-unit
"""

from collections.abc import Callable, Mapping
from fractions import Fraction

from reelwright.core.errors import UnreadableQuantity
from reelwright.core.quantities.cursor import Cursor, Doubt, NotThis, cursor_over
from reelwright.core.quantities.length_units import take_unit
from reelwright.core.quantities.number_grammar import take_number
from reelwright.core.quantities.reading import Reading, refuse_two_values
from reelwright.core.quantities.tokens import Kind

_AREAS = {
    spelling: Fraction(1, 10**6)
    for spelling in [
        "mm²",
        "mm2",
        "mm^2",
        "sqmm",
        "mmsq",
        "sq.mm",
        "squaremillimetres",
        "squaremillimeters",
    ]
}
_FREQUENCIES = {
    "hz": Fraction(1),
    "khz": Fraction(10**3),
    "mhz": Fraction(10**6),
    "ghz": Fraction(10**9),
}
_PREFIXES = {"": 1, "k": 10**3, "m": 10**6, "g": 10**9}
_RATES = {
    f"{prefix}{spelling}": Fraction(size)
    for prefix, size in _PREFIXES.items()
    for spelling in ("b/s", "bps", "bit/s", "bits/s")
}
_CAPACITANCES = {
    "pf": Fraction(1, 10**12),
    "nf": Fraction(1, 10**9),
    "uf": Fraction(1, 10**6),
    "µf": Fraction(1, 10**6),
    "μf": Fraction(1, 10**6),
}
_OHMS = {
    spelling: scale
    for scale, spellings in (
        (Fraction(1), ("ohm", "ohms", "ω", "Ω", "Ω")),
        (Fraction(1, 1000), ("mohm", "mohms", "mω", "mΩ", "milliohm", "milliohms")),
    )
    for spelling in spellings
}
_DELAYS = {
    "ps": Fraction(1, 10**12),
    "ns": Fraction(1, 10**9),
    "us": Fraction(1, 10**6),
    "µs": Fraction(1, 10**6),
    "μs": Fraction(1, 10**6),
}
_CELSIUS = frozenset(["°c", "c", "degc", "degreec", "degreesc", "celsius", "degreescelsius"])
_FAHRENHEIT = frozenset(
    ["°f", "f", "degf", "degreef", "degreesf", "fahrenheit", "degreesfahrenheit"]
)
_KELVIN = frozenset(["k", "kelvin"])
_ABSOLUTE_ZERO_C = Fraction(-27315, 100)


def _read(
    typed: str,
    *,
    quantity: str,
    accepted: str,
    unit: str,
    grammar: Callable[[Cursor], Fraction],
) -> Reading[float]:
    cursor = cursor_over(typed, quantity=quantity, accepted=accepted)
    try:
        value = grammar(cursor)
        if not cursor.at_end:
            raise NotThis("words are left over")
    except Doubt as doubt:
        return Reading(typed=typed, value=None, unit=unit, question=doubt.question)
    except NotThis as trouble:
        raise UnreadableQuantity(typed=typed, quantity=quantity, accepted=accepted) from trouble
    return Reading(typed=typed, value=float(value), unit=unit, question=None)


def _take_value(cursor: Cursor, *, accepted_units: str) -> Fraction:
    number = take_number(cursor)
    if number is None:
        raise NotThis("no number")
    refuse_two_values(number)
    after = cursor.peek()
    if after is None:
        raise Doubt(f"“{number.text}”: in which unit ({accepted_units})?")
    if after.kind is Kind.NUMBER:
        raise Doubt(f"“{number.text} {after.text}”: is that one number or two?")
    return number.value


def _take_spelling(cursor: Cursor) -> str:
    return "".join(token.text for token in cursor.rest()).replace("per", "/")


def _scaled(cursor: Cursor, table: Mapping[str, Fraction], *, accepted_units: str) -> Fraction:
    value = _take_value(cursor, accepted_units=accepted_units)
    factor = table.get(_take_spelling(cursor).lower())
    if factor is None or value <= 0:
        raise NotThis("no such unit, or not above zero")
    return value * factor


def _per_length(cursor: Cursor, table: Mapping[str, Fraction], *, accepted_units: str) -> Fraction:
    value = _take_value(cursor, accepted_units=accepted_units)
    factor = table.get(cursor.take().lower)
    if factor is None or value < 0:
        raise NotThis("no such unit, or below zero")
    if cursor.at_end:
        raise Doubt("per which length: 100 ft, 100 m or 1 m?")
    if not cursor.take_text("/", "per"):
        raise NotThis("no length follows")
    number = take_number(cursor)
    if number is not None:
        refuse_two_values(number)
    times = Fraction(1) if number is None else number.value
    written = take_unit(cursor)
    if written is None:
        if number is not None and cursor.peek() is None:
            raise Doubt(f"per {number.text} of what: feet or metres?")
        raise NotThis("no unit of length")
    if times <= 0:
        raise NotThis("per nothing")
    return value * factor / (times * written.in_m)


def read_area(typed: str) -> Reading[float]:
    """Read a cross-section such as "2.5 mm²" into m²."""
    return _read(
        typed,
        quantity="cross-section",
        accepted="an area above zero in mm², such as 2.5 mm²",
        unit="m²",
        grammar=lambda cursor: _scaled(cursor, _AREAS, accepted_units="mm²"),
    )


def read_frequency(typed: str) -> Reading[float]:
    """Read a frequency such as "1485 MHz" into Hz."""
    return _read(
        typed,
        quantity="frequency",
        accepted="a frequency above zero in Hz, kHz, MHz or GHz, such as 1485 MHz",
        unit="Hz",
        grammar=lambda cursor: _scaled(cursor, _FREQUENCIES, accepted_units="kHz, MHz, GHz"),
    )


def _rate(cursor: Cursor) -> Fraction:
    value = _take_value(cursor, accepted_units="Mb/s, Gb/s")
    spelling = _take_spelling(cursor)
    factor = _RATES.get(spelling.lower())
    if factor is None and spelling.lower() in ("g", "m"):
        raise Doubt(f"“{float(value):g}{spelling}”: which bit rate is that, in Mb/s or Gb/s?")
    if factor is None or value <= 0:
        raise NotThis("no such unit, or not above zero")
    if spelling.endswith(("B/s", "Bps")):
        raise Doubt(f"“{float(value):g} {spelling}”: bits or bytes a second?")
    return value * factor


def read_bit_rate(typed: str) -> Reading[float]:
    """Read a bit rate such as "2.97 Gb/s" into bit/s; a large B (bytes?) is asked about."""
    return _read(
        typed,
        quantity="bit rate",
        accepted="a bit rate above zero in kb/s, Mb/s or Gb/s, such as 2.97 Gb/s",
        unit="bit/s",
        grammar=_rate,
    )


def read_loss_per_length(typed: str) -> Reading[float]:
    """Read a loss such as "7.86 dB/100 ft" or "0.2578 dB/m" into dB/m."""
    return _read(
        typed,
        quantity="loss per length",
        accepted="a loss such as 7.86 dB/100 ft, 25.8 dB/100 m or 0.258 dB/m",
        unit="dB/m",
        grammar=lambda cursor: _per_length(
            cursor, {"db": Fraction(1)}, accepted_units="dB/100 ft, dB/100 m, dB/m"
        ),
    )


def read_capacitance_per_length(typed: str) -> Reading[float]:
    """Read a capacitance such as "16.3 pF/ft" or "53.6 pF/m" into F/m."""
    return _read(
        typed,
        quantity="capacitance per length",
        accepted="a capacitance such as 16.3 pF/ft, 53.6 pF/m or 53.6 nF/km",
        unit="F/m",
        grammar=lambda cursor: _per_length(cursor, _CAPACITANCES, accepted_units="pF/ft, pF/m"),
    )


def read_resistance_per_length(typed: str) -> Reading[float]:
    """Read a resistance such as "33.3 ohm/km" or "10.15 ohm/1000 ft" into Ω/m."""
    return _read(
        typed,
        quantity="resistance per length",
        accepted="a resistance such as 33.3 ohm/km, 10.15 ohm/1000 ft or 33.3 mΩ/m",
        unit="Ω/m",
        grammar=lambda cursor: _per_length(cursor, _OHMS, accepted_units="ohm/km, ohm/1000 ft"),
    )


def read_delay_per_length(typed: str) -> Reading[float]:
    """Read a delay such as "4.03 ns/m" or "1.23 ns/ft" into s/m."""
    return _read(
        typed,
        quantity="delay per length",
        accepted="a delay such as 4.03 ns/m or 1.23 ns/ft",
        unit="s/m",
        grammar=lambda cursor: _per_length(cursor, _DELAYS, accepted_units="ns/m, ns/ft"),
    )


def read_impedance(typed: str) -> Reading[float]:
    """Read an impedance such as "75.2 ohm" into Ω."""
    return _read(
        typed,
        quantity="impedance",
        accepted="an impedance above zero such as 75.2 ohm",
        unit="Ω",
        grammar=lambda cursor: _scaled(cursor, _OHMS, accepted_units="ohm"),
    )


def _take_sign(cursor: Cursor) -> int:
    if cursor.take_kind(Kind.MINUS, Kind.HYPHEN):
        return -1
    cursor.take_text("+")
    return 1


def _temperature(cursor: Cursor) -> Fraction:
    sign = _take_sign(cursor)
    value = sign * _take_value(cursor, accepted_units="°C, °F, K")
    spelling = _take_spelling(cursor).lower()
    if spelling in ("°", "deg", "degrees"):
        raise Doubt(f"“{float(value):g}°”: Celsius or Fahrenheit?")
    if spelling in _CELSIUS:
        celsius = value
    elif spelling in _FAHRENHEIT:
        celsius = (value - 32) * Fraction(5, 9)
    elif spelling in _KELVIN:
        celsius = value + _ABSOLUTE_ZERO_C
    else:
        raise NotThis("no such unit")
    if celsius < _ABSOLUTE_ZERO_C:
        raise NotThis("colder than there is")
    return celsius


def read_temperature(typed: str) -> Reading[float]:
    """Read a temperature in °C, °F or K into degrees Celsius."""
    return _read(
        typed,
        quantity="temperature",
        accepted="a temperature above absolute zero, such as 40 °C or 104 °F",
        unit="°C",
        grammar=_temperature,
    )


def _percent(cursor: Cursor) -> Fraction:
    sign = _take_sign(cursor)
    value = sign * _take_value(cursor, accepted_units="write 42 % or 42 per cent")
    if cursor.take_phrase([("%",), ("percent",), ("per", "cent"), ("pct",)]) is None:
        raise NotThis("no percent sign")
    return value / 100


def read_percent(typed: str) -> Reading[float]:
    """Read a percentage such as "42 %" into a fraction (0.42)."""
    return _read(
        typed,
        quantity="percentage",
        accepted="a number with its sign, such as 42 %",
        unit="1",
        grammar=_percent,
    )
