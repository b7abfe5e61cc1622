"""Words that answers, papers and pages of the day share."""

from collections.abc import Iterable

from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.core.quantities.constants import FOOT_M

SPACE = "\u202f"
MINUS = "\u2212"


def both_units(length_m: float) -> str:
    """Return a length as both customers and benches read it: 7.62 m (25 ft)."""
    metres = f"{length_m:,.3f}".rstrip("0").rstrip(".")
    feet = f"{length_m / FOOT_M:,.2f}".rstrip("0").rstrip(".")
    return f"{metres}{SPACE}m ({feet}{SPACE}ft)"


def metres(length_mm: int, *, digits: int = 3) -> str:
    """Return millimetres as metres with ``digits`` decimals."""
    return f"{length_mm / 1000:,.{digits}f}{SPACE}m"


def colour_words(letters: Iterable[str]) -> str:
    """Return colours in words: red, green and blue."""
    names = [COLOUR_NAMES.get(each, each) for each in letters]
    return listed(names)


def listed(words: Iterable[str]) -> str:
    """Return words as a list in a sentence."""
    found = list(words)
    if len(found) < 2:
        return "".join(found)
    return f"{', '.join(found[:-1])} and {found[-1]}"


def sentence(text: str) -> str:
    """Return text as a sentence: a capital in front, a full stop behind."""
    text = text.strip()
    if not text:
        return text
    head = text[0].upper() + text[1:]
    return head if head[-1] in ".?!…" else f"{head}."


def counted(number: int, noun: str, plural: str | None = None) -> str:
    """Return a number with its noun: 1 cable, 4 cables."""
    return f"{number} {noun if number == 1 else plural or noun + 's'}"


def digits_of(value: float, *, significant: int = 3) -> str:
    """Return a number with ``significant`` digits, never in powers of ten, with a real minus."""
    if value == 0:
        return "0"
    import math

    decimals = max(0, significant - 1 - math.floor(math.log10(abs(value))))
    return f"{value:,.{min(decimals, 6)}f}".replace("-", MINUS)
