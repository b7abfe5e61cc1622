"""Jacket colours: the letters of IEC 60757 and the words that customers write for them."""

from reelwright.core.errors import UnknownCode

# IEC 60757:2021, code for designation of colours (letters from memory).
COLOUR_NAMES: dict[str, str] = {
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
    "TQ": "turquoise",
}

_SPELLINGS = {name: letters for letters, name in COLOUR_NAMES.items()} | {
    "gray": "GY",
    "purple": "VT",
}


def read_colour(typed: str) -> str:
    """Return the IEC 60757 letters for a colour as typed: ``black``, ``BK`` or ``Gray``.

    Raises UnknownCode, naming every colour there is.
    """
    text = typed.strip()
    if text.upper() in COLOUR_NAMES:
        return text.upper()
    letters = _SPELLINGS.get(text.casefold())
    if letters is None:
        raise UnknownCode(kind="colour", code=typed, near=COLOUR_NAMES.values())
    return letters
