"""What was typed beside what it was read as, for every quantity but length (which knows more)."""

from dataclasses import dataclass
from typing import Generic, TypeVar

from reelwright.core.errors import BadValue
from reelwright.core.quantities.cursor import Doubt
from reelwright.core.quantities.guard import require_text
from reelwright.core.quantities.number_grammar import Number

Value = TypeVar("Value")


@dataclass(frozen=True, kw_only=True)
class Reading(Generic[Value]):
    """Exactly one of ``value``, in ``unit``, and ``question``, for the writer, is given."""

    typed: str
    value: Value | None
    unit: str
    question: str | None

    def __post_init__(self) -> None:
        require_text(self, "unit")
        if (self.value is None) == (self.question is None):
            raise BadValue(
                owner="Reading",
                field="question",
                value=self.question,
                accepted="a question where there is no value, and none where there is one",
            )


def refuse_two_values(number: Number) -> None:
    """Raise Doubt where the figures can be read as two numbers (1,200 or 1.200)."""
    if number.other is not None:
        raise Doubt(f"“{number.text}”: is it {int(number.other)} or {float(number.value):g}?")
