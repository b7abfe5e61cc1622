"""A measure: one or more numbers with units that fall in size, such as 33 ft 4 1/2 in.

measure := term { joiner term } [ bare ]
term    := number [ "-" ] unit
joiner  := nothing | "and" | "-"        (the hyphen between feet and inches only: 33'-4")
bare    := number                       (inches, after a foot mark only: 6' 6)
"""

from dataclasses import dataclass
from fractions import Fraction

from reelwright.core.quantities.cursor import Cursor, Doubt, NotThis
from reelwright.core.quantities.length_units import WrittenUnit, is_unit_ahead, take_unit
from reelwright.core.quantities.number_grammar import Number, begins_number, take_number
from reelwright.core.quantities.tokens import Kind

COUNTED_WORDS = frozenset(
    [
        "cable",
        "cables",
        "lead",
        "leads",
        "cord",
        "cords",
        "piece",
        "pieces",
        "pc",
        "pcs",
        "off",
        "length",
        "lengths",
        "run",
        "runs",
    ]
)
_INCHES_IN_A_FOOT = 12
_FRACTIONS_OF_A_METRE = (1, 2, 4)
"""Halves and quarters of a metre are said; 5/6 m is rather "five or six metres"."""


@dataclass(frozen=True, kw_only=True)
class Term:
    """A number with its unit."""

    number: Number
    unit: WrittenUnit

    @property
    def value_m(self) -> Fraction:
        """The length in m, exactly."""
        return self.number.value * self.unit.in_m

    def __str__(self) -> str:
        return f"{self.number.text} {self.unit.unit}"


@dataclass(frozen=True, kw_only=True)
class Measure:
    """The terms of one length, largest unit first."""

    terms: tuple[Term, ...]

    @property
    def value_m(self) -> Fraction:
        """The length in m, exactly."""
        return sum((term.value_m for term in self.terms), Fraction(0))

    def __str__(self) -> str:
        return " ".join(str(term) for term in self.terms)


def _is_number_ahead(cursor: Cursor, ahead: int) -> bool:
    token = cursor.peek(ahead)
    return token is not None and token.kind in (Kind.NUMBER, Kind.FRACTION)


def _refuse_range(cursor: Cursor, first: str) -> None:
    token = cursor.peek()
    if token is None:
        return
    between = token.kind is Kind.HYPHEN or token.lower in ("to", "or")
    if between and begins_number(cursor.peek(1)):
        raise Doubt(f"“{first}” or another: which one length shall we make?")


def _take_term(cursor: Cursor) -> Term | Number | None:
    number = take_number(cursor)
    if number is None:
        return None
    hyphen = cursor.peek()
    joined = hyphen is not None and hyphen.kind is Kind.HYPHEN and is_unit_ahead(cursor, 1)
    if joined:
        cursor.take()
    unit = take_unit(cursor)
    return number if unit is None else Term(number=number, unit=unit)


def _take_joiner(cursor: Cursor, last: Term) -> bool:
    """Step past "and", or a hyphen behind feet; return whether it was the hyphen."""
    if cursor.take_text("and") or last.unit.unit != "ft":
        return False
    return cursor.take_kind(Kind.HYPHEN) is not None


def _next_term(cursor: Cursor, last: Term) -> Term | None:
    start = cursor.place
    hyphened = _take_joiner(cursor, last)
    term = _take_term(cursor)
    if isinstance(term, Term):
        return term
    after = cursor.peek()
    counts = after is not None and after.lower in COUNTED_WORDS
    if term is None or last.unit.unit != "ft" or counts:
        cursor.place = start
        return None
    if hyphened:
        raise Doubt(f"“{last} - {term.text}”: {term.text} inches more, or up to {term.text} feet?")
    if not last.unit.by_mark:
        raise Doubt(f"“{last} {term.text}”: {term.text} inches, or {term.text} pieces?")
    if not term.value < _INCHES_IN_A_FOOT:
        raise Doubt(f"“{last} {term.text}”: {term.text} of what?")
    return Term(number=term, unit=WrittenUnit(unit="in", by_mark=False))


def _check_pair(larger: Term, smaller: Term) -> None:
    text = f"{larger} {smaller}"
    if larger.unit.family != smaller.unit.family:
        raise Doubt(f"“{text}” mixes feet and metres: which length is meant?")
    if larger.unit == smaller.unit and larger.unit.by_mark and larger.unit.unit == "ft":
        if smaller.number.value < _INCHES_IN_A_FOOT:
            raise Doubt(f"“{text}”: is it {larger} {smaller.number.text} in?")
        raise Doubt(f"“{text}” is two lengths: which one is meant?")
    if smaller.unit.in_m >= larger.unit.in_m:
        raise Doubt(f"“{text}” is two lengths: which one is meant?")
    if larger.number.value.denominator != 1 or smaller.value_m >= larger.unit.in_m:
        sum_m = float(larger.value_m + smaller.value_m)
        raise Doubt(f"“{text}” would be {sum_m:.6g} m: is that meant?")


def _check_number(term: Term) -> None:
    number, unit = term.number, term.unit
    if number.other is not None:
        as_thousand, as_decimal = f"{int(number.other)}", f"{float(number.value):g}"
        raise Doubt(f"“{term}”: is it {as_thousand} {unit.unit} or {as_decimal} {unit.unit}?")
    if number.dotted_group and unit.unit in ("mm", "cm"):
        whole, part = number.text.split(".")
        raise Doubt(f"“{term}”: is it {whole}{part} {unit.unit} or {whole}.{part} {unit.unit}?")
    odd_fraction = number.value.denominator not in _FRACTIONS_OF_A_METRE
    if number.is_fraction and unit.family == "m" and odd_fraction:
        raise Doubt(f"“{term}”: which length is meant?")


def take_measure(cursor: Cursor) -> Measure | None:
    """Step past a measure and return it, or None where no number stands here.

    Raises Doubt where the text can be read in two ways, NotThis where it is no length.
    """
    first = _take_term(cursor)
    if first is None:
        return None
    if isinstance(first, Number):
        _refuse_range(cursor, first.text)
        after = cursor.peek()
        if _is_number_ahead(cursor, 0) and after is not None:
            raise Doubt(f"“{first.text} {after.text}”: is that one number or two?")
        counts = after is None or after.kind is Kind.TIMES or after.lower in COUNTED_WORDS
        if after is not None and not counts:
            raise NotThis(f"{after.text} is no unit of length")
        raise Doubt(f"“{first.text}”: feet, inches, metres or something else?")
    terms = [first]
    while (term := _next_term(cursor, terms[-1])) is not None:
        _check_pair(terms[-1], term)
        terms.append(term)
    for term in terms:
        _check_number(term)
    measure = Measure(terms=tuple(terms))
    _refuse_range(cursor, str(measure))
    return measure
