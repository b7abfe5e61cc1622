"""The cable of a line: the one that was named, or the cheapest that works with enough in hand."""

import dataclasses

from reelwright.core.parts.cable import Cable
from reelwright.core.quantities.words import listed
from reelwright.core.signals.signal import Signal
from reelwright.core.verdicts import Reason
from reelwright.shop.day.judging.question import Candidate, candidates
from reelwright.shop.day.judging.rack import cut_of, rack_gives
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.columns import ReadLine


def choose_cable(line: ReadLine, signal: Signal | None, shelf: Shelf) -> Cable | str | None:
    """Return the cable, or the sentence that says why there is none; None: not to be said yet.

    Of the cables that work, those with the guard kept and their limit 99 % sure come first; of
    these the ones the rack holds enough of in the colour wanted, then the cheapest. Where none
    works, the one that comes nearest, so that the refusal can tell by how much.
    """
    if line.cable_code is not None:
        return shelf.cables[line.cable_code]
    if signal is None:
        if any(_ends_known(cable, line, shelf) for cable in shelf.cables.values()):
            return None
        return f"no cable here takes {_ends(line)} with released set-ups"
    working = candidates(line, signal, shelf)
    if working:
        return min(working, key=lambda each: _rank(each, line, shelf)).cable
    tried = candidates(line, signal, shelf, works=False)
    if tried:
        return max(tried, key=lambda each: (each.margin, each.cable.code)).cable
    return _none_fits(line, signal, shelf)


def _none_fits(line: ReadLine, signal: Signal, shelf: Shelf) -> str:
    if candidates(dataclasses.replace(line, space=None), signal, shelf, works=False):
        return (
            f"none of our cables for {signal.name} with {_ends(line)} is rated for that place "
            f"(“{line.cells['space']}”)"
        )
    return f"no cable here carries {signal.name} with {_ends(line)}"


def _ends(line: ReadLine) -> str:
    words = (line.cells["end_a"], line.cells["end_b"])
    if words[0].casefold() == words[1].casefold():
        return f"{words[0]} at both ends"
    return f"{listed(words)} at its ends"


def _ends_known(cable: Cable, line: ReadLine, shelf: Shelf) -> bool:
    return all(any((cable.code, code) in shelf.set_ups for code in codes) for codes in line.ends)


def _rank(
    candidate: Candidate, line: ReadLine, shelf: Shelf
) -> tuple[bool, float, bool, bool, float, str]:
    code = candidate.cable.code
    comes_in = {*shelf.cable_terms[code].colours, *shelf.colours_in_stock(code)}
    return (
        not candidate.sure,
        # Where nothing is sure, the most that can be had.
        0.0 if candidate.sure else -candidate.margin,
        not set(line.colours) <= comes_in,
        not _rack_holds(candidate, line, shelf),
        float(shelf.cable_terms[code].price_per_m),
        code,
    )


def _rack_holds(candidate: Candidate, line: ReadLine, shelf: Shelf) -> bool:
    code = candidate.cable.code
    in_stock = shelf.colours_in_stock(code)
    wanted = dict.fromkeys(line.colours)
    if len(wanted) > 1:
        return set(wanted) <= set(in_stock)
    ends = (
        shelf.connectors[candidate.end_a.connector_code],
        shelf.connectors[candidate.end_b.connector_code],
    )
    cut = cut_of(line, ends, shelf)
    if isinstance(cut, Reason):
        return bool(in_stock)
    return any(
        rack_gives(shelf, cable=code, colour=colour, cut_length_mm=cut.cut_mm) >= line.quantity
        for colour in (wanted or in_stock)
    )
