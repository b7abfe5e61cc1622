"""The units of length as people write them."""

from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from reelwright.core.quantities.convert import LENGTH_IN_M
from reelwright.core.quantities.cursor import Cursor
from reelwright.core.quantities.tokens import Kind

FEET_AND_INCHES = ("yd", "ft", "in")

_WORDS = MappingProxyType(
    {
        "km": "km kilometre kilometres kilometer kilometers",
        "m": "m metre metres meter meters mtr mtrs",
        "dm": "dm decimetre decimetres decimeter decimeters",
        "cm": "cm cms centimetre centimetres centimeter centimeters",
        "mm": "mm mms millimetre millimetres millimeter millimeters",
        "yd": "yd yds yard yards",
        "ft": "ft fts foot feet",
        "in": "in ins inch inches",
    }
)
_UNIT_OF_WORD = {word: unit for unit, words in _WORDS.items() for word in words.split()}
UNIT_NAMES = frozenset(_UNIT_OF_WORD)
"""Every word for a unit of length, in small letters."""


@dataclass(frozen=True, kw_only=True)
class WrittenUnit:
    """A unit of length (a key of LENGTH_IN_M), and whether it was written as a mark (' or ")."""

    unit: str
    by_mark: bool

    @property
    def in_m(self) -> Fraction:
        """Metres in one, exactly."""
        return LENGTH_IN_M[self.unit]

    @property
    def family(self) -> str:
        """ "ft" for yards, feet and inches, "m" for all others."""
        return family_of(self.unit)


def family_of(unit: str) -> str:
    """Return "ft" for yards, feet and inches, "m" for all others."""
    return "ft" if unit in FEET_AND_INCHES else "m"


def is_unit_ahead(cursor: Cursor, ahead: int) -> bool:
    """Return whether the token ``ahead`` of here is a unit of length."""
    token = cursor.peek(ahead)
    return token is not None and (
        token.kind in (Kind.FOOT_MARK, Kind.INCH_MARK) or token.lower in _UNIT_OF_WORD
    )


def take_unit(cursor: Cursor) -> WrittenUnit | None:
    """Step past a unit of length and return it, or None where none stands here."""
    if not is_unit_ahead(cursor, 0):
        return None
    token = cursor.take()
    if token.kind is Kind.FOOT_MARK:
        return WrittenUnit(unit="ft", by_mark=True)
    if token.kind is Kind.INCH_MARK:
        return WrittenUnit(unit="in", by_mark=True)
    return WrittenUnit(unit=_UNIT_OF_WORD[token.lower], by_mark=False)
