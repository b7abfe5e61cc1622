"""The cutting of one item, brought into one order so that a shuffled problem is the same problem.

Pieces that differ in name only are one *kind*. A plan of an item is a table ``counts``: how many
pieces of each kind come from each stretch. Its standing is a tuple of whole numbers, compared
from the left, the smaller the better.
"""

import datetime
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property, lru_cache

from reelwright.core.cutting.certainty import usable_mm
from reelwright.core.cutting.problem import (
    CutProblem,
    ItemRules,
    LotRule,
    ReelStock,
    Stretch,
)

Counts = tuple[tuple[int, ...], ...]
"""counts[kind][bin]"""

LEVELS = (
    "pieces not served",
    "lots mixed in a group",
    "unusable ends",
    "scrap in mm",
    "reels touched",
    "open remnants",
    "age of the lots used",
)
"""In the order in which they count. Common practice, no published source."""


def as_people_count(name: str) -> tuple[tuple[int, int, str], ...]:
    """Return a key that sorts names as people count: piece O-07-2 before O-07-10."""
    return tuple(
        (0, int(part), "") if part.isascii() and part.isdigit() else (1, 0, part)
        for part in re.split(r"(\d+)", name)
    )


@dataclass(frozen=True, kw_only=True)
class Kind:
    """Pieces alike: same length, urgency and lot group. ``rank`` numbers the urgencies from 0."""

    urgency: tuple[int, datetime.date]
    rank: int
    length_mm: int
    group: str | None
    rule: LotRule | None
    piece_ids: tuple[str, ...]

    @property
    def wanted(self) -> int:
        """How many pieces."""
        return len(self.piece_ids)


@dataclass(frozen=True, kw_only=True)
class Bin:
    """One stretch of one reel."""

    reel: int
    place: int
    stretch: Stretch
    usable_mm: int


@dataclass(frozen=True, kw_only=True)
class ReelCost:
    """What the use of one reel costs, in the order of the levels; additive over reels."""

    ends: int
    scrap_mm: int
    touched: int
    open: int


@dataclass(frozen=True)
class ItemCutting:
    """One item: kinds (most urgent and longest first), reels (oldest first), stretches."""

    item: str
    kinds: tuple[Kind, ...]
    reels: tuple[ReelStock, ...]
    bins: tuple[Bin, ...]
    rules: ItemRules

    @classmethod
    def of(cls, problem: CutProblem, item: str) -> "ItemCutting":
        """Return the part of the problem that concerns one item."""
        rule_of = {group.id: group.rule for group in problem.groups}
        pieces = [piece for piece in problem.pieces if piece.item == item]
        urgencies = sorted({piece.urgency for piece in pieces})
        alike: dict[tuple[int, int, str], list[str]] = {}
        for piece in pieces:
            key = (urgencies.index(piece.urgency), -piece.cut_length_mm, piece.lot_group or "")
            alike.setdefault(key, []).append(piece.id)
        kinds = tuple(
            Kind(
                urgency=urgencies[rank],
                rank=rank,
                length_mm=-minus_length,
                group=group or None,
                rule=rule_of[group] if group else None,
                piece_ids=tuple(sorted(ids, key=as_people_count)),
            )
            for (rank, minus_length, group), ids in sorted(alike.items())
        )
        reels = tuple(
            sorted(
                (reel for reel in problem.reels if reel.item == item),
                key=lambda reel: (reel.age_rank, reel.lot, reel.length_mm, reel.id),
            )
        )
        bins = tuple(
            Bin(
                reel=number,
                place=place,
                stretch=stretch,
                usable_mm=usable_mm(stretch, chance_of_enough=problem.chance_of_enough),
            )
            for number, reel in enumerate(reels)
            for place, stretch in enumerate(reel.stretches)
        )
        return cls(item, kinds, reels, bins, problem.rules_of(item))

    @cached_property
    def ranks(self) -> int:
        """How many urgencies there are."""
        return 1 + max((kind.rank for kind in self.kinds), default=-1)

    @cached_property
    def bins_of_reel(self) -> tuple[tuple[int, ...], ...]:
        """Which stretches lie on which reel, in unwinding order."""
        return tuple(
            tuple(at for at, one in enumerate(self.bins) if one.reel == number)
            for number in range(len(self.reels))
        )

    def fills_mm(self, counts: Counts) -> tuple[int, ...]:
        """Return what is cut from each stretch."""
        return tuple(
            sum(row[at] * kind.length_mm for row, kind in zip(counts, self.kinds, strict=True))
            for at in range(len(self.bins))
        )

    @cached_property
    def reel_cost(self) -> Callable[[int, tuple[int, ...]], ReelCost]:
        """``cost(reel, fills_mm)``, remembered."""

        @lru_cache(maxsize=50_000)
        def cost(number: int, fills: tuple[int, ...]) -> ReelCost:
            return cost_of_reel(self.reels[number], fills, self.rules)

        return cost

    def standing(self, counts: Counts) -> tuple[int, ...]:
        """Return the standing: pieces not served by urgency, then the other levels."""
        missing = [0] * self.ranks
        for kind, row in zip(self.kinds, counts, strict=True):
            missing[kind.rank] += kind.wanted - sum(row)
        fills = self.fills_mm(counts)
        costs = [
            self.reel_cost(number, tuple(fills[at] for at in bins))
            for number, bins in enumerate(self.bins_of_reel)
        ]
        return (
            *missing,
            sum(len(lots) - 1 for lots in self.lots_of_groups(counts).values()),
            sum(cost.ends for cost in costs),
            sum(cost.scrap_mm for cost in costs),
            sum(cost.touched for cost in costs),
            sum(cost.open for cost in costs),
            sum(
                fill * self.reels[one.reel].age_rank
                for fill, one in zip(fills, self.bins, strict=True)
            ),
        )

    def lots_of_groups(self, counts: Counts) -> dict[str, set[str]]:
        """Return the lots that each group is cut from; groups of which nothing is cut left out."""
        lots: dict[str, set[str]] = {}
        for kind, row in zip(self.kinds, counts, strict=True):
            if kind.group is not None:
                used = {self.reels[self.bins[at].reel].lot for at, count in enumerate(row) if count}
                if used:
                    lots.setdefault(kind.group, set()).update(used)
        return lots

    def shown(self, standing: tuple[int, ...]) -> tuple[tuple[str, int], ...]:
        """Return the standing with names, the urgencies taken together."""
        values = (sum(standing[: self.ranks]), *standing[self.ranks :])
        return tuple(zip(LEVELS, values, strict=True))


def cost_of_reel(reel: ReelStock, fills: tuple[int, ...], rules: ItemRules) -> ReelCost:
    """Return what it costs to cut ``fills`` (one for each stretch, in mm) from a reel.

    Everything in front of the last stretch that is cut into comes off: a rest worth keeping is
    kept loose, the other rests and the flaws are scrap. What lies behind the last cut stays on
    the reel if one clean length of it is worth keeping, and is thrown away if not.
    """
    if not any(fills):
        return ReelCost(ends=0, scrap_mm=0, touched=0, open=0)
    last = max(at for at, fill in enumerate(fills) if fill)
    ends = scrap = kept = reached = 0
    for stretch, fill in zip(reel.stretches[: last + 1], fills, strict=False):
        scrap += stretch.start_mm - reached
        reached = stretch.end_mm
        if stretch is reel.stretches[last]:
            break
        rest = stretch.length_mm - fill
        if rest >= rules.smallest_remnant_mm:
            kept += 1
        else:
            scrap += rest
            ends += rest > rules.swarf_mm
    at_reel = reel.stretches[last]
    left = reel.length_mm - at_reel.start_mm - fills[last]
    clean = max(
        at_reel.length_mm - fills[last],
        *(stretch.length_mm for stretch in reel.stretches[last + 1 :]),
        0,
    )
    if clean >= rules.smallest_remnant_mm:
        kept += 1
    else:
        scrap += left
        ends += left > rules.swarf_mm
    return ReelCost(ends=ends, scrap_mm=scrap, touched=1, open=kept)
