"""Forces as a pull tester shows them and people write them: 194 N, 0,194 kN, 43.6 lbf, 19.8 kgf.

force := number unit
"""

from fractions import Fraction

from reelwright.core.errors import UnreadableQuantity
from reelwright.core.quantities.cursor import Cursor, Doubt, NotThis, cursor_over
from reelwright.core.quantities.number_grammar import take_number
from reelwright.core.quantities.reading import Reading, refuse_two_values
from reelwright.core.quantities.tokens import Kind

ACCEPTED = "a force above zero with its unit, such as 194 N, 43.6 lbf or 19.8 kgf"

# The pound is 0.45359237 kg and standard gravity 9.80665 m/s², both exact by definition
# (NIST SP 811, appendix B).
_GRAVITY = Fraction(980665, 100000)
_POUND = Fraction(45359237, 100000000)
_FORCES = {
    spelling: scale
    for scale, spellings in (
        (Fraction(1), ("n", "newton", "newtons")),
        (Fraction(1000), ("kn", "kilonewton", "kilonewtons")),
        # A force gauge that shows pounds shows pounds of force.
        (_POUND * _GRAVITY, ("lbf", "lb", "lbs", "pound", "pounds", "poundforce")),
        (_GRAVITY, ("kgf", "kp")),
    )
    for spelling in spellings
}
_MASSES = frozenset(["kg", "kgs", "kilo", "kilos", "kilogram", "kilograms"])


def read_force(typed: str) -> Reading[float]:
    """Read a force into N. Raises UnreadableQuantity for what is no force above zero.

    A number without its unit, and kilograms (a mass, or a force in kgf?), come back with a
    question.
    """
    cursor = cursor_over(typed, quantity="force", accepted=ACCEPTED)
    try:
        return Reading(typed=typed, value=float(_take_force(cursor)), unit="N", question=None)
    except Doubt as doubt:
        return Reading(typed=typed, value=None, unit="N", question=doubt.question)
    except NotThis as trouble:
        raise UnreadableQuantity(typed=typed, quantity="force", accepted=ACCEPTED) from trouble


def _take_force(cursor: Cursor) -> Fraction:
    number = take_number(cursor)
    if number is None:
        raise NotThis("no number")
    refuse_two_values(number)
    if number.dotted_group:
        whole = number.text.replace(".", "")
        raise Doubt(f"“{number.text}”: is it {whole} or {float(number.value):g}?")
    after = cursor.peek()
    if after is None:
        raise Doubt(f"“{number.text}”: in which unit (N, lbf, kgf)?")
    if after.kind is Kind.NUMBER:
        raise Doubt(f"“{number.text} {after.text}”: is that one number or two?")
    spelling = "".join(token.lower for token in cursor.rest()).replace("-", "")
    if spelling in _MASSES:
        raise Doubt(f"“{number.text} {spelling}”: kilograms of force (kgf)?")
    factor = _FORCES.get(spelling)
    if factor is None or number.value <= 0:
        raise NotThis("no such unit, or not above zero")
    return number.value * factor
