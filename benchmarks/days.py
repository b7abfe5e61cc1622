"""A day's cut plan: how soon, how near to the bound, how many ends; made and published days.

Each day runs as a process of its own, so that its peak of memory is its own.
"""

import argparse
import dataclasses
import json
import os
import resource
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from statistics import median
from typing import Any

# One thread, also in the process of one day; before numpy is loaded.
import benchmarks.one_thread  # noqa: F401
from benchmarks.days_checker import complaints, tallies
from benchmarks.days_longest_first import longest_first
from benchmarks.days_made import SIZES, made
from benchmarks.days_read import Day, published, published_names
from benchmarks.table import Table
from reelwright.core.cutting import CutPlan, CutProblem, ReelStock, plan
from reelwright.core.cutting.aims import InMoney, InOrder
from reelwright.core.cutting.stop import after_seconds

SEEDS = (1, 2, 3)
LIMIT_S, QUICK_LIMIT_S = 20.0, 3.0
REPLAN_LIMIT_S = 0.1
SHORTER_MM = 3000
WORKSHOP, CENT = InOrder(), 1_000_000
COLUMNS = (
    "day",
    "pieces",
    "reels",
    "items",
    "first_plan_s",
    "money_s",
    "cents",
    "bound",
    "gap_percent",
    "items_proven",
    "longest_first_cents",
    "order_s",
    "order_items_proven",
    "order_levels_proven",
    "unserved",
    "avoidable",
    "longest_first_unserved",
    "ends",
    "ends_in_money",
    "longest_first_ends",
    "complaints",
    "replan_ms",
    "replan_worst_ms",
    "replans_proven",
    "peak_mb",
)
NOTES = (
    "made: by a seed (benchmarks/days_made.py); shop: published days. first_plan_s: the quick plan "
    "of the whole day. cents, bound: everything weighed in cents (InMoney) with a stop rule, "
    "bounds summed over the items; gap_percent is a share of the bound, whatever its sign: cutting "
    "short remnants up counts as a gain. An item that the stop rule left untouched has its quick "
    "plan and its cheap bound.",
    "order: by the workshop's order of aims with a stop rule of its own. order_levels_proven: of "
    "the levels of all items, the share that is proven, each behind those before it. unserved, "
    "ends: of that plan; avoidable: pieces unserved beyond the bound of their urgency.",
    "complaints: of the checker, on all the plans of a day, longest-first's too, and where what a "
    "plan tells of itself is not what the checker counts.",
    f"replan: each item by itself, the reel most is cut from {SHORTER_MM // 1000} m shorter than "
    f"told, by the workshop's order with a stop rule of {1000 * REPLAN_LIMIT_S:g} ms; median, "
    "worst, and how many were proven best.",
    "Seconds of processor time, one thread. peak_mb: the whole process.",
)


def measure(*, quick: bool) -> Table:
    """Measure the made days and the published ones. ``quick``: one of each size."""
    limit_s = QUICK_LIMIT_S if quick else LIMIT_S
    names = [f"made_{pieces}_{seed}" for pieces in SIZES for seed in SEEDS]
    read, missing = published_names()
    if quick:
        names = [name for name in names if name.endswith("_1")]
        read = [name for name in read if name == "shop_2000_1"]
    days = []
    for name in names + read:
        days.append(_day(name, limit_s))
        print(name, file=sys.stderr, flush=True)
    return Table(
        title="A day's cut plan",
        columns=COLUMNS,
        rows=[[day[column] for column in COLUMNS] for day in days],
        notes=(f"Stop rules: {limit_s:g} s.", *_aims(days), _carriers(days), *missing, *NOTES),
        figures=_figures(days),
    )


def _day(name: str, limit_s: float) -> dict[str, Any]:
    done = subprocess.run(
        [sys.executable, "-m", "benchmarks.days", name, str(limit_s)],
        cwd=Path(__file__).parent.parent,
        env=os.environ,
        stdout=subprocess.PIPE,
        text=True,
        check=True,
    )
    day: dict[str, Any] = json.loads(done.stdout.splitlines()[-1])
    return day


def _figures(days: Sequence[dict[str, Any]]) -> dict[str, Any]:
    most = [day for day in days if day["pieces"] >= SIZES[-1]]
    return {
        "days": len(days),
        "first_plan_worst_s": max(day["first_plan_s"] for day in days),
        "gap_percent_of_2000": _gap(most),
        "avoidable": sum(day["avoidable"] for day in days),
        "ends": sum(day["ends"] for day in days),
        "longest_first_ends": sum(day["longest_first_ends"] for day in days),
        "complaints": sum(day["complaints"] for day in days),
        "replan_worst_ms": max(day["replan_worst_ms"] for day in days),
        "peak_mb": max(day["peak_mb"] for day in days),
    }


def _gap(days: Sequence[dict[str, Any]]) -> float:
    cents = sum(float(day["cents"]) for day in days)
    bound = sum(float(day["bound"]) for day in days)
    return 100 * (cents - bound) / abs(bound)


def _aims(days: Sequence[dict[str, Any]]) -> list[str]:
    """What was aimed at, and what came of it."""
    told = _figures(days)
    near = sum(abs(day["gap_percent"]) <= 1 for day in days)
    big = [day for day in days if day["pieces"] >= SIZES[-1]]
    near_big = sum(abs(day["gap_percent"]) <= 1 for day in big)
    fewer = told["longest_first_ends"] / max(1, told["ends"])
    enough = sum(5 * day["ends"] <= day["longest_first_ends"] for day in days)
    slow = sum(day["replan_worst_ms"] >= 200 for day in days)
    return [
        f"Aim, a first plan within 1 s: worst {told['first_plan_worst_s']:.2f} s.",
        f"Aim, within 1 % of the bound at 2,000 pieces: {near_big} of {len(big)} days, "
        f"{told['gap_percent_of_2000']:.1f} % over all of these; of all sizes, {near} of "
        f"{len(days)} days.",
        f"Aim, no avoidable short piece: {told['avoidable']} pieces beyond the bounds.",
        f"Aim, five times fewer unusable ends than longest-first: {told['ends']} to "
        f"{told['longest_first_ends']}, {fewer:.1f} times; on {enough} of {len(days)} days.",
        f"Aim, an item planned again within 200 ms: missed on {slow} of {len(days)} days, worst "
        f"{told['replan_worst_ms']:.0f} ms.",
        f"Complaints of the checker: {told['complaints']}.",
    ]


def _carriers(days: Sequence[dict[str, Any]]) -> str:
    """Say which items the gap in money comes from."""
    items = sorted(
        ((*gap, day["day"]) for day in days for gap in day["gaps"]), key=lambda gap: -gap[1]
    )
    total = sum(gap[1] for gap in items)
    groups = sum(gap[1] for gap in items if gap[2])
    short = sum(gap[1] for gap in items if gap[3])
    worst = "; ".join(
        f"{item} of {day} {cents:.0f} ({pieces} pieces, {short} unserved, {grouped} in groups)"
        for item, cents, grouped, short, pieces, day in items[:8]
    )
    if not total:
        return "No item has a gap."
    return (
        f"The gaps come to {total:.0f} cents on {len(items)} items; {100 * short / total:.0f} % on "
        f"items with unserved pieces, {100 * groups / total:.0f} % on items with groups. The "
        f"widest: {worst}."
    )


def day_of(name: str) -> Day:
    """Return a day by name."""
    kind, *rest = name.split("_")
    if kind == "made":
        pieces, seed = map(int, rest)
        return made(pieces, seed=seed)
    return published(name)


def run(name: str, limit_s: float) -> dict[str, Any]:
    """Plan one day in every way; return what was measured."""
    day = day_of(name)
    began = time.process_time()
    first = plan(day.problem, nodes=0)
    first_s = time.process_time() - began
    in_money, money_s = _planned(day.problem, day.money, limit_s)
    in_order, order_s = _planned(day.problem, WORKSHOP, limit_s)
    rival = longest_first(day.problem)
    rival_tallies = tallies(day.problem, rival, day.money).values()
    plans = (first, in_money, in_order)
    wrong = [complaint for one in (*plans, rival) for complaint in complaints(day.problem, one)]
    wrong += [complaint for one in plans for complaint in _told_wrongly(day, one)]
    again = [_replanned(day.problem, item, in_order) for item in day.problem.items]
    again_ms = [ms for ms, _, _ in again]
    wrong += [complaint for _, _, what in again for complaint in what]
    for complaint in wrong:
        print(f"{name}: {complaint}", file=sys.stderr)
    money = [standing.aims[0] for standing in in_money.standings]
    cents = sum(aim.value for aim in money) / CENT
    bound = sum(_bound(aim.bound) for aim in money) / CENT
    proven = [len(standing.proven) for standing in in_order.standings]
    possible = [len({aim.name for aim in one.aims}) for one in in_order.standings]
    return {
        "day": name,
        "pieces": len(day.problem.pieces),
        "reels": len(day.problem.reels),
        "items": len(day.problem.items),
        "first_plan_s": first_s,
        "money_s": money_s,
        "cents": cents,
        "bound": bound,
        "gap_percent": 100 * (cents - bound) / abs(bound) if bound else 0.0,
        "items_proven": sum(one.proven_best for one in in_money.standings),
        "longest_first_cents": sum(one.micro_cents for one in rival_tallies) / CENT,
        "order_s": order_s,
        "order_items_proven": sum(one.proven_best for one in in_order.standings),
        "order_levels_proven": sum(proven) / sum(possible),
        "unserved": len(in_order.unserved),
        "avoidable": _avoidable(in_order),
        "longest_first_unserved": len(rival.unserved),
        "ends": _ends(in_order),
        "ends_in_money": _ends(in_money),
        "longest_first_ends": sum(one.unusable_ends for one in rival_tallies),
        "complaints": len(wrong),
        "replan_ms": median(again_ms),
        "replan_worst_ms": max(again_ms),
        "replans_proven": sum(proven_best for _, proven_best, _ in again),
        "peak_mb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
        "gaps": _gaps(day.problem, in_money),
    }


def _planned(problem: CutProblem, aims: InOrder | InMoney, limit_s: float) -> tuple[CutPlan, float]:
    began = time.process_time()
    found = plan(problem, aims=aims, stop=after_seconds(limit_s, clock=time.process_time))
    return found, time.process_time() - began


def _bound(bound: int | None) -> int:
    if bound is None:
        raise ValueError("an aim that was looked at has a bound")
    return bound


def _told_wrongly(day: Day, found: CutPlan) -> list[str]:
    """Return the items of which the plan tells other levels or costs than are counted."""
    counted = tallies(day.problem, found, day.money)
    return [
        f"{one.item}: told {one.levels}, counted {counted[one.item]}"
        for one in found.standings
        if tuple(value for _, value in one.levels) != counted[one.item].levels
        or (len(one.aims) == 1 and one.aims[0].value != counted[one.item].micro_cents)
    ]


def _avoidable(found: CutPlan) -> int:
    return sum(
        aim.value - _bound(aim.bound)
        for standing in found.standings
        for aim in standing.aims
        if aim.name == "pieces not served"
    )


def _ends(found: CutPlan) -> int:
    return sum(dict(standing.levels)["unusable ends"] for standing in found.standings)


def _gaps(problem: CutProblem, found: CutPlan) -> list[tuple[str, float, int, int, int]]:
    """Return (item, gap in cents, pieces in groups, unserved, pieces) where there is a gap."""
    pieces = Counter(piece.item for piece in problem.pieces)
    grouped = Counter(piece.item for piece in problem.pieces if piece.lot_group is not None)
    return [
        (
            one.item,
            (one.aims[0].value - _bound(one.aims[0].bound)) / CENT,
            grouped[one.item],
            one.levels[0][1],
            pieces[one.item],
        )
        for one in found.standings
        if not one.proven_best
    ]


def _replanned(
    problem: CutProblem, item: str, before: CutPlan
) -> tuple[float, bool, Sequence[str]]:
    """Plan an item again with a reel shorter; return the ms, whether proven, and complaints."""
    cut = {
        reel.reel_id: sum(part.length_mm for part in reel.cuts)
        for reel in before.reels
        if reel.item == item
    }
    reels = [reel for reel in problem.reels if reel.item == item]
    most = max(reels, key=lambda reel: (cut.get(reel.id, 0), reel.length_mm))
    pieces = tuple(piece for piece in problem.pieces if piece.item == item)
    groups = {piece.lot_group for piece in pieces}
    changed = dataclasses.replace(
        problem,
        pieces=pieces,
        reels=tuple(shorter(reel) if reel is most else reel for reel in reels),
        rules=(problem.rules_of(item),),
        groups=tuple(group for group in problem.groups if group.id in groups),
    )
    found, took_s = _planned(changed, WORKSHOP, REPLAN_LIMIT_S)
    return 1000 * took_s, found.standings[0].proven_best, complaints(changed, found)


def shorter(reel: ReelStock) -> ReelStock:
    """Return the reel with so much missing at its inner end."""
    end_mm = reel.length_mm - SHORTER_MM
    return dataclasses.replace(
        reel,
        stretches=tuple(
            dataclasses.replace(one, length_mm=min(one.length_mm, end_mm - one.start_mm))
            for one in reel.stretches
            if one.start_mm < end_mm
        ),
    )


if __name__ == "__main__":
    reader = argparse.ArgumentParser(description="One day, for ``measure`` alone.")
    reader.add_argument("name")
    reader.add_argument("limit_s", type=float)
    given = reader.parse_args()
    print(json.dumps(run(given.name, given.limit_s)))
