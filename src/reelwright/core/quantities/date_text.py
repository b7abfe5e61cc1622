"""Dates as people write them. The clock is never looked at: a date without its year is asked about.

date := year "-" month "-" day | day month-name year | month-name day [ "," ] year
      | two numbers and a year between "/", "-" or "."   (asked where both could be the month)
"""

import datetime

from reelwright.core.errors import UnreadableQuantity
from reelwright.core.quantities.cursor import Cursor, Doubt, NotThis, cursor_over
from reelwright.core.quantities.reading import Reading
from reelwright.core.quantities.tokens import Kind

ACCEPTED = "a date such as 2026-04-03 or 3 April 2026"

MONTHS = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
]
WEEKDAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]
_MONTH_OF_WORD = {
    spelling: number
    for number, name in enumerate(MONTHS, start=1)
    for spelling in (name.lower(), name[:3].lower(), name[:4].lower())
}
_DAYS = {
    spelling for name in WEEKDAYS for spelling in (name.lower(), name[:3].lower(), name[:4].lower())
}
_SOON = {"today", "tomorrow", "asap", "soon", "urgent", "next", "week", "end", "whenever", "tbc"}
_MONTHS_IN_A_YEAR = 12
_YEAR_DIGITS = 4
_COMPACT_DIGITS = 8
_YEARS = range(1990, 2200)


def _built(year: int, month: int, day: int) -> datetime.date:
    try:
        date = datetime.date(year, month, day)
    except ValueError as trouble:
        raise NotThis(str(trouble)) from trouble
    if year not in _YEARS:
        raise NotThis(f"the year {year}")
    return date


def _take_digits(cursor: Cursor) -> str | None:
    token = cursor.peek()
    if token is None or token.kind is not Kind.NUMBER or not token.text.isdigit():
        return None
    return cursor.take().text


def _take_year(cursor: Cursor, said: str) -> int:
    cursor.take_text(",", ".", "/", "-")
    digits = _take_digits(cursor)
    if digits is None or len(digits) != _YEAR_DIGITS:
        raise Doubt(f"“{said}”: in which year?")
    return int(digits)


def _take_month(cursor: Cursor) -> int | None:
    word = cursor.take_text(*_MONTH_OF_WORD)
    return None if word is None else _MONTH_OF_WORD[word]


def _month_first(cursor: Cursor, month: int) -> datetime.date:
    digits = _take_digits(cursor)
    if digits is None:
        raise Doubt(f"“{MONTHS[month - 1]}”: on which day?")
    if len(digits) == _YEAR_DIGITS:
        raise Doubt(f"“{MONTHS[month - 1]} {digits}”: on which day?")
    cursor.take_text("st", "nd", "rd", "th")
    return _built(_take_year(cursor, f"{digits} {MONTHS[month - 1]}"), month, int(digits))


def _numbers_only(first: str, second: str, year: str) -> datetime.date:
    said = f"{first}/{second}/{year}"
    if len(year) != _YEAR_DIGITS:
        raise Doubt(f"“{said}”: which day, month and year?")
    one, two = int(first), int(second)
    if one == two or two > _MONTHS_IN_A_YEAR:
        return _built(int(year), one, two)
    if one > _MONTHS_IN_A_YEAR:
        return _built(int(year), two, one)
    day_first, month_first = _built(int(year), two, one), _built(int(year), one, two)
    raise Doubt(
        f"“{said}”: {day_first.day} {MONTHS[two - 1]} or {month_first.day} {MONTHS[one - 1]}?"
    )


def _take_date(cursor: Cursor) -> datetime.date:
    weekday = cursor.take_text(*_DAYS)
    if weekday is not None:
        cursor.take_text(",")
        if cursor.at_end:
            raise Doubt(f"“{weekday.capitalize()}”: on which date?")
    month = _take_month(cursor)
    if month is not None:
        return _month_first(cursor, month)
    first = _take_digits(cursor)
    if first is None:
        raise NotThis("no date")
    if cursor.at_end and len(first) == _COMPACT_DIGITS:
        return _built(int(first[:4]), int(first[4:6]), int(first[6:]))
    cursor.take_text("st", "nd", "rd", "th")
    separator = cursor.take_text("-", "/", ".", "of")
    month = _take_month(cursor)
    if month is not None:
        return _built(_take_year(cursor, f"{first} {MONTHS[month - 1]}"), month, int(first))
    second = _take_digits(cursor)
    if separator is None or second is None:
        raise NotThis("no month")
    if cursor.at_end:
        raise Doubt(f"“{first}{separator}{second}”: which day, month and year?")
    if not cursor.take_text(separator):
        raise NotThis("separators differ")
    third = _take_digits(cursor)
    if third is None:
        raise NotThis("no third number")
    if len(first) == _YEAR_DIGITS:
        return _built(int(first), int(second), int(third))
    return _numbers_only(first, second, third)


def _separated(typed: str) -> str:
    # 13.4.2026 would be read as one number with points in it.
    figures = all(char.isdigit() or char in ". " for char in typed)
    return typed.replace(".", "/") if figures else typed


def read_date(typed: str) -> Reading[datetime.date]:
    """Read a date. Raises UnreadableQuantity for days that are in no calendar.

    03/04/2026 could be March or April and comes back with a question; so does a date without a
    year, a year of two figures, and the name of a weekday.
    """
    cursor = cursor_over(_separated(typed), quantity="date", accepted=ACCEPTED)
    try:
        date = _take_date(cursor)
        if not cursor.at_end:
            raise NotThis("words are left over")
        return Reading(typed=typed, value=date, unit="date", question=None)
    except Doubt as doubt:
        return Reading(typed=typed, value=None, unit="date", question=doubt.question)
    except NotThis as trouble:
        if any(token.lower in _SOON for token in cursor.tokens):
            question = f"“{typed.strip()}”: on which date?"
            return Reading(typed=typed, value=None, unit="date", question=question)
        raise UnreadableQuantity(typed=typed, quantity="date", accepted=ACCEPTED) from trouble
