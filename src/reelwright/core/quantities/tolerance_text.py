"""How much longer or shorter a finished cable may be, as people write it.

tolerance := part { [ "/" | "," ] part }
part      := sign number [ unit | "%" ]         (a zero needs no sign and no unit)
sign      := "±" | "+/-" | "+" | "-"
"""

from dataclasses import dataclass
from fractions import Fraction

from reelwright.core.errors import BadValue, UnreadableQuantity
from reelwright.core.quantities.cursor import Cursor, Doubt, NotThis, cursor_over
from reelwright.core.quantities.guard import require_not_negative
from reelwright.core.quantities.length_units import take_unit
from reelwright.core.quantities.number_grammar import take_number
from reelwright.core.quantities.reading import Reading, refuse_two_values
from reelwright.core.quantities.tokens import Kind

ACCEPTED = "a tolerance such as −0/+2 %, ±25 mm or +1 in −0"

# Common practice, no published source.
_DEFAULT_PLUS = Fraction(2, 100)
_DEFAULT_PLUS_MM = Fraction(25)

_BOTH = [("±",), ("+", "/", "-"), ("+", "/", "−"), ("+", "-"), ("plus", "or", "minus"),
         ("plus", "minus"), ("plus", "/", "minus"), ("+", "or", "-")]  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class LengthTolerance:
    """The finished length may be ``minus_mm`` shorter and ``plus_mm`` longer (mm, zero or more).

    ``assumed``: nobody said so; it is the workshop's own default.
    """

    minus_mm: float
    plus_mm: float
    assumed: bool

    def __post_init__(self) -> None:
        require_not_negative(self, "minus_mm", "plus_mm")
        if self.minus_mm + self.plus_mm == 0:
            raise BadValue(
                owner="LengthTolerance",
                field="plus_mm",
                value=self.plus_mm,
                accepted="some tolerance: no cable is cut exactly",
            )


@dataclass(frozen=True, kw_only=True)
class _Part:
    sign: str
    number: Fraction
    scale_mm: Fraction | None


def default_tolerance(*, nominal_mm: float) -> LengthTolerance:
    """Return −0/+2 % or +25 mm of ``nominal_mm`` (mm), whichever is larger: common practice."""
    plus_mm = max(Fraction(nominal_mm) * _DEFAULT_PLUS, _DEFAULT_PLUS_MM)
    return LengthTolerance(minus_mm=0.0, plus_mm=float(plus_mm), assumed=True)


def _take_sign(cursor: Cursor) -> str:
    if cursor.take_phrase(_BOTH) is not None:
        return "±"
    if cursor.take_kind(Kind.MINUS, Kind.HYPHEN) or cursor.take_text("minus"):
        return "-"
    return "+" if cursor.take_text("+", "plus") else ""


def _take_part(cursor: Cursor, nominal_mm: Fraction) -> _Part:
    sign = _take_sign(cursor)
    number = take_number(cursor)
    if number is None:
        raise NotThis("no number")
    refuse_two_values(number)
    if cursor.take_phrase([("%",), ("percent",), ("per", "cent")]):
        return _Part(sign=sign, number=number.value, scale_mm=nominal_mm / 100)
    written = take_unit(cursor)
    scale_mm = None if written is None else written.in_m * 1000
    return _Part(sign=sign, number=number.value, scale_mm=scale_mm)


def _size_mm(part: _Part, other: _Part | None) -> Fraction:
    if part.number == 0:
        return Fraction(0)
    scale_mm = part.scale_mm
    if scale_mm is None and other is not None:
        scale_mm = other.scale_mm
    if scale_mm is None:
        raise Doubt("a tolerance in millimetres, inches or percent?")
    return part.number * scale_mm


def _combined(parts: list[_Part], typed: str) -> LengthTolerance:
    first = parts[0]
    if len(parts) == 1:
        if first.sign == "±":
            size_mm = float(_size_mm(first, None))
            if size_mm == 0:
                raise Doubt("no cable is cut exactly: how much longer may it be?")
            return LengthTolerance(minus_mm=size_mm, plus_mm=size_mm, assumed=False)
        missing = {"+": "how much shorter", "-": "how much longer"}.get(first.sign)
        if missing is None:
            raise Doubt(f"“{typed.strip()}”: longer only, or longer and shorter?")
        raise Doubt(f"“{typed.strip()}”: and {missing} may it be?")
    second = parts[1]
    signs = {part.sign for part in parts if part.number != 0 or part.sign}
    if len(parts) > 2 or not signs <= {"+", "-"} or (first.sign and first.sign == second.sign):
        raise NotThis("not one upper and one lower limit")
    if not first.sign and not second.sign:
        raise Doubt(f"“{typed.strip()}”: which is longer, which is shorter?")
    minus, plus = (first, second) if first.sign == "-" or second.sign == "+" else (second, first)
    minus_mm, plus_mm = _size_mm(minus, plus), _size_mm(plus, minus)
    if minus_mm + plus_mm == 0:
        raise Doubt("no cable is cut exactly: how much longer may it be?")
    return LengthTolerance(minus_mm=float(minus_mm), plus_mm=float(plus_mm), assumed=False)


def _take_tolerance(cursor: Cursor, nominal_mm: Fraction, typed: str) -> LengthTolerance:
    parts = [_take_part(cursor, nominal_mm)]
    while not cursor.at_end:
        cursor.take_text("/", ",", ";", "and")
        parts.append(_take_part(cursor, nominal_mm))
    return _combined(parts, typed)


def read_tolerance(typed: str | None, *, nominal_mm: float) -> Reading[LengthTolerance]:
    """Read the tolerance of a finished length of ``nominal_mm`` (mm).

    Nothing typed gives the workshop's default, marked as assumed. Words without a number ("as
    close as you can"), one limit without the other and sizes without unit come back with a
    question. Raises UnreadableQuantity for what is no tolerance, and where nothing would be left.
    """
    if typed is None or not typed.strip():
        value = default_tolerance(nominal_mm=nominal_mm)
        return Reading(typed=typed or "", value=value, unit="mm", question=None)
    cursor = cursor_over(typed, quantity="length tolerance", accepted=ACCEPTED)
    if all(token.kind is Kind.WORD for token in cursor.tokens):
        question = f"“{typed.strip()}”: how much longer and how much shorter may it be?"
        return Reading(typed=typed, value=None, unit="mm", question=question)
    try:
        tolerance = _take_tolerance(cursor, Fraction(nominal_mm), typed)
        if tolerance.minus_mm >= nominal_mm:
            raise NotThis("nothing would be left")
    except Doubt as doubt:
        return Reading(typed=typed, value=None, unit="mm", question=doubt.question)
    except NotThis as trouble:
        raise UnreadableQuantity(
            typed=typed, quantity="length tolerance", accepted=ACCEPTED
        ) from trouble
    return Reading(typed=typed, value=tolerance, unit="mm", question=None)
