"""Where no cable reaches: splitting the run, a slower signal, or the same sound over copper."""

import dataclasses
from collections.abc import Iterable

from reelwright.core.quantities.show import show_both, show_db
from reelwright.core.signals.plastic_fibre import PlasticFibreAudio
from reelwright.core.signals.read import read_signal
from reelwright.core.signals.serial_video import RATES_BIT_PER_S, SerialVideo
from reelwright.core.signals.signal import Signal
from reelwright.shop.day.judging.offers import Candidate, candidates, offer_of, other_signals
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.answer import Offer
from reelwright.shop.orders.columns import ReadLine

_MOST_PARTS = 4
SPLIT_QUESTIONS = (
    "which rate does the equipment really send, and may it be a slower one?",
    "is there power, and room for a re-clocker, part of the way along?",
    "is there a conduit in which a fibre could be drawn?",
)
BALANCED_QUESTIONS = (
    "what is the device at the end that is not balanced, and has it a balanced input as well?",
)
_COAXIAL = "coaxial digital audio 48 kHz"


def split_offers(line: ReadLine, signal: SerialVideo, shelf: Shelf) -> list[Offer]:
    """Return the run in equal parts with a re-clocker between each two, and the slower rates."""
    offers = []
    for parts in range(2, _MOST_PARTS + 1):
        part = dataclasses.replace(line, length_m=line.length_m / parts, colours=())
        working = [each for each in candidates(part, signal, shelf) if each.sure]
        if not working:
            continue
        best = max(working, key=lambda each: (each.margin, each.cable.code))
        stations = parts - 1
        offers.append(
            Offer(
                sentence=(
                    f"{parts} runs of {show_both(part.length_m)} of {best.cable.code} with "
                    f"{'a re-clocker' if stations == 1 else f'{stations} re-clockers'} between "
                    f"them (each needs power there), {show_db(best.margin)} to spare on each."
                ),
                price=None,
                cells=None,
            )
        )
        break
    slower = [rate for rate in reversed(RATES_BIT_PER_S) if rate < signal.rate_bit_per_s]
    offers += other_signals(
        dataclasses.replace(line, colours=()),
        shelf,
        texts=[SerialVideo(rate_bit_per_s=rate).name for rate in slower],
    )
    offers.append(
        Offer(
            sentence="Or a fibre link bought finished; we have none in the catalogue to judge.",
            price=None,
            cells=None,
        )
    )
    return offers


def light_offers(line: ReadLine, signal: Signal, shelf: Shelf) -> list[Offer]:
    """Return the same digital sound over 75 Ω coax where a plastic fibre does not reach."""
    if not isinstance(signal, PlasticFibreAudio):
        return []
    phono = shelf.vocabulary.connectors.get("rca") or shelf.vocabulary.connectors.get("phono")
    if not phono:
        return []
    copper = dataclasses.replace(line, ends=(phono, phono), cable_code=None, colours=())
    digital = read_signal(_COAXIAL).signal
    if digital is None:
        return []
    working = candidates(copper, digital, shelf)
    if not working:
        return []
    best = max(working, key=lambda each: (each.margin, each.cable.code))
    made = offer_of(copper, best, shelf)
    cells = None if made.cells is None else {**made.cells, "signal": _COAXIAL}
    return [
        Offer(
            sentence=f"If both devices have the coaxial jack as well: {made.sentence}",
            price=made.price,
            cells=cells,
        )
    ]


def balanced_offers(line: ReadLine, signal: Signal, shelf: Shelf) -> list[Offer]:
    """Return the same signal on a balanced cable, with connectors that carry it at both ends."""
    ends = (
        _balanced(line.ends[0], line.ends[1], shelf),
        _balanced(line.ends[1], line.ends[0], shelf),
    )
    balanced = dataclasses.replace(line, ends=ends, cable_code=None, colours=())
    working = candidates(balanced, signal, shelf)
    if not working:
        return []
    best = min(
        working,
        key=lambda each: (float(shelf.cable_terms[each.cable.code].price_per_m), each.cable.code),
    )
    made = offer_of(balanced, best, shelf)
    return [
        dataclasses.replace(
            made, sentence=f"To a device with a balanced input at the far end: {made.sentence}"
        )
    ]


def right_kind_offers(line: ReadLine, signal: Signal, shelf: Shelf) -> list[Offer]:
    """Return the cheapest cable of the kind that the signal runs on, with ends made for it.

    One of the plugs asked for at both ends where there is such a cable, else any; the sockets
    have to be looked at before it is an order.
    """
    asked = sorted({code for codes in line.ends for code in codes})
    everything = sorted({connector for _, connector in shelf.set_ups})
    found = _alike_at_both_ends(line, signal, shelf, asked)
    found = found or _alike_at_both_ends(line, signal, shelf, everything)
    if not found:
        return []
    best = min(
        found,
        key=lambda each: (float(shelf.cable_terms[each.cable.code].price_per_m), each.cable.code),
    )
    end = shelf.connectors[best.end_a.connector_code]
    return [
        Offer(
            sentence=(
                f"If your sockets take it: {best.cable.code} with {end.mating} at both ends. "
                f"{best.judgement.sentence}"
            ),
            price=None,
            cells=None,
        )
    ]


def _alike_at_both_ends(
    line: ReadLine, signal: Signal, shelf: Shelf, codes: Iterable[str]
) -> list[Candidate]:
    found = []
    for code in codes:
        ends = ((code,), (code,))
        other = dataclasses.replace(line, ends=ends, cable_code=None, colours=())
        found += [each for each in candidates(other, signal, shelf) if each.sure]
    return found


def _balanced(codes: tuple[str, ...], other: tuple[str, ...], shelf: Shelf) -> tuple[str, ...]:
    """The codes that carry a balanced line, or else all that do: the other end's kind first."""
    kept = tuple(code for code in codes if shelf.connectors[code].carries_balanced)
    if kept:
        return kept
    kinds = {shelf.connectors[code].mating[:3].casefold() for code in other}
    return tuple(
        sorted(
            (code for code, each in shelf.connectors.items() if each.carries_balanced),
            key=lambda code: (
                shelf.connectors[code].mating[:3].casefold() not in kinds,
                code == other[0],
                code,
            ),
        )
    )
