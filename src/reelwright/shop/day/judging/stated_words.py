"""What a customer's sentence says of signal, ends and cable, beside the columns that decide."""

import re
from collections.abc import Mapping

from reelwright.core.signals.data_channel import DataChannel
from reelwright.core.signals.digital_audio_75 import DigitalAudio75
from reelwright.core.signals.digital_audio_110 import DigitalAudio110
from reelwright.core.signals.loudspeaker import Loudspeaker
from reelwright.core.signals.plastic_fibre import PlasticFibreAudio
from reelwright.core.signals.read import read_signal
from reelwright.core.signals.read_digital import says_sample_rate
from reelwright.core.signals.read_video import read_serial
from reelwright.core.signals.rgbhv import RgbhvVideo
from reelwright.core.signals.serial_video import SerialVideo
from reelwright.core.signals.signal import Signal
from reelwright.core.signals.trigger_dc import DirectSupply
from reelwright.shop.orders.columns import ReadLine, Vocabulary, fold

_Words = Mapping[str, tuple[str, ...]]
# Words for an end that mean other things as well in a sentence ("bare", "set-top to wall, f to f").
_UNSURE_WORDS = frozenset({"bare", "f", "optical", "jack", "tails"})
_RATE_IN_FIGURES = re.compile(r"\d\s*g\b|\d[.,]\d{1,3}\s*g|\b\d{1,2}[.,](?:485|5|97|94|88)\b")


def other_signal(line: ReadLine, signal: Signal) -> str | None:
    """Return the name of another signal that the typed text names; None where it agrees."""
    named = read_signal(line.typed).signal
    if isinstance(signal, SerialVideo) and isinstance(named, SerialVideo | None):
        named = _serial_video(line.typed, signal)
    if named is None or named.name == signal.name or _differs_unsaid(named, signal, line.typed):
        return None
    return named.name


def _serial_video(typed: str, column: SerialVideo) -> Signal | None:
    text = typed.casefold()
    # "HD" alone is said of every rate from 1.485 Gb/s up, so it does not stand against one.
    if column.rate_bit_per_s > 1_000_000_000 and not _RATE_IN_FIGURES.search(text):
        text = re.sub(r"\bhd\b", " ", text)
    return read_serial(typed, text).signal


def _differs_unsaid(named: Signal, signal: Signal, typed: str) -> bool:
    """Whether both are of one kind, and what differs was assumed, not said."""
    if type(named) is not type(signal):
        return False
    if isinstance(named, DataChannel) and isinstance(signal, DataChannel):
        return named.rate in (None, signal.rate) and named.power in (None, signal.power)
    if isinstance(named, DigitalAudio75 | DigitalAudio110 | PlasticFibreAudio):
        return not says_sample_rate(typed.casefold())
    return not isinstance(named, SerialVideo | RgbhvVideo | Loudspeaker | DirectSupply)


def other_ends(line: ReadLine, vocabulary: Vocabulary) -> tuple[str, ...]:
    """Return the connector words of the typed text that neither end answers to."""
    ours = {code for codes in line.ends for code in codes}
    words = {
        word: codes for word, codes in vocabulary.connectors.items() if word not in _UNSURE_WORDS
    }
    named = _named(line.typed, words)
    return tuple(word for word, codes in named.items() if not ours & set(codes))


def other_cable(line: ReadLine, vocabulary: Vocabulary) -> str | None:
    """Return a cable code that the typed text names and the column does not; None: no such.

    Codes only: "video cable" is said of any of them.
    """
    named = _named(line.typed, {fold(code): (code,) for code in vocabulary.cables.values()})
    codes = [code for (code,) in named.values()]
    return None if not codes or line.cable_code in codes else codes[0]


def _named(typed: str, words: _Words) -> dict[str, tuple[str, ...]]:
    """Return the words that stand in the text, each alone or in the plural."""
    text = f" {fold(typed)} "
    found = {}
    # The longest first, and taken out of the text: "xlr-3f" is no "xlr" besides.
    for word in sorted(words, key=lambda each: (-len(each), each)):
        pattern = rf"(?<![\w-]){re.escape(word)}(?:s|es)?(?!\w|-\w)"
        rest = re.sub(pattern, " ", text)
        if rest != text:
            found[word] = words[word]
            text = rest
    return found
