"""How numbers and lengths look to people: narrow no-break space before the unit, a real minus.

``show_scaled`` shows what takes a prefix, ``show_office`` money, dates and tolerances.
"""

import math

from reelwright.core.errors import BadValue
from reelwright.core.quantities.constants import INCH_M
from reelwright.core.quantities.convert import LENGTH_IN_M, m_to_ft
from reelwright.core.quantities.marks import MINUS, NARROW_SPACE

_SIXTEENTHS_IN_A_FOOT = 12 * 16
_MOST_DECIMALS = 15


def require_finite(owner: str, value: float) -> None:
    """Raise BadValue, in the name of ``owner``, for a value (any unit) that is no number."""
    if not math.isfinite(value):
        raise BadValue(owner=owner, field="value", value=value, accepted="a finite number")


def show_number(value: float, *, decimals: int) -> str:
    """Return value (any unit) with ``decimals`` places, a real minus, and no minus before zero."""
    require_finite("show_number", value)
    text = f"{value:.{max(0, decimals)}f}"
    if text.startswith("-"):
        text = text[1:]
        if text.strip("0."):
            text = MINUS + text
    return text


def decimals_for(value: float, digits: int) -> int:
    """Return the places that show value (any unit) to ``digits`` significant digits."""
    if value == 0:
        return 0
    places = digits - 1 - math.floor(math.log10(abs(value)))
    # 9.96 to two digits is 10, which has one place less.
    if abs(round(value, places)) >= 10 ** (digits - places):
        places -= 1
    return min(places, _MOST_DECIMALS)


def show_digits(value: float, *, digits: int = 3) -> str:
    """Return value (any unit) to ``digits`` significant digits, never in powers of ten."""
    require_finite("show_digits", value)
    places = decimals_for(value, digits)
    return show_number(round(value, places), decimals=places)


def with_unit(number: str, unit: str) -> str:
    """Return the number with its unit behind a narrow no-break space; "1" and "" are no unit."""
    return number if unit in ("", "1") else f"{number}{NARROW_SPACE}{unit}"


def show_in(value: float, unit: str, *, decimals: int) -> str:
    """Return value (in ``unit``) with ``decimals`` places and its unit."""
    return with_unit(show_number(value, decimals=decimals), unit)


def show_plain(value: float, unit: str) -> str:
    """Return value (in ``unit``) as it is named, without closing zeros: "70.7 V", "8 Ω"."""
    require_finite("show_plain", value)
    return with_unit(f"{value:g}".replace("-", MINUS), unit)


def show_short(value: float, unit: str) -> str:
    """Return value (in ``unit``) as a sentence needs it: "18.4 dB", "0.37 dB".

    One decimal, two where it is below one, and "less than 0.01 dB" where even those show nothing.
    """
    require_finite("show_short", value)
    if 0 < value < 0.005:
        return f"less than {with_unit('0.01', unit)}"
    return show_in(value, unit, decimals=1 if abs(value) >= 0.95 else 2)


def show_db(level_db: float) -> str:
    """Return a level or loss (dB) as a sentence needs it: "−0.30 dB", "less than 0.01 dB"."""
    return show_short(level_db, "dB")


def show_change_db(change_db: float) -> str:
    """Return a change of level (dB) with its sign, none before nothing: "+0.12 dB", "0.00 dB"."""
    if abs(change_db) < 0.005:
        return show_db(0.0)
    return ("+" if change_db > 0 else MINUS) + show_db(abs(change_db))


def show_percent(fraction: float, *, decimals: int | None = None) -> str:
    """Return a fraction (1) as a percentage: 0.97 as "97 %"; one decimal below ten percent."""
    if decimals is None:
        decimals = 0 if abs(fraction) >= 0.0995 else 1
    return show_in(fraction * 100, "%", decimals=decimals)


def show_share(share: float) -> str:
    """Return a small share (1) of many things: "1.6 %", "40 in a million", "none".

    Below one in a million it says only that; none is said of nothing alone.
    """
    require_finite("show_share", share)
    if share >= 0.001:
        return show_percent(share)
    if share >= 0.95e-6:
        return f"{round(share * 1e6)} in a million"
    return "less than 1 in a million" if share > 0 else "none"


def show_chance(chance: float) -> str:
    """Return a chance (1) in whole percent; never "100 %" or "0 %" for what is not sure."""
    whole = min(99, max(1, round(chance * 100))) if 0 < chance < 1 else round(chance * 100)
    return with_unit(str(whole), "%")


def show_length_m(length_m: float, *, decimals: int = 3) -> str:
    """Return a length (m) in metres, to the millimetre unless told otherwise: "3.658 m"."""
    return show_in(length_m, "m", decimals=decimals)


def show_metres(length_mm: float, *, decimals: int = 3) -> str:
    """Return a counted length (mm) in metres, to the millimetre or as told: "3.658 m"."""
    return show_length_m(length_mm / 1000, decimals=decimals)


def show_length_mm(length_mm: float, *, decimals: int = 0) -> str:
    """Return a length (mm) in millimetres: "17 mm", "16.95 mm"."""
    return show_in(length_mm, "mm", decimals=decimals)


def show_dimension(length_m: float, *, decimals: int = 2) -> str:
    """Return a dimension of a part (m) in millimetres, as a drawing has it: "7.62 mm"."""
    return show_length_mm(length_m * 1e3, decimals=decimals)


def show_fine(length_m: float) -> str:
    """Return a tolerance of a part (m) in millimetres: "0.05 mm", to the micrometre if finer."""
    whole = abs(round(length_m * 1e5) / 1e5 - length_m) < 1e-9
    return show_dimension(length_m, decimals=2 if whole else 3)


def show_feet_inches(length_m: float) -> str:
    """Return a length (m) in feet and inches to the nearest 1/16 in: "33 ft 4 1/2 in"."""
    require_finite("show_feet_inches", length_m)
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


def show_plain_m(length_m: float) -> str:
    """Return a length (m) as it is said: "100 m", "45.72 m", "0.305 m".

    To the centimetre, below a metre to the millimetre, without closing zeros.
    """
    number = show_number(length_m, decimals=2 if abs(length_m) >= 1 else 3)
    return with_unit(number.rstrip("0").rstrip("."), "m")


def show_both(length_m: float) -> str:
    """Return a finished length (m) as customers and benches read it: "15.2 m (49 ft 10 in)".

    Half inches are shown where the length is one; a metric length is given to the nearest inch,
    below two metres to the nearest quarter, so that both are one length to whoever reads them.
    """
    require_finite("show_both", length_m)
    inches = length_m / INCH_M
    whole_and_halves = round(inches * 2) / 2
    if abs(inches - whole_and_halves) <= 0.01:
        inches = whole_and_halves
    else:
        inches = round(inches) if abs(length_m) >= 2 else round(inches * 4) / 4
    return f"{show_plain_m(length_m)} ({show_feet_inches(inches * INCH_M)})"


def show_both_whole(length_m: float) -> str:
    """Return a longest length (m), both units rounded to whole ones: "73 m (239 ft)"."""
    feet = show_in(m_to_ft(length_m), "ft", decimals=0)
    return f"{show_length_m(length_m, decimals=0)} ({feet})"
