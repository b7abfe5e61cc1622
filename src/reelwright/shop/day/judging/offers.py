"""What would work instead, as offers: each with its own verdict, and its price where it has one.

What would work is found by ``core.advice``; here it becomes an order that can be entered: the
colours that the rack holds, the price, the columns of the line.
"""

import dataclasses
from collections.abc import Iterable
from decimal import Decimal

from reelwright.core.advice import Change, Kind
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.colour import COLOUR_NAMES, colour_words
from reelwright.core.parts.connector import Connector
from reelwright.core.quantities.show import show_both, show_in, show_short
from reelwright.core.quantities.words import counted, listed
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.read import read_signal
from reelwright.core.verdicts import Reason
from reelwright.shop.day.judging.price import price_of
from reelwright.shop.day.judging.question import Candidate, with_set_ups
from reelwright.shop.day.judging.rack import cut_of, rack_gives
from reelwright.shop.day.judging.stated_place import place_celsius
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.answer import Offer
from reelwright.shop.orders.columns import ReadLine

# A parcel from here up is said to be heavy (common practice, no published source).
HEAVY_KG = 5.0
_OTHER_ENDS_TOO = frozenset({Kind.BALANCED, Kind.OTHER_MEDIUM})
_WHOLE_LINES = _OTHER_ENDS_TOO | {Kind.OTHER_CABLE, Kind.THICKER_CONDUCTOR, Kind.SHORTER}


def offers_of(changes: Iterable[Change], line: ReadLine, shelf: Shelf) -> list[Offer]:
    """Return changes as offers; those that are a whole line of an order with price and columns."""
    return [_offer(change, line, shelf) for change in changes]


def _offer(change: Change, line: ReadLine, shelf: Shelf) -> Offer:
    released = with_set_ups([change.tried], shelf)
    if change.kind not in _WHOLE_LINES or not released:
        return with_verdict(
            Offer(sentence=change.sentence, price=None, cells=None), change.judgement
        )
    length_m = change.run.length.mean_m
    cells: dict[str, str] = {}
    made_of = dataclasses.replace(line, length_m=length_m)
    if change.kind is Kind.SHORTER:
        cells["length"] = f"{length_m:g} m"
    if change.kind in _OTHER_ENDS_TOO:
        # Another kind of cable comes in its own colours.
        made_of = dataclasses.replace(made_of, colours=())
        if read_signal(line.signal_text).signal != change.signal:
            cells["signal"] = change.signal.name
    offer = _whole_line(released[0], made_of, shelf, cells)
    if "signal" in cells and read_signal(cells["signal"]).signal != change.signal:
        offer = dataclasses.replace(offer, cells=None)
    if change.condition is None:
        return offer
    return dataclasses.replace(offer, sentence=f"If {change.condition}: {offer.sentence}")


def with_verdict(offer: Offer, judgement: Judgement) -> Offer:
    """Return an offer with the verdict on the run it leads to."""
    main = judgement.verdict.checks[0]
    return dataclasses.replace(
        offer,
        outcome=str(judgement.verdict.outcome),
        to_spare="" if main.margin is None else show_short(main.margin, main.unit),
        chance_within_limit=judgement.chance_within_limit,
    )


def _whole_line(
    candidate: Candidate, line: ReadLine, shelf: Shelf, changed: dict[str, str]
) -> Offer:
    """What, how well it works, what the rack gives, its price."""
    tried = candidate.tried
    cable, judgement = tried.run.cable, tried.judgement
    colours, rack = _colours(line, cable.code, tried.run.connectors, shelf)
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
    end_a, end_b = candidate.end_a.connector_code, candidate.end_b.connector_code
    sentence = (
        f"{counted(line.quantity, 'cable')} of {show_both(line.length_m)} in {what}, "
        f"{end_a} to {end_b}. {judgement.sentence} {rack} {mass_words(cable, line)}"
    )
    offer = Offer(
        sentence=" ".join(part for part in sentence.split(" ") if part),
        price=None if price is None else price.unit_price,
        cells=cells_of(
            line,
            **{
                "cable": cable.code,
                "colour": _column(colours),
                "end_a": end_a,
                "end_b": end_b,
                **changed,
            },
        )
        if colours
        else None,
    )
    return with_verdict(offer, judgement)


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
