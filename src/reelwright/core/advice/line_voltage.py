"""A loudspeaker line at a higher voltage, or with fewer watts: less current, less fall."""

from collections.abc import Iterator
from dataclasses import replace

from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.question import Question
from reelwright.core.advice.tried import Tried, asked_tried
from reelwright.core.advice.words import to_spare
from reelwright.core.quantities.show import show_db, show_in, show_plain
from reelwright.core.quantities.words import listed
from reelwright.core.signals.distributed_line import DistributedLine

LINE_VOLTAGES_V = (25.0, 70.7, 100.0)
"""The usual line voltages [V]; 70.7 V is said as 70 V."""

MOST_HALVINGS = 3
"""Taps of transformers halve from one to the next (common practice); three are proposed."""

_DB_PER_HALVING = 3.0


def propose_voltage(question: Question) -> Iterator[Change]:
    """Yield the same watts on the next higher usual voltage that makes the line sure."""
    asked = asked_tried(question)
    if asked is None or not isinstance(asked.signal, DistributedLine):
        return
    for line_v in LINE_VOLTAGES_V:
        if line_v <= asked.signal.line_v:
            continue
        higher = replace(asked, signal=asked.signal.with_line_v(line_v))
        if higher.sure:
            yield _higher(higher, line_v, before_v=asked.signal.line_v)
            return


def _higher(tried: Tried, line_v: float, *, before_v: float) -> Change:
    condition = (
        f"amplifier and transformers are for {show_in(line_v, 'V', decimals=0)} instead of "
        f"{show_plain(before_v, 'V')}, at the same watts"
    ).replace("71\u202fV", "70\u202fV")
    return Change(
        kind=Kind.HIGHER_VOLTAGE,
        sentence=f"If {condition}: {to_spare(tried.judgement)}",
        tried=tried,
        size=line_v / before_v - 1,
        parts=1,
        condition=condition,
    )


def propose_watts(question: Question) -> Iterator[Change]:
    """Yield the same line with its taps halved as often as makes it sure, at most three times."""
    asked = asked_tried(question)
    if asked is None or not isinstance(asked.signal, DistributedLine):
        return
    before_w = asked.signal.taps_w
    for halvings in range(1, MOST_HALVINGS + 1):
        taps_w = tuple(tap / 2**halvings for tap in before_w)
        quieter = replace(asked, signal=replace(asked.signal, taps_w=taps_w))
        if not quieter.sure:
            continue
        condition = (
            f"the loudspeakers are set to {_watts(taps_w)} instead of {_watts(before_w)} "
            f"({show_plain(round(sum(taps_w), 3), 'W')} together, "
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


def _watts(taps_w: tuple[float, ...]) -> str:
    return listed(show_plain(tap, "W") for tap in dict.fromkeys(taps_w))
