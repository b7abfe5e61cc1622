"""How many: whole numbers of pieces as people write them."""

from reelwright.core.errors import UnreadableQuantity
from reelwright.core.quantities.cursor import Cursor, Doubt, NotThis, cursor_over
from reelwright.core.quantities.length_measure import COUNTED_WORDS
from reelwright.core.quantities.number_grammar import take_number
from reelwright.core.quantities.reading import Reading
from reelwright.core.quantities.tokens import Kind

ACCEPTED = "a whole number of pieces, 1 or more, such as 4"
_MOST = 100_000


def _take_count(cursor: Cursor) -> int:
    dozen = cursor.take_phrase([("a", "dozen"), ("one", "dozen"), ("dozen",)])
    if dozen is not None:
        count = 12
    else:
        number = take_number(cursor)
        if number is None:
            raise NotThis("no number")
        # Nobody orders a part of a cable, so that 1,200 has one meaning here; 1.200 has two.
        value = number.value if number.other is None else number.other
        if number.dotted_group:
            raise Doubt(f"“{number.text}”: how many pieces is that?")
        between = cursor.peek()
        if between is not None and (
            between.kind is Kind.HYPHEN or between.lower in ("to", "or", "/")
        ):
            raise Doubt(f"“{number.text}” or more: how many pieces shall we make?")
        if value.denominator != 1 or not 0 < value <= _MOST:
            raise NotThis("not a whole number of pieces")
        count = int(value)
    cursor.take_kind(Kind.TIMES)
    cursor.take_text(*COUNTED_WORDS)
    if not cursor.at_end:
        raise NotThis("words are left over")
    return count


def read_count(typed: str) -> Reading[int]:
    """Read a number of pieces. Raises UnreadableQuantity for fractions, zero and negatives."""
    cursor = cursor_over(typed, quantity="number of pieces", accepted=ACCEPTED)
    try:
        return Reading(typed=typed, value=_take_count(cursor), unit="pieces", question=None)
    except Doubt as doubt:
        return Reading(typed=typed, value=None, unit="pieces", question=doubt.question)
    except NotThis as trouble:
        raise UnreadableQuantity(
            typed=typed, quantity="number of pieces", accepted=ACCEPTED
        ) from trouble
