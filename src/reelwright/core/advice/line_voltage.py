"""A loudspeaker line at a higher voltage, or with fewer watts: less current, less fall."""

from collections.abc import Iterator
from dataclasses import replace

from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.question import Question
from reelwright.core.advice.tried import asked_tried
from reelwright.core.advice.words import to_spare
from reelwright.core.quantities.show import show_db, show_plain
from reelwright.core.signals.distributed_line import DistributedLine

HIGHER_LINE_V = 100.0
"""The higher of the two usual line voltages [V]."""

MOST_HALVINGS = 3
"""Taps of transformers halve from one to the next (common practice); three are proposed."""

_DB_PER_HALVING = 3.0


def propose_voltage(question: Question) -> Iterator[Change]:
    """Yield the same line at 100 V, where it was to run at less."""
    asked, signal = asked_tried(question), question.signal
    if asked is None or not isinstance(signal, DistributedLine) or signal.line_v >= HIGHER_LINE_V:
        return
    higher = replace(asked, signal=replace(signal, line_v=HIGHER_LINE_V))
    condition = (
        f"amplifier and transformers have {show_plain(HIGHER_LINE_V, 'V')} taps for the same "
        f"{show_plain(signal.tap_w, 'W')}"
    )
    yield Change(
        kind=Kind.HIGHER_VOLTAGE,
        sentence=f"If {condition}: {to_spare(higher.judgement)}",
        tried=higher,
        size=HIGHER_LINE_V / signal.line_v - 1,
        parts=1,
        condition=condition,
    )


def propose_watts(question: Question) -> Iterator[Change]:
    """Yield the same line with its taps halved as often as makes it sure, at most three times."""
    asked, signal = asked_tried(question), question.signal
    if asked is None or not isinstance(signal, DistributedLine):
        return
    for halvings in range(1, MOST_HALVINGS + 1):
        watts = signal.tap_w / 2**halvings
        quieter = replace(asked, signal=replace(signal, tap_w=watts))
        if not quieter.sure:
            continue
        condition = (
            f"each loudspeaker is set to {show_plain(watts, 'W')} instead of "
            f"{show_plain(signal.tap_w, 'W')} ({show_plain(watts * signal.taps, 'W')} together, "
            f"{show_db(halvings * _DB_PER_HALVING)} quieter)"
        )
        yield Change(
            kind=Kind.FEWER_WATTS,
            sentence=f"If {condition}: {to_spare(quieter.judgement)}",
            tried=quieter,
            size=float(halvings),
            parts=1,
            condition=condition,
        )
        return
