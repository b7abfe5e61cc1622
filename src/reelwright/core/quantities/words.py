"""Counts, lists and sentences: words that every room's text shares."""

from collections.abc import Iterable


def counted(number: int, noun: str, plural: str | None = None) -> str:
    """Return a count (1) with its noun: "1 cable", "4 cables", "2 batches"."""
    return f"{number} {noun if number == 1 else plural or noun + 's'}"


def listed(words: Iterable[str]) -> str:
    """Return words as a list in a sentence: "a, b and c"."""
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


def with_article(noun: str) -> str:
    """Return a noun with its indefinite article: "a coax", "an insulation displacement"."""
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"
