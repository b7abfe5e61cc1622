"""Serial numbers of finished cables: working day, number within it, check digit."""

import datetime as dt

from reelwright.core.errors import BadValue


def check_digit(digits: str) -> int:
    """Return the check digit of a row of digits by ISO/IEC 7064, MOD 11,10.

    It finds every single wrong digit and nearly every swap of two neighbours. Raises BadValue for
    anything but digits.
    """
    if not digits.isascii() or not digits.isdigit():
        raise BadValue(owner="check_digit", field="digits", value=digits, accepted="digits 0 to 9")
    product = 10
    for digit in digits:
        total = (product + int(digit)) % 10 or 10
        product = 2 * total % 11
    return (11 - product) % 10


def serial_number(*, day: dt.date, number: int) -> str:
    """Return the serial of the ``number``-th cable of a working day: 261124-0075 for number 7.

    The last digit is the check digit of all the digits in front of it. Raises BadValue beyond
    9,999 cables a day.
    """
    if not 1 <= number <= 9999:
        raise BadValue(
            owner="serial_number", field="number", value=number, accepted="1 to 9999 in a day"
        )
    front, back = f"{day:%y%m%d}", f"{number:04d}"
    return f"{front}-{back}{check_digit(front + back)}"


def serial_is_sound(serial: str) -> bool:
    """Return whether a serial read from a label is one that can have been given."""
    front, dash, back = serial.partition("-")
    digits = front + back
    if dash != "-" or len(front) != 6 or len(back) != 5:
        return False
    if not (digits.isascii() and digits.isdigit()):
        return False
    return check_digit(digits[:-1]) == int(digits[-1])
