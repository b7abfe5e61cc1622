"""A direct-current supply at higher volts: the same watts with less current."""

from collections.abc import Iterator
from dataclasses import replace

from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.question import Question
from reelwright.core.advice.tried import asked_tried
from reelwright.core.advice.words import to_spare
from reelwright.core.quantities.show import show_plain
from reelwright.core.signals.trigger_dc import DirectSupply

SUPPLIES_V = (12.0, 24.0, 48.0)
"""Usual voltages of supplies [V] (common practice), all of them low enough to be touched."""


def propose(question: Question) -> Iterator[Change]:
    """Yield the same load on the next higher usual voltage that makes the run sure.

    Not for a trigger, whose volts are those of the input it switches.
    """
    asked = asked_tried(question)
    if asked is None or not isinstance(asked.signal, DirectSupply) or asked.signal.trigger:
        return
    signal = asked.signal
    for volts in SUPPLIES_V:
        if volts <= signal.source_v:
            continue
        # The device takes the watts it took, so that its current falls as the volts rise.
        same_load = replace(signal, source_v=volts, current_a=None, power_w=signal.load_w)
        higher = replace(asked, signal=same_load)
        if not higher.promising or not higher.sure:
            continue
        condition = (
            f"source and device are for {show_plain(volts, 'V')} instead of "
            f"{show_plain(signal.source_v, 'V')}, for the same {show_plain(signal.load_w, 'W')}"
        )
        yield Change(
            kind=Kind.HIGHER_VOLTAGE,
            sentence=f"If {condition}: {to_spare(higher.judgement)}",
            tried=higher,
            size=volts / signal.source_v - 1,
            parts=1,
            condition=condition,
        )
        return
