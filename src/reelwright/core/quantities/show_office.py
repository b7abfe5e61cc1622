"""How money, dates, tolerances and readings look to people."""

import datetime
from decimal import ROUND_HALF_EVEN, Decimal

from reelwright.core.errors import BadValue
from reelwright.core.quantities.date_text import MONTHS, WEEKDAYS
from reelwright.core.quantities.length_text import LengthReading
from reelwright.core.quantities.marks import MINUS
from reelwright.core.quantities.money import Money
from reelwright.core.quantities.show import show_length_m, show_number, with_unit
from reelwright.core.quantities.tolerance_text import LengthTolerance

_CENT = Decimal("0.01")


def show_money(money: Money) -> str:
    """Return an amount to the hundredth, half to even, with its currency: "134.00 EUR"."""
    rounded = money.amount.quantize(_CENT, rounding=ROUND_HALF_EVEN)
    text = f"{abs(rounded):.2f}"
    return with_unit(f"{MINUS}{text}" if rounded < 0 else text, money.currency)


def show_date(date: datetime.date) -> str:
    """Return a date that cannot be misread: "Tuesday 3 March 2026"."""
    return f"{WEEKDAYS[date.weekday()]} {date.day} {MONTHS[date.month - 1]} {date.year}"


def show_date_short(date: datetime.date) -> str:
    """Return a date for tables: "3 Mar 2026"."""
    return f"{date.day} {MONTHS[date.month - 1][:3]} {date.year}"


def show_tolerance(tolerance: LengthTolerance) -> str:
    """Return a tolerance: "−0/+61 mm", "±25 mm", with "(assumed)" where nobody said so."""
    shown = show_minus_plus(tolerance.minus_mm, tolerance.plus_mm)
    return shown + (" (assumed)" if tolerance.assumed else "")


def show_minus_plus(minus_mm: float, plus_mm: float) -> str:
    """Return what may be missing (mm) and what may be too much (mm): "−0/+61 mm", "±25 mm"."""

    def number(size_mm: float) -> str:
        return show_number(size_mm, decimals=0 if float(size_mm).is_integer() else 1)

    minus, plus = number(minus_mm), number(plus_mm)
    text = f"±{plus}" if minus == plus else f"{MINUS}{minus}/+{plus}"
    return with_unit(text, "mm")


def show_reading(reading: LengthReading) -> str:
    """Return a length read back to its writer: "450 ft = 137.160 m".

    Raises BadValue for a reading that is a question.
    """
    if reading.length_m is None or reading.read_as is None:
        raise BadValue(
            owner="show_reading",
            field="reading",
            value=reading.typed,
            accepted="a reading that has a length",
        )
    about = "about " if reading.approximate else ""
    return f"{about}{reading.read_as} = {show_length_m(reading.length_m)}"
