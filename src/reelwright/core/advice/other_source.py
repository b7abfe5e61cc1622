"""Another source: more level or less where the run begins, less resistance at the output."""

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
from reelwright.core.signals.level_signal import LevelSignal
from reelwright.core.signals.line_audio import LineAudio
from reelwright.core.signals.satellite_if import SatelliteIf
from reelwright.core.signals.terrestrial_antenna import TerrestrialAntenna

MOST_GAIN_DB = 20
"""An amplifier of more than this [dB] before a run is not proposed (common practice)."""

ATTENUATORS_DB = (3, 6, 10, 20)
"""Attenuators [dB] to be had (common practice)."""

OUTPUTS_OHM = (600.0, 300.0, 100.0)
"""Output resistances [Ω] of line outputs to choose from (common practice, no published source)."""


def propose(question: Question) -> Iterator[Change]:
    """Yield the least gain, the least attenuator or the highest output that makes the run sure."""
    asked = asked_tried(question)
    if asked is None:
        return
    if isinstance(asked.signal, LevelSignal):
        yield from _level(asked, asked.signal)
    elif isinstance(asked.signal, LineAudio):
        yield from _output(asked, asked.signal)


def _with_level(signal: LevelSignal, level_dbuv: float) -> LevelSignal | None:
    """The signal with that level where the run begins; None for one that has no such field."""
    match signal:
        case CableTelevision():
            return replace(signal, outlet_level_dbuv=level_dbuv)
        case SatelliteIf():
            return replace(signal, head_level_dbuv=level_dbuv)
        case TerrestrialAntenna():
            return replace(signal, level_dbuv=level_dbuv)
        case _:
            return None


def _level(asked: Tried, signal: LevelSignal) -> Iterator[Change]:
    now = signal.near_level_dbuv
    if now is None:
        return
    steps = [
        *((gain, f"an amplifier at {signal.near_end} adds") for gain in range(1, MOST_GAIN_DB + 1)),
        *((-loss, f"an attenuator at {signal.near_end} takes") for loss in ATTENUATORS_DB),
    ]
    for step, words in steps:
        changed = _with_level(signal, now + step)
        if changed is None:
            return
        tried = replace(asked, signal=changed)
        # More of what is too much already is no help, though it is as sure.
        if not tried.promising or tried.doubt >= min(asked.doubt, 2):
            continue
        size_db = show_plain(abs(step), "dB")
        condition = f"{words} {size_db} to {show_plain(now, 'dBµV')}".replace(
            f"takes {size_db} to", f"takes {size_db} from"
        )
        yield _change(tried, condition, size=abs(step) / MOST_GAIN_DB)
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
        kind=Kind.OTHER_SOURCE,
        sentence=f"If {condition}: {to_spare(tried.judgement)}",
        tried=tried,
        size=size,
        parts=1,
        condition=condition,
    )
