"""Typed text cut into tokens: the one tokenizer under every reader of this folder."""

import enum
from dataclasses import dataclass
from fractions import Fraction

from reelwright.core.quantities.numerals import Numeral, read_numeral, vulgar_fraction

LONGEST_TEXT = 200


class Kind(enum.Enum):
    """What a token is."""

    NUMBER = "number"
    FRACTION = "fraction"
    WORD = "word"
    FOOT_MARK = "foot mark"
    INCH_MARK = "inch mark"
    HYPHEN = "hyphen"
    MINUS = "minus"
    SIGN = "sign"
    TIMES = "times"


@dataclass(frozen=True, kw_only=True)
class Token:
    """One token. ``lower`` is how the grammars compare it; ``glued``: no space stands before it."""

    kind: Kind
    text: str
    glued: bool
    numeral: Numeral | None = None
    fraction: Fraction | None = None

    @property
    def lower(self) -> str:
        """The text in small letters."""
        return self.text.lower()


class NotTokens(ValueError):
    """The text holds something no quantity is written with."""


_FOOT_MARKS = frozenset("'′’‘´`ʹ")
_INCH_MARKS = frozenset('"″”“„ʺ')
_ALONE = {
    "×": (Kind.TIMES, "×"),
    "✕": (Kind.TIMES, "×"),
    "−": (Kind.MINUS, "−"),
    **dict.fromkeys("-‐‑‒–—", (Kind.HYPHEN, "-")),
}
_LETTER_LIKE = frozenset("°%‰€£$#µ")
_SIGNS = frozenset("/+±~≈(),;:.²^@?*&=<>·⋅\N{FRACTION SLASH}")
_AS_SIGN = {"\N{FRACTION SLASH}": "/", "⋅": "·", "≈": "~"}
_MARK_LENGTH = 2


def _is_digit(char: str) -> bool:
    # str.isdigit also takes superscripts and the digits of other scripts.
    return char.isascii() and char.isdigit()


def _end_of_number(text: str, start: int) -> int:
    end = start + 1
    while end < len(text):
        char = text[end]
        after = text[end + 1 : end + 2]
        if not (_is_digit(char) or (char in ".," and _is_digit(after))):
            break
        end += 1
    return end


def _end_of_word(text: str, start: int) -> int:
    end = start + 1
    while end < len(text) and text[end].isalpha():
        end += 1
    return end


def _mark(text: str, start: int) -> tuple[Kind, int] | None:
    char = text[start]
    if char in _INCH_MARKS:
        return Kind.INCH_MARK, start + 1
    if char in _FOOT_MARKS:
        if text[start + 1 : start + 2] == char:
            return Kind.INCH_MARK, start + _MARK_LENGTH
        return Kind.FOOT_MARK, start + 1
    return None


def _number(text: str, start: int, *, glued: bool) -> tuple[Token, int]:
    end = _end_of_number(text, start)
    numeral = read_numeral(text[start:end])
    if numeral is None:
        raise NotTokens(text[start:end])
    return Token(kind=Kind.NUMBER, text=text[start:end], glued=glued, numeral=numeral), end


def _word(text: str, start: int) -> tuple[Kind, str, int]:
    end = _end_of_word(text, start) if text[start].isalpha() else start + 1
    word = text[start:end]
    return (Kind.TIMES, "×", end) if word.lower() == "x" else (Kind.WORD, word, end)


def _kind_text_end(text: str, start: int) -> tuple[Kind, str, int]:
    char = text[start]
    marked = _mark(text, start)
    if marked is not None:
        return marked[0], text[start : marked[1]], marked[1]
    if char in _ALONE:
        return *_ALONE[char], start + 1
    if char.isalpha() or char in _LETTER_LIKE:
        return _word(text, start)
    if char in _SIGNS:
        return Kind.SIGN, _AS_SIGN.get(char, char), start + 1
    raise NotTokens(char)


def _one_token(text: str, start: int, *, glued: bool) -> tuple[Token, int]:
    char = text[start]
    if _is_digit(char) or (char == "." and _is_digit(text[start + 1 : start + 2])):
        return _number(text, start, glued=glued)
    fraction = vulgar_fraction(char)
    if fraction is not None:
        return Token(kind=Kind.FRACTION, text=char, glued=glued, fraction=fraction), start + 1
    kind, written, end = _kind_text_end(text, start)
    return Token(kind=kind, text=written, glued=glued), end


def tokenize(text: str) -> tuple[Token, ...]:
    """Return the tokens of ``text``. Raises NotTokens for what no quantity is written with."""
    if len(text) > LONGEST_TEXT:
        raise NotTokens(f"{len(text)} characters")
    tokens: list[Token] = []
    place, glued = 0, False
    while place < len(text):
        if text[place].isspace():
            place, glued = place + 1, False
            continue
        token, place = _one_token(text, place, glued=glued)
        glued = True
        tokens.append(token)
    return tuple(tokens)


def without_abbreviation_points(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the tokens without the point that ends an abbreviation ("ft.") or a sentence."""
    return tuple(
        token
        for place, token in enumerate(tokens)
        if not (
            token.text == "."
            and place > 0
            and (tokens[place - 1].kind is Kind.WORD or place == len(tokens) - 1)
        )
    )
