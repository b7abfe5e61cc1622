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

    As long as a line misses a promised piece, the least urgent such line of each item is given up
    and the item planned again.
    """
    pieces = list(wanted)
    by_id = {piece.id: piece for piece in pieces}
    given_up: dict[str, tuple[Unserved, ...]] = {}
    while True:
        made = plan(_problem(pieces, shelf))
        missing: defaultdict[str, dict[str, list[Unserved]]] = defaultdict(dict)
        for unserved in made.unserved:
            piece = by_id[unserved.piece_id]
            if not piece.spare and piece.key not in fixed:
                missing[piece.item].setdefault(piece.key, []).append(unserved)
        if not missing:
            return Cutting(plan=made, unserved=made.unserved, given_up=given_up)
        dropped = set()
        for lines in missing.values():
            key = max(lines, key=lambda each: _leniency(pieces, each))
            given_up[key] = (*given_up.get(key, ()), *lines[key])
            dropped.add(key)
        pieces = [piece for piece in pieces if piece.key not in dropped]


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
