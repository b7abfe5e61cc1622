"""The checker of the cutting benchmark: it finds each kind of broken plan, and counts by hand."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from benchmarks.days_checker import complaints, tallies
from benchmarks.days_made import made
from reelwright.core.cutting import (
    CutPlan,
    CutProblem,
    ItemRules,
    LotGroup,
    LotRule,
    Piece,
    Placement,
    ReelCuts,
    ReelStock,
    RemnantUse,
    Segment,
    SegmentKind,
    Stretch,
    Unserved,
    plan,
)
from reelwright.core.cutting.aims import InMoney
from reelwright.core.verdicts import Reason

CUT, FLAW, SCRAP = SegmentKind.CUT, SegmentKind.FLAW, SegmentKind.SCRAP
LOOSE, ON_REEL = SegmentKind.KEPT_LOOSE, SegmentKind.KEPT_ON_REEL
BECAUSE = (Reason(code="there", sentence="It fits."),)


def reel(name: str, lot: str, age: int, *stretches: tuple[int, int], u_mm: float) -> ReelStock:
    """A reel in one line."""
    return ReelStock(
        id=name, item="cable", lot=lot, location=None, age_rank=age,
        stretches=tuple(
            Stretch(start_mm=start, length_mm=length, standard_uncertainty_mm=u_mm)
            for start, length in stretches
        ),
    )  # fmt: skip


def piece(name: str, length_mm: int, group: str | None = None, priority: int = 1) -> Piece:
    """A piece in one line."""
    return Piece(
        id=name, item="cable", cut_length_mm=length_mm, due_day=None, priority=priority,
        lot_group=group,
    )  # fmt: skip


PROBLEM = CutProblem(
    pieces=(
        piece("P1", 4000, "same"), piece("P2", 2000), piece("P3", 5000, "soft"),
        piece("P4", 4000, "reel"), piece("P5", 3000, "reel"), piece("P6", 6000, "same"),
        piece("P7", 20000, priority=2), piece("P8", 900, "soft"),
    ),
    reels=(
        reel("R1", "L1", 0, (100, 9900), (10200, 20000), (30300, 2000), u_mm=20.0),
        reel("R2", "L2", 1, (0, 5000), (5100, 4000), u_mm=0.0),
        reel("R3", "L1", 0, (0, 6020), u_mm=0.0),
        reel("R4", "L1", 0, (0, 6020), u_mm=0.0),
    ),
    rules=(ItemRules(item="cable", smallest_remnant_mm=3000, swarf_mm=50),),
    groups=(
        LotGroup(id="same", rule=LotRule.SAME),
        LotGroup(id="reel", rule=LotRule.SAME_REEL),
        LotGroup(id="soft", rule=LotRule.PREFER),
    ),
    chance_of_enough=0.98,
)  # fmt: skip

Told = tuple[int, int, SegmentKind, str | bool]
"""Start, end, kind, and the piece or whether it stays on the reel."""

ON: dict[str, list[Told]] = {
    "R1": [
        (0, 100, FLAW, False), (100, 4100, CUT, "P1"), (4100, 6100, CUT, "P2"),
        (6100, 10000, LOOSE, False), (10000, 10200, FLAW, False), (10200, 15200, CUT, "P3"),
        (15200, 30200, ON_REEL, True), (30200, 30300, FLAW, True), (30300, 32300, ON_REEL, True),
    ],
    "R2": [
        (0, 4000, CUT, "P4"), (4000, 4900, CUT, "P8"), (4900, 5000, SCRAP, False),
        (5000, 5100, FLAW, False), (5100, 8100, CUT, "P5"), (8100, 9100, SCRAP, False),
    ],
    "R3": [(0, 6000, CUT, "P6"), (6000, 6020, SCRAP, False)],
}  # fmt: skip


def plan_of(on: dict[str, list[Told]], *, warning: str = "Group soft mixes L1 and L2.") -> CutPlan:
    """Return the plan of these segments, told as a planner would tell it."""
    stock = {one.id: one for one in PROBLEM.reels}
    reels = tuple(
        ReelCuts(
            reel_id=name,
            item="cable",
            lot=stock[name].lot,
            location=None,
            chance_of_enough=1.0,
            segments=tuple(
                Segment(
                    kind=kind,
                    start_mm=start,
                    end_mm=end,
                    piece_id=told if isinstance(told, str) else None,
                    stays_on_reel=told is True,
                )
                for start, end, kind, told in told_of_reel
            ),
        )
        for name, told_of_reel in on.items()
    )
    placed = [(one, part) for one in reels for part in one.cuts]
    cut = {part.piece_id for _, part in placed}
    return CutPlan(
        reels=reels,
        placements=tuple(
            Placement(
                piece_id=part.piece_id or "",
                reel_id=one.reel_id,
                lot=one.lot,
                start_mm=part.start_mm,
                end_mm=part.end_mm,
                why=BECAUSE,
            )
            for one, part in placed
        ),
        unserved=tuple(
            Unserved(
                piece_id=one.id,
                item="cable",
                cut_length_mm=one.cut_length_mm,
                reasons=BECAUSE,
                would_serve="A reel of 21 m.",
            )
            for one in PROBLEM.pieces
            if one.id not in cut
        ),
        warnings=(Reason(code="mixed", sentence=warning),),
        standings=(),
    )


WHOLE = plan_of(ON)


def on_reel(name: str, told: list[Told]) -> CutPlan:
    """Return the whole plan with one reel told otherwise."""
    return plan_of({**ON, name: told})


def told_so(at: int, /, **changes: Any) -> CutPlan:
    """Return the whole plan with what is told of one reel changed."""
    reels = list(WHOLE.reels)
    reels[at] = replace(reels[at], **changes)
    return replace(WHOLE, reels=tuple(reels))


def swapped(told: list[Told], at: int, *instead: Told) -> list[Told]:
    """Return the segments with one of them in other words."""
    return [*told[:at], *instead, *told[at + 1 :]]


R1, R2, R3 = ON["R1"], ON["R2"], ON["R3"]
BROKEN: dict[str, tuple[CutPlan, str]] = {
    "a piece is cut twice": (
        plan_of({**ON, "R4": [(0, 6000, CUT, "P6"), (6000, 6020, SCRAP, False)]}),
        "P6 is cut 2 times and unserved 0 times",
    ),
    "a piece is forgotten": (replace(WHOLE, unserved=()), "P7 is cut 0 times and unserved 0 times"),
    "a piece nobody wants": (
        on_reel("R3", [(0, 6000, CUT, "P9"), (6000, 6020, SCRAP, False)]),
        "P9 is not wanted",
    ),
    "a placement elsewhere": (
        replace(
            WHOLE, placements=(replace(WHOLE.placements[0], start_mm=101), *WHOLE.placements[1:])
        ),
        "placements are not the cuts",
    ),
    "no reason for a place": (
        replace(WHOLE, placements=(replace(WHOLE.placements[0], why=()), *WHOLE.placements[1:])),
        "P1 lies there without a why",
    ),
    "no reason for a refusal": (
        replace(WHOLE, unserved=(replace(WHOLE.unserved[0], reasons=()),)),
        "P7 is unserved without a reason",
    ),
    "another length refused": (
        replace(WHOLE, unserved=(replace(WHOLE.unserved[0], cut_length_mm=19999),)),
        "P7 is told as another length",
    ),
    "a piece too short": (
        on_reel("R3", [(0, 5990, CUT, "P6"), (5990, 6020, SCRAP, False)]),
        "P6 is cut as 5990 mm",
    ),
    "pieces overlap": (
        on_reel("R1", swapped(R1, 2, (4000, 6000, CUT, "P2"))),
        "an overlap between 4100 and 4000 mm",
    ),
    "a gap": (on_reel("R1", swapped(R1, 3, (6200, 10000, LOOSE, False))), "a gap between 6100"),
    "the end is left out": (on_reel("R3", R3[:1]), "a gap between 6000 and 6020"),
    "a flaw in a piece": (
        on_reel("R2", [(0, 4000, CUT, "P4"), (4000, 4900, CUT, "P8"), (4900, 7900, CUT, "P5"),
                       (7900, 9100, SCRAP, False)]),
        "a flaw within 4900 to 7900",
    ),
    "good cable called a flaw": (
        on_reel("R2", swapped(R2, 2, (4900, 5000, FLAW, False))),
        "4900 to 5000 mm is not a flaw",
    ),
    "a flaw called scrap": (
        on_reel("R2", swapped(R2, 3, (5000, 5100, SCRAP, False))),
        "a flaw within 5000 to 5100",
    ),
    "scrap with a name": (
        told_so(2, segments=(WHOLE.reels[2].segments[0],
                             replace(WHOLE.reels[2].segments[1], piece_id="P6"))),
        "scrap with the name P6",
    ),
    "a reel twice": (
        replace(WHOLE, reels=(*WHOLE.reels, WHOLE.reels[0])),
        "R1 stands in the plan 2 times",
    ),
    "a reel for nothing": (
        plan_of({**ON, "R4": [(0, 6020, ON_REEL, True)]}),
        "R4 is in the plan, and nothing is cut from it",
    ),
    "another lot told": (told_so(2, lot="L2"), "R3 is told as another item, lot or place"),
    "a certainty told too high": (told_so(0, chance_of_enough=0.99), "chance of enough is 1.0"),
    "two lots where one is asked": (
        plan_of({"R1": [(0, 100, FLAW, False), (100, 6100, CUT, "P6"), (6100, 10000, ON_REEL, True),
                        *[(a, b, kind, True) for a, b, kind, _ in [
                            (10000, 10200, FLAW, 0), (10200, 30200, ON_REEL, 0),
                            (30200, 30300, FLAW, 0), (30300, 32300, ON_REEL, 0)]]],
                 "R2": [(0, 4000, CUT, "P1"), (4000, 5000, SCRAP, False), (5000, 5100, FLAW, False),
                        (5100, 9100, CUT, "P4")]}),
        "same mixes the lots ['L1', 'L2']",
    ),
    "two reels where one is asked": (
        on_reel("R3", [(0, 3000, CUT, "P5"), (3000, 6020, ON_REEL, True)]),
        "reel mixes the reels",
    ),
    "lots mixed and not a word": (
        plan_of(ON, warning="None."),
        "soft mixes lots without a warning",
    ),
    "a loose remnant too short": (
        on_reel("R2", swapped(R2, 2, (4900, 5000, LOOSE, False))),
        "a loose remnant of 100 mm is too short",
    ),
    "a remnant thrown away": (
        on_reel("R1", swapped(R1, 3, (6100, 10000, SCRAP, False))),
        "3900 mm worth keeping are thrown away",
    ),
    "a good reel thrown away": (
        on_reel("R1", [*R1[:6], *[(a, b, FLAW if kind is FLAW else SCRAP, False)
                                  for a, b, kind, _ in R1[6:]]]),
        "what stays on the reel is not what is worth it",
    ),
    "an end kept on the reel": (
        on_reel("R2", swapped(R2, 5, (8100, 9100, ON_REEL, True))),
        "1000 mm behind the last cut are told as",
    ),
    "kept in front of the last cut": (
        on_reel("R1", swapped(R1, 3, (6100, 10000, ON_REEL, True))),
        "something stays on the reel in front of the last cut, at 6100",
    ),
    "one rest in two": (
        on_reel("R2", swapped(R2, 5, (8100, 8140, SCRAP, False), (8140, 9100, SCRAP, False))),
        "a rest in two parts at 8140",
    ),
}  # fmt: skip


def test_a_whole_plan_is_found_whole() -> None:
    """The plan that is broken below has nothing wrong with it."""
    assert complaints(PROBLEM, WHOLE) == []


@pytest.mark.parametrize("kind", BROKEN)
def test_each_kind_of_broken_plan_is_found(kind: str) -> None:
    """What is broken is told in words."""
    broken, words = BROKEN[kind]
    assert words in "; ".join(complaints(PROBLEM, broken))


def test_a_stretch_that_may_be_too_short_is_found() -> None:
    """3.9 m to spare with 3 m of doubt: Φ(1.3) = 0.9032 (normal table), below 0.98."""
    doubtful = reel("R1", "L1", 0, (100, 9900), (10200, 20000), (30300, 2000), u_mm=3000.0)
    problem = replace(PROBLEM, reels=(doubtful, *PROBLEM.reels[1:]))
    assert "only 0.9032 that 6000 mm are there" in "; ".join(complaints(problem, WHOLE))


def test_a_piece_reserved_elsewhere_or_longer_from_a_lot_is_found() -> None:
    """P6 is cut from R3, of lot L1, where it is reserved on R4 or wants 10 mm more."""
    for changes, words in (
        ({"only_reel": "R4"}, "R3: P6 is reserved on R4"),
        ({"longer_by_lot_mm": (("L1", 10),)}, "R3: P6 is cut as 6000 mm of cable"),
    ):
        asked = tuple(replace(one, **changes) if one.id == "P6" else one for one in PROBLEM.pieces)
        assert complaints(replace(PROBLEM, pieces=asked), WHOLE) == [words]


MONEY = InMoney(
    price_cents_per_m=(("cable", 80),), short_cents=20000, short_cents_per_m=200,
    lot_mixed_cents=1000, unusable_end_cents=300, reel_cents=150, open_remnant_cents=50,
    age_cents_per_m=2,
)  # fmt: skip


def test_a_plan_is_counted_as_by_hand() -> None:
    """The levels and the money of the whole plan are what they add up to by hand."""
    # Ends: 100 mm and 1,000 mm on R2. Lost: 300 mm of flaws on R1 (its inner 2 m had lost their
    # worth before), 1,200 mm on R2, 20 mm of swarf. Remnants: one loose, one on R1. Age: 7.9 m of
    # the newer lot. Cents: 2 × 20,000 + 20 × 200 for P7, 1,000, 600, 450, 100, 1.52 × 80, 7.9 × 2.
    counted = tallies(PROBLEM, WHOLE, MONEY)["cable"]
    assert counted.levels == (1, 1, 2, 1_520_000, 3, 2, 7900)
    assert counted.micro_cents == 46_287_400_000


def test_what_remnants_are_worth_is_counted() -> None:
    """With 3 m used at 0.5 and 10 m at 0.9, half of 3.9 m and a tenth of 15 m are lost."""
    # Before, R1 had lost a tenth of 20 m and half of 9.9 m, R2 half of 5 m and of 4 m, R3 half of
    # 6.02 m. The 2 m on R1 are too short to keep, before and after.
    uses = (
        RemnantUse(at_least_mm=3000, use_chance=0.5),
        RemnantUse(at_least_mm=10000, use_chance=0.9),
    )
    problem = replace(PROBLEM, rules=(replace(PROBLEM.rules[0], remnant_uses=uses),))
    before_mm = 2000 + 4950 + 2500 + 2000 + 3010
    after_mm = 1950 + 1500 + 300 + 1200 + 20
    counted = tallies(problem, WHOLE, MONEY)["cable"]
    assert counted.levels[3] == 1000 * (after_mm - before_mm)


@pytest.mark.parametrize("pieces", [30, 300])
@pytest.mark.parametrize("aims", [lambda day: {}, lambda day: {"aims": day.money}])
def test_plans_of_made_days_are_whole_and_told_rightly(
    pieces: int, aims: Callable[[Any], dict[str, Any]]
) -> None:
    """The planner's quick plans break no rule, and come to what their standings tell."""
    day = made(pieces, seed=1)
    found = plan(day.problem, nodes=0, **aims(day))
    assert complaints(day.problem, found) == []
    counted = tallies(day.problem, found, day.money)
    for standing in found.standings:
        assert tuple(value for _, value in standing.levels) == counted[standing.item].levels
        if aims(day):
            assert standing.aims[0].value == counted[standing.item].micro_cents
