"""A length with what people write around it: how many, about, each, in all, over what.

length  := { lead } [ how-many ] measure { tail }
lead    := "about" ... | "length" | "a" | ":"
how-many:= number ( "×" | "@" | "off" | counted [ "of" | "@" ] )
tail    := "×" number | "," number counted | "each" | "total" | "long" | "tip to tip" ...
         | "(" measure ")" | "=" measure
"""

from dataclasses import dataclass, replace

from reelwright.core.quantities.cursor import Cursor, Doubt, NotThis
from reelwright.core.quantities.length_measure import COUNTED_WORDS, Measure, take_measure
from reelwright.core.quantities.number_grammar import Number, take_number
from reelwright.core.quantities.tokens import Kind


@dataclass(frozen=True, kw_only=True)
class LengthExpression:
    """One length as written, and what was said about it.

    ``counted_apart``: the count stood beside the length without saying "each" or "×".
    ``over``: between which points it is measured, where that was said.
    """

    measure: Measure
    count: int | None
    counted_apart: bool
    approximate: bool
    each: bool
    in_all: bool
    over: str | None


def _phrases(*texts: str) -> tuple[tuple[str, ...], ...]:
    return tuple(tuple(text.split()) for text in texts)


_ABOUT = _phrases(
    "about", "approx", "approximately", "roughly", "around", "circa", "ca", "c", "~", "some", "say"
)
_OR_SO = _phrases("or so", "or thereabouts", "give or take", "approx", "roughly")
_SKIP_BEFORE = _phrases("a", "an", "the", "length", "len", "length of", "one length of", ":", "=")
_SKIP_AFTER = _phrases("long", "length", "in length", "of cable", "please", ".", ",", ";", "and")
_BOUND = _phrases(
    "at least", "at most", "up to", "min", "minimum", "max", "maximum", "no more than", "over",
    "not more than", "more than", "less than", "under", "below", "longer than", "shorter than",
    "<", ">", "±", "+",
)  # fmt: skip
_IN_ALL = _phrases("total", "in total", "in all", "altogether", "all together", "combined")
_EACH = _phrases("each", "apiece", "ea", "per cable", "per lead", "a piece")
_OVER_ALL = _phrases(
    "tip to tip", "pin tip to pin tip", "from pin tip to pin tip", "end to end", "overall",
    "over connectors", "over the connectors", "including connectors", "incl connectors",
    "including the connectors", "with connectors", "finished", "finished length",
)  # fmt: skip
_WITHOUT_ENDS = _phrases(
    "excluding connectors", "excl connectors", "excluding the connectors", "without connectors",
    "plus connectors", "not including connectors", "not including the connectors", "cable only",
    "between connectors", "+ connectors", "without the connectors", "exclusive of connectors",
)  # fmt: skip


def _whole(number: Number) -> int:
    if number.value.denominator != 1 or number.other is not None or number.dotted_group:
        raise NotThis(f"{number.text} is no number of pieces")
    return int(number.value)


def _take_count_before(cursor: Cursor) -> tuple[int | None, bool]:
    start = cursor.place
    try:
        number = take_number(cursor)
    except Doubt:
        number = None
    if number is not None:
        if cursor.take_kind(Kind.TIMES) or cursor.take_text("@"):
            return _whole(number), False
        if cursor.take_text(*COUNTED_WORDS):
            bound = cursor.take_text("of", "@", "at") is not None
            cursor.take_phrase(_phrases(",", ":"))
            return _whole(number), not bound
    cursor.place = start
    return None, False


def _take_count_after(cursor: Cursor) -> tuple[int | None, bool]:
    start = cursor.place
    if cursor.take_kind(Kind.TIMES):
        number = take_number(cursor)
        if number is None:
            raise NotThis("nothing follows the ×")
        cursor.take_text(*COUNTED_WORDS)
        return _whole(number), False
    cursor.take_phrase(_phrases(",", ";", "for", "(", "- "))
    number = take_number(cursor)
    if number is not None and cursor.take_text(*COUNTED_WORDS):
        cursor.take_text(")")
        return _whole(number), True
    cursor.place = start
    return None, False


def _take_second_measure(cursor: Cursor, first: Measure) -> bool:
    if cursor.take_phrase(_phrases("(", "=", "/", "( =", "i . e", "ie")) is None:
        return False
    second = take_measure(cursor)
    if second is None:
        raise NotThis("no length follows")
    cursor.take_text(")")
    # Within one part in a hundred the second is the first, rounded for the reader.
    if abs(second.value_m - first.value_m) * 100 > first.value_m:
        raise Doubt(f"“{first}” and “{second}” are not the same length: which one counts?")
    return True


def _refuse_sign(cursor: Cursor) -> None:
    if cursor.take_kind(Kind.MINUS, Kind.HYPHEN):
        raise NotThis("a length is above zero")


def _refuse_tail(cursor: Cursor, measure: Measure) -> None:
    if cursor.take_phrase(_WITHOUT_ENDS):
        raise Doubt(
            f"“{measure}” without the connectors: what shall the finished cable measure, "
            "from tip to tip?"
        )
    if cursor.take_phrase(_BOUND):
        raise Doubt(f"“{measure}” as a limit: which length shall we make?")


def _take_remark(cursor: Cursor, so_far: LengthExpression) -> LengthExpression | None:
    if cursor.take_phrase(_OR_SO):
        return replace(so_far, approximate=True)
    if cursor.take_phrase(_IN_ALL):
        return replace(so_far, in_all=True)
    if cursor.take_phrase(_EACH):
        return replace(so_far, each=True)
    over = cursor.take_phrase(_OVER_ALL)
    return None if over is None else replace(so_far, over=" ".join(over))


def _take_tail(cursor: Cursor, so_far: LengthExpression) -> LengthExpression:
    _refuse_tail(cursor, so_far.measure)
    remarked = _take_remark(cursor, so_far)
    if remarked is not None:
        return remarked
    if so_far.count is None:
        count, apart = _take_count_after(cursor)
        if count is not None:
            return replace(so_far, count=count, counted_apart=apart)
    if (
        _take_second_measure(cursor, so_far.measure)
        or cursor.take_phrase(_SKIP_AFTER)
        or cursor.take_text(*COUNTED_WORDS)
    ):
        return so_far
    left = cursor.peek()
    if left is not None and left.kind in (Kind.NUMBER, Kind.FRACTION):
        raise Doubt(f"“{so_far.measure} {left.text}”: what does {left.text} stand for?")
    raise NotThis("words that are no part of a length")


def take_length(cursor: Cursor) -> LengthExpression:
    """Read all of ``cursor`` as one length. Raises NotThis, or Doubt with a question."""
    kept = tuple(token for token in cursor.tokens if token.lower != "ish")
    approximate, bounded = len(kept) < len(cursor.tokens), False
    cursor = Cursor(kept)
    while True:
        if cursor.take_phrase(_ABOUT):
            approximate = True
        elif cursor.take_phrase(_BOUND):
            bounded = True
        elif not cursor.take_phrase(_SKIP_BEFORE):
            break
    _refuse_sign(cursor)
    count, apart = _take_count_before(cursor)
    while cursor.take_phrase(_ABOUT):
        approximate = True
    _refuse_sign(cursor)
    measure = take_measure(cursor)
    if measure is None:
        raise NotThis("no number")
    if bounded:
        raise Doubt(f"“{measure}” as a limit: which length shall we make?")
    expression = LengthExpression(
        measure=measure,
        count=count,
        counted_apart=apart,
        approximate=approximate,
        each=False,
        in_all=False,
        over=None,
    )
    while not cursor.at_end:
        expression = _take_tail(cursor, expression)
    return expression
