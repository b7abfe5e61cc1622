"""Lengths as customers type them: read exactly, or answered with the question to ask them."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue, UnreadableQuantity
from reelwright.core.quantities.cursor import Cursor, Doubt, NotThis, cursor_over
from reelwright.core.quantities.guard import require_given
from reelwright.core.quantities.length_doubts import doubt_in_context
from reelwright.core.quantities.length_grammar import LengthExpression, take_length

ACCEPTED = "a length above zero with its unit, such as 12 ft, 33'4\", 10 ft 6 in, 3.05 m, 2500 mm"

_POINTS_ELSEWHERE = frozenset(
    [
        "same",
        "previous",
        "usual",
        "before",
        "last",
        "again",
        "standard",
        "tbc",
        "tbd",
        "unknown",
        "?",
        "whatever",
        "any",
    ]
)


@dataclass(frozen=True, kw_only=True)
class LengthContext:
    """What is known beside the typed length; ``None`` where nothing is.

    ``route``: where the cable runs, in words ("between racks"). ``unit_used_before``: "ft" or "m",
    what this customer wrote so far. ``expected_m``: the known length of the route in m.
    """

    route: str | None = None
    unit_used_before: str | None = None
    expected_m: float | None = None

    def __post_init__(self) -> None:
        require_given(self, "expected_m")
        if self.unit_used_before not in (None, "ft", "m"):
            raise BadValue(
                owner="LengthContext",
                field="unit_used_before",
                value=self.unit_used_before,
                accepted='"ft", "m" or None',
            )


@dataclass(frozen=True, kw_only=True)
class LengthReading:
    """What was typed beside what it was read as.

    Exactly one of ``length_m`` (the length of one cable, in m) and ``question`` (for the customer)
    is given. ``read_as``: the length in the writer's own units. ``count``: how many cables, where
    the same text says so. ``over``: measured between which points, where said.
    """

    typed: str
    length_m: float | None
    question: str | None
    read_as: str | None
    unit_written: str | None
    count: int | None
    approximate: bool
    over: str | None

    def __post_init__(self) -> None:
        require_given(self, "length_m")
        if (self.length_m is None) == (self.question is None):
            raise BadValue(
                owner="LengthReading",
                field="question",
                value=self.question,
                accepted="a question where there is no length, and none where there is one",
            )


def _asking(typed: str, question: str) -> LengthReading:
    return LengthReading(
        typed=typed,
        length_m=None,
        question=question,
        read_as=None,
        unit_written=None,
        count=None,
        approximate=False,
        over=None,
    )


def _refuse(typed: str) -> UnreadableQuantity:
    return UnreadableQuantity(typed=typed, quantity="length", accepted=ACCEPTED)


def _settled(typed: str, expression: LengthExpression) -> LengthReading:
    return LengthReading(
        typed=typed,
        length_m=float(expression.measure.value_m),
        question=None,
        read_as=str(expression.measure),
        unit_written=expression.measure.terms[0].unit.unit,
        count=expression.count,
        approximate=expression.approximate,
        over=expression.over,
    )


def _read(cursor: Cursor, typed: str, context: LengthContext) -> LengthReading:
    expression = take_length(cursor)
    if expression.measure.value_m <= 0 or expression.count == 0:
        raise NotThis("nothing to make")
    question = doubt_in_context(
        expression,
        route=context.route,
        unit_used_before=context.unit_used_before,
        expected_m=context.expected_m,
    )
    if question is not None:
        return _asking(typed, question)
    return _settled(typed, expression)


def read_length(typed: str, *, context: LengthContext) -> LengthReading:
    """Read a typed length; what can mean two things comes back with a question, never a guess.

    Units: km, m, dm, cm, mm, yd, ft, in, and the marks ' and " in all their shapes; no rounding on
    the way to ``length_m``. Raises UnreadableQuantity for what is no length, and for lengths and
    counts of zero or less.
    """
    cursor = cursor_over(typed, quantity="length", accepted=ACCEPTED)
    if any(token.lower in _POINTS_ELSEWHERE for token in cursor.tokens):
        return _asking(typed, f"“{typed.strip()}”: which length is that, with its unit?")
    try:
        return _read(cursor, typed, context)
    except Doubt as doubt:
        return _asking(typed, doubt.question)
    except NotThis as trouble:
        raise _refuse(typed) from trouble
