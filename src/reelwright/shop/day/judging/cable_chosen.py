"""The cable of a line: the one that was named, or the cheapest that works."""

from reelwright.core.parts.cable import Cable
from reelwright.core.signals.signal import Signal
from reelwright.shop.day.judging.offers import Candidate, candidates
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.columns import ReadLine


def choose_cable(line: ReadLine, signal: Signal | None, shelf: Shelf) -> Cable | str:
    """Return the cable, or the sentence that says why there is none.

    Of the cables that work, the cheapest which the rack holds in the colour wanted; where none
    works, the one that comes nearest, so that the refusal can tell by how much.
    """
    if line.cable_code is not None:
        return shelf.cables[line.cable_code]
    if signal is None:
        known = [cable for cable in shelf.cables.values() if _ends_known(cable, line, shelf)]
        if known:
            return known[0]
        return "no cable here takes both of these ends with a released set-up"
    working = candidates(line, signal, shelf)
    if working:
        return min(working, key=lambda each: _rank(each, line, shelf)).cable
    tried = candidates(line, signal, shelf, works=False)
    if tried:
        return max(tried, key=lambda each: (each.margin, each.cable.code)).cable
    return (
        f"no cable here carries {signal.name} with {line.cells['end_a']} and "
        f"{line.cells['end_b']} at its ends"
    )


def _ends_known(cable: Cable, line: ReadLine, shelf: Shelf) -> bool:
    return all(any((cable.code, code) in shelf.set_ups for code in codes) for codes in line.ends)


def _rank(candidate: Candidate, line: ReadLine, shelf: Shelf) -> tuple[bool, bool, float, str]:
    code = candidate.cable.code
    in_stock = shelf.colours_in_stock(code)
    wanted = set(line.colours)
    return (
        not in_stock,
        not wanted <= set(in_stock),
        float(shelf.cable_terms[code].price_per_m),
        code,
    )
