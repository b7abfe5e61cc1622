"""Jacket colours by their letters.

Letter codes: IEC 60757 (from memory; ten of them seen in public code lists).
"""

from collections.abc import Iterable

from reelwright.core.quantities.words import listed

COLOUR_NAMES = {
    "BK": "black",
    "BN": "brown",
    "RD": "red",
    "OG": "orange",
    "YE": "yellow",
    "GN": "green",
    "BU": "blue",
    "VT": "violet",
    "GY": "grey",
    "WH": "white",
    "PK": "pink",
    "GD": "gold",
    "TQ": "turquoise",
    "SR": "silver",
}

_SPELLINGS = {name: letters for letters, name in COLOUR_NAMES.items()} | {
    "gray": "GY",
    "purple": "VT",
}


def read_colour(typed: str) -> str | None:
    """Return the letters of a colour typed as its name or its letters; None where it is neither."""
    wanted = typed.strip()
    if wanted.upper() in COLOUR_NAMES:
        return wanted.upper()
    return _SPELLINGS.get(wanted.casefold())


def colours_in(text: str) -> tuple[str, ...]:
    """Return the letters of every colour named in running text, in order, each once."""
    words = "".join(c if c.isalpha() else " " for c in text.casefold()).split()
    return tuple(dict.fromkeys(_SPELLINGS[word] for word in words if word in _SPELLINGS))


def colour_words(letters: Iterable[str]) -> str:
    """Return colours by their letters in words: "red, green and blue"; others stay as they are."""
    return listed(COLOUR_NAMES.get(each, each) for each in letters)
