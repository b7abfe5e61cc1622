"""Where the typed text and the structured columns say different things, the line is held."""

import re
from collections.abc import Iterable

from reelwright.core.parts.colour import colour_words, colours_in
from reelwright.core.quantities.length_search import find_lengths
from reelwright.core.quantities.show import show_both
from reelwright.core.quantities.words import listed
from reelwright.core.signals.signal import Signal
from reelwright.shop.day.judging.stated_counts import counts_in
from reelwright.shop.day.judging.stated_place import harder_place, other_weekday
from reelwright.shop.day.judging.stated_words import other_cable, other_ends, other_signal
from reelwright.shop.orders.columns import ReadLine, Vocabulary

_NEAR_ENOUGH = 0.005
# "About 65 ft" for 20 m: as near as people say such things (common practice).
_NEAR_ENOUGH_ABOUT = 0.05
_ABOUT = re.compile(r"\babout\b|\bapprox|\broughly\b|\baround\b|\bcirca\b|~")
_MOST_STEPS = 12
# Colours of plating, and of what is put on a cable, are not those of its jacket.
_PLATINGS = frozenset({"GD", "SR"})
_OF_A_PART = re.compile(
    r"\b[a-z]+(?:\s+(?:and|or)\s+[a-z]+)?[ -](?:boots?|labels?|tags?|ends?|heat[- ]?shrink|sleeves?"
    r"|tape|rings?|plated)\b"
)


def disagreements(line: ReadLine, signal: Signal | None, vocabulary: Vocabulary) -> tuple[str, ...]:
    """Return a question for everything on which the typed text and the columns differ."""
    found = [
        None if signal is None else _signal(line, signal),
        _place(line),
        _length(line),
        _ends(line, vocabulary),
        _cable(line, vocabulary),
        _count(line),
        _colour(line),
        _weekday(line),
    ]
    return tuple(question for question in found if question is not None)


def _signal(line: ReadLine, signal: Signal) -> str | None:
    named = other_signal(line, signal)
    if named is None:
        return None
    return f"the message speaks of {named}, the order form of {signal.name}: which one is right?"


def _place(line: ReadLine) -> str | None:
    named = harder_place(line)
    if named is None:
        return None
    form = "names no place" if line.space is None else f"“{line.cells['space']}”"
    return f"the message speaks of “{named}”, the order form {form}: where does it lie?"


def _length(line: ReadLine) -> str | None:
    """A typed length agrees where it is the length of the column, or where the column is one typed
    length plus a whole multiple of another (a trunk and its breakouts, a route and its steps)."""
    typed = tuple(found.length_m for found in find_lengths(line.typed))
    near = _NEAR_ENOUGH_ABOUT if _ABOUT.search(line.typed.casefold()) else _NEAR_ENOUGH
    if not typed or _agrees(line.length_m, typed, near):
        return None
    named = ", ".join(show_both(length) for length in dict.fromkeys(typed))
    return (
        f"the message says {named}, the order form {show_both(line.length_m)}: which one is right?"
    )


def _agrees(wanted_m: float, typed: Iterable[float], near_enough: float) -> bool:
    lengths = tuple(typed)

    def near(length_m: float) -> bool:
        return abs(length_m - wanted_m) <= near_enough * wanted_m

    if any(near(length) for length in lengths):
        return True
    return any(
        near(first + steps * second)
        for first in lengths
        for second in lengths
        for steps in range(1, _MOST_STEPS + 1)
        if second < first
    )


def _ends(line: ReadLine, vocabulary: Vocabulary) -> str | None:
    named = other_ends(line, vocabulary)
    if not named:
        return None
    form = listed(dict.fromkeys((line.cells["end_a"], line.cells["end_b"])))
    return (
        f"the message speaks of {listed(word.upper() for word in named)}, the order form of "
        f"{form}: which plugs do the sockets take?"
    )


def _cable(line: ReadLine, vocabulary: Vocabulary) -> str | None:
    named = other_cable(line, vocabulary)
    if named is None:
        return None
    return f"the message names {named}, the order form “{line.cells['cable']}”: which one is right?"


def _count(line: ReadLine) -> str | None:
    stated = counts_in(line.typed)
    if not stated or line.quantity in stated:
        return None
    return (
        f"the message speaks of {' or '.join(str(each) for each in stated)}, the order form of "
        f"{line.quantity}: how many cables?"
    )


def _colour(line: ReadLine) -> str | None:
    text = _OF_A_PART.sub(" ", line.typed.casefold())
    named = [colour for colour in colours_in(text) if colour not in _PLATINGS]
    if not named or set(line.colours) & set(named):
        return None
    form = colour_words(dict.fromkeys(line.colours)) or "names no colour"
    return f"the message says {colour_words(named)}, the order form {form}: which one is right?"


def _weekday(line: ReadLine) -> str | None:
    days = other_weekday(line.typed, line.due)
    if days is None or line.due is None:
        return None
    return (
        f"the message says {days[0]}, but {line.due:%d %B %Y} is a {days[1]}: which day is right?"
    )
