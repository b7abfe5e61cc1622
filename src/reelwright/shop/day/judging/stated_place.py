"""What a customer's sentence says of place, heat and day, beside the columns that decide."""

import datetime as dt
import re

from reelwright.core.parts.fire_reaction import ReactionToFire, find_reaction
from reelwright.core.parts.jacket import Space, class_needed, may_stand_in
from reelwright.core.parts.type_marks import TypeMark, find_mark, mark_may_replace
from reelwright.core.signals.space import Place
from reelwright.shop.day.judging.run_judged import ROOM_CELSIUS
from reelwright.shop.orders.columns import ReadLine

# What a loft or a roof void reaches in summer (common practice, no published source).
HOT_PLACE_CELSIUS = 40.0

_PLACES = (
    (Space.BURIED, r"\bburied\b|\bburial\b|\bunderground\b|\bin the (?:ground|soil|earth)\b"),
    (
        Space.OUTDOORS,
        r"\boutdoors?\b|\boutside(?! (?:broadcast|diameter|world))\b|\bin the (?:rain|sun)\b",
    ),
    (Space.ESCAPE_ROUTE, r"\b(?:escape|evacuation)[- ]route\b|\bfire escape\b"),
    (Space.WET, r"\bwet (?:place|location|duct|conduit)\b"),
    (Space.AIR_HANDLING, r"\bplenum\b|\bair[- ](?:handling|return)\b|\breturn[- ]air\b"),
    (Space.RISER_SHAFT, r"\briser\b"),
    (Space.IN_WALL, r"\bin[- ]wall\b|\bin(?:side)? (?:a|the) wall\b"),
)
_DEGREES = re.compile(r"(\d{2,3}(?:[.,]\d)?)\s*(?:°|deg(?:rees?)?)\s*(c|f)\b")
_HOT = re.compile(r"\b(?:roof void|loft|attic|boiler room|engine room|hot (?:void|roof|ceiling))\b")
_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_DAY = re.compile(rf"\b(?:by|on|for|before)\s+({'|'.join(_DAYS)})\b")


def harder_place(line: ReadLine) -> Place | None:
    """Return a place, mark or class in the text that asks more of the jacket than the column does.

    Plenum cable is bought for other places too, so that a stricter column is no disagreement.
    """
    reaction, mark = find_reaction(line.typed), find_mark(line.typed)
    if reaction is not None and not _covers(line.space, reaction):
        return reaction
    if mark is not None and not _answers(line.space, mark):
        return mark
    text = line.typed.casefold()
    for space, words in _PLACES:
        if re.search(words, text):
            return space if _asks_more(space, line.space) else None
    return None


def _covers(column: Place | None, named: ReactionToFire) -> bool:
    return isinstance(column, ReactionToFire) and column.covers(named)


def _answers(column: Place | None, named: TypeMark) -> bool:
    if isinstance(column, TypeMark):
        return mark_may_replace(column.text, named.text)
    needed = class_needed(column) if isinstance(column, Space) else None
    return needed is not None and may_stand_in(needed, named.level)


def _asks_more(space: Space, column: Place | None) -> bool:
    if space is column:
        return False
    if isinstance(column, ReactionToFire | TypeMark):
        # A class says what the building asks for; the sentence only names the place.
        return False
    needed = class_needed(space)
    stated = None if column is None else class_needed(column)
    if needed is None or stated is None:
        return True
    return not may_stand_in(stated, needed)


def place_celsius(typed: str) -> tuple[float, str | None]:
    """Return the temperature [°C] to judge at and the words it was read from, None: none named."""
    text = typed.casefold()
    found = _DEGREES.search(text)
    if found is not None:
        degrees = float(found[1].replace(",", "."))
        scale = found[2].upper()
        return (degrees if scale == "C" else (degrees - 32) / 1.8), f"{found[1]} °{scale}"
    hot = _HOT.search(text)
    return (ROOM_CELSIUS, None) if hot is None else (HOT_PLACE_CELSIUS, hot[0])


def run_celsius(line: ReadLine) -> float:
    """Return the temperature [°C] to judge a line at: its column, else its words, else a room."""
    return place_celsius(line.typed)[0] if line.warmest_celsius is None else line.warmest_celsius


def other_weekday(typed: str, due: dt.date | None) -> tuple[str, str] | None:
    """Return the weekday that the text names and the one of the due date, where they differ."""
    found = _DAY.search(typed.casefold())
    if found is None or due is None or _DAYS[due.weekday()] == found[1]:
        return None
    return found[1].capitalize(), _DAYS[due.weekday()].capitalize()
