"""What a customer is told when the rack does not give all the cables of an accepted line."""

import dataclasses
import re
from collections import Counter

from reelwright.core.cutting.plan import Unserved
from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.core.quantities.show import show_both, show_metres
from reelwright.core.quantities.words import counted, sentence
from reelwright.shop.day.judging.offers import cells_of
from reelwright.shop.day.judging.rack import rack_gives
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.answer import HELD, LineAnswer, Make, Offer
from reelwright.shop.orders.columns import ReadLine
from reelwright.shop.reels.selectors import item_of

_GROUP = re.compile(r"\S+(?: \(\d+\))? group \d+")


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Short:
    """One colour of a line that the rack does not give whole.

    ``gives``: how many of this line's cables today's plan had room for; ``alone``: how many the
    rack would give if no other order asked for them.
    """

    line: ReadLine
    make: Make
    colour: str
    wanted: int
    gives: int
    alone: int

    @property
    def name(self) -> str:
        return COLOUR_NAMES[self.colour]

    @property
    def whole_line(self) -> bool:
        return set(self.make.colours) == {self.colour}

    @property
    def all_of_it(self) -> str:
        return f"All {self.wanted}" if self.wanted > 1 else "One"


def answer_for_stock(
    *, line: ReadLine, answer: LineAnswer, missing: tuple[Unserved, ...], shelf: Shelf
) -> LineAnswer:
    """Return the answer held: what the rack does give, and which colour would give the rest."""
    make = answer.make
    assert make is not None  # an accepted line says how it is made
    lacking = Counter(each.item for each in missing)
    questions: list[str] = []
    offers: list[Offer] = []
    for colour in dict.fromkeys(make.colours):
        item = item_of(make.cable, colour)
        if item not in lacking:
            continue
        wanted = sum(
            1 for n in range(make.quantity) if make.colours[n % len(make.colours)] == colour
        )
        short = _Short(
            line=line,
            make=make,
            colour=colour,
            wanted=wanted,
            gives=max(0, wanted - lacking[item]),
            alone=rack_gives(
                shelf, cable=make.cable, colour=colour, cut_length_mm=make.cut_length_mm
            ),
        )
        found = _offers(short, answer, shelf)
        choice = (
            "Which would you rather have?" if len(found) > 1 else "Shall it wait for the next reel?"
        )
        questions.append(f"{_what_there_is(short, shelf)}. {choice}")
        offers += found
    reasons = dict.fromkeys(
        _in_words(reason.sentence, make) for m in missing for reason in m.reasons
    )
    return dataclasses.replace(
        answer,
        state=HELD,
        headline="Held: " + questions[0],
        questions=(*answer.questions, *(sentence(each) for each in questions)),
        offers=(*answer.offers, *offers),
        notes=(*answer.notes, *reasons),
    )


def _in_words(told: str, make: Make) -> str:
    """The engine names items and groups by their codes."""
    for colour in make.colours:
        told = told.replace(item_of(make.cable, colour), f"{make.cable} {COLOUR_NAMES[colour]}")
    return sentence(_GROUP.sub("the group", told))


def _what_there_is(short: _Short, shelf: Shelf) -> str:
    make = short.make
    one_lot = " from one lot" if make.lot_group_hard else ""
    cables = f"{counted(short.wanted, 'cable')} of {show_both(short.line.length_m)}{one_lot}"
    what = f"{make.cable} {short.name}"
    each = f"each takes {show_metres(make.cut_length_mm)} to cut"
    rack = f"({_rack(shelf, make.cable, short.colour)}; {each})"
    if short.alone >= short.wanted and not make.lot_group_hard:
        left = f"{short.gives} of {cables}" if short.gives else f"none of {cables}"
        return f"more urgent orders take {what} first, and leave {left} {rack}"
    if make.lot_group_hard or not short.gives:
        return f"the rack does not give {cables} in {what} {rack}"
    return f"the rack gives {short.gives} of {cables} in {what} {rack}"


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


def _offers(short: _Short, answer: LineAnswer, shelf: Shelf) -> list[Offer]:
    """Mixed lots where one was wanted, another colour for the rest, some now, all later."""
    line, make, name = short.line, short.make, short.name
    price = None if answer.price is None else answer.price.unit_price
    offers: list[Offer] = []
    if make.lot_group_hard and short.alone >= short.wanted and short.whole_line:
        offers.append(
            Offer(
                sentence=f"{short.all_of_it} in {name} from more than one lot, whose shade and "
                "delay may differ.",
                price=price,
                cells=cells_of(line, set=""),
            )
        )
    elif make.lot_group_hard:
        offers += _other_colour(dataclasses.replace(short, gives=0), price, shelf)
    else:
        offers += _other_colour(short, price, shelf)
    if short.gives and short.gives < short.wanted and short.whole_line and not make.lot_group_hard:
        offers.append(
            Offer(
                sentence=f"{short.gives} in {name} now, and {short.wanted - short.gives} once the "
                "next reel is here (priced anew).",
                price=None,
                cells=cells_of(line, quantity=str(short.gives)),
            )
        )
    arrivals = [
        reel.lot_note
        for reel in shelf.reels_of(make.cable, short.colour)
        if " due " in reel.lot_note
    ]
    arrives = f" ({arrivals[0]})" if arrivals else ""
    offers.append(
        Offer(
            sentence=f"{short.all_of_it} in {name} once the next reel is here{arrives}.",
            price=price,
            cells=None,
        )
    )
    return offers


def _other_colour(short: _Short, price: str | None, shelf: Shelf) -> list[Offer]:
    """The colour that the rack holds most of and that gives all that is missing."""
    line, make, name = short.line, short.make, short.name
    rest = short.wanted - short.gives
    for other in shelf.colours_in_stock(make.cable):
        if other == short.colour:
            continue
        possible = rack_gives(
            shelf, cable=make.cable, colour=other, cut_length_mm=make.cut_length_mm
        )
        if possible < rest:
            continue
        of_other = COLOUR_NAMES[other]
        if short.gives:
            told = f"{short.gives} in {name} and {rest} in {of_other} with {name} boots"
            colours = ", ".join([name] * short.gives + [of_other] * rest)
        else:
            told, colours = f"{short.all_of_it} in {of_other} with {name} boots", of_other
        return [
            Offer(
                sentence=f"{told}, at the same price.",
                price=price,
                cells=cells_of(line, colour=colours) if short.whole_line else None,
            )
        ]
    return []
