"""How quantities that take a prefix look to people, and measured values with their spread."""

import math

from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.measured import Measured
from reelwright.core.quantities.show import (
    decimals_for,
    require_finite,
    show_digits,
    show_in,
    show_number,
    show_plain,
    show_short,
    with_unit,
)

_PREFIXES = ((1e9, "G"), (1e6, "M"), (1e3, "k"), (1.0, ""), (1e-3, "m"), (1e-6, "µ"),
             (1e-9, "n"), (1e-12, "p"), (1e-15, "f"))  # fmt: skip
_FINEST_DB_PLACES = 2
_PREFIXED_UNITS = ("Ω", "F", "H", "s", "V", "A", "Hz", "b/s")


def _prefix(value: float, unit: str, *, digits: int) -> tuple[float, str]:
    """Return the size of the prefix that suits value (in ``unit``) and the unit with it."""
    if unit not in _PREFIXED_UNITS or value == 0:
        return 1.0, unit
    # Rounded first: 999.96 nF to four digits is 1.000 µF.
    rounded = float(f"{value:.{digits - 1}e}")
    size, prefix = next(
        (row for row in _PREFIXES if abs(rounded) >= row[0] * (1 - 1e-12)), _PREFIXES[-1]
    )
    return size, prefix + unit


def show_quantity(value: float, unit: str, *, digits: int = 3) -> str:
    """Return value (in ``unit``) to ``digits`` significant digits, prefixed where it takes that.

    "8.29 mΩ", "153 pF", "2.97 Gb/s". Decibels stand in a table as they do in a sentence.
    """
    require_finite(f"show in {unit}", value)
    if unit == "dB":
        return show_short(value, unit)
    size, prefixed = _prefix(value, unit, digits=digits)
    return with_unit(show_digits(value / size, digits=digits), prefixed)


def show_value_and_spread(measured: Measured, *, digits: int = 3) -> tuple[str, str]:
    """Return the value and its standard uncertainty apart, both with unit: "20.05 dB", "0.12 dB".

    The spread has two digits (GUM, JCGM 100:2008, 7.2.6) and the value ends at its place. Where
    the spread is not known it is empty, the value has ``digits`` significant digits, and nothing
    is pretended. Decibels stop at a hundredth, with the spread rounded up to it.
    """
    size, unit = _prefix(measured.value, measured.unit, digits=digits)
    value, spread = measured.value / size, measured.standard_uncertainty
    if spread is None or spread == 0:
        return with_unit(show_digits(value, digits=digits), unit), ""
    spread /= size
    places = decimals_for(spread, 2)
    if unit == "dB" and places > _FINEST_DB_PLACES:
        places = _FINEST_DB_PLACES
        # Upwards, and past the rounding of the multiplication: a spread of none would be untrue.
        spread = math.ceil(round(spread * 10**places, 9)) / 10**places

    def shown(number: float) -> str:
        return with_unit(show_number(round(number, places), decimals=places), unit)

    return shown(value), shown(spread)


def show_measured(measured: Measured, *, digits: int = 3) -> str:
    """Return value ± standard uncertainty in one: "20.05 ± 0.12 dB", "8.290 ± 0.014 mΩ"."""
    value, spread = show_value_and_spread(measured, digits=digits)
    return f"{value.partition(NARROW_SPACE)[0]} ± {spread}" if spread else value


def show_time_s(time_s: float, *, digits: int = 4) -> str:
    """Return a short time (s) with a prefix: "61.10 ns"."""
    return show_quantity(time_s, "s", digits=digits)


def show_frequency_hz(frequency_hz: float, *, digits: int = 4) -> str:
    """Return a frequency (Hz) with a prefix: "1.485 GHz"."""
    return show_quantity(frequency_hz, "Hz", digits=digits)


def show_megahertz(frequency_hz: float) -> str:
    """Return a frequency (Hz) in megahertz, as radio and video say it: "742.5 MHz", "1485 MHz"."""
    return show_plain(frequency_hz / 1e6, "MHz")


def show_dbm(power_dbm: float, *, decimals: int = 1) -> str:
    """Return an optical power (dBm): "−19.0 dBm"."""
    return show_in(power_dbm, "dBm", decimals=decimals)


def show_loss_per_100m(loss_db_per_m: float, *, decimals: int = 2) -> str:
    """Return a loss per length (dB/m) as data sheets print it: "25.78 dB/100 m"."""
    return show_in(loss_db_per_m * 100, f"dB/100{NARROW_SPACE}m", decimals=decimals)


def show_area_m2(area_m2: float, *, decimals: int = 2) -> str:
    """Return a cross-section (m²) in square millimetres: "2.08 mm²"."""
    return show_in(area_m2 * 1e6, "mm²", decimals=decimals)


def show_awg(awg: int) -> str:
    """Return a gauge number (1; 0 is 1/0) as the trade writes it: "14 AWG", "4/0 AWG"."""
    return with_unit(str(awg) if awg > 0 else f"{1 - awg}/0", "AWG")


def show_temperature_celsius(temperature_celsius: float, *, decimals: int = 0) -> str:
    """Return a temperature (°C): "−20 °C"."""
    return show_in(temperature_celsius, "°C", decimals=decimals)
