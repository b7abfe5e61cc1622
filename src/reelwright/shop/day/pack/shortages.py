"""What is missing: cable for held lines and for spares, connectors for what is to be made."""

from collections import defaultdict

from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.core.quantities.show import show_metres
from reelwright.core.quantities.words import counted
from reelwright.documents.shortages import Shortage, Shortages
from reelwright.shop.bins.selectors import connectors_on_hand
from reelwright.shop.day.pack.gather import PackData
from reelwright.shop.day.waiting import due_of
from reelwright.shop.orders.selectors import LineView

_NOTHING_ORDERED = "nothing ordered"


def shortages_paper(data: PackData) -> Shortages:
    """Return the paper; that nothing is missing is an answer too."""
    found = [*_cable(data), *_connectors(data)]
    return Shortages(
        mark=data.mark("SHO"),
        sentence=f"{counted(len(found), 'item')} short" if found else "Nothing is short",
        lead=(
            "Metres are what the lines named would cut, less what the rack gives them. What is on "
            "its way is not on record yet."
        ),
        shortages=tuple(found),
    )


def _due_words(views: list[LineView]) -> str:
    dues = [due for due in map(due_of, views) if due is not None]
    return "no day named" if not dues else f"{min(dues):%a} {min(dues).day} {min(dues):%b}"


def _cable(data: PackData) -> list[Shortage]:
    found: list[Shortage] = []
    if data.cut_plan is None:
        return found
    spare: dict[str, list[int]] = defaultdict(list)
    for each in data.cut_plan.content["unserved"]:
        spare[each["item"]].append(each["cut_length_mm"])
    for item, lengths in sorted(spare.items()):
        cable, _, letters = item.partition(" ")
        views = [
            view
            for view in data.lines
            if view.answer.make is not None
            and view.answer.make.cable == cable
            and letters in view.answer.make.colours
        ]
        held = [view for view in views if view.state == "held"]
        advice = "; ".join(
            dict.fromkeys(
                each["would_serve"]
                for each in data.cut_plan.content["unserved"]
                if each["item"] == item
            )
        )
        found.append(
            Shortage(
                item=cable,
                colour=COLOUR_NAMES.get(letters, letters),
                missing=(
                    f"{counted(len(lengths), 'piece')}, {show_metres(sum(lengths), decimals=1)}"
                ),
                have="all given to other pieces",
                orders=tuple(view.label for view in (held or views)),
                needed_by=_due_words(held or views),
                arrives=_NOTHING_ORDERED,
                advice=advice,
            )
        )
    return found


def _connectors(data: PackData) -> list[Shortage]:
    wanted: dict[str, int] = defaultdict(int)
    lines: dict[str, list[LineView]] = defaultdict(list)
    for view in data.with_state("accepted"):
        make = view.answer.make
        count = len(data.pieces.get(view.id, []))
        if make is None:
            continue
        for code in (make.connector_a, make.connector_b):
            wanted[code] += count
            if view not in lines[code]:
                lines[code].append(view)
    have = connectors_on_hand()
    return [
        Shortage(
            item=code,
            colour="",
            missing=counted(wanted[code] - have.get(code, 0), "connector"),
            have=f"{have.get(code, 0)} in the bin",
            orders=tuple(view.label for view in lines[code]),
            needed_by=_due_words(lines[code]),
            arrives=_NOTHING_ORDERED,
            advice="",
        )
        for code in sorted(wanted)
        if wanted[code] > have.get(code, 0)
    ]
