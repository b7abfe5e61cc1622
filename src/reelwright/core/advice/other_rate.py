"""The same signal at a lower rate, where the equipment can."""

import math
from collections.abc import Iterator
from dataclasses import replace

from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.question import Question
from reelwright.core.advice.tried import carriers, surest
from reelwright.core.signals.control_bus import ControlBus
from reelwright.core.signals.data_channel import DataChannel
from reelwright.core.signals.data_rates import DATA_RATES
from reelwright.core.signals.digital_audio_75 import DigitalAudio75
from reelwright.core.signals.digital_audio_110 import DigitalAudio110
from reelwright.core.signals.digital_audio_coax import SAMPLE_RATES_HZ
from reelwright.core.signals.plastic_fibre import PlasticFibreAudio
from reelwright.core.signals.professional_digital_audio_75 import ProfessionalDigitalAudio75
from reelwright.core.signals.serial_video import RATES_BIT_PER_S, SerialVideo
from reelwright.core.signals.signal import Signal

CONTROL_RATES_BIT_PER_S = (115_200, 57_600, 38_400, 19_200, 9_600)
"""Rates [bit/s] that equipment on a control bus can be set to (common practice)."""

MOST_RATES = 2
"""The nearest lower rates that a cable carries are proposed, no more: slower ones go as well."""

_SampledAudio = DigitalAudio75 | DigitalAudio110 | ProfessionalDigitalAudio75 | PlasticFibreAudio


def propose(question: Question) -> Iterator[Change]:
    """Yield the nearest lower rates that a cable carries, the one asked for before all others."""
    own = None if question.asked is None else question.asked.cable.code
    left = MOST_RATES
    for slower, ratio in _slower(question.signal):
        found = carriers(replace(question, signal=slower, asked=None))
        if not found or not left:
            continue
        left -= 1
        best = surest(found, own=own)
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
                yield replace(signal, rate_bit_per_s=rate), signal.rate_bit_per_s / rate
    elif isinstance(signal, ControlBus) and not signal.lighting:
        for rate in CONTROL_RATES_BIT_PER_S:
            if rate < signal.rate_bit_per_s:
                yield replace(signal, rate_bit_per_s=rate), signal.rate_bit_per_s / rate
    elif isinstance(signal, DataChannel) and signal.rate is not None:
        now = signal.rate.rate_bit_per_s
        for each in reversed(DATA_RATES):
            if each.rate_bit_per_s < now:
                yield replace(signal, rate=each), now / each.rate_bit_per_s
    elif isinstance(signal, _SampledAudio):
        for rate in sorted(SAMPLE_RATES_HZ, reverse=True):
            if rate < signal.sample_rate_hz:
                yield replace(signal, sample_rate_hz=rate), signal.sample_rate_hz / rate
