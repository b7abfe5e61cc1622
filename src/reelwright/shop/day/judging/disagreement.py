"""Where the typed text and the structured columns say different things, the line is held."""

import re
from collections.abc import Iterable

from reelwright.core.parts.colour import colours_in
from reelwright.core.quantities.length_search import find_lengths
from reelwright.shop.day.words import both_units, colour_words
from reelwright.shop.orders.columns import ReadLine

_NEAR_ENOUGH = 0.005
_MOST_STEPS = 12


def disagreements(line: ReadLine) -> tuple[str, ...]:
    """Return a question for everything on which the typed text and the columns differ.

    A typed length agrees where it is the length of the column, or where the column is one typed
    length plus a whole multiple of another (a trunk and its breakouts, a route and its steps).
    """
    questions = []
    typed = tuple(found.length_m for found in find_lengths(line.typed))
    if typed and not _agrees(line.length_m, typed):
        named = ", ".join(both_units(length) for length in dict.fromkeys(typed))
        questions.append(
            f"the message says {named}, the order form {both_units(line.length_m)}: "
            "which one is right?"
        )
    named_colours = colours_in(line.typed)
    if line.colours and named_colours and not set(line.colours) & set(named_colours):
        questions.append(
            f"the message says {colour_words(named_colours)}, the order form "
            f"{colour_words(dict.fromkeys(line.colours))}: which one is right?"
        )
    stated = _counts_in(line.typed)
    if stated and line.quantity not in stated:
        questions.append(
            f"the message speaks of {' or '.join(str(each) for each in stated)}, the order form of "
            f"{line.quantity}: how many cables?"
        )
    return tuple(questions)


def _agrees(wanted_m: float, typed: Iterable[float]) -> bool:
    lengths = tuple(typed)

    def near(length_m: float) -> bool:
        return abs(length_m - wanted_m) <= _NEAR_ENOUGH * wanted_m

    if any(near(length) for length in lengths):
        return True
    return any(
        near(first + steps * second)
        for first in lengths
        for second in lengths
        for steps in range(1, _MOST_STEPS + 1)
        if second < first
    )


def _counts_in(text: str) -> tuple[int, ...]:
    """Numbers of cables that the text states before a times sign: 6 × 85 ft, 4 x 25 ft."""
    return tuple(int(each) for each in re.findall(r"(?<![\w.])(\d{1,3})\s*[×x]\s*(?=\d)", text))
