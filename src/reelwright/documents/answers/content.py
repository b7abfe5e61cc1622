"""One answer an order line, in a customer's words."""

import enum
from collections.abc import Iterable
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_text
from reelwright.documents.sheet import SheetMark


class AnswerKind(enum.StrEnum):
    """What became of the line."""

    ACCEPTED = "accepted"
    HELD = "held"
    REFUSED = "refused"


@dataclass(frozen=True, kw_only=True)
class Figure:
    """One number of an answer with its name ("to spare", "6.1 dB")."""

    name: str
    value: str

    def __post_init__(self) -> None:
        require_text(self, "name", "value")


@dataclass(frozen=True, kw_only=True)
class Answer:
    """One order line's answer. ``asked`` is what the customer wrote, word for word.

    ``reading`` is what we understood, and may be empty; ``sentence`` the answer; ``reasons`` say
    why; ``offers`` what would work instead; ``questions`` what we need to know. The sentence often
    is the first question or reason: ``further_questions`` and ``further_reasons`` are what it has
    not said yet. A held line without a question is refused when built.
    """

    order: str
    line: str
    customer: str
    kind: AnswerKind
    asked: str
    reading: str
    sentence: str
    reasons: tuple[str, ...]
    figures: tuple[Figure, ...]
    offers: tuple[str, ...]
    questions: tuple[str, ...]

    def __post_init__(self) -> None:
        require_text(self, "order", "line", "customer", "sentence")
        if self.kind is AnswerKind.HELD and not self.questions:
            raise BadValue(
                owner="Answer",
                field="questions",
                value=(),
                accepted="what the customer or the workshop must say before a held line moves",
            )
        if self.kind is AnswerKind.REFUSED and not self.reasons:
            raise BadValue(
                owner="Answer", field="reasons", value=(), accepted="why the line is refused"
            )

    @property
    def further_questions(self) -> tuple[str, ...]:
        """The questions that the sentence does not ask already."""
        return tuple(each for each in self.questions if not self._says(each))

    @property
    def further_reasons(self) -> tuple[str, ...]:
        """The reasons less what the sentence says already."""
        said = [each for each in self.questions if self._says(each)]
        left = (_without(reason, said) for reason in self.reasons if not self._says(reason))
        return tuple(reason for reason in left if reason)

    def _says(self, text: str) -> bool:
        return text.strip().rstrip(".").casefold() in self.sentence.casefold()


def _without(text: str, parts: Iterable[str]) -> str:
    for part in parts:
        text = text.replace(part, "")
    return text.strip()


@dataclass(frozen=True, kw_only=True)
class Answers:
    """All answers of the day, in the order they should be given."""

    mark: SheetMark
    sentence: str
    lead: str
    answers: tuple[Answer, ...]

    def __post_init__(self) -> None:
        require_text(self, "sentence")
