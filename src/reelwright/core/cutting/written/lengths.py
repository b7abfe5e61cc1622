"""Lengths of cable as tables have them: exact to the millimetre, rounded to the safe side.

What is wanted is rounded up, what is there is rounded down, and a flaw outwards.
"""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from reelwright.core.cutting.problem import RemnantUse
from reelwright.core.errors import UnreadableQuantity
from reelwright.core.quantities.cursor import Doubt, NotThis, cursor_over
from reelwright.core.quantities.length_measure import take_measure
from reelwright.core.quantities.marks import MINUS

ACCEPTED = "a length with its unit, such as 3.06 m, 3060 mm or 10 ft"
_ACCEPTED_FLAWS = (
    "where each begins and ends, in metres from the free end, such as 12.2 to 12.4; 30 to 30.1"
)
_ACCEPTED_LOTS = "each lot once with how much longer, such as L2414 31 mm; L2416 -4 mm"
_ACCEPTED_USES = "lengths with the chance that each is used, such as 3 m 40 %, 7 m 90 %"
LONGEST_KM = 100
_LONGEST = LONGEST_KM * 10**6
"""In mm. No reel holds as much; a figure above it is a slip of the hand."""

_NUMBER = r"\d+(?:[.,]\d+)?"
_BARE = re.compile(_NUMBER)
_UNIT = r"[a-z]+|['\"′″]"
_FLAW = re.compile(
    rf"(?P<start>{_NUMBER})\s*(?P<one>{_UNIT})??\s*(?:\bto\b|[-–]|\s)\s*"
    rf"(?P<end>{_NUMBER})\s*(?P<other>{_UNIT})?",
    re.IGNORECASE,
)
_BETWEEN = re.compile(r"\s*(?:;|\n|\band\b)\s*")
_USE = re.compile(rf"\s*(?P<length>[^%]*\S)\s+(?P<chance>{_NUMBER})\s*%\s*(?:[,;]|$)")
_LONGER = re.compile(
    rf"(?P<lot>\S.*?)\s+(?P<sign>[-+{MINUS}]?)\s*(?P<length>{_NUMBER}\s*(?:{_UNIT})?)",
    re.IGNORECASE,
)
_SHARE = re.compile(rf"(?P<number>{_NUMBER})\s*%")


@dataclass(frozen=True, kw_only=True)
class WrittenFlaw:
    """A stretch that no piece may hold, from the free end of its reel."""

    start_mm: int
    end_mm: int


def up_mm(typed: str, unit: str) -> int:
    """Return a length above zero in whole mm, rounded up; ``unit`` counts where none is typed.

    Raises UnreadableQuantity, also for what can be read in two ways.
    """
    return math.ceil(_above_zero(typed, unit))


def down_mm(typed: str, unit: str) -> int:
    """Return a length of a millimetre or more in whole mm, rounded down, as ``up_mm`` reads it."""
    found = math.floor(_above_zero(typed, unit))
    if found == 0:
        raise _refusal(typed, f"{ACCEPTED}, of a millimetre or more")
    return found


def down_mm_or_none(typed: str, unit: str) -> int:
    """Return a length in whole mm, rounded down; 0 for nothing."""
    return math.floor(_exact(typed, unit))


def uncertainty_mm(typed: str, unit: str, *, length_mm: int) -> float:
    """Return a standard uncertainty in mm; a percentage is one of ``length_mm``."""
    text = typed.strip().removeprefix("±").strip()
    share = _SHARE.fullmatch(text)
    if share is not None:
        return float(_plain(share["number"]) / 100 * length_mm)
    try:
        return float(_exact(text, unit))
    except UnreadableQuantity as error:
        accepted = "a length such as 0.25 m, a share of the length such as 0.6 %, or 0"
        raise UnreadableQuantity(
            typed=typed, quantity="standard uncertainty", accepted=accepted
        ) from error


def flaws(typed: str, unit: str) -> tuple[WrittenFlaw, ...]:
    """Return the flaws of a reel in their order; none for nothing. Raises UnreadableQuantity."""
    found = []
    for part in _BETWEEN.split(typed.strip()) if typed.strip() else ():
        told = _FLAW.fullmatch(part)
        if told is None:
            raise _no_flaws(typed)
        behind = told["other"] or unit or "m"
        start = _exact_of(told["start"], told["one"] or behind, typed)
        end = _exact_of(told["end"], behind, typed)
        if start >= end:
            raise _no_flaws(typed)
        found.append(WrittenFlaw(start_mm=math.floor(start), end_mm=math.ceil(end)))
    return tuple(sorted(found, key=lambda flaw: (flaw.start_mm, flaw.end_mm)))


def remnant_uses(typed: str, unit: str) -> tuple[RemnantUse, ...]:
    """Return what remnants are used for, the shortest first. Raises UnreadableQuantity."""
    text = typed.strip()
    uses = sorted(_uses(text, unit), key=lambda use: use.at_least_mm)
    lengths = {use.at_least_mm for use in uses}
    if len(lengths) < len(uses):
        raise UnreadableQuantity(
            typed=typed, quantity="list with each length once", accepted=_ACCEPTED_USES
        )
    return tuple(uses)


def longer_by_lot(typed: str, unit: str) -> tuple[tuple[str, int], ...]:
    """Return (lot, mm longer) in the order written; what is shorter has a minus.

    Raises UnreadableQuantity, also for a lot that stands there twice.
    """
    found = []
    for part in re.split(r"\s*[;,]\s*", typed.strip()):
        told = _LONGER.fullmatch(part)
        if told is None:
            raise _no_lots(typed)
        sign = -1 if told["sign"] in ("-", MINUS) else 1
        try:
            more = math.ceil(sign * _exact(told["length"], unit))
        except UnreadableQuantity as error:
            raise _no_lots(typed) from error
        found.append((told["lot"], more))
    if len({lot for lot, _ in found}) < len(found):
        raise _no_lots(typed)
    return tuple(found)


def _no_lots(typed: str) -> UnreadableQuantity:
    return UnreadableQuantity(
        typed=typed, quantity="list of lengths by lot", accepted=_ACCEPTED_LOTS
    )


def _uses(text: str, unit: str) -> Iterator[RemnantUse]:
    at = 0
    while at < len(text):
        told = _USE.match(text, at)
        if told is None or _plain(told["chance"]) > 100:
            raise UnreadableQuantity(
                typed=text, quantity="use of remnants", accepted=_ACCEPTED_USES
            )
        yield RemnantUse(
            at_least_mm=up_mm(told["length"], unit), use_chance=float(_plain(told["chance"]) / 100)
        )
        at = told.end()


def _plain(number: str) -> Fraction:
    return Fraction(number.replace(",", "."))


def _no_flaws(typed: str) -> UnreadableQuantity:
    return UnreadableQuantity(typed=typed, quantity="list of flaws", accepted=_ACCEPTED_FLAWS)


def _exact_of(number: str, unit: str, typed: str) -> Fraction:
    try:
        return _exact(number, unit)
    except UnreadableQuantity as error:
        raise _no_flaws(typed) from error


def _above_zero(typed: str, unit: str) -> Fraction:
    found = _exact(typed, unit)
    if found <= 0:
        raise _refusal(typed, f"{ACCEPTED}, above zero")
    return found


def _exact(typed: str, unit: str) -> Fraction:
    text = typed.strip()
    if text == "0":
        return Fraction(0)
    if unit and _BARE.fullmatch(text):
        text = f"{text} {unit}"
    cursor = cursor_over(text, quantity="length", accepted=ACCEPTED)
    try:
        measure = take_measure(cursor)
    except Doubt as doubt:
        raise _refusal(typed, f"{ACCEPTED} ({doubt.question})") from doubt
    except NotThis as trouble:
        raise _refusal(typed, ACCEPTED) from trouble
    if measure is None or not cursor.at_end:
        raise _refusal(typed, ACCEPTED)
    found = measure.value_m * 1000
    if found > _LONGEST:
        raise _refusal(typed, f"{ACCEPTED}, up to {LONGEST_KM} km")
    return found


def _refusal(typed: str, accepted: str) -> UnreadableQuantity:
    return UnreadableQuantity(typed=typed, quantity="length", accepted=accepted)
