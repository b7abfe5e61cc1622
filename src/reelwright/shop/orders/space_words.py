"""The space column: what people write for the place a run lies in."""

from reelwright.core.parts.fire_reaction import read_reaction
from reelwright.core.parts.jacket import Space
from reelwright.core.parts.type_marks import read_mark
from reelwright.core.signals.space import Place

_WORDS = {
    Space.FREE: (
        "in the open",
        "open",
        "indoors",
        "room",
        "between racks",
        "rack",
        "studio",
        "stage",
    ),
    Space.IN_WALL: ("in wall", "in a wall", "in-wall", "wall"),
    Space.RISER_SHAFT: ("riser", "riser shaft", "shaft"),
    Space.AIR_HANDLING: (
        "plenum",
        "air-handling space",
        "air handling space",
        "air-return ceiling",
        "air return ceiling",
        "above an air-return ceiling",
    ),
    Space.ESCAPE_ROUTE: ("escape route", "escape-route", "fire escape", "way out"),
    Space.OUTDOORS: ("outdoors", "outside", "outdoor"),
    Space.WET: ("wet place", "wet", "wet location", "wet duct", "duct in the ground"),
    Space.BURIED: ("buried", "in the ground", "direct burial"),
}

SPACES = {word: space for space, words in _WORDS.items() for word in words}
ACCEPTED = (
    ", ".join(words[0] for words in _WORDS.values())
    + ", room, rack, studio, stage, a type mark (CMP, CL3R, …) or a reaction-to-fire class "
    "(Cca-s1b,d1,a1)"
)


def read_space(typed: str) -> Place | None:
    """Return the place, or None where the words are not known.

    A type mark, or a reaction-to-fire class, is what the building asks for.
    """
    words = " ".join(typed.split()).casefold().removeprefix("class ")
    return SPACES.get(words) or read_mark(words) or read_reaction(words)
