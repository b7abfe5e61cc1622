"""Numbers of the bench as they are typed or stand in a file: ``271``, ``1.853``, ``2,8``, ``-0.5``.

An instrument shows decimals after a point, so a point is never a thousand mark here. A comma is a
decimal comma, and one that could be a thousand mark (``1,853``) is asked about.
"""

import re

from reelwright.core.errors import UnreadableQuantity
from reelwright.core.quantities.marks import MINUS
from reelwright.core.quantities.numerals import read_numeral

ACCEPTED = "a number such as 271, 1.853 or 2,8"
_FIGURES = re.compile(r"[0-9]*[.,]?[0-9]+")
_LONGEST = 20
_BETWEEN = re.compile(r"[\s;]+")


def read_plain_number(typed: str, *, unit: str = "") -> float:
    """Return the number typed, in ``unit`` (which may stand behind it).

    Raises UnreadableQuantity, also for what can be read in two ways.
    """
    found = read_plain_numbers(typed, unit=unit)
    if len(found) != 1:
        raise UnreadableQuantity(typed=typed, quantity="single number", accepted=ACCEPTED)
    return found[0]


def read_plain_numbers(typed: str, *, unit: str = "") -> tuple[float, ...]:
    """Return the numbers typed with spaces or semicolons between them, all in ``unit``.

    The unit may stand behind each. Empty text holds none. Raises UnreadableQuantity.
    """
    parts = [part for part in _BETWEEN.split(typed.strip()) if part]
    numbers = [
        part.removesuffix(unit) if unit and part != unit else part
        for part in parts
        if not unit or part != unit
    ]
    return tuple(_number(part, typed) for part in numbers)


def _number(part: str, typed: str) -> float:
    sign, figures = 1.0, part
    if figures[:1] in ("-", MINUS, "+"):
        sign = 1.0 if figures[0] == "+" else -1.0
        figures = figures[1:]
    if len(figures) > _LONGEST or not _FIGURES.fullmatch(figures):
        raise UnreadableQuantity(typed=typed, quantity="number", accepted=ACCEPTED)
    if "," not in figures:
        return sign * float(figures)
    numeral = read_numeral(figures if figures[0] != "," else f"0{figures}")
    if numeral is None or numeral.other is not None:
        raise UnreadableQuantity(
            typed=typed,
            quantity="number that reads in one way only",
            accepted=f"{figures.replace(',', '.')} or {figures.replace(',', '')}",
        )
    return sign * float(numeral.value)
