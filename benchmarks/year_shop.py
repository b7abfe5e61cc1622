"""A workshop through a year: orders by a seed, a rack that remembers, reels bought by a rule.

Chosen numbers, no published source. Everything that comes from outside (orders, the reels that are
delivered, their lots and flaws) is drawn by item and number, so it is the same whatever is cut from
what; only how many reels are bought, and when, follows from the rack.

* Items: ``RATES`` pieces a day on the average, Poisson: few are wanted daily, many are not.
* Pieces: 1 to 30 m by ``LENGTHS_MM``, or to the centimetre between 0.5 and 12 m for one in three;
  one order line in eight wants its pieces from one lot. What is not cut on its day is refused.
* Reels: 100 m, one in three with a flaw of 200 mm; bought when less than six days' demand or 40 m
  is on the way and on the rack in lengths of 30 m and more, as the longest piece needs one; there
  after five days. Lengths are known exactly.
* Remnants: what is left of a reel goes back. What is shorter than 15 m stands on the remnant wall,
  and is written off when nothing was cut from it for 60 working days.
"""

import random
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from reelwright.core.cutting import (
    CutPlan,
    CutProblem,
    ItemRules,
    LotGroup,
    LotRule,
    Piece,
    ReelCuts,
    ReelStock,
    RemnantUse,
    SegmentKind,
    Stretch,
)
from reelwright.core.cutting.worth import remnant_uses

RATES = (6.0, 3.0, 1.5, 0.8, 0.4, 0.2, 0.1, 0.05)
LENGTHS_MM = (1000, 2000, 3000, 5000, 5000, 10_000, 10_000, 15_000, 20_000, 30_000)
REEL_MM, FLAW_MM = 100_000, 200
LEAST_MM, COVER_DAYS, DELIVERY_DAYS = 40_000, 6, 5
WALL_MM, SPOILS_DAYS, DAYS_A_WEEK = 15_000, 60, 5
SMALLEST_MM, SWARF_MM = 2000, 50
MEAN_MM = (2 * sum(LENGTHS_MM) / len(LENGTHS_MM) + 6250) / 3


def item_name(number: int) -> str:
    """Return the name of an item."""
    return f"K{number + 1}"


def known_uses(number: int, *, seed: int) -> tuple[RemnantUse, ...]:
    """Return what remnants of an item are worth, by the orders of the days before the year."""
    past = [
        piece.cut_length_mm
        for day in range(-SPOILS_DAYS, 0)
        for piece in ordered(day, number + 1, seed=seed)[0]
        if piece.item == item_name(number)
    ]
    weeks = SPOILS_DAYS / DAYS_A_WEEK
    return remnant_uses(past, over_weeks=weeks, within_weeks=weeks, smallest_remnant_mm=SMALLEST_MM)


def rules_of(items: int, *, seed: int, with_uses: bool) -> tuple[ItemRules, ...]:
    """Return the rules of each item, with or without what its remnants are worth."""
    return tuple(
        ItemRules(
            item=item_name(number),
            smallest_remnant_mm=SMALLEST_MM,
            swarf_mm=SWARF_MM,
            remnant_uses=known_uses(number, seed=seed) if with_uses else (),
        )
        for number in range(items)
    )


def ordered(day: int, items: int, *, seed: int) -> tuple[tuple[Piece, ...], tuple[LotGroup, ...]]:
    """Return the pieces ordered for a day and their groups."""
    pieces: list[Piece] = []
    groups: list[LotGroup] = []
    for number in range(items):
        dice = random.Random(f"orders {seed} {number} {day}")
        left = _poisson(dice, RATES[number])
        line = 0
        while left:
            line += 1
            count = min(left, dice.randint(1, 4))
            left -= count
            name = f"O-{day}-{number}-{line}"
            popular = dice.random() < 2 / 3
            length_mm = dice.choice(LENGTHS_MM) if popular else 10 * dice.randint(50, 1200)
            grouped = dice.random() < 1 / 8 and count > 1
            if grouped:
                groups.append(LotGroup(id=f"G {name}", rule=LotRule.SAME))
            pieces += [
                Piece(
                    id=f"{name}-{at}",
                    item=item_name(number),
                    cut_length_mm=length_mm,
                    due_day=None,
                    priority=0,
                    lot_group=f"G {name}" if grouped else None,
                )
                for at in range(count)
            ]
    return tuple(pieces), tuple(groups)


def _poisson(dice: random.Random, mean: float) -> int:
    count, reached = 0, dice.expovariate(1.0)
    while reached < mean:
        count += 1
        reached += dice.expovariate(1.0)
    return count


@dataclass
class Rack:
    """What lies in the workshop: reels and loose remnants by name, and what became of the rest."""

    seed: int
    items: int
    reels: dict[str, ReelStock] = field(default_factory=dict)
    last_cut: dict[str, int] = field(default_factory=dict)
    bought: dict[int, int] = field(default_factory=lambda: defaultdict(int))
    on_the_way: list[tuple[int, int]] = field(default_factory=list)
    written_off_mm: int = 0

    @property
    def length_mm(self) -> int:
        """Everything on it, flaws included."""
        return sum(reel.length_mm for reel in self.reels.values())

    @property
    def wall(self) -> list[ReelStock]:
        """What stands on the remnant wall."""
        return [reel for reel in self.reels.values() if reel.length_mm < WALL_MM]

    def lengths_mm(self, number: int) -> list[int]:
        """Return the clean lengths of an item."""
        name = item_name(number)
        return [
            one.length_mm
            for reel in self.reels.values()
            if reel.item == name
            for one in reel.stretches
        ]

    def morning(self, day: int) -> None:
        """Take in what is delivered, write off what has spoilt, and order what runs low."""
        for due, number in [one for one in self.on_the_way if one[0] <= day]:
            self.on_the_way.remove((due, number))
            self._delivered(number, day)
        for reel in self.wall:
            if day - self.last_cut[reel.id] >= SPOILS_DAYS:
                self.written_off_mm += reel.length_mm
                del self.reels[reel.id]
        for number in range(self.items):
            least_mm = max(LEAST_MM, COVER_DAYS * RATES[number] * MEAN_MM)
            lengths_mm = self.lengths_mm(number)
            there_mm = sum(length for length in lengths_mm if length >= max(LENGTHS_MM))
            there_mm += REEL_MM * sum(item == number for _, item in self.on_the_way)
            while there_mm < least_mm:
                self.on_the_way.append((day + DELIVERY_DAYS if day else 0, number))
                there_mm += REEL_MM
        for due, number in [one for one in self.on_the_way if one[0] <= day]:
            self.on_the_way.remove((due, number))
            self._delivered(number, day)

    def _delivered(self, number: int, day: int) -> None:
        self.bought[number] += 1
        count = self.bought[number]
        dice = random.Random(f"reel {self.seed} {number} {count}")
        ends = [REEL_MM]
        if dice.random() < 1 / 3:
            ends = [dice.randint(5000, REEL_MM - 5000), REEL_MM]
        stretches = [_stretch(0, ends[0])]
        if len(ends) > 1:
            start_mm = ends[0] + FLAW_MM
            stretches.append(_stretch(start_mm, REEL_MM - start_mm))
        name = f"{item_name(number)} R{count}"
        lot = f"{item_name(number)} L{count // 2}"
        self.reels[name] = ReelStock(
            id=name, item=item_name(number), lot=lot, location=None,
            stretches=tuple(stretches), age_rank=count // 2,
        )  # fmt: skip
        self.last_cut[name] = day

    def problem(self, day: int, rules: tuple[ItemRules, ...]) -> CutProblem:
        """Return what is to be planned on a day."""
        pieces, groups = ordered(day, self.items, seed=self.seed)
        return CutProblem(
            pieces=pieces,
            reels=tuple(self.reels.values()),
            rules=rules,
            groups=groups,
            chance_of_enough=0.98,
        )

    def cut(self, plan: CutPlan, day: int) -> None:
        """Cut as planned: what is kept goes back, what comes off is gone."""
        for cuts in plan.reels:
            old = self.reels.pop(cuts.reel_id)
            for name, stretches in kept(old, cuts):
                self.reels[name] = ReelStock(
                    id=name, item=old.item, lot=old.lot, location=None,
                    stretches=tuple(stretches), age_rank=old.age_rank,
                )  # fmt: skip
                self.last_cut[name] = day


def kept(old: ReelStock, cuts: ReelCuts) -> Iterator[tuple[str, Sequence[Stretch]]]:
    """Yield what goes back to the rack: the reel, if anything stays on it, and loose remnants."""
    on_reel = [part for part in cuts.segments if part.kind is SegmentKind.KEPT_ON_REEL]
    if on_reel:
        free_mm = on_reel[0].start_mm
        yield old.id, [_stretch(part.start_mm - free_mm, part.length_mm) for part in on_reel]
    for part in cuts.loose_remnants:
        yield f"{old.id}/{part.start_mm}", [_stretch(0, part.length_mm)]


def _stretch(start_mm: int, length_mm: int) -> Stretch:
    return Stretch(start_mm=start_mm, length_mm=length_mm, standard_uncertainty_mm=0.0)
