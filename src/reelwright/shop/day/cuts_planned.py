"""Which reel each piece comes off: accepted lines and what waits from before -> one cut plan.

A line whose cables the rack does not all give is held and allocated nothing, so that no metre is
spent on half an answer; spare pieces are given up silently first, and named.
"""

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from reelwright.core.cutting.plan import CutPlan, Unserved
from reelwright.core.cutting.problem import (
    CutProblem,
    ItemRules,
    LotGroup,
    LotRule,
    Piece,
    ReelStock,
)
from reelwright.core.cutting.search import plan
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.reels.selectors import item_of

CHANCE_OF_ENOUGH = 0.98
# An end shorter than this is swept up with the strippings (common practice, no published source).
SWARF_MM = 50
_PROMISED, _SPARE = 1, 0


@dataclass(frozen=True, kw_only=True)
class WantedPiece:
    """One piece a plan is asked for. ``key``: the line it belongs to; ``group``: one lot wanted."""

    id: str
    key: str
    cable: str
    colour: str
    cut_length_mm: int
    due: dt.date | None
    spare: bool
    group: str | None
    group_hard: bool

    @property
    def item(self) -> str:
        """Cable and colour together, as plans name it."""
        return item_of(self.cable, self.colour)


@dataclass(frozen=True, kw_only=True)
class Cutting:
    """The plan, what it could not give, and the lines that had to be given up."""

    plan: CutPlan
    unserved: tuple[Unserved, ...]
    given_up: Mapping[str, tuple[Unserved, ...]]


def plan_cuts(*, wanted: Iterable[WantedPiece], fixed: frozenset[str], shelf: Shelf) -> Cutting:
    """Return the plan for ``wanted``; lines in ``fixed`` were promised and are never given up.

    As long as a line misses a promised piece, one line of each item is given up and the item
    planned again: first a line that the rack does not give even alone, so that it takes nothing
    from others; else the least urgent. What was given up comes back where there is room after all.
    """
    pieces = list(wanted)
    given_up: dict[str, tuple[Unserved, ...]] = {}
    alone = _Alone(pieces, fixed, shelf)
    while True:
        made = _try(pieces, shelf)
        missing = _missing(made, pieces, fixed)
        if not missing:
            break
        dropped = set()
        for lines in missing.values():
            hopeless = [key for key in sorted(lines) if alone.misses(key)]
            key = hopeless[0] if hopeless else max(lines, key=lambda each: _leniency(pieces, each))
            given_up[key] = (*given_up.get(key, ()), *lines[key])
            dropped.add(key)
        pieces = [piece for piece in pieces if piece.key not in dropped]
    if len(given_up) > 1:
        back = [key for key in given_up if not alone.misses(key)]
        for key in sorted(back, key=lambda each: _leniency(alone.pieces, each)):
            more = [*pieces, *(piece for piece in alone.pieces if piece.key == key)]
            again = _try(more, shelf)
            if not _missing(again, more, fixed):
                pieces, made = more, again
                del given_up[key]
    best = plan(_problem(pieces, shelf))
    if not _missing(best, pieces, fixed):
        made = best
    return Cutting(plan=made, unserved=made.unserved, given_up=given_up)


def _try(pieces: Iterable[WantedPiece], shelf: Shelf) -> CutPlan:
    return plan(_problem(pieces, shelf), serving_only=True)


class _Alone:
    """Which lines the rack does not give even where nothing but what was promised is cut."""

    def __init__(self, pieces: Iterable[WantedPiece], fixed: frozenset[str], shelf: Shelf) -> None:
        self.pieces = tuple(pieces)
        self._fixed, self._shelf = fixed, shelf
        self._known: dict[str, bool] = {}

    def misses(self, key: str) -> bool:
        """Return whether the line misses a promised piece."""
        if key not in self._known:
            own = [piece for piece in self.pieces if piece.key == key]
            items = {piece.item for piece in own}
            promised = [p for p in self.pieces if p.key in self._fixed and p.item in items]
            tried = [*promised, *own]
            missing = _missing(_try(tried, self._shelf), tried, self._fixed)
            self._known[key] = any(key in lines for lines in missing.values())
        return self._known[key]


def _missing(
    made: CutPlan, pieces: Iterable[WantedPiece], fixed: frozenset[str]
) -> dict[str, dict[str, list[Unserved]]]:
    """Return what was not served and must be, by item and line."""
    by_id = {piece.id: piece for piece in pieces}
    missing: defaultdict[str, dict[str, list[Unserved]]] = defaultdict(dict)
    for unserved in made.unserved:
        piece = by_id[unserved.piece_id]
        if not piece.spare and piece.key not in fixed:
            missing[piece.item].setdefault(piece.key, []).append(unserved)
    return missing


def _leniency(pieces: Iterable[WantedPiece], key: str) -> tuple[dt.date, str]:
    """The later a line is due, the sooner it is given up."""
    due = min((piece.due or dt.date.max) for piece in pieces if piece.key == key)
    return (due, key)


def _problem(pieces: Iterable[WantedPiece], shelf: Shelf) -> CutProblem:
    wanted = list(pieces)
    items = {piece.item for piece in wanted}
    groups = {
        piece.group: LotGroup(
            id=piece.group, rule=LotRule.SAME if piece.group_hard else LotRule.PREFER
        )
        for piece in wanted
        if piece.group is not None
    }
    smallest = {
        item_of(piece.cable, piece.colour): shelf.cable_terms[piece.cable].smallest_remnant_mm
        for piece in wanted
    }
    return CutProblem(
        pieces=tuple(
            Piece(
                id=piece.id,
                item=piece.item,
                cut_length_mm=piece.cut_length_mm,
                due_day=piece.due,
                priority=_SPARE if piece.spare else _PROMISED,
                lot_group=piece.group,
            )
            for piece in wanted
        ),
        reels=_reels(shelf.stock, items),
        rules=tuple(
            ItemRules(item=item, smallest_remnant_mm=smallest[item], swarf_mm=SWARF_MM)
            for item in sorted(items)
        ),
        groups=tuple(groups[name] for name in sorted(groups)),
        chance_of_enough=CHANCE_OF_ENOUGH,
    )


def _reels(stock: Iterable[ReelStock], items: Iterable[str]) -> tuple[ReelStock, ...]:
    wanted = set(items)
    return tuple(reel for reel in stock if reel.item in wanted)
