"""The run in equal parts, with a device between them that makes the signal new."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.question import Question
from reelwright.core.advice.tried import carriers, surest
from reelwright.core.advice.words import to_spare
from reelwright.core.parts.length import Length
from reelwright.core.quantities.show import show_both, show_db
from reelwright.core.quantities.words import with_article
from reelwright.core.signals.control_bus import ControlBus
from reelwright.core.signals.data_channel import DataChannel
from reelwright.core.signals.digital_audio_75 import DigitalAudio75
from reelwright.core.signals.digital_audio_110 import DigitalAudio110
from reelwright.core.signals.level_signal import LevelSignal
from reelwright.core.signals.multichannel_digital_audio import MultichannelDigitalAudio
from reelwright.core.signals.professional_digital_audio_75 import ProfessionalDigitalAudio75
from reelwright.core.signals.reference_sync import ReferenceSync
from reelwright.core.signals.serial_video import SerialVideo
from reelwright.core.signals.timecode import Timecode
from reelwright.core.signals.word_clock import WordClock
from reelwright.core.verdicts import Outcome

MOST_PARTS = 4
"""More stations than three along one run are not proposed (common practice)."""


@dataclass(frozen=True, kw_only=True)
class _Station:
    """What stands between two parts: it gives the next one what the first was given."""

    signal: type[object]
    one: str
    many: str


# An amplifier, an analogue one above all, adds noise: only signals that a station makes new, or
# whose limit is a level, can be split.
_STATIONS = (
    _Station(signal=SerialVideo, one="re-clocker", many="re-clockers"),
    _Station(signal=LevelSignal, one="line amplifier", many="line amplifiers"),
    *(
        _Station(signal=signal, one="repeater", many="repeaters")
        for signal in (
            DigitalAudio75,
            DigitalAudio110,
            ProfessionalDigitalAudio75,
            MultichannelDigitalAudio,
            ControlBus,
        )
    ),
    *(
        _Station(signal=signal, one="distribution amplifier", many="distribution amplifiers")
        for signal in (WordClock, ReferenceSync, Timecode)
    ),
    _Station(signal=DataChannel, one="network switch", many="network switches"),
)


def propose(question: Question) -> Iterator[Change]:
    """Yield the fewest equal parts that are each sure on a cable, the cable asked for first.

    Where that one is not sure in as few parts, the cable with the most to spare.
    """
    station = next((each for each in _STATIONS if isinstance(question.signal, each.signal)), None)
    if station is None:
        return
    own = None if question.asked is None else question.asked.cable.code
    for parts in range(2, MOST_PARTS + 1):
        length = Length(
            mean_m=question.length.mean_m / parts,
            standard_uncertainty_m=question.length.standard_uncertainty_m,
        )
        sure = [
            each
            for each in carriers(replace(question, length=length, adapters=0, asked=None))
            if each.sure
        ]
        if not sure:
            continue
        best = surest(sure, own=own)
        between = with_article(station.one) if parts == 2 else f"{parts - 1} {station.many}"
        main = best.judgement.verdict.checks[0]
        spare = (
            f", {show_db(main.margin)} to spare on each."
            if main.margin is not None
            and main.unit == "dB"
            and best.judgement.verdict.outcome is Outcome.GOOD
            else f". On each: {to_spare(best.judgement)}"
        )
        yield Change(
            kind=Kind.SPLIT,
            sentence=(
                f"{parts} runs of {show_both(length.mean_m)} of {best.run.cable.code} with "
                f"{between} between them (each needs power there){spare}"
            ),
            tried=best,
            size=float(parts - 1),
            parts=parts,
            condition=f"there is power and room for {between} along the way",
        )
        return
