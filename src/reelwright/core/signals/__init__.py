"""What each signal needs at the far end: one file each, judging one run."""

from reelwright.core.signals.choices import SIGNAL_CHOICES, SignalChoice
from reelwright.core.signals.judgement import Judgement, MarginCurve
from reelwright.core.signals.read import read_signal
from reelwright.core.signals.reading import SignalReading
from reelwright.core.signals.run import Run
from reelwright.core.signals.signal import Signal
from reelwright.core.signals.space import judge_space

__all__ = [
    "SIGNAL_CHOICES",
    "Judgement",
    "MarginCurve",
    "Run",
    "Signal",
    "SignalChoice",
    "SignalReading",
    "judge_space",
    "read_signal",
]
