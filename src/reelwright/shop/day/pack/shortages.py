"""What is missing: cable for held lines and for spares, connectors for what is to be made."""

import re
from collections import Counter, defaultdict
from collections.abc import Mapping
from typing import Any

from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.core.quantities.show import show_metres
from reelwright.core.quantities.words import counted
from reelwright.documents.shortages import Shortage, Shortages
from reelwright.shop.bins.selectors import connectors_on_hand
from reelwright.shop.day.pack.gather import PackData
from reelwright.shop.day.waiting import due_of
from reelwright.shop.orders.answer import ACCEPTED
from reelwright.shop.orders.selectors import LineView, lines_by_id

_NOTHING_ORDERED = "nothing ordered"
_WAITING = re.compile(r"line \d+$")


def shortages_paper(data: PackData) -> Shortages:
    """Return the paper; that nothing is missing is an answer too."""
    found = [*_cable(data), *_connectors(data)]
    return Shortages(
        mark=data.mark("SHO"),
        sentence=f"{counted(len(found), 'item')} short"
        if found
        else "Nothing is short for this plan",
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
    if data.cut_plan is None:
        return []
    content = data.cut_plan.content
    found = []
    for held, entries in ((True, content["given_up"]), (False, content["unserved"])):
        by_item: dict[str, list[Mapping[str, Any]]] = defaultdict(list)
        for each in entries:
            by_item[each["item"]].append(each)
        found += [_of_item(data, item, by_item[item], held=held) for item in sorted(by_item)]
    return found


def _of_item(
    data: PackData, item: str, entries: list[Mapping[str, Any]], *, held: bool
) -> Shortage:
    cable, _, letters = item.partition(" ")
    views = _views(data, entries)
    missing_mm = sum(each["cut_length_mm"] for each in entries)
    if held:
        state = "the line is held until there is more"
    elif all(_is_spare(each, views) for each in entries):
        state = "spare pieces only: every cable of the order itself is served"
    else:
        state = "promised before and not on the rack now"
    told = [*(reason for each in entries for reason in each["reasons"])]
    return Shortage(
        item=cable,
        colour=COLOUR_NAMES.get(letters, letters),
        missing=f"{counted(len(entries), 'piece')}, {show_metres(missing_mm, decimals=1)}",
        have=state,
        orders=tuple(dict.fromkeys(view.label for view in views)),
        needed_by=_due_words(views),
        arrives=_NOTHING_ORDERED,
        advice=" ".join(dict.fromkeys([*told, *(each["would_serve"] for each in entries)])),
    )


def _is_spare(entry: Mapping[str, Any], views: list[LineView]) -> bool:
    """A piece of no code was never promised; of accepted lines only spares are not entered."""
    return not entry["piece"] and all(view.state == ACCEPTED for view in views)


def _views(data: PackData, entries: list[Mapping[str, Any]]) -> list[LineView]:
    """The lines that pieces of a plan are for: by their number, or by order of the day."""
    waiting = [int(each["line"][5:]) for each in entries if _WAITING.match(each["line"])]
    keys = {each["line"].partition(" (")[0] for each in entries}
    of_today = [view for view in data.lines if f"{view.order}/{view.number}" in keys]
    return [*of_today, *lines_by_id(waiting)]


def _connectors(data: PackData) -> list[Shortage]:
    """Connectors for every piece of the plan, those of earlier runs that still wait included."""
    wanted: Counter[str] = Counter()
    lines: dict[str, list[LineView]] = defaultdict(list)
    for view, count in data.planned:
        make = view.answer.make
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
            have=f"{have.get(code, 0)} in the bin, {wanted[code]} wanted",
            orders=tuple(view.label for view in lines[code]),
            needed_by=_due_words(lines[code]),
            arrives=_NOTHING_ORDERED,
            advice="",
        )
        for code in sorted(wanted)
        if wanted[code] > have.get(code, 0)
    ]
