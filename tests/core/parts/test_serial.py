"""Serial numbers: the check digit of ISO/IEC 7064 and what it finds."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.parts.serial import check_digit, serial_is_sound, serial_number

DIGITS = st.text(alphabet="0123456789", min_size=1, max_size=20)


def by_the_recursion(digits: str) -> bool:
    """Whether digits with their check digit behind are sound, by the standard's own test.

    ISO/IEC 7064, hybrid system MOD 11,10 (from memory): P = 10; for each digit S = (P + a) mod 10,
    10 in place of 0, then P = 2 S mod 11; the row is sound where the last S is 1.
    """
    product = 10
    for digit in digits[:-1]:
        remainder = (product + int(digit)) % 10
        product = (2 * (remainder if remainder else 10)) % 11
    return (product + int(digits[-1])) % 10 == 1


@pytest.mark.parametrize(
    ("digits", "expected"),
    [
        # The worked example of ISO/IEC 7064 for MOD 11,10 (from memory): 0794 takes 5.
        ("0794", 5),
        # Numbers that are public examples of systems built on MOD 11,10 (from memory): the
        # German tax number 86 095 742 719 and the Croatian OIB 69435151530.
        ("8609574271", 9),
        ("6943515153", 0),
    ],
)
def test_published_examples(digits: str, expected: int) -> None:
    """The check digits printed with the published numbers."""
    assert check_digit(digits) == expected


@given(digits=DIGITS)
def test_it_passes_the_test_of_the_standard(digits: str) -> None:
    """Digits with their check digit behind are sound by the recursion of the standard."""
    assert by_the_recursion(digits + str(check_digit(digits)))


@given(digits=DIGITS, data=st.data())
def test_every_single_wrong_digit_is_found(digits: str, data: st.DataObject) -> None:
    """No digit can be replaced by another unnoticed, the check digit included."""
    whole = digits + str(check_digit(digits))
    at = data.draw(st.integers(min_value=0, max_value=len(whole) - 1))
    other = data.draw(st.sampled_from([each for each in "0123456789" if each != whole[at]]))
    wrong = whole[:at] + other + whole[at + 1 :]
    assert check_digit(wrong[:-1]) != int(wrong[-1])


def test_nearly_every_swap_of_neighbours_is_found() -> None:
    """Of all swaps of two neighbours in four-digit numbers, fewer than one in forty slips by."""
    swaps = missed = 0
    for number in range(10_000):
        digits = f"{number:04d}"
        for at in range(3):
            if digits[at] == digits[at + 1]:
                continue
            swapped = digits[:at] + digits[at + 1] + digits[at] + digits[at + 2 :]
            swaps += 1
            missed += check_digit(swapped) == check_digit(digits)
    assert 0 < missed / swaps < 1 / 40


@given(
    day=st.dates(min_value=dt.date(2000, 1, 1), max_value=dt.date(2099, 12, 31)),
    number=st.integers(min_value=1, max_value=9999),
)
def test_a_serial_says_its_day_and_number(day: dt.date, number: int) -> None:
    """Day and number stand in it, it is sound, and any other last digit is not."""
    serial = serial_number(day=day, number=number)
    assert serial[:-1] == f"{day:%y%m%d}-{number:04d}"
    assert serial_is_sound(serial)
    last = int(serial[-1])
    assert not any(serial_is_sound(serial[:-1] + str(each)) for each in range(10) if each != last)


@pytest.mark.parametrize("number", [0, -1, 10_000])
def test_a_day_has_so_many_serials_and_no_more(number: int) -> None:
    """The first is 1 and the last 9999."""
    with pytest.raises(BadValue, match="1 to 9999"):
        serial_number(day=dt.date(2027, 3, 2), number=number)


@pytest.mark.parametrize("text", ["", "270302", "270302-0001", "2703020-0016", "270302-٠٠٠١٦"])
def test_what_is_no_serial_is_not_sound(text: str) -> None:
    """Too short, no dash where it belongs, digits of another script."""
    assert not serial_is_sound(text)


@pytest.mark.parametrize("text", ["", "12a", "1 2", "١٢"])
def test_only_digits_have_a_check_digit(text: str) -> None:
    """Anything else is refused."""
    with pytest.raises(BadValue, match="digits 0 to 9"):
        check_digit(text)
