"""When a length that reads well must be asked about all the same."""

from fractions import Fraction

from reelwright.core.quantities.convert import LENGTH_IN_M
from reelwright.core.quantities.length_grammar import LengthExpression
from reelwright.core.quantities.length_measure import Measure
from reelwright.core.quantities.marks import NARROW_SPACE

# Common practice, no published source: route + 10 % + a service loop at both ends, of up to 1 m
# each, and as much again before a length looks wrong; a route is known to some 2 %.
_TOO_SHORT = 0.98
_TOO_LONG = 1.25
_LOOPS_M = 2.0
# Marks for feet and inches are confused at once, and 24 inches is where a lead between two
# places that have names stops being likely.
_LIKELY_INCHES_M = 0.61
_SHORTEST_M = 0.01
_LONGEST_M = 2000.0


def _metres(length_m: Fraction | float) -> str:
    return f"{float(length_m):.6g}{NARROW_SPACE}m"


def _feet(length_m: Fraction) -> str:
    return f"{float(length_m / LENGTH_IN_M['ft']):.4g}{NARROW_SPACE}ft"


def _read_back(measure: Measure) -> str:
    metres = "" if str(measure) == _metres(measure.value_m) else f" is {_metres(measure.value_m)}"
    return f"“{measure}”{metres}"


def _count_doubt(expression: LengthExpression) -> str | None:
    measure, count = expression.measure, expression.count
    if expression.in_all:
        share = "" if count is None else f", which is {_metres(measure.value_m / count)} each"
        return f"“{measure}” in all{share}: how long shall each cable be?"
    if count is not None and count > 1 and expression.counted_apart and not expression.each:
        return (
            f"“{measure}” and {count} cables: is {measure} the length of each, or of all together?"
        )
    return None


def _unit_doubt(
    expression: LengthExpression, route: str | None, unit_used_before: str | None
) -> str | None:
    measure = expression.measure
    first = measure.terms[0]
    if unit_used_before is not None and first.unit.family != unit_used_before:
        now, before = ("metres", "feet") if unit_used_before == "ft" else ("feet", "metres")
        other = _feet(measure.value_m) if unit_used_before == "ft" else _metres(measure.value_m)
        return f"“{measure}” is {other}; you wrote {before} before: is it {now} this time?"
    inches_only = first.unit.unit == "in" and len(measure.terms) == 1
    if route is not None and route.strip() and inches_only and measure.value_m < _LIKELY_INCHES_M:
        number = first.number.text
        return f"{number} inches ({_metres(measure.value_m)}) or {number} feet, {route.strip()}?"
    return None


def _size_doubt(expression: LengthExpression, expected_m: float | None) -> str | None:
    measure = expression.measure
    length_m = float(measure.value_m)
    if expected_m is not None:
        longest_m = expected_m * _TOO_LONG + _LOOPS_M
        if expected_m * _TOO_SHORT <= length_m <= longest_m:
            return None
        question = f"{_read_back(measure)}, but the route is {_metres(expected_m)}"
        first = measure.terms[0]
        for unit in ("m", "ft", "in", "cm"):
            other_m = float(first.number.value * LENGTH_IN_M[unit])
            if unit != first.unit.unit and expected_m * _TOO_SHORT <= other_m <= longest_m:
                return f"{question}: is {first.number.text} {unit} meant?"
        digits = first.number.text
        near_m = [
            float(Fraction(digits) / 10 * LENGTH_IN_M[unit])
            for unit in ("m", "ft")
            if digits.endswith("0") and digits.isdigit()
        ]
        if any(expected_m * _TOO_SHORT <= value_m <= longest_m for value_m in near_m):
            return f"{question}: is there a digit too many?"
        return f"{question}: which one is right?"
    if not _SHORTEST_M <= length_m <= _LONGEST_M:
        return f"{_read_back(measure)}, for one cable: is that meant?"
    return None


def doubt_in_context(
    expression: LengthExpression,
    *,
    route: str | None,
    unit_used_before: str | None,
    expected_m: float | None,
) -> str | None:
    """Return the question to ask about a length that reads well, or None where nothing is odd."""
    return (
        _count_doubt(expression)
        or _unit_doubt(expression, route, unit_used_before)
        or _size_doubt(expression, expected_m)
    )
