"""A place in a row of tokens, and the two ways in which a grammar gives up."""

from collections.abc import Iterable

from reelwright.core.errors import UnreadableQuantity
from reelwright.core.quantities.tokens import (
    Kind,
    NotTokens,
    Token,
    tokenize,
    without_abbreviation_points,
)


class NotThis(ValueError):
    """The tokens do not make the quantity asked for."""


class Doubt(ValueError):
    """The tokens make more than one quantity: ``question`` asks the writer which."""

    def __init__(self, question: str) -> None:
        self.question = question
        super().__init__(question)


class Cursor:
    """Walks over tokens; every grammar of this folder is written with these few steps."""

    def __init__(self, tokens: Iterable[Token]) -> None:
        self.tokens = tuple(tokens)
        self.place = 0

    @property
    def at_end(self) -> bool:
        """True where nothing is left."""
        return self.place >= len(self.tokens)

    def peek(self, ahead: int = 0) -> Token | None:
        """Return the token ``ahead`` of this place, or None."""
        place = self.place + ahead
        return self.tokens[place] if place < len(self.tokens) else None

    def take(self) -> Token:
        """Return this token and step past it; raises NotThis at the end."""
        token = self.peek()
        if token is None:
            raise NotThis("the text ends too early")
        self.place += 1
        return token

    def take_kind(self, *kinds: Kind) -> Token | None:
        """Step past this token and return it where it is of one of ``kinds``, else None."""
        token = self.peek()
        return self.take() if token is not None and token.kind in kinds else None

    def take_text(self, *texts: str) -> str | None:
        """Step past this token where it reads as one of ``texts``, else None."""
        token = self.peek()
        if token is None or token.lower not in texts:
            return None
        return self.take().lower

    def take_phrase(self, phrases: Iterable[tuple[str, ...]]) -> tuple[str, ...] | None:
        """Step past the longest of ``phrases`` that stands here and return it, else None."""
        token = self.peek()
        if token is None:
            return None
        first = token.lower
        likely = [phrase for phrase in phrases if phrase[0] == first]
        for phrase in sorted(likely, key=len, reverse=True):
            here = self.tokens[self.place : self.place + len(phrase)]
            if tuple(token.lower for token in here) == phrase:
                self.place += len(phrase)
                return phrase
        return None

    def rest(self) -> tuple[Token, ...]:
        """Return what is left, and step to the end."""
        left = self.tokens[self.place :]
        self.place = len(self.tokens)
        return left


def cursor_over(typed: str, *, quantity: str, accepted: str) -> Cursor:
    """Return a cursor over ``typed``. Raises UnreadableQuantity for empty or foreign text."""
    try:
        tokens = without_abbreviation_points(tokenize(typed))
    except NotTokens as trouble:
        raise UnreadableQuantity(typed=typed, quantity=quantity, accepted=accepted) from trouble
    if not tokens:
        raise UnreadableQuantity(typed=typed, quantity=quantity, accepted=accepted)
    return Cursor(tokens)
