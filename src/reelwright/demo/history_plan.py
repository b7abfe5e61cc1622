"""What happened to each reel in the two weeks before: invented, from the fixed seed, no clock."""

import datetime as dt
import random
from dataclasses import dataclass

from reelwright.demo.calendar import SEED, history_days
from reelwright.demo.stock import REELS, ReelEntry

_SHORTEST_CUT_MM = 600
_LEFT_OVER_MM = 620
_MAKER_RELATIVE_UNCERTAINTY = 0.004


@dataclass(frozen=True, kw_only=True)
class PlannedCut:
    """One cut of the history."""

    day: dt.date
    piece: str
    cut_mm: int


@dataclass(frozen=True, kw_only=True)
class ReelPlan:
    """A reel, what it came with and what was cut off it. ``scrapped_mm``: its last end, if used up.

    ``received_mm`` differs from cuts and count by what the ledger did not know: a count is needed.
    """

    reel: ReelEntry
    received_mm: int
    received_uncertainty_mm: float
    cuts: tuple[PlannedCut, ...]
    scrapped_mm: int


def reel_plans() -> tuple[ReelPlan, ...]:
    """Return the history of every reel; the same at every call."""
    return tuple(_plan(reel) for reel in REELS)


def _plan(reel: ReelEntry) -> ReelPlan:
    chance = random.Random(f"{SEED} {reel.code}")
    # Set-ups are released on the second day: nothing is cut before.
    days = history_days()[2:]
    count = reel.cuts if reel.counted else 0
    chosen = sorted(chance.choice(days) for _ in range(count))
    cuts = tuple(
        PlannedCut(
            day=day,
            piece=f"H-{reel.code}-{number}",
            cut_mm=chance.randint(_SHORTEST_CUT_MM, reel.longest_cut_mm),
        )
        for number, day in enumerate(chosen, start=1)
    )
    used_up = reel.left_mm == 0
    scrapped_mm = _LEFT_OVER_MM if used_up else 0
    book_mm = reel.left_mm + sum(cut.cut_mm for cut in cuts) + scrapped_mm
    if not reel.counted:
        return ReelPlan(
            reel=reel,
            received_mm=book_mm,
            received_uncertainty_mm=reel.uncertainty_mm,
            cuts=(),
            scrapped_mm=0,
        )
    error_mm = 0 if used_up else round(chance.gauss(0.0, reel.uncertainty_mm))
    return ReelPlan(
        reel=reel,
        received_mm=book_mm + error_mm,
        received_uncertainty_mm=max(reel.uncertainty_mm, _MAKER_RELATIVE_UNCERTAINTY * book_mm),
        cuts=cuts,
        scrapped_mm=scrapped_mm,
    )
