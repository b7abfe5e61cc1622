"""One termination at the end of the line, where there is none, or one too many."""

from collections.abc import Iterator
from dataclasses import replace

from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.question import Question
from reelwright.core.advice.tried import asked_tried
from reelwright.core.advice.words import to_spare
from reelwright.core.signals.control_bus import ControlBus
from reelwright.core.signals.reference_sync import ReferenceSync
from reelwright.core.signals.signal import Signal
from reelwright.core.signals.termination import Ending, FarEnd
from reelwright.core.signals.word_clock import WordClock


def propose(question: Question) -> Iterator[Change]:
    """Yield the same run with its line terminated once, at the last input."""
    asked = asked_tried(question)
    if asked is None:
        return
    found = _terminated(asked.signal)
    if found is None:
        return
    signal, condition = found
    ended = replace(asked, signal=signal)
    yield Change(
        kind=Kind.TERMINATED,
        sentence=f"If {condition}: {to_spare(ended.judgement)}",
        tried=ended,
        size=1.0,
        parts=1,
        condition=condition,
    )


def _terminated(signal: Signal) -> tuple[Signal, str] | None:
    if isinstance(signal, ControlBus):
        if signal.terminated:
            return None
        condition = "120\u202fΩ are put across the last receiver"
        return replace(signal, terminated=True), condition
    if not isinstance(signal, WordClock | ReferenceSync):
        return None
    ending = signal.ending
    if ending.far_end is FarEnd.TERMINATED:
        return None
    condition = (
        "the last input is terminated with 75\u202fΩ"
        if ending.far_end is FarEnd.OPEN
        else "one of the two terminations is taken off, and 75\u202fΩ stay at the last input"
    )
    return replace(signal, ending=Ending(far_end=FarEnd.TERMINATED, taps=ending.taps)), condition
