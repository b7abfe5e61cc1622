"""The space column: what people write for the place a run lies in."""

from reelwright.core.parts.fire_reaction import read_reaction
from reelwright.core.parts.jacket import JacketClass, Space
from reelwright.core.parts.type_marks import level_of
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
    Space.OUTDOORS: ("outdoors", "outside", "outdoor"),
    Space.BURIED: ("buried", "in the ground", "direct burial"),
}

SPACES = {word: space for space, words in _WORDS.items() for word in words}
ACCEPTED = (
    ", ".join(words[0] for words in _WORDS.values())
    + ", room, rack, studio, stage, a type mark (CMP, CL3R, …) or a reaction-to-fire class "
    "(Cca-s1b,d1,a1)"
)
_OF_LEVEL = {
    JacketClass.LIMITED: Space.FREE,
    JacketClass.GENERAL: Space.IN_WALL,
    JacketClass.RISER: Space.RISER_SHAFT,
    JacketClass.PLENUM: Space.AIR_HANDLING,
}


def read_space(typed: str) -> Place | None:
    """Return the place, or None where the words are not known.

    A type mark stands for the space that asks for its level; a reaction-to-fire class is what the
    building asks for.
    """
    words = " ".join(typed.split()).casefold()
    level = level_of(words.removesuffix(" rated"))
    if level is not None:
        return _OF_LEVEL[level]
    return SPACES.get(words) or read_reaction(words)
