"""What a run of digits and separators says, and what else it could say."""

import unicodedata
from dataclasses import dataclass
from fractions import Fraction

GROUP = 3


@dataclass(frozen=True, kw_only=True)
class Numeral:
    """A number as written: its ``value``, and the ``other`` value another reader would see in it.

    ``dotted_group`` marks 1.200: a decimal point to one reader, a thousand mark to another.
    """

    text: str
    value: Fraction
    other: Fraction | None
    dotted_group: bool


def _all_groups(groups: list[str]) -> bool:
    return 1 <= len(groups[0]) <= GROUP and all(len(group) == GROUP for group in groups[1:])


def _decimal(whole: str, part: str) -> Fraction:
    return Fraction(int(whole + part), 10 ** len(part))


def _one_kind(text: str, mark: str) -> Numeral | None:
    groups = text.split(mark)
    if len(groups) > 2:
        if not _all_groups(groups):
            return None
        value = Fraction(int("".join(groups)))
        return Numeral(text=text, value=value, other=None, dotted_group=False)
    whole, part = groups
    value = _decimal(whole, part)
    # A thousand mark never follows a leading zero: 0,500 can only be a half.
    like_a_thousand = _all_groups(groups) and not whole.startswith("0")
    thousand = Fraction(int(whole + part)) if like_a_thousand else None
    if mark == ",":
        return Numeral(text=text, value=value, other=thousand, dotted_group=False)
    return Numeral(text=text, value=value, other=None, dotted_group=thousand is not None)


def read_numeral(text: str) -> Numeral | None:
    """Return what ``text`` (digits, points, commas) says, or ``None`` where it says nothing."""
    marks = {char for char in text if char in ".,"}
    if not marks:
        return Numeral(text=text, value=Fraction(int(text)), other=None, dotted_group=False)
    if text.startswith("."):
        text = "0" + text
    if len(marks) == 1:
        return _one_kind(text, marks.pop())
    last = max(marks, key=text.rfind)
    thousands = (marks - {last}).pop()
    whole, part = text.rsplit(last, 1)
    groups = whole.split(thousands)
    if last in whole or not _all_groups(groups):
        return None
    return Numeral(text=text, value=_decimal("".join(groups), part), other=None, dotted_group=False)


def vulgar_fraction(char: str) -> Fraction | None:
    """Return the exact value of a fraction character such as ½, else ``None``."""
    top, slash, bottom = unicodedata.normalize("NFKC", char).partition("\N{FRACTION SLASH}")
    if not (slash and top.isascii() and top.isdigit() and bottom.isascii() and bottom.isdigit()):
        return None
    return Fraction(int(top), int(bottom)) if int(bottom) else None
