"""The same sound or picture another way: copper instead of light, another form on another cable."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.question import Question
from reelwright.core.advice.tried import carriers, surest
from reelwright.core.advice.words import to_spare
from reelwright.core.signals.balanced_audio import BalancedAudio, Level
from reelwright.core.signals.digital_audio_75 import DigitalAudio75
from reelwright.core.signals.digital_audio_110 import DigitalAudio110
from reelwright.core.signals.digital_audio_coax import SAMPLE_RATES_HZ
from reelwright.core.signals.loudspeaker import Loudspeaker
from reelwright.core.signals.plastic_fibre import PlasticFibreAudio
from reelwright.core.signals.professional_digital_audio_75 import ProfessionalDigitalAudio75
from reelwright.core.signals.signal import Signal

_PHONO = frozenset({"phono", "rca"})
_BALANCED = ("xlr3f", "xlr3m")


@dataclass(frozen=True, kw_only=True)
class _Way:
    """Another signal with the connectors its equipment has, and what must be so for it."""

    signal: Signal
    ends: tuple[tuple[str, ...], tuple[str, ...]]
    condition: str


def propose(question: Question) -> Iterator[Change]:
    """Yield the cable with the most to spare for each other way that the signal can travel."""
    for way in _ways(question):
        if not all(way.ends):
            continue
        found = carriers(replace(question, signal=way.signal, ends=way.ends, asked=None))
        if not found:
            continue
        best = surest(found, own=None)
        yield Change(
            kind=Kind.OTHER_MEDIUM,
            sentence=(
                f"If {way.condition}: {way.signal.name} on {best.run.cable.code}. "
                f"{to_spare(best.judgement)}"
            ),
            tried=best,
            size=1.0,
            parts=1,
            condition=way.condition,
        )


def _ways(question: Question) -> Iterator[_Way]:
    signal = question.signal
    by_face: dict[str, list[str]] = {}
    for each in question.connectors:
        by_face.setdefault(each.mating.casefold(), []).append(each.code)
    phono = tuple(code for face in sorted(_PHONO) for code in by_face.get(face, ()))
    female, male = (tuple(by_face.get(face, ())) for face in _BALANCED)
    bayonet = tuple(by_face.get("bnc", ()))
    if isinstance(signal, PlasticFibreAudio) and signal.sample_rate_hz in SAMPLE_RATES_HZ:
        yield _Way(
            signal=DigitalAudio75(sample_rate_hz=signal.sample_rate_hz),
            ends=(phono, phono),
            condition="both devices have the coaxial jack as well",
        )
    elif isinstance(signal, DigitalAudio75):
        yield _Way(
            signal=DigitalAudio110(sample_rate_hz=signal.sample_rate_hz),
            ends=(female, male),
            condition="both devices have the balanced form of it, or a converter at each end",
        )
    elif isinstance(signal, DigitalAudio110) and signal.sample_rate_hz in SAMPLE_RATES_HZ:
        yield _Way(
            signal=ProfessionalDigitalAudio75(sample_rate_hz=signal.sample_rate_hz),
            ends=(bayonet, bayonet),
            condition="a converter to 75\u202fΩ coax stands at each end, or both devices have it",
        )
    elif isinstance(signal, Loudspeaker):
        yield _Way(
            signal=BalancedAudio(level=Level.LINE, phantom_power=False),
            ends=(female, male),
            condition="the amplifier can stand beside the loudspeaker and is fed a balanced line",
        )
