"""Numbers inside sentences for a customer."""

from reelwright.core.quantities.constants import INCH_M
from reelwright.core.quantities.convert import m_to_ft
from reelwright.core.quantities.show import show_feet_inches, show_number, with_unit


def number(value: float, unit: str, *, digits: int) -> str:
    """Return ``value`` (in ``unit``) with ``digits`` decimals and its unit."""
    return with_unit(show_number(value, decimals=digits), unit)


def decibel(value_db: float) -> str:
    """Return a level or loss [dB] with one decimal, two where it is below one."""
    return number(value_db, "dB", digits=1 if abs(value_db) >= 0.95 else 2)


def metres(length_m: float) -> str:
    """Return a length [m] to the centimetre, without closing zeros: 45.72 m, 100 m."""
    return with_unit(show_number(length_m, decimals=2).rstrip("0").rstrip("."), "m")


def metres_and_feet(length_m: float) -> str:
    """Return a length [m] as both customers and benches read it: 45.72 m (150 ft).

    Half inches are shown where the length is one; a metric length is given to the nearest inch.
    """
    half_inches = round(length_m / INCH_M * 2)
    if abs(length_m / INCH_M * 2 - half_inches) > 0.02:
        half_inches = 2 * round(length_m / INCH_M)
    return f"{metres(length_m)} ({show_feet_inches(half_inches / 2 * INCH_M)})"


def whole_metres_and_feet(length_m: float) -> str:
    """Return a longest length [m], both rounded to whole units: 73 m (239 ft)."""
    return f"{number(length_m, 'm', digits=0)} ({number(m_to_ft(length_m), 'ft', digits=0)})"


def megahertz(frequency_hz: float) -> str:
    """Return a frequency [Hz] in megahertz as the trade says it: 742.5 MHz, 1485 MHz."""
    return with_unit(f"{frequency_hz / 1e6:g}", "MHz")


def percent(fraction: float) -> str:
    """Return a fraction [1] in percent; one decimal below ten."""
    return number(fraction * 100, "%", digits=0 if fraction >= 0.0995 else 1)
