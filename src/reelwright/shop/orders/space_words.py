"""The space column: what people write for the place a run lies in."""

from reelwright.core.parts.jacket import Space

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
ACCEPTED = ", ".join(words[0] for words in _WORDS.values()) + ", room, rack, studio, stage"


def read_space(typed: str) -> Space | None:
    """Return the space, or None where the words are not known."""
    return SPACES.get(" ".join(typed.split()).casefold())
