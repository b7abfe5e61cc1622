"""Days of a workshop by a seed: items, reels with flaws and lots, order lines with groups.

No real stock is copied; the shapes are common practice, the numbers are chosen (no published
source). The same name and seed make the same day.

* Items: 40. Price 30 to 800 cents/m, trim of 10 to 50 mm at each piece, 0 to 200 mm lost at the
  start of a reel not yet opened, smallest remnant 3 to 10 m, swarf 50 mm; each evenly drawn.
* Reels: 1 to 12 an item. Nine of ten are opened: 5 m and exponential above it, 8 m in the mean, at
  most 60 m; the others are 50, 100 or 250 m. Each third reel has a flaw, each ninth two, 10 to
  300 mm long. While an item has less than 1.25 times what is wanted of it, one of the opened
  reels is a new one instead, and reels are added up to 12; some items still run short.
* Uncertainty of a stretch (one standard deviation): 50 mm and 3 parts in a thousand of the reel,
  0.5 parts where it was never opened.
* Lots: half as many as reels, one age each, up to 900 days.
* Order lines until there are pieces enough: item i with a weight of 1/(i + 3); 1 to 20 pieces,
  each further one with a chance of 0.7; length 0.3 to 12 m, three of five of a short list of
  popular lengths, the others to the centimetre. Promised for today or tomorrow; priority 1, 2 or 5
  for six, three and one in ten.
* Groups: one line in four with several pieces; of these half want one lot, a quarter one reel, a
  quarter prefer one lot.
"""

import datetime
import random
from collections import defaultdict

from benchmarks.days_read import Day, stretches
from reelwright.core.cutting import (
    CutProblem,
    ItemRules,
    LotGroup,
    LotRule,
    Piece,
    ReelStock,
)
from reelwright.core.cutting.aims import InMoney

ITEMS, MOST_REELS = 40, 12
SIZES = (30, 300, 2000)
SWARF_MM = 50
POPULAR_MM = (500, 1000, 1500, 2000, 3000, 5000, 7500, 10000)
NEW_MM = (50_000, 100_000, 250_000)
TODAY = datetime.date(2026, 3, 2)
RULES = (LotRule.SAME, LotRule.SAME, LotRule.SAME_REEL, LotRule.PREFER)


def made(pieces: int, *, seed: int) -> Day:
    """Return a day of at least so many pieces, at most 19 more."""
    dice = random.Random(f"{pieces} {seed}")
    items = [f"K{number // 4 + 1:02} {colour}" for number in range(0, ITEMS, 4) for colour in
             ("black", "blue", "red", "green")]  # fmt: skip
    rules = tuple(
        ItemRules(item=item, smallest_remnant_mm=1000 * dice.choice((3, 4, 5, 6, 8, 10)),
                  swarf_mm=SWARF_MM)
        for item in items
    )  # fmt: skip
    wanted, groups = _ordered(dice, items, pieces)
    metres: defaultdict[str, int] = defaultdict(int)
    for piece in wanted:
        metres[piece.item] += piece.cut_length_mm
    reels: list[ReelStock] = []
    for item in items:
        reels += _rack(dice, item, metres[item], first=len(reels))
    return Day(
        name=f"made_{pieces}_{seed}",
        problem=CutProblem(
            pieces=wanted, reels=tuple(reels), rules=rules, groups=groups, chance_of_enough=0.98
        ),
        money=InMoney(
            price_cents_per_m=tuple(
                (item, dice.choice((30, 45, 80, 120, 200, 350, 800))) for item in items
            ),
            short_cents=20_000,
            short_cents_per_m=200,
            lot_mixed_cents=1_000,
            unusable_end_cents=300,
            reel_cents=150,
            open_remnant_cents=50,
            age_cents_per_m=2,
        ),
    )


def _ordered(
    dice: random.Random, items: list[str], count: int
) -> tuple[tuple[Piece, ...], tuple[LotGroup, ...]]:
    trims = {item: dice.choice((10, 20, 30, 50)) for item in items}
    weights = [1 / (number + 3) for number in range(len(items))]
    pieces: list[Piece] = []
    groups: list[LotGroup] = []
    line = 0
    while len(pieces) < count:
        line += 1
        item = dice.choices(items, weights)[0]
        quantity = 1
        while quantity < 20 and dice.random() < 0.7:
            quantity += 1
        popular = dice.random() < 0.6
        length_mm = dice.choice(POPULAR_MM) if popular else 10 * dice.randint(30, 1200)
        group = None
        if quantity > 1 and dice.random() < 0.25:
            group = LotGroup(id=f"G-{line}", rule=dice.choice(RULES))
            groups.append(group)
        due_day = TODAY + datetime.timedelta(days=dice.randint(0, 1))
        priority = dice.choice((1,) * 6 + (2,) * 3 + (5,))
        pieces += [
            Piece(
                id=f"O-{line}-{number}",
                item=item,
                cut_length_mm=length_mm + trims[item],
                due_day=due_day,
                priority=priority,
                lot_group=group.id if group else None,
            )
            for number in range(1, quantity + 1)
        ]
    return tuple(pieces), tuple(groups)


def _rack(dice: random.Random, item: str, wanted_mm: int, *, first: int) -> list[ReelStock]:
    lengths = [_length(dice) for _ in range(dice.randint(1, MOST_REELS))]
    while sum(length for length, _ in lengths) < 1.25 * wanted_mm:
        worn = [at for at, (_, old) in enumerate(lengths) if old]
        new = (dice.choice(NEW_MM), False)
        if worn:
            lengths[worn[-1]] = new
        elif len(lengths) < MOST_REELS:
            lengths.append(new)
        else:
            break
    trim_mm = dice.choice((0, 50, 100, 200))
    ages = dice.sample(range(1, 900), max(1, len(lengths) // 2))
    lots = [(f"{item} L{age}", rank) for rank, age in enumerate(sorted(ages, reverse=True))]
    reels = []
    for number, (length_mm, opened) in enumerate(lengths):
        lot, rank = dice.choice(lots)
        flaws: list[list[int]] = []
        for _ in range(dice.choices((0, 1, 2), (5, 3, 1))[0]):
            start_mm = dice.randint(1, length_mm - 400)
            flaws.append([start_mm, start_mm + dice.randint(10, 300)])
        u_mm = 50 + length_mm * (0.003 if opened else 0.0005)
        reels.append(
            ReelStock(
                id=f"R-{first + number}",
                item=item,
                lot=lot,
                location=f"shelf {1 + number // 4}",
                stretches=stretches(0 if opened else trim_mm, length_mm, flaws, u_mm=u_mm),
                age_rank=rank,
            )
        )
    return reels


def _length(dice: random.Random) -> tuple[int, bool]:
    """Return the length in millimetres, and whether the reel was opened."""
    if dice.random() < 0.9:
        return 5000 + min(55_000, round(dice.expovariate(1 / 8000))), True
    return dice.choice(NEW_MM), False
