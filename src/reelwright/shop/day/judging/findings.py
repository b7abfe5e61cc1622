"""What is gathered while a line is judged, before it becomes an answer."""

import enum
from dataclasses import dataclass, field

from reelwright.core.signals.judgement import Judgement
from reelwright.core.verdicts import Check
from reelwright.shop.orders.answer import ExpectedRow, Make, Offer, PriceRow


class Weight(enum.IntEnum):
    """How much an answer to a question may change: the smallest is asked first.

    Most valuable first (common practice, no published source): what the cable carries decides
    all else, then whether it may lie there and reach, then what was meant, then the rest.
    """

    SIGNAL = 0
    RUN = 1
    MEANT = 2
    ENDS = 3
    DETAIL = 4
    DATE = 5


@dataclass(kw_only=True)
class Findings:
    """Refusals, questions, notes and numbers of one line, in the order they were found.

    ``other_ways``: what to ask when it is refused, to find another way; ``not_as_asked``: it can
    only be made otherwise, so that it has no price as it stands.
    """

    refusals: list[str] = field(default_factory=list)
    asked: list[tuple[Weight, str]] = field(default_factory=list)
    other_ways: list[str] = field(default_factory=list)
    not_as_asked: bool = False
    notes: list[str] = field(default_factory=list)
    offers: list[Offer] = field(default_factory=list)
    checks: list[Check] = field(default_factory=list)
    expected: list[ExpectedRow] = field(default_factory=list)
    judgement: Judgement | None = None
    price: PriceRow | None = None
    make: Make | None = None

    def ask(self, question: str, weight: Weight = Weight.DETAIL) -> None:
        """Add a question for the customer."""
        self.asked.append((weight, question))

    @property
    def questions(self) -> list[str]:
        """The questions, the most valuable first, each once."""
        ordered = sorted(self.asked, key=lambda each: each[0])
        return list(dict.fromkeys(question for _, question in ordered))
