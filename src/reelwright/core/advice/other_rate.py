"""The same signal at a lower rate, where the equipment can."""

import math
from collections.abc import Iterator
from dataclasses import replace

from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.question import Question
from reelwright.core.advice.tried import carriers
from reelwright.core.signals.digital_audio_75 import SAMPLE_RATES_HZ, DigitalAudio75
from reelwright.core.signals.digital_audio_110 import DigitalAudio110
from reelwright.core.signals.serial_video import RATES_BIT_PER_S, SerialVideo
from reelwright.core.signals.signal import Signal


def propose(question: Question) -> Iterator[Change]:
    """Yield each lower rate that a cable carries: the one asked for, else the most to spare."""
    own = None if question.asked is None else question.asked.cable.code
    for slower, ratio in _slower(question.signal):
        found = carriers(replace(question, signal=slower, asked=None))
        if not found:
            continue
        best = max(
            found, key=lambda each: (each.run.cable.code == own, each.margin, each.run.cable.code)
        )
        condition = f"it may be {slower.name}"
        yield Change(
            kind=Kind.OTHER_RATE,
            sentence=f"If {condition}: {best.judgement.sentence}",
            tried=best,
            size=math.log2(ratio),
            parts=1,
            condition=condition,
        )


def _slower(signal: Signal) -> Iterator[tuple[Signal, float]]:
    """Each lower rate, the nearest first, with how many times lower it is."""
    if isinstance(signal, SerialVideo):
        for rate in sorted(RATES_BIT_PER_S, reverse=True):
            if rate < signal.rate_bit_per_s:
                yield SerialVideo(rate_bit_per_s=rate), signal.rate_bit_per_s / rate
    elif isinstance(signal, DigitalAudio75 | DigitalAudio110):
        for rate in sorted(SAMPLE_RATES_HZ, reverse=True):
            if rate < signal.sample_rate_hz:
                yield replace(signal, sample_rate_hz=rate), signal.sample_rate_hz / rate
