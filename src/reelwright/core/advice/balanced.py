"""A balanced line instead of an unbalanced one: cable and connectors that carry two legs."""

from collections.abc import Iterator
from dataclasses import replace

from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.question import Question
from reelwright.core.advice.tried import Tried, carriers
from reelwright.core.advice.words import to_spare
from reelwright.core.parts.connector import Connector
from reelwright.core.signals.balanced_audio import BalancedAudio, Level
from reelwright.core.signals.line_audio import LineAudio
from reelwright.core.signals.low_frequency_effects import LowFrequencyEffects


def propose(question: Question) -> Iterator[Change]:
    """Yield the cheapest balanced cable that carries it, with balanced connectors at both ends.

    For a signal that has to be balanced and was to go through an end that is not; and for
    unbalanced line audio, whose equipment may have balanced outputs and inputs as well.
    """
    signal = question.signal
    by_code = {each.code: each for each in question.connectors}
    ends = (
        _balanced_codes(question.ends[0], question.ends[1], by_code),
        _balanced_codes(question.ends[1], question.ends[0], by_code),
    )
    if not all(ends):
        return
    ends = (ends[0], _facing(ends[0][0], ends[1], by_code))
    if isinstance(signal, LineAudio | LowFrequencyEffects):
        signal = BalancedAudio(level=Level.LINE, phantom_power=False)
        condition = "both devices have a balanced socket as well"
    elif signal.needs.balanced and signal.needs.screen and ends != question.ends:
        condition = "the device at the far end has a balanced input"
    else:
        return
    found = carriers(replace(question, signal=signal, ends=ends, asked=None))
    if not found:
        return
    best = min(found, key=_price)
    matings = " to ".join(end.mating for end in best.run.connectors)
    yield Change(
        kind=Kind.BALANCED,
        sentence=(
            f"If {condition}: balanced, on {best.run.cable.code} with {matings}. "
            f"{to_spare(best.judgement)}"
        ),
        tried=best,
        size=1.0,
        parts=1,
        condition=condition,
    )


def _facing(first: str, codes: tuple[str, ...], by_code: dict[str, Connector]) -> tuple[str, ...]:
    """The codes with the other face of the same kind in front: an output joins an input."""
    kind = by_code[first].mating[:3].casefold()

    def unlike(code: str) -> tuple[bool, bool]:
        return (by_code[code].mating[:3].casefold() != kind, code == first)

    return tuple(sorted(codes, key=unlike))


def _price(tried: Tried) -> tuple[int, float, str]:
    price = tried.entry.price_per_m
    return (tried.doubt, float("inf") if price is None else float(price), tried.run.cable.code)


def _balanced_codes(
    codes: tuple[str, ...], other: tuple[str, ...], by_code: dict[str, Connector]
) -> tuple[str, ...]:
    """The codes that carry a balanced line, or else all that do: the other end's kind first."""
    kept = tuple(code for code in codes if code in by_code and by_code[code].carries_balanced)
    if kept:
        return kept
    kinds = {by_code[code].mating[:3].casefold() for code in other if code in by_code}

    def unlike(code: str) -> tuple[bool, bool, str]:
        # The same face at both ends joins nothing.
        return (by_code[code].mating[:3].casefold() not in kinds, code == other[0], code)

    return tuple(
        sorted((code for code, each in by_code.items() if each.carries_balanced), key=unlike)
    )
