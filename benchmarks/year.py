"""A year of orders on one rack, cut by three planners: what is thrown away, refused, left over."""

import sys
import time
from collections.abc import Callable
from typing import Any

from benchmarks.days_checker import complaints, split
from benchmarks.days_longest_first import longest_first
from benchmarks.table import Table
from benchmarks.year_shop import RATES, REEL_MM, SPOILS_DAYS, SWARF_MM, WALL_MM, Rack, rules_of
from reelwright.core.cutting import CutPlan, CutProblem, SegmentKind, plan

SEEDS = (1, 2, 3)
DAYS, QUICK_DAYS = 250, 60
NODES = 50
COLUMNS = (
    "planner",
    "seed",
    "days",
    "pieces",
    "refused",
    "refused_m",
    "cut_m",
    "bought_m",
    "thrown_m",
    "written_off_m",
    "lost_percent",
    "unusable_ends",
    "wall_mean",
    "wall_end",
    "wall_end_m",
    "complaints",
    "plan_s",
)
NOTES = (
    "The workshop, its orders, its buying and its wall: benchmarks/year_shop.py. The same orders, "
    "and the same deliveries by number, for all three; what is refused does not come back.",
    "with remnant uses: the workshop's order of aims, each remnant worth the chance that it is "
    f"used before it spoils, by the orders of the {SPOILS_DAYS} days before. scrap only: the same "
    "aims, every remnant worth its length. longest first: each piece, the longest first, from the "
    "tightest stretch.",
    "thrown_m: scrap and flaws that came off; written_off_m: remnants on the wall that nothing was "
    f"cut from for {SPOILS_DAYS} days; lost_percent: both, of what was cut. wall: reels and "
    f"remnants below {WALL_MM // 1000} m, mean over the days and at the end. plan_s: seconds of "
    "processor time.",
)
Planner = Callable[[CutProblem], CutPlan]


def ours(problem: CutProblem) -> CutPlan:
    """Plan by the workshop's order."""
    return plan(problem, nodes=NODES)


PLANNERS: tuple[tuple[str, Planner, bool], ...] = (
    ("with remnant uses", ours, True),
    ("scrap only", ours, False),
    ("longest first", longest_first, False),
)
"""Name, planner, and whether it is told what remnants are worth."""


def measure(*, quick: bool) -> Table:
    """Replay a year with each planner. ``quick``: 60 days of one seed."""
    days = QUICK_DAYS if quick else DAYS
    rows = []
    for seed in SEEDS[:1] if quick else SEEDS:
        for name, planner, with_uses in PLANNERS:
            told = year(planner, seed=seed, days=days, items=len(RATES), with_uses=with_uses)
            rows.append({"planner": name, "seed": seed, **told})
            print(f"{name} {seed}", file=sys.stderr, flush=True)
    return Table(
        title="A year of cutting",
        columns=COLUMNS,
        rows=[[row[column] for column in COLUMNS] for row in rows],
        notes=(*_sums(rows), *NOTES),
        figures={"complaints": sum(row["complaints"] for row in rows)},
    )


def _sums(rows: list[dict[str, Any]]) -> list[str]:
    told = []
    for name, _, _ in PLANNERS:
        own = [row for row in rows if row["planner"] == name]
        lost_m = sum(row["thrown_m"] + row["written_off_m"] for row in own)
        told.append(
            f"{name}: {lost_m:.0f} m lost ({100 * lost_m / sum(row['cut_m'] for row in own):.1f} % "
            f"of what was cut), {sum(row['refused'] for row in own)} pieces refused, "
            f"{sum(row['wall_mean'] for row in own) / len(own):.1f} on the wall in the mean."
        )
    return told


def year(planner: Planner, *, seed: int, days: int, items: int, with_uses: bool) -> dict[str, Any]:
    """Let so many days go by; return what came of it. Raises ValueError if length is lost."""
    rack = Rack(seed=seed, items=items)
    rules = rules_of(items, seed=seed, with_uses=with_uses)
    pieces = refused = refused_mm = cut_mm = thrown_mm = ends = wrong = wall = 0
    took_s = 0.0
    for day in range(days):
        rack.morning(day)
        problem = rack.problem(day, rules)
        began = time.process_time()
        found = planner(problem)
        took_s += time.process_time() - began
        wrong += len(complaints(problem, found))
        pieces += len(problem.pieces)
        refused += len(found.unserved)
        refused_mm += sum(one.cut_length_mm for one in found.unserved)
        cut_mm += sum(part.length_mm for reel in found.reels for part in reel.cuts)
        thrown_mm += sum(reel.scrap_mm for reel in found.reels)
        ends += ends_of(found, swarf_mm=SWARF_MM)
        rack.cut(found, day)
        wall += len(rack.wall)
    bought_mm = REEL_MM * sum(rack.bought.values())
    if bought_mm != cut_mm + thrown_mm + rack.written_off_mm + rack.length_mm:
        raise ValueError("some length was lost, or came from nowhere")
    return {
        "days": days,
        "pieces": pieces,
        "refused": refused,
        "refused_m": refused_mm / 1000,
        "cut_m": cut_mm / 1000,
        "bought_m": bought_mm / 1000,
        "thrown_m": thrown_mm / 1000,
        "written_off_m": rack.written_off_mm / 1000,
        "lost_percent": 100 * (thrown_mm + rack.written_off_mm) / max(1, cut_mm),
        "unusable_ends": ends,
        "wall_mean": wall / days,
        "wall_end": len(rack.wall),
        "wall_end_m": sum(reel.length_mm for reel in rack.wall) / 1000,
        "complaints": wrong,
        "plan_s": took_s,
    }


def ends_of(found: CutPlan, *, swarf_mm: int) -> int:
    """Return how many unusable ends a plan leaves, by what is thrown away."""
    count = 0
    for reel in found.reels:
        front, behind = split(reel.segments)
        thrown = [part.length_mm for part in front if part.kind is SegmentKind.SCRAP]
        thrown.append(sum(part.length_mm for part in behind if not part.stays_on_reel))
        count += sum(length > swarf_mm for length in thrown)
    return count
