"""What a signal reader returns."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.signals.signal import Signal


@dataclass(frozen=True, kw_only=True)
class SignalReading:
    """What was typed beside what it was read as.

    Exactly one of ``signal`` and ``question`` (for the customer) is given. ``assumed`` says what
    was taken for granted, in words; it stands beside every answer that rests on it.
    """

    typed: str
    signal: Signal | None
    question: str | None
    assumed: tuple[str, ...]

    def __post_init__(self) -> None:
        if (self.signal is None) == (self.question is None):
            raise BadValue(
                owner="SignalReading",
                field="signal",
                value=self.signal,
                accepted="a signal or a question, not both and not neither",
            )


def reading(typed: str, signal: Signal, *assumed: str) -> SignalReading:
    """Return that ``typed`` was read as ``signal``, with what was assumed."""
    return SignalReading(typed=typed, signal=signal, question=None, assumed=assumed)


def asking(typed: str, question: str) -> SignalReading:
    """Return that the customer must be asked before ``typed`` is a signal."""
    return SignalReading(typed=typed, signal=None, question=question, assumed=())
