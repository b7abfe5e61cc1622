"""What is gathered while a line is judged, before it becomes an answer."""

from dataclasses import dataclass, field

from reelwright.core.signals.judgement import Judgement
from reelwright.core.verdicts import Check
from reelwright.shop.orders.answer import ExpectedRow, Make, Offer, PriceRow


@dataclass(kw_only=True)
class Findings:
    """Refusals, questions, notes and numbers of one line, in the order they were found.

    ``other_ways``: what to ask when it is refused, to find another way; ``not_as_asked``: it can
    only be made otherwise, so that it has no price as it stands.
    """

    refusals: list[str] = field(default_factory=list)
    questions: list[str] = field(default_factory=list)
    other_ways: list[str] = field(default_factory=list)
    not_as_asked: bool = False
    notes: list[str] = field(default_factory=list)
    offers: list[Offer] = field(default_factory=list)
    checks: list[Check] = field(default_factory=list)
    expected: list[ExpectedRow] = field(default_factory=list)
    judgement: Judgement | None = None
    price: PriceRow | None = None
    make: Make | None = None

    @property
    def open(self) -> bool:
        """True while nothing speaks against the line and nothing is asked."""
        return not self.refusals and not self.questions
