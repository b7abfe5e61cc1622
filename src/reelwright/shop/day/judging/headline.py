"""The one sentence on top of an answer, which must not mislead when it is read alone."""

from reelwright.core.quantities.show import show_db, show_in, show_short
from reelwright.core.quantities.show_scaled import show_frequency_hz, show_quantity
from reelwright.core.quantities.words import sentence
from reelwright.core.signals.audio_band import AudioSignal
from reelwright.core.signals.cartridge import Cartridge
from reelwright.core.signals.control_bus import ControlBus
from reelwright.core.signals.data_channel import DataChannel
from reelwright.core.signals.digital_audio_110 import DigitalAudio110
from reelwright.core.signals.distributed_line import DistributedLine
from reelwright.core.signals.instrument_pickup import InstrumentPickup
from reelwright.core.signals.level_signal import LevelSignal
from reelwright.core.signals.loudspeaker import Loudspeaker
from reelwright.core.signals.low_frequency_effects import LowFrequencyEffects
from reelwright.core.signals.radio_feed_50 import RadioFeed50
from reelwright.core.signals.signal import Signal
from reelwright.core.signals.timecode import Timecode
from reelwright.core.signals.trigger_dc import DirectSupply
from reelwright.core.signals.word_clock import WordClock
from reelwright.core.verdicts import Check, Outcome
from reelwright.shop.day.judging.findings import Findings
from reelwright.shop.orders.answer import HELD, REFUSED


def headline(state: str, findings: Findings, signal: Signal | None) -> str:
    """Return the headline of an answer in that state."""
    if state == REFUSED:
        return "No: " + _lower(sentence(findings.refusals[0]))
    if state == HELD:
        return "Held: " + _lower(sentence(findings.questions[0]))
    judged = findings.judgement
    if judged is None or signal is None:
        return "Accepted: it can be made as asked."
    main, *others = judged.verdict.checks
    told = [f"Accepted: {_works(signal, main)}."]
    told += [check.sentence for check in others if check.outcome is Outcome.CAUTION]
    return " ".join(told)


def _works(signal: Signal, main: Check) -> str:
    """What was judged, and no more than that."""
    value = main.value if isinstance(main.value, float) else None
    match signal:
        case LevelSignal() if main.margin is None:
            told = (
                f"it can be made, but whether reception is good depends on the level at "
                f"{signal.near_end}, which we do not know"
            )
        case RadioFeed50() if main.margin is None:
            told = (
                "it can be made, but whether reception is good depends on the loss that antenna "
                "and receiver allow, which we do not know"
            )
        case DataChannel():
            told = _data_works(signal, main)
        case DirectSupply() if value is not None:
            told = f"works, and {show_short(value, 'V')} is lost on the way"
        case DigitalAudio110() | ControlBus() if main.unit == "m":
            told = "its length is within what the signal may go"
        case (
            WordClock() | Timecode() | LowFrequencyEffects() | Cartridge() | InstrumentPickup()
        ) if value is not None:
            told = _arrives(signal, value, main.unit)
        case AudioSignal() if value is not None:
            told = f"works, and takes {show_db(value)} off the treble"
        case Loudspeaker() if value is not None:
            told = f"works, and the loudspeaker gets {show_db(value)} less"
        case DistributedLine() if value is not None:
            told = f"works, and the last loudspeaker gets {show_db(value)} less"
        case _ if main.margin is not None and main.unit == "dB":
            told = f"works, with {show_db(main.margin)} to spare"
        case _:
            told = "it can be made as asked"
    return told


def _arrives(signal: Signal, value: float, unit: str) -> str:
    """What such a signal is judged by, in the figure that its main check has."""
    match signal:
        case LowFrequencyEffects():
            below = show_in(-value, unit, decimals=0)
            return f"works, with its hum {below} below the music as far as can be told beforehand"
        case Cartridge():
            return f"works, and the cartridge sees {show_quantity(value, unit)}"
        case InstrumentPickup():
            at = show_frequency_hz(value, digits=2)
            return f"works, and the pickup's resonance comes to {at}"
        case _:
            return f"works, and its edges rise within {show_in(value, unit, decimals=0)}"


def _data_works(signal: DataChannel, main: Check) -> str:
    """No test stands behind it yet: what was computed is named, and crosstalk is left open."""
    power = "" if signal.power is None else ", the power arrives"
    if signal.rate is None or main.margin is None:
        judged = "which is all that was judged" if not power else "and nothing else was judged"
        return f"its length is within the rule{power}, {judged}"
    return (
        f"its loss is within what {signal.rate.words} allows, with {show_db(main.margin)} to "
        f"spare{power}; crosstalk shows in the test"
    )


def _lower(text: str) -> str:
    """A small letter behind the colon, but not in a code or a name (VID-60, A plug)."""
    head = text.split(" ", 1)[0]
    plain = head[1:].islower() or head in ("A", "“A")
    return text[0].lower() + text[1:] if plain and text[0].isalpha() else text
