"""What would work instead: the same wish on another cable, another route of the signal, a split.

An offer is made only where the engines say that it works; each carries its own price where its
cable, ends and quantity are known.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.ends.logic import judge_logic
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.colour import COLOUR_NAMES, colour_words
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.jacket import JacketClass, class_needed
from reelwright.core.quantities.show import show_both, show_in
from reelwright.core.quantities.words import counted, listed
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.read import read_signal
from reelwright.core.signals.signal import Signal
from reelwright.core.verdicts import Outcome, Reason
from reelwright.shop.day.judging.ends_chosen import choose_end
from reelwright.shop.day.judging.jackets import stands_in
from reelwright.shop.day.judging.price import price_of
from reelwright.shop.day.judging.rack import cut_of, rack_gives
from reelwright.shop.day.judging.run_judged import judge_run
from reelwright.shop.day.judging.stated_place import place_celsius
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.answer import Offer
from reelwright.shop.orders.columns import ReadLine
from reelwright.shop.setups.sheet import SetUpSheet

MOST_OFFERS = 2
# A run is chosen or offered as sure where its limit is kept with this chance.
SURE_CHANCE = 0.99
# A parcel from here up is said to be heavy (common practice, no published source).
HEAVY_KG = 5.0


@dataclass(frozen=True, kw_only=True)
class Candidate:
    """A cable that could carry the line, with both ends released and its verdict."""

    cable: Cable
    end_a: SetUpSheet
    end_b: SetUpSheet
    judgement: Judgement

    @property
    def margin(self) -> float:
        """What the deciding check leaves; minus infinity where it has no number."""
        margin = self.judgement.verdict.checks[0].margin
        return float("-inf") if margin is None else margin

    @property
    def sure(self) -> bool:
        """Whether the guard is kept and the limit as well, with 99 % chance."""
        main, chance = self.judgement.verdict.checks[0], self.judgement.chance_within_limit
        kept = main.outcome is Outcome.GOOD or main.margin is None
        return kept and (chance is None or chance >= SURE_CHANCE)


def candidates(
    line: ReadLine, signal: Signal, shelf: Shelf, *, works: bool = True
) -> list[Candidate]:
    """Return every cable with released set-ups at both ends that logic and space allow.

    ``works``: only those whose run is within its limits too.
    """
    found = []
    for cable in shelf.cables.values():
        if not all(_released(cable, codes, shelf) for codes in line.ends):
            continue
        if not stands_in(cable, line.space):
            continue
        ends = [choose_end(cable, codes, shelf) for codes in line.ends]
        against = judge_logic(
            cable=cable,
            connector_a=ends[0].connector,
            connector_b=ends[1].connector,
            needs=signal.needs,
        )
        if against:
            continue
        judgement = judge_run(
            signal=signal,
            cable=cable,
            lot=None,
            ends=(ends[0].connector, ends[1].connector),
            length_m=line.length_m,
            celsius=place_celsius(line.typed)[0],
        )
        if works and not judgement.verdict.works:
            continue
        end_a, end_b = ends[0].set_up, ends[1].set_up
        if end_a is not None and end_b is not None:
            found.append(Candidate(cable=cable, end_a=end_a, end_b=end_b, judgement=judgement))
    return found


def _released(cable: Cable, codes: Iterable[str], shelf: Shelf) -> bool:
    return any((cable.code, code) in shelf.set_ups for code in codes)


def other_cables(line: ReadLine, signal: Signal, shelf: Shelf, *, asked: Cable) -> list[Offer]:
    """Return the same line on the cables that work, the one most like what was asked first.

    Those that work with enough in hand go before those that only just do. Where another kind of
    cable was asked for, none is like it and the cheapest comes first.
    """
    found = [each for each in candidates(line, signal, shelf) if each.cable.code != asked.code]
    found = [each for each in found if each.sure] or found
    outside = asked.jacket.outside_diameter_m

    def unlike(each: Candidate) -> tuple[bool, float, str]:
        if asked.family not in signal.families:
            alike = float(shelf.cable_terms[each.cable.code].price_per_m)
        else:
            alike = abs(each.cable.jacket.outside_diameter_m - outside)
        return _plenum_unasked(each.cable, line, asked), alike, each.cable.code

    found.sort(key=unlike)
    return [offer_of(line, each, shelf) for each in found[:MOST_OFFERS]]


def _plenum_unasked(cable: Cable, line: ReadLine, asked: Cable) -> bool:
    """Whether it is plenum cable, at twice the price, that neither the place nor the wish needs."""
    plenum = JacketClass.PLENUM
    needed = None if line.space is None else class_needed(line.space)
    return cable.jacket_class is plenum and plenum not in (needed, asked.jacket_class)


def offer_of(line: ReadLine, candidate: Candidate, shelf: Shelf) -> Offer:
    """Return a candidate as an offer: what, how well it works, what the rack gives, its price."""
    cable = candidate.cable
    connectors = (
        shelf.connectors[candidate.end_a.connector_code],
        shelf.connectors[candidate.end_b.connector_code],
    )
    colours, rack = _colours(line, cable.code, connectors, shelf)
    price = price_of(
        shelf=shelf,
        cable_code=cable.code,
        end_a=candidate.end_a,
        end_b=candidate.end_b,
        quantity=line.quantity,
        finished_mm=round(line.length_m * 1000),
        extra_setup_minutes=Decimal(0),
    )
    what = f"{cable.code} {colour_words(dict.fromkeys(colours))}".strip()
    mass = mass_words(cable, line)
    sentence = (
        f"{counted(line.quantity, 'cable')} of {show_both(line.length_m)} in {what}, "
        f"{candidate.end_a.connector_code} to {candidate.end_b.connector_code}. "
        f"{candidate.judgement.sentence} {rack} {mass}"
    )
    return Offer(
        sentence=" ".join(part for part in sentence.split(" ") if part),
        price=None if price is None else price.unit_price,
        cells=cells_of(
            line,
            cable=cable.code,
            colour=_column(colours),
            end_a=candidate.end_a.connector_code,
            end_b=candidate.end_b.connector_code,
        )
        if colours
        else None,
    )


def mass_words(cable: Cable, line: ReadLine) -> str:
    """Return what the cable of a heavy line weighs; nothing for a light one."""
    mass_kg = cable.mass_kg_per_m * line.length_m * line.quantity
    if mass_kg < HEAVY_KG:
        return ""
    return f"{show_in(mass_kg, 'kg', decimals=1)} without the connectors."


def _column(colours: tuple[str, ...]) -> str:
    if len(set(colours)) == 1:
        return COLOUR_NAMES[colours[0]]
    return ", ".join(COLOUR_NAMES[colour] for colour in colours)


def _colours(
    line: ReadLine, cable: str, ends: tuple[Connector, Connector], shelf: Shelf
) -> tuple[tuple[str, ...], str]:
    """Return a colour for each cable, as far as the rack goes, and what to say about it.

    The colour asked for comes first, then whichever there is most of; nothing where the rack does
    not hold enough of this cable at all.
    """
    in_stock = shelf.colours_in_stock(cable)
    wanted = [colour for colour in dict.fromkeys(line.colours) if colour in in_stock]
    cut = cut_of(line, ends, shelf)
    if isinstance(cut, Reason) or not in_stock:
        return (), "None of it is in the rack today." if not in_stock else ""
    chosen: list[str] = []
    for colour in dict.fromkeys([*wanted, *in_stock]):
        gives = rack_gives(shelf, cable=cable, colour=colour, cut_length_mm=cut.cut_mm)
        chosen += [colour] * min(gives, line.quantity - len(chosen))
    if len(chosen) < line.quantity:
        return (), f"The rack gives {len(chosen)} of {line.quantity} today."
    if len(set(chosen)) == 1:
        return tuple(chosen), ""
    told = [f"{chosen.count(each)} in {COLOUR_NAMES[each]}" for each in dict.fromkeys(chosen)]
    first = COLOUR_NAMES[chosen[0]]
    return tuple(chosen), (
        f"The rack gives {listed(told)}, which can have {first} boots; or all in {first} once more "
        "of it is here."
    )


def cells_of(line: ReadLine, **changed: str) -> dict[str, str]:
    """Return the columns of a line that would take an offer up: these, with some changed.

    The customer's own words described something else, so the offer stands in their place.
    """
    cells = {**line.cells, **changed, "line": ""}
    heat = place_celsius(line.typed)[1]
    cells["typed"] = (
        f"As offered for {line.order}/{line.number}: {line.quantity} × {cells['length']} of "
        f"{cells['cable']}{'' if heat is None else f', {heat}'}."
    )
    return cells


def longest_words(line: ReadLine, signal: Signal, shelf: Shelf, *, asked: Cable) -> str | None:
    """Return which cable reaches farthest; None where that is the one asked, or none is known."""
    tried = candidates(line, signal, shelf, works=False)
    reach = [
        (each.judgement.length_at_50_m, each) for each in tried if each.judgement.length_at_50_m
    ]
    if not reach:
        return None
    best = max(reach, key=lambda pair: (pair[0], pair[1].cable.code))[1]
    if best.cable.code == asked.code:
        return None
    return (
        f"the cable that reaches farthest here is {best.cable.code}, and over your length: "
        f"{best.judgement.sentence}"
    )


def other_signals(line: ReadLine, shelf: Shelf, *, texts: Iterable[str]) -> list[Offer]:
    """Return which slower or other signals the asked cable would carry over the same length."""
    offers = []
    for text in texts:
        signal = read_signal(text).signal
        if signal is None:
            continue
        found = [
            each
            for each in candidates(line, signal, shelf)
            if line.cable_code in (None, each.cable.code)
        ]
        if found:
            best = max(found, key=lambda each: (each.margin, each.cable.code))
            offers.append(
                Offer(
                    sentence=f"If it may be {signal.name}: {best.judgement.sentence}",
                    price=None,
                    cells=None,
                )
            )
    return offers
