"""What a customer is told when the rack does not give all the cables of an accepted line."""

import dataclasses
from collections import Counter

from reelwright.core.cutting.plan import Unserved
from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.core.quantities.show import show_both, show_metres
from reelwright.core.quantities.words import counted, sentence
from reelwright.shop.day.judging.offers import cells_of
from reelwright.shop.day.judging.rack import rack_gives
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.answer import HELD, LineAnswer, Offer
from reelwright.shop.orders.columns import ReadLine
from reelwright.shop.reels.selectors import item_of


def answer_for_stock(
    *, line: ReadLine, answer: LineAnswer, missing: tuple[Unserved, ...], shelf: Shelf
) -> LineAnswer:
    """Return the answer held: what the rack does give, and which colour would give the rest."""
    make = answer.make
    assert make is not None  # an accepted line says how it is made
    lacking = Counter(each.item for each in missing)
    questions, offers = [], []
    for colour in dict.fromkeys(make.colours):
        item = item_of(make.cable, colour)
        if item not in lacking:
            continue
        wanted = sum(
            1 for n in range(make.quantity) if make.colours[n % len(make.colours)] == colour
        )
        possible = rack_gives(
            shelf, cable=make.cable, colour=colour, cut_length_mm=make.cut_length_mm
        )
        gives = min(possible, wanted)
        what = f"{make.cable} {COLOUR_NAMES[colour]}"
        rack = _rack(shelf, make.cable, colour)
        questions.append(
            f"the rack gives {gives} of {counted(wanted, 'cable')} of {show_both(line.length_m)} "
            f"in {what} ({rack}; each takes {show_metres(make.cut_length_mm)} to cut). "
            f"Which would you rather have?"
        )
        offers += _offers(line, answer, shelf, colour=colour, gives=gives, wanted=wanted)
    reasons = dict.fromkeys(
        sentence(reason.sentence) for each in missing for reason in each.reasons
    )
    return dataclasses.replace(
        answer,
        state=HELD,
        headline="Held: " + questions[0],
        questions=(*answer.questions, *(sentence(each) for each in questions)),
        offers=(*answer.offers, *offers),
        notes=(*answer.notes, *reasons),
    )


def _rack(shelf: Shelf, cable: str, colour: str) -> str:
    reels = shelf.reels_of(cable, colour)
    if not reels:
        return "none is left"
    told = [
        f"{reel.code} holds {show_metres(reel.length_mm, decimals=1)}"
        + (
            f" with a flaw at {show_metres(reel.flaws[0].start_mm, decimals=1)}"
            if reel.flaws
            else ""
        )
        for reel in reels
    ]
    return ", ".join(told)


def _offers(
    line: ReadLine, answer: LineAnswer, shelf: Shelf, *, colour: str, gives: int, wanted: int
) -> list[Offer]:
    make = answer.make
    assert make is not None
    price = None if answer.price is None else answer.price.unit_price
    offers = []
    for other in shelf.colours_in_stock(make.cable):
        if other == colour:
            continue
        possible = rack_gives(
            shelf, cable=make.cable, colour=other, cut_length_mm=make.cut_length_mm
        )
        if possible < wanted - gives:
            continue
        boots = f"with {COLOUR_NAMES[colour]} boots"
        if gives:
            offers.append(
                Offer(
                    sentence=(
                        f"{gives} in {COLOUR_NAMES[colour]} and {wanted - gives} in "
                        f"{COLOUR_NAMES[other]} {boots}, at the same price."
                    ),
                    price=price,
                    cells=cells_of(
                        line,
                        colour=", ".join(
                            [COLOUR_NAMES[colour]] * gives
                            + [COLOUR_NAMES[other]] * (wanted - gives)
                        ),
                    )
                    if set(make.colours) == {colour}
                    else None,
                )
            )
        elif possible >= wanted:
            offers.append(
                Offer(
                    sentence=f"All {wanted} in {COLOUR_NAMES[other]} {boots}, at the same price.",
                    price=price,
                    cells=cells_of(line, colour=COLOUR_NAMES[other])
                    if set(make.colours) == {colour}
                    else None,
                )
            )
        break
    notes = [reel.lot_note for reel in shelf.reels_of(make.cable, colour) if reel.lot_note]
    arrives = f" ({notes[0]})" if notes else ""
    offers.append(
        Offer(
            sentence=f"All {wanted} in {COLOUR_NAMES[colour]} once the next reel is here{arrives}.",
            price=price,
            cells=None,
        )
    )
    return offers
