"""Small cutting problems: the demo workshop's reels, and any problem Hypothesis can think of."""

import datetime

from hypothesis import strategies as st

from reelwright.core.cutting import (
    CutProblem,
    ItemRules,
    LotGroup,
    LotRule,
    Piece,
    ReelStock,
    RemnantUse,
    Stretch,
)

RED = "VID-60 red"


def stretch(start_mm: int, length_mm: int, uncertainty_mm: float) -> Stretch:
    """A stretch in one line."""
    return Stretch(start_mm=start_mm, length_mm=length_mm, standard_uncertainty_mm=uncertainty_mm)


def reel(name: str, item: str, *stretches: Stretch, lot: str = "L1", age: int = 0) -> ReelStock:
    """A reel in one line."""
    return ReelStock(id=name, item=item, lot=lot, location=None, stretches=stretches, age_rank=age)


def use(at_least_mm: int, chance: float) -> RemnantUse:
    """A remnant of that length and more is used with that chance."""
    return RemnantUse(at_least_mm=at_least_mm, use_chance=chance)


def pieces(
    count: int, length_mm: int, *, item: str = RED, order: str = "O", group: str | None = None
) -> tuple[Piece, ...]:
    """Equal pieces of one order."""
    return tuple(
        Piece(
            id=f"{order}-{number:02}",
            item=item,
            cut_length_mm=length_mm,
            due_day=None,
            priority=0,
            lot_group=group,
        )
        for number in range(1, count + 1)
    )


def problem(
    wanted: tuple[Piece, ...],
    reels: tuple[ReelStock, ...],
    *,
    groups: tuple[LotGroup, ...] = (),
    keep_mm: int = 3000,
    swarf_mm: int = 50,
) -> CutProblem:
    """A problem with the same rules for every item and 98 % certainty."""
    items = sorted({*(piece.item for piece in wanted), *(one.item for one in reels)})
    return CutProblem(
        pieces=wanted,
        reels=reels,
        rules=tuple(
            ItemRules(item=item, smallest_remnant_mm=keep_mm, swarf_mm=swarf_mm) for item in items
        ),
        groups=groups,
        chance_of_enough=0.98,
    )


RED_REELS = (
    reel("R-113", RED, stretch(0, 12200, 250), stretch(12400, 28600, 250), lot="L2391"),
    reel("R-114", RED, stretch(0, 60000, 400), lot="L2406", age=1),
)


def racks(count: int, *, rule: LotRule = LotRule.PREFER) -> CutProblem:
    """The demo workshop's racks: ten red cables of 10 ft each, every rack wants one shade."""
    wanted = tuple(
        piece
        for rack in range(1, count + 1)
        for piece in pieces(10, 3060, order=f"O-12 {rack}", group=f"rack {rack}")
    )
    groups = tuple(LotGroup(id=f"rack {rack}", rule=rule) for rack in range(1, count + 1))
    return problem(wanted, RED_REELS, groups=groups)


@st.composite
def any_problem(draw: st.DrawFn, *, most_pieces: int = 7, one_urgency: bool = False) -> CutProblem:
    """One item, a few reels with flaws and doubts, pieces with groups and urgencies."""
    reels = tuple(draw(any_reel(f"R-{number}")) for number in range(draw(st.integers(0, 3))))
    groups = tuple(
        LotGroup(id=f"set {number}", rule=draw(st.sampled_from(LotRule)))
        for number in range(draw(st.integers(0, 2)))
    )
    names = [None, *(group.id for group in groups)]
    urgency = st.just(0) if one_urgency else st.integers(0, 1)
    days = st.just(None) if one_urgency else st.sampled_from([None, datetime.date(2026, 3, 4)])
    wanted = tuple(
        Piece(
            id=f"P-{number}",
            item="cable",
            cut_length_mm=draw(st.sampled_from([40, 70, 75, 110])),
            due_day=draw(days),
            priority=draw(urgency),
            lot_group=draw(st.sampled_from(names)),
            longer_by_lot_mm=draw(st.sampled_from([(), (), (), (("L1", -4), ("L2", 7))])),
            only_reel=draw(st.sampled_from([None] * 5 + [reel.id for reel in reels])),
        )
        for number in range(draw(st.integers(1, most_pieces)))
    )
    uses = draw(st.sampled_from([(), (use(60, 0.4), use(110, 0.9)), (use(75, 0.25),)]))
    rules = (ItemRules(item="cable", smallest_remnant_mm=60, swarf_mm=5, remnant_uses=uses),)
    return CutProblem(pieces=wanted, reels=reels, rules=rules, groups=groups, chance_of_enough=0.98)


@st.composite
def any_reel(draw: st.DrawFn, name: str) -> ReelStock:
    """A reel of up to three stretches, of one of two lots."""
    stretches = []
    start = draw(st.sampled_from([0, 3]))
    for _ in range(draw(st.integers(1, 3))):
        length = draw(st.integers(20, 230))
        stretches.append(stretch(start, length, draw(st.sampled_from([0.0, 2.5, 10.0]))))
        start += length + draw(st.integers(1, 9))
    lot = draw(st.sampled_from(["L1", "L2"]))
    return reel(name, "cable", *stretches, lot=lot, age=int(lot[1]) - 1)
