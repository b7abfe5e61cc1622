"""The cutting of one item, brought into one order so that a shuffled problem is the same problem.

Pieces that differ in name only are one *kind*. A plan of an item is a table ``counts``: how many
pieces of each kind come from each stretch. Its standing is a tuple of whole numbers, compared
from the left, the smaller the better.
"""

import datetime
import re
from collections.abc import Callable, Iterable, Sequence
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
from reelwright.core.cutting.rests import (
    WHOLE,
    lost_when_kept_um,
    of_length,
    rests_last,
    rests_passed,
)

NEVER_MM = 10**12
"""Longer than any reel."""

Counts = tuple[tuple[int, ...], ...]
"""counts[kind][bin]"""

AFTER_SERVING = (
    "lots mixed in a group",
    "unusable ends",
    "value lost",
    "reels touched",
    "open remnants",
    "age of the lots used",
)

LEVELS = ("pieces not served", *AFTER_SERVING)
"""In the order in which they count. Common practice, no published source."""


def as_people_count(name: str) -> tuple[tuple[int, int, str], ...]:
    """Return a key that sorts names as people count: piece O-07-2 before O-07-10."""
    return tuple(
        (0, int(part), "") if part.isascii() and part.isdigit() else (1, 0, part)
        for part in re.split(r"(\d+)", name)
    )


@dataclass(frozen=True, kw_only=True)
class Kind:
    """Pieces alike in everything but their name. ``rank`` numbers the urgencies from 0.

    ``length_mm`` is cut from any lot that ``longer_by_lot_mm`` does not name.
    """

    urgency: tuple[int, datetime.date]
    rank: int
    length_mm: int
    group: str | None
    rule: LotRule | None
    longer_by_lot_mm: tuple[tuple[str, int], ...]
    only_reel: str | None
    piece_ids: tuple[str, ...]

    def cut_from_mm(self, reel: ReelStock) -> int:
        """Return what is cut from that reel, ``NEVER_MM`` if it may not be."""
        if self.only_reel not in {None, reel.id}:
            return NEVER_MM
        return self.length_mm + dict(self.longer_by_lot_mm).get(reel.lot, 0)

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
    lost_um: int
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
        alike: dict[tuple[int, int, str, tuple[tuple[str, int], ...], str], list[str]] = {}
        for piece in pieces:
            key = (
                urgencies.index(piece.urgency),
                -piece.cut_length_mm,
                piece.lot_group or "",
                tuple(sorted(piece.longer_by_lot_mm)),
                piece.only_reel or "",
            )
            alike.setdefault(key, []).append(piece.id)
        kinds = tuple(
            Kind(
                urgency=urgencies[rank],
                rank=rank,
                length_mm=-minus_length,
                group=group or None,
                rule=rule_of[group] if group else None,
                longer_by_lot_mm=longer,
                only_reel=only or None,
                piece_ids=tuple(sorted(ids, key=as_people_count)),
            )
            for (rank, minus_length, group, longer, only), ids in sorted(alike.items())
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

    @cached_property
    def hard_groups(self) -> dict[str, LotRule]:
        """The groups that come from one lot, or from one reel, or not at all."""
        return {
            kind.group: kind.rule
            for kind in self.kinds
            if kind.group is not None and kind.rule not in {None, LotRule.PREFER}
        }

    @cached_property
    def soft_groups(self) -> frozenset[str]:
        """The groups that may mix lots, but had better not."""
        return frozenset(
            kind.group
            for kind in self.kinds
            if kind.group is not None and kind.rule is LotRule.PREFER
        )

    def lots_mixed(self, counts: Counts) -> int:
        """Return how many lots more than one the soft groups are cut from, summed up."""
        return sum(len(lots) - 1 for lots in self.lots_of_groups(counts).values())

    def origin(self, at: int, rule: LotRule | None) -> str:
        """Return what pieces of a group share if they all come from stretch ``at``."""
        reel = self.reels[self.bins[at].reel]
        return reel.id if rule is LotRule.SAME_REEL else reel.lot

    def keeps_groups(self, counts: Counts) -> bool:
        """Return whether every hard group comes from one lot, or from one reel."""
        origins: dict[str, str] = {}
        for kind, row in zip(self.kinds, counts, strict=True):
            if kind.group is None or kind.group not in self.hard_groups:
                continue
            for at, count in enumerate(row):
                if count:
                    origin = self.origin(at, kind.rule)
                    if origins.setdefault(kind.group, origin) != origin:
                        return False
        return True

    @cached_property
    def cut_mm(self) -> tuple[tuple[int, ...], ...]:
        """What a piece of each kind takes from each stretch (kinds, bins)."""
        return tuple(
            tuple(kind.cut_from_mm(self.reels[one.reel]) for one in self.bins)
            for kind in self.kinds
        )

    @cached_property
    def least_cut_mm(self) -> tuple[int, ...]:
        """The least that a piece of each kind takes anywhere (kinds,)."""
        return tuple(min(row, default=NEVER_MM) for row in self.cut_mm)

    def most(self, kind: int, at: int) -> int:
        """Return how many pieces of a kind an empty stretch gives at the most."""
        return min(self.kinds[kind].wanted, self.bins[at].usable_mm // self.cut_mm[kind][at])

    def fills_mm(self, counts: Counts) -> tuple[int, ...]:
        """Return what is cut from each stretch."""
        return tuple(
            sum(row[at] * cut[at] for row, cut in zip(counts, self.cut_mm, strict=True) if row[at])
            for at in range(len(self.bins))
        )

    @cached_property
    def reel_cost(self) -> Callable[[int, tuple[int, ...]], ReelCost]:
        """``cost(reel, fills_mm)``, remembered."""

        @lru_cache(maxsize=50_000)
        def cost(number: int, fills: tuple[int, ...]) -> ReelCost:
            return cost_of_reel(self.reels[number], fills, self.rules)

        return cost

    def missing(self, counts: Counts) -> tuple[int, ...]:
        """Return how many pieces of each kind are not served."""
        return tuple(kind.wanted - sum(row) for kind, row in zip(self.kinds, counts, strict=True))

    def after_serving(self, counts: Counts) -> tuple[int, ...]:
        """Return the levels after serving, as ``AFTER_SERVING`` names them."""
        fills = self.fills_mm(counts)
        costs = [
            self.reel_cost(number, tuple(fills[at] for at in bins))
            for number, bins in enumerate(self.bins_of_reel)
        ]
        return (self.lots_mixed(counts), *summed(costs), self.age(fills))

    def age(self, fills: Sequence[int]) -> int:
        """Return the millimetres cut, each times the rank of its lot's age."""
        return sum(
            fill * self.reels[one.reel].age_rank for fill, one in zip(fills, self.bins, strict=True)
        )

    def standing(self, counts: Counts) -> tuple[int, ...]:
        """Return the standing: pieces not served by urgency, then the other levels."""
        missing = [0] * self.ranks
        for kind, count in zip(self.kinds, self.missing(counts), strict=True):
            missing[kind.rank] += count
        return (*missing, *self.after_serving(counts))

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


def summed(costs: Iterable[ReelCost]) -> tuple[int, int, int, int]:
    """Return the costs of several reels together: ends, lost, touched, open."""
    ends = lost = touched = left_open = 0
    for cost in costs:
        ends += cost.ends
        lost += cost.lost_um
        touched += cost.touched
        left_open += cost.open
    return ends, lost, touched, left_open


def cost_of_reel(reel: ReelStock, fills: tuple[int, ...], rules: ItemRules) -> ReelCost:
    """Return what it costs to cut ``fills`` (one for each stretch, in mm) from a reel.

    Everything in front of the last stretch that is cut into comes off, its flaws are scrap. The
    worth that is lost counts from what the reel was worth before: cutting a length that was of
    little use is a gain.
    """
    if not any(fills):
        return ReelCost(ends=0, lost_um=0, touched=0, open=0)
    last = max(at for at, fill in enumerate(fills) if fill)
    at_reel = reel.stretches[last]
    rests = [
        *(
            (rests_passed(stretch.length_mm, rules), stretch.length_mm - fill)
            for stretch, fill in zip(reel.stretches[:last], fills, strict=False)
        ),
        (rests_last(reel, last, rules), at_reel.length_mm - fills[last]),
    ]
    kinds = [(of_length(kinds, length_mm), length_mm) for kinds, length_mm in rests]
    return ReelCost(
        ends=sum(kind.ends for kind, _ in kinds),
        lost_um=sum(kind.lost_at_um(length_mm) for kind, length_mm in kinds)
        + WHOLE * skipped_mm(reel, last)
        - lost_already_um(reel, rules),
        touched=1,
        open=sum(kind.open_remnants for kind, _ in kinds),
    )


def skipped_mm(reel: ReelStock, place: int) -> int:
    """Return the flaws, and what is trimmed off at the start, in front of one stretch."""
    clean_mm = sum(stretch.length_mm for stretch in reel.stretches[:place])
    return reel.stretches[place].start_mm - clean_mm


def lost_already_um(reel: ReelStock, rules: ItemRules) -> int:
    """Return how much less than whole cable the stretches of a reel are worth as they are."""
    return sum(lost_when_kept_um(stretch.length_mm, rules) for stretch in reel.stretches)
