"""How a cell of the grid is told in a few words, for the grid and for the page of the pair."""

from reelwright.core.ends.fit.grid import Cell, CellState
from reelwright.core.quantities.show import show_number

MARKS = {
    CellState.RELEASED: "good",
    CellState.TO_DEVELOP: "caution",
    CellState.NOT_KNOWN: "not computed",
    CellState.IMPOSSIBLE: "bad",
}
"""The mark beside each state."""


_NAMED = {
    "kind of cable": "other kind of cable",
    "contacts": "conductors and contacts",
    "pin die in service": "no pin die in service",
    "ferrule die in service": "no ferrule die in service",
}


def short_words(cell: Cell) -> str:
    """Return what decides, in as few words as a cell holds: ``jacket 7.62 > 6.30``."""
    if not cell.reasons:
        return _set_up(cell)
    if not cell.against:
        return "not for this signal"
    check = cell.against[0]
    if check.name in _NAMED:
        return _NAMED[check.name]
    if (
        check.margin is None
        or not isinstance(check.value, float)
        or not isinstance(check.limit, float)
    ):
        return check.name
    thin = check.name.endswith("too thin")
    name, sign = check.name.removesuffix(" too thin"), "<" if thin else ">"
    value, limit = check.value, check.limit
    if not (value < limit if thin else value > limit):
        # It is the tolerance that decides: what counts is the far end of it.
        name += " at least" if thin else " at most"
        value = limit + check.margin if thin else limit - check.margin
    return f"{name} {show_number(value, decimals=2)} {sign} {show_number(limit, decimals=2)}"


def _set_up(cell: Cell) -> str:
    if cell.set_up is None:
        return ""
    if not cell.set_up.released:
        return f"{cell.set_up.code} {cell.set_up.state}"
    due = next((each for each in cell.cautions if each.name.endswith("die in service")), None)
    return cell.set_up.code if due is None else f"{cell.set_up.code}, service due"
