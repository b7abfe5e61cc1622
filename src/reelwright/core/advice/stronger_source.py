"""A stronger source: more level at the outlet, less resistance at the output."""

import math
from collections.abc import Iterator
from dataclasses import replace

from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.question import Question
from reelwright.core.advice.tried import Tried, asked_tried
from reelwright.core.advice.words import to_spare
from reelwright.core.quantities.show import show_plain
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.cable_television import CableTelevision
from reelwright.core.signals.line_audio import LineAudio

MOST_LEVEL_DBUV = 80.0
"""Above this [dBµV] at the outlet a receiver is overdriven (EN 60728-1, from memory)."""

OUTPUTS_OHM = (600.0, 300.0, 100.0)
"""Output resistances [Ω] of line outputs to choose from (common practice, no published source)."""


def propose(question: Question) -> Iterator[Change]:
    """Yield the least level, or the highest output resistance, that makes the run sure."""
    asked = asked_tried(question)
    if asked is None:
        return
    if isinstance(asked.signal, CableTelevision):
        yield from _level(asked, asked.signal)
    elif isinstance(asked.signal, LineAudio):
        yield from _output(asked, asked.signal)


def _level(asked: Tried, signal: CableTelevision) -> Iterator[Change]:
    now = signal.outlet_level_dbuv
    if now is None:
        return
    for level in range(math.floor(now) + 1, int(MOST_LEVEL_DBUV) + 1):
        stronger = replace(asked, signal=replace(signal, outlet_level_dbuv=float(level)))
        if not stronger.promising or not stronger.sure:
            continue
        condition = (
            f"an amplifier at the outlet lifts {show_plain(now, 'dBµV')} to "
            f"{show_plain(level, 'dBµV')}"
        )
        yield _change(stronger, condition, size=(level - now) / 20)
        return


def _output(asked: Tried, signal: LineAudio) -> Iterator[Change]:
    now = signal.source.resistance_ohm
    for resistance in OUTPUTS_OHM:
        if resistance >= now:
            continue
        stronger = replace(asked, signal=replace(signal, source_ohm=resistance))
        if not stronger.promising or not stronger.sure:
            continue
        condition = (
            f"it is fed from an output of {show_plain(resistance, 'Ω')} or less instead of "
            f"{show_quantity(now, 'Ω')}"
        )
        yield _change(stronger, condition, size=math.log2(now / resistance))
        return


def _change(tried: Tried, condition: str, *, size: float) -> Change:
    return Change(
        kind=Kind.STRONGER_SOURCE,
        sentence=f"If {condition}: {to_spare(tried.judgement)}",
        tried=tried,
        size=size,
        parts=1,
        condition=condition,
    )
