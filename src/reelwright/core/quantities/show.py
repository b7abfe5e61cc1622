"""How quantities look to people: narrow no-break space before the unit, a real minus sign."""

import math
from collections.abc import Sequence

from reelwright.core.errors import BadValue
from reelwright.core.quantities.convert import LENGTH_IN_M
from reelwright.core.quantities.measured import Measured

SPACE = "\N{NARROW NO-BREAK SPACE}"
MINUS = "\N{MINUS SIGN}"

_PREFIXES = ((1e9, "G"), (1e6, "M"), (1e3, "k"), (1.0, ""), (1e-3, "m"), (1e-6, "µ"),
             (1e-9, "n"), (1e-12, "p"), (1e-15, "f"))  # fmt: skip
_SIXTEENTHS_IN_A_FOOT = 12 * 16
_MOST_DECIMALS = 15


def _require_finite(name: str, value: float) -> None:
    if not math.isfinite(value):
        raise BadValue(owner=name, field="value", value=value, accepted="a finite number")


def show_number(value: float, *, decimals: int) -> str:
    """Return value (any unit) with ``decimals`` places, a real minus, and no minus before zero."""
    _require_finite("show_number", value)
    text = f"{value:.{max(0, decimals)}f}"
    if text.startswith("-"):
        text = text[1:]
        if text.strip("0."):
            text = MINUS + text
    return text


def with_unit(number: str, unit: str) -> str:
    """Return the number with its unit behind a narrow no-break space."""
    return f"{number}{SPACE}{unit}"


def show_length_m(length_m: float, *, decimals: int = 3) -> str:
    """Return a length (m) in metres, to the millimetre unless told otherwise: "3.658 m"."""
    return with_unit(show_number(length_m, decimals=decimals), "m")


def show_length_mm(length_mm: float, *, decimals: int = 0) -> str:
    """Return a length (mm) in millimetres: "17 mm", "16.95 mm"."""
    return with_unit(show_number(length_mm, decimals=decimals), "mm")


def show_feet_inches(length_m: float) -> str:
    """Return a length (m) in feet and inches to the nearest 1/16 in: "33 ft 4 1/2 in"."""
    _require_finite("show_feet_inches", length_m)
    sixteenths = round(abs(length_m) / float(LENGTH_IN_M["in"]) * 16)
    feet, rest = divmod(sixteenths, _SIXTEENTHS_IN_A_FOOT)
    inches, part = divmod(rest, 16)
    words = [with_unit(str(feet), "ft")] if feet else []
    if part:
        common = math.gcd(part, 16)
        fraction = f"{part // common}/{16 // common}"
        words.append(with_unit(f"{inches} {fraction}" if inches else fraction, "in"))
    elif inches or not feet:
        words.append(with_unit(str(inches), "in"))
    return (MINUS if length_m < 0 and sixteenths else "") + " ".join(words)


def show_both(length_m: float) -> str:
    """Return a length (m) in metres, and in feet and inches: "10.173 m (33 ft 4 1/2 in)"."""
    return f"{show_length_m(length_m)} ({show_feet_inches(length_m)})"


def _decimals_for(value: float, digits: int) -> int:
    if value == 0:
        return 0
    places = digits - 1 - math.floor(math.log10(abs(value)))
    # 9.96 to two digits is 10, which has one place less.
    if abs(round(value, places)) >= 10 ** (digits - places):
        places -= 1
    return min(places, _MOST_DECIMALS)


def show_measured(measured: Measured, *, digits: int = 3) -> str:
    """Return value ± standard uncertainty, the spread to two digits and the value to its place.

    Where the spread is not known the value has ``digits`` significant digits and nothing is
    pretended. Two digits of the spread: GUM (JCGM 100:2008), 7.2.6.
    """
    spread = measured.standard_uncertainty
    if spread is None or spread == 0:
        places = _decimals_for(measured.value, digits)
        rounded = round(measured.value, places)
        return with_unit(show_number(rounded, decimals=places), measured.unit)
    places = _decimals_for(spread, 2)
    value = show_number(round(measured.value, places), decimals=places)
    spread_text = show_number(round(spread, places), decimals=places)
    return with_unit(f"{value} ± {spread_text}", measured.unit)


def _prefixed(value: float, unit: str, *, digits: int) -> str:
    _require_finite(f"show in {unit}", value)
    if value == 0:
        return with_unit("0", unit)
    # Rounded first: 999.96 nF to four digits is 1.000 µF.
    rounded = float(f"{value:.{digits - 1}e}")
    size, prefix = next(
        (row for row in _PREFIXES if abs(rounded) >= row[0] * (1 - 1e-12)), _PREFIXES[-1]
    )
    scaled = rounded / size
    return with_unit(show_number(scaled, decimals=_decimals_for(scaled, digits)), prefix + unit)


def show_ohm(resistance_ohm: float, *, digits: int = 3) -> str:
    """Return a resistance (ohm) with a prefix: "8.29 mΩ"."""
    return _prefixed(resistance_ohm, "Ω", digits=digits)


def show_farad(capacitance_f: float, *, digits: int = 3) -> str:
    """Return a capacitance (F) with a prefix: "153 pF"."""
    return _prefixed(capacitance_f, "F", digits=digits)


def show_time_s(time_s: float, *, digits: int = 4) -> str:
    """Return a short time (s) with a prefix: "61.10 ns"."""
    return _prefixed(time_s, "s", digits=digits)


def show_frequency_hz(frequency_hz: float, *, digits: int = 4) -> str:
    """Return a frequency (Hz) with a prefix: "1.485 GHz"."""
    return _prefixed(frequency_hz, "Hz", digits=digits)


def show_bit_rate(rate_bit_per_s: float, *, digits: int = 3) -> str:
    """Return a bit rate (bit/s) with a prefix: "2.97 Gb/s"."""
    return _prefixed(rate_bit_per_s, "b/s", digits=digits)


def show_db(level_db: float, *, decimals: int = 2) -> str:
    """Return a ratio (dB): "−0.30 dB"."""
    return with_unit(show_number(level_db, decimals=decimals), "dB")


def show_dbm(power_dbm: float, *, decimals: int = 1) -> str:
    """Return an optical power (dBm): "−19.0 dBm"."""
    return with_unit(show_number(power_dbm, decimals=decimals), "dBm")


def show_loss_per_100m(loss_db_per_m: float, *, decimals: int = 2) -> str:
    """Return a loss per length (dB/m) as data sheets print it: "25.78 dB/100 m"."""
    return with_unit(show_number(loss_db_per_m * 100, decimals=decimals), f"dB/100{SPACE}m")


def show_area_m2(area_m2: float, *, decimals: int = 2) -> str:
    """Return a cross-section (m²) in square millimetres: "2.08 mm²"."""
    return with_unit(show_number(area_m2 * 1e6, decimals=decimals), "mm²")


def show_awg(awg: int) -> str:
    """Return a gauge number (1; 0 is 1/0) as the trade writes it: "14 AWG", "4/0 AWG"."""
    return with_unit(str(awg) if awg > 0 else f"{1 - awg}/0", "AWG")


def show_temperature_celsius(temperature_celsius: float, *, decimals: int = 0) -> str:
    """Return a temperature (°C): "−20 °C"."""
    return with_unit(show_number(temperature_celsius, decimals=decimals), "°C")


def show_percent(fraction: float, *, decimals: int = 0) -> str:
    """Return a fraction (1) as a percentage: 0.97 as "97 %"."""
    return with_unit(show_number(fraction * 100, decimals=decimals), "%")


def show_list(words: Sequence[str]) -> str:
    """Return words as a list in a sentence: "a, b and c"."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"
