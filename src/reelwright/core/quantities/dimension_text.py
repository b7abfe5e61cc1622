"""Dimensions of parts as a gauge shows them and people write them: 1,62 mm, 0.064 in, 64 mil.

Lengths of cables are read by ``length_text``, which doubts what is shorter than any cable.

dimension := number unit
"""

from fractions import Fraction

from reelwright.core.errors import UnreadableQuantity
from reelwright.core.quantities.convert import LENGTH_IN_M
from reelwright.core.quantities.cursor import Cursor, Doubt, NotThis, cursor_over
from reelwright.core.quantities.number_grammar import take_number
from reelwright.core.quantities.reading import Reading, refuse_two_values
from reelwright.core.quantities.tokens import Kind

ACCEPTED = "a dimension above zero with its unit, such as 1.62 mm or 0.064 in"

_UNITS = {
    spelling: scale
    for scale, spellings in (
        (LENGTH_IN_M["mm"], ("mm", "millimetre", "millimetres", "millimeter", "millimeters")),
        (LENGTH_IN_M["cm"], ("cm", "centimetre", "centimetres", "centimeter", "centimeters")),
        (LENGTH_IN_M["mm"] / 1000, ("um", "µm", "μm", "micrometre", "micrometres", "micron")),
        (LENGTH_IN_M["in"], ("in", "inch", "inches", '"', "″", "”")),
        (LENGTH_IN_M["in"] / 1000, ("mil", "mils", "thou")),
    )
    for spelling in spellings
}


def read_dimension(typed: str, *, at_most_m: float) -> Reading[float]:
    """Read a dimension into m. Raises UnreadableQuantity for none above zero and to ``at_most_m``.

    A number without its unit comes back with a question. 1,620 mm is 1.62 mm where 1620 mm would
    be longer than there is, and a question elsewhere.
    """
    cursor = cursor_over(typed, quantity="dimension", accepted=ACCEPTED)
    try:
        value = float(_take_dimension(cursor, Fraction(at_most_m)))
        return Reading(typed=typed, value=value, unit="m", question=None)
    except Doubt as doubt:
        return Reading(typed=typed, value=None, unit="m", question=doubt.question)
    except NotThis as trouble:
        raise UnreadableQuantity(typed=typed, quantity="dimension", accepted=ACCEPTED) from trouble


def _take_dimension(cursor: Cursor, at_most_m: Fraction) -> Fraction:
    number = take_number(cursor)
    if number is None:
        raise NotThis("no number")
    after = cursor.peek()
    if after is None:
        raise Doubt(f"“{number.text}”: in which unit (mm, in)?")
    if after.kind is Kind.NUMBER:
        raise Doubt(f"“{number.text} {after.text}”: is that one number or two?")
    factor = _UNITS.get("".join(token.lower for token in cursor.rest()))
    if factor is None or not 0 < number.value * factor <= at_most_m:
        raise NotThis("no such unit, not above zero, or too long")
    if number.other is not None and number.other * factor <= at_most_m:
        refuse_two_values(number)
    return number.value * factor
