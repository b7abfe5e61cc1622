"""The fewest or cheapest whole reels: the published instances, and four plain ways beside ours.

Ours has 20 s of processor time on each instance, one thread; every answer is checked by plain
reckoning. On a fixed choice of the instances, in the same run: first fit and best fit decreasing,
CP-SAT and a pattern model by HiGHS, with 10 s each.
"""

import os
import sys
import time
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from statistics import mean, median
from typing import Any

import numpy as np

from benchmarks.cutting_cases import Case, all_cases, some_of_each, spread
from benchmarks.cutting_rivals import (
    Way,
    assignment,
    best_fit_decreasing,
    cost_of,
    first_fit_decreasing,
    patterns,
)
from benchmarks.table import Table
from reelwright.core.cutting.stock_lengths import cheapest
from reelwright.core.cutting.stop import after_seconds

LIMIT_S = 20.0
RIVALS_LIMIT_S, QUICK_RIVALS_LIMIT_S = 10.0, 2.0
SEED, BESIDE = 20261125, 60
QUICK_BESIDE = 3
COLUMNS = (
    "instances_of", "way", "instances", "at_optimum", "proven", "mean_gap_percent",
    "worst_gap_percent", "excess_reels", "median_s", "p95_s", "mean_s", "worst_s",
    "better_than_ours", "worse_than_ours", "times_our_cost", "times_our_s",
)  # fmt: skip
FIGURES = ("instances", "at_optimum", "proven", "mean_s", "worst_s")
NOTES = (
    f"All times and limits are processor time; ours stops after {LIMIT_S:g} s. at_optimum: the "
    "cost is the best known (da Silva and Schouery, INFORMS Journal on Computing 2025, doi "
    "10.1287/ijoc.2023.0399), or our own bound where nothing is published (monaci_regen). The gap "
    "is to the same. excess_reels: reels above the best known, where there is one.",
    "Beside ours on the same instances: on how many a way is better or worse, the mean of its cost "
    "by ours, and the sum of its seconds by ours.",
    "A decreasing way proves its answer where so many millimetres need as many reels; the pattern "
    "model where its answer meets the linear program. CP-SAT and the pattern model start from "
    "first fit's answer, and keep it where they find none.",
)


@dataclass(frozen=True, kw_only=True)
class Run:
    """One instance by one way. ``bound``: nothing costs less; 0 where a way tells none."""

    cost: int
    bound: int
    proven: bool
    took_s: float


def ours(case: Case) -> Run:
    """Run the planner. Raises ValueError where its answer does not hold."""
    began = time.process_time()
    answer = cheapest(case.problem, stop=after_seconds(LIMIT_S, clock=time.process_time))
    took_s = time.process_time() - began
    reels = [
        (one.stock_length_mm, Counter(dict(one.cuts)))
        for one in answer.patterns
        for _ in range(one.times)
    ]
    cost = cost_of(case.problem, reels)
    limit = cost if case.best_known is None else case.best_known
    if cost != answer.cost or answer.bound > limit:
        raise ValueError(f"{case.name}: cost {cost}, told {answer.cost}, bound {answer.bound}")
    return Run(cost=cost, bound=answer.bound, proven=answer.proven_best, took_s=took_s)


def by(way: Way, case: Case) -> Run:
    """Run another way."""
    began = time.process_time()
    cut = way(case.problem)
    took_s = time.process_time() - began
    cost = cost_of(case.problem, cut.reels)
    return Run(cost=cost, bound=cost if cut.proven else 0, proven=cut.proven, took_s=took_s)


def row(
    of: str, way: str, cases: Sequence[Case], runs: Sequence[Run], our_runs: Sequence[Run]
) -> tuple[Any, ...]:
    """Return one row: ``runs`` of a way beside ``our_runs``, both of ``cases``."""
    optima = [
        run.bound if case.best_known is None else case.best_known
        for case, run in zip(cases, our_runs, strict=True)
    ]
    costs, times = [run.cost for run in runs], [run.took_s for run in runs]
    gaps = [100 * (cost - best) / best for cost, best in zip(costs, optima, strict=True)]
    known = [at for at, case in enumerate(cases) if case.best_known is not None]
    pairs = list(zip(costs, (run.cost for run in our_runs), strict=True))
    return (
        of, way, len(runs), sum(gap <= 0 for gap in gaps), sum(run.proven for run in runs),
        mean(gaps), max(gaps), sum(costs[at] - optima[at] for at in known) if known else "",
        median(times), float(np.percentile(times, 95)), mean(times), max(times),
        *(("", "", "", "") if way == "ours" else (
            sum(cost < our for cost, our in pairs), sum(cost > our for cost, our in pairs),
            mean(cost / our for cost, our in pairs),
            sum(times) / sum(run.took_s for run in our_runs),
        )),
    )  # fmt: skip


def measure(*, quick: bool) -> Table:
    """Run ours on all of the instances. ``quick``: on some of each class."""
    _load_solvers()
    cases, missing = all_cases()
    if quick:
        cases = spread(cases)
    our_runs: dict[tuple[str, str], Run] = {}
    rows = []
    for kind in dict.fromkeys(case.kind for case in cases):
        of_kind = [case for case in cases if case.kind == kind]
        for case in of_kind:
            our_runs[kind, case.name] = ours(case)
        runs = [our_runs[kind, case.name] for case in of_kind]
        rows.append(row(kind, "ours", of_kind, runs, runs))
        _tell(f"{kind}: {len(of_kind)}")
    everything = [our_runs[case.kind, case.name] for case in cases]
    total = row("all", "ours", cases, everything, everything)
    rows.append(total)
    beside, ours_is_worse = _beside(cases, our_runs, quick=quick)
    return Table(
        title="Whole reels for a list of lengths",
        columns=COLUMNS,
        rows=[*rows, *beside],
        notes=(
            f"Ours is worse than another way on {ours_is_worse} of the instances they share.",
            *missing,
            *NOTES,
        ),
        figures={
            **{name: total[COLUMNS.index(name)] for name in FIGURES},
            "worse_than_others": ours_is_worse,
        },
    )


def _beside(
    cases: Sequence[Case], our_runs: dict[tuple[str, str], Run], *, quick: bool
) -> tuple[list[tuple[Any, ...]], int]:
    """Return the rows of the other ways, and on how many instances one of them is better."""
    limit_s = QUICK_RIVALS_LIMIT_S if quick else RIVALS_LIMIT_S
    count = min(BESIDE, len(cases))
    fast: list[tuple[str, Way]] = [
        ("first fit decreasing", first_fit_decreasing),
        ("best fit decreasing", best_fit_decreasing),
    ]
    slow: list[tuple[str, Way]] = [
        (f"CP-SAT, {limit_s:g} s", partial(assignment, limit_s=limit_s)),
        (f"HiGHS patterns, {limit_s:g} s", partial(patterns, limit_s=limit_s)),
    ]
    groups = [(count, fast), (QUICK_BESIDE, slow)] if quick else [(count, fast + slow)]
    rows = []
    worse = set()
    for number, ways in groups:
        chosen = some_of_each(cases, count=number, seed=SEED)
        mine = [our_runs[case.kind, case.name] for case in chosen]
        of = f"{number} over all classes"
        rows.append(row(of, "ours", chosen, mine, mine))
        for name, way in ways:
            runs = [by(way, case) for case in chosen]
            rows.append(row(of, name, chosen, runs, mine))
            worse |= {
                (case.kind, case.name)
                for case, run, our in zip(chosen, runs, mine, strict=True)
                if run.cost < our.cost
            }
            _tell(f"{name}: {number}")
    return rows, len(worse)


def _tell(done: str) -> None:
    # A full run takes long; standard output is for the answer itself.
    print(done, file=sys.stderr, flush=True)


def _load_solvers() -> None:
    """Load the solvers, whose first lines would stand beside the JSON object, and take time."""
    import highspy
    from ortools.sat.python import cp_model  # noqa: F401

    sys.stdout.flush()
    kept = os.dup(1)
    try:
        os.dup2(2, 1)
        highspy.Highs()
    finally:
        os.dup2(kept, 1)
        os.close(kept)
