"""Numbers as people write them: 12, 3,05, 4 1/2, 4½, 3-1/2, twelve, twenty-five, one and a half.

number   := figures | words
figures  := NUMBER [ ["-"] fraction ] | fraction
fraction := NUMBER "/" NUMBER | FRACTION
words    := ( small | tens ["-" small] | ["a"] "hundred" ... ) [ "and" "a" "half" ] | "half" ["a"]
"""

from dataclasses import dataclass
from fractions import Fraction

from reelwright.core.quantities.cursor import Cursor, Doubt, NotThis
from reelwright.core.quantities.tokens import Kind, Token

_ONE_TO_NINETEEN = (
    "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen "
    "sixteen seventeen eighteen nineteen"
)
_TWENTY_TO_NINETY = "twenty thirty forty fifty sixty seventy eighty ninety"
_SMALL = {word: value for value, word in enumerate(_ONE_TO_NINETEEN.split(), start=1)}
_TENS = {word: value * 10 for value, word in enumerate(_TWENTY_TO_NINETY.split(), start=2)}
_LARGEST_DENOMINATOR = 64


@dataclass(frozen=True, kw_only=True)
class Number:
    """A number as written. ``other``: what else the same figures can mean (1,200)."""

    text: str
    value: Fraction
    other: Fraction | None
    dotted_group: bool
    is_fraction: bool

    def with_fraction(self, part: Fraction, *, text: str) -> "Number":
        """Return this whole number with a fraction behind it."""
        if self.value.denominator != 1 or self.other is not None or self.dotted_group:
            raise NotThis("a fraction follows a whole number only")
        return _plain(self.value + part, text=text, is_fraction=True)


def _plain(value: Fraction, *, text: str, is_fraction: bool = False) -> Number:
    return Number(text=text, value=value, other=None, dotted_group=False, is_fraction=is_fraction)


def _is_whole(token: Token | None) -> bool:
    return token is not None and token.kind is Kind.NUMBER and token.text.isdigit()


def _slashed_ahead(cursor: Cursor, ahead: int) -> bool:
    slash = cursor.peek(ahead + 1)
    return (
        _is_whole(cursor.peek(ahead))
        and slash is not None
        and slash.text == "/"
        and _is_whole(cursor.peek(ahead + 2))
    )


def _take_fraction(cursor: Cursor) -> tuple[Fraction, str] | None:
    token = cursor.take_kind(Kind.FRACTION)
    if token is not None and token.fraction is not None:
        return token.fraction, token.text
    if not _slashed_ahead(cursor, 0):
        return None
    top, _, bottom = (cursor.take().text for _ in range(3))
    text = f"{top}/{bottom}"
    if not 0 < int(bottom) <= _LARGEST_DENOMINATOR:
        raise NotThis(f"{text} is no fraction of a rule")
    if int(top) >= int(bottom):
        if len(top) == 1:
            raise Doubt(f"“{text}”: which number is meant?")
        raise Doubt(f"“{text}”: is it {top} divided by {bottom}, or {top[:-1]} {top[-1]}/{bottom}?")
    return Fraction(int(top), int(bottom)), text


def _take_figures(cursor: Cursor) -> Number | None:
    fraction = _take_fraction(cursor)
    if fraction is not None:
        return _plain(fraction[0], text=fraction[1], is_fraction=True)
    token = cursor.take_kind(Kind.NUMBER)
    if token is None or token.numeral is None:
        return None
    number = Number(
        text=token.text,
        value=token.numeral.value,
        other=token.numeral.other,
        dotted_group=token.numeral.dotted_group,
        is_fraction=False,
    )
    hyphen = cursor.peek()
    if hyphen is not None and hyphen.kind is Kind.HYPHEN:
        after = cursor.peek(1)
        if _slashed_ahead(cursor, 1) or (after is not None and after.kind is Kind.FRACTION):
            cursor.take()
    fraction = _take_fraction(cursor)
    if fraction is not None:
        return number.with_fraction(fraction[0], text=f"{number.text} {fraction[1]}")
    return number


def _take_small(cursor: Cursor) -> int | None:
    word = cursor.take_text(*_TENS)
    if word is None:
        word = cursor.take_text(*_SMALL)
        return None if word is None else _SMALL[word]
    value = _TENS[word]
    joined = cursor.peek(1)
    hyphen = cursor.peek()
    if hyphen is not None and hyphen.kind is Kind.HYPHEN and joined is not None:
        if joined.lower in _SMALL and _SMALL[joined.lower] < 10:
            cursor.take()
            return value + _SMALL[cursor.take().lower]
    elif hyphen is not None and hyphen.lower in _SMALL and _SMALL[hyphen.lower] < 10:
        return value + _SMALL[cursor.take().lower]
    return value


def _take_words(cursor: Cursor) -> Number | None:
    start = cursor.place
    if cursor.take_phrase([("half", "a"), ("half", "an"), ("a", "half"), ("half",)]):
        return _plain(Fraction(1, 2), text="half", is_fraction=True)
    total = 100 if cursor.take_phrase([("a", "hundred"), ("hundred",)]) else _take_small(cursor)
    if total is None:
        return None
    if total < 20 and cursor.take_text("hundred"):
        total *= 100
    if total >= 100:
        cursor.take_phrase([("and",)])
        total += _take_small(cursor) or 0
    value = Fraction(total)
    half = cursor.take_phrase([("and", "a", "half"), ("and", "one", "half")])
    if half is not None:
        value += Fraction(1, 2)
    text = " ".join(token.text for token in cursor.tokens[start : cursor.place])
    return _plain(value, text=text, is_fraction=half is not None)


def begins_number(token: Token | None) -> bool:
    """Return whether a number can begin with ``token``."""
    return token is not None and (
        token.kind in (Kind.NUMBER, Kind.FRACTION)
        or token.lower in _SMALL
        or token.lower in _TENS
        or token.lower in ("half", "hundred")
    )


def take_number(cursor: Cursor) -> Number | None:
    """Step past a number and return it, or None where no number stands here.

    Raises NotThis for a fraction that is none, Doubt for one that can be read in two ways (11/2).
    """
    return _take_figures(cursor) or _take_words(cursor)
