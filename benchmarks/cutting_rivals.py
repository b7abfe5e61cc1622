"""Plain ways to cut all that is wanted from whole reels, to be held beside the planner's.

None of them uses code of the planner. Each returns the reels it cuts, and whether it proves that
nothing costs less. Where a solver has found nothing in its time, what first fit found stands.
Limits are seconds of processor time, so that other work on the machine takes nothing from a way.
"""

import threading
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from reelwright.core.cutting.stock_lengths import StockProblem

Reel = tuple[int, Counter[int]]
"""Stock length, and the pieces cut from it by length."""


@dataclass(frozen=True, kw_only=True)
class Cut:
    """Every reel that is cut; ``proven``: it is shown that nothing costs less."""

    reels: list[Reel]
    proven: bool


Way = Callable[[StockProblem], Cut]


def cost_of(problem: StockProblem, reels: list[Reel]) -> int:
    """Return the cost of reels. Raises ValueError where they do not cut exactly what is wanted."""
    costs = {one.length_mm: one.cost for one in problem.stock}
    cut: Counter[int] = Counter()
    for stock, pieces in reels:
        if sum(length * count for length, count in pieces.items()) > stock:
            raise ValueError(f"more than {stock} is cut from a reel of {stock}: {pieces}")
        cut += pieces
    if cut != Counter({one.length_mm: one.pieces for one in problem.wanted}):
        raise ValueError("what is cut is not what is wanted")
    return sum(costs[stock] for stock, _ in reels)


def first_fit_decreasing(problem: StockProblem) -> Cut:
    """The longest piece first, each from the first reel that still holds it."""
    return _decreasing(problem, lambda able, rests: able[0])


def best_fit_decreasing(problem: StockProblem) -> Cut:
    """The longest piece first, each from the reel that has the least left and still holds it."""
    return _decreasing(problem, lambda able, rests: min(able, key=lambda at: rests[at]))


def _decreasing(problem: StockProblem, choose: Callable[[list[int], list[int]], int]) -> Cut:
    """Each stock length alone, then every reel as the cheapest that holds it; the best of these."""
    pieces = sorted(
        (one.length_mm for one in problem.wanted for _ in range(one.pieces)), reverse=True
    )
    tried = []
    for stock in problem.stock:
        if stock.length_mm < pieces[0]:
            continue
        rests: list[int] = []
        cuts: list[Counter[int]] = []
        for length in pieces:
            able = [at for at, rest in enumerate(rests) if rest >= length]
            if able:
                at = choose(able, rests)
            else:
                at = len(rests)
                rests.append(stock.length_mm)
                cuts.append(Counter())
            rests[at] -= length
            cuts[at][length] += 1
        tried.append([(_cheapest_for(problem, cut), cut) for cut in cuts])
    best = min(tried, key=lambda reels: cost_of(problem, reels))
    return Cut(reels=best, proven=cost_of(problem, best) <= _least_by_length(problem))


def _cheapest_for(problem: StockProblem, cut: Counter[int]) -> int:
    needed = sum(length * count for length, count in cut.items())
    able = [one for one in problem.stock if one.length_mm >= needed]
    return min(able, key=lambda one: one.cost).length_mm


def _least_by_length(problem: StockProblem) -> int:
    needed = sum(one.length_mm * one.pieces for one in problem.wanted)
    return min(-(-needed * one.cost // one.length_mm) for one in problem.stock)


def assignment(problem: StockProblem, *, limit_s: float) -> Cut:
    """How many of each length on each reel, by CP-SAT with one worker, from first fit's answer."""
    from ortools.sat.python import cp_model

    start = first_fit_decreasing(problem).reels
    costs = {one.length_mm: one.cost for one in problem.stock}
    start.sort(key=lambda reel: -costs[reel[0]])
    model = cp_model.CpModel()
    opened: list[dict[int, Any]] = []
    held: list[dict[int, Any]] = []
    prices: list[Any] = []
    longest = max(costs)
    for at in range(cost_of(problem, start) // min(costs.values())):
        opened.append({stock: model.new_bool_var("") for stock in costs})
        held.append(
            {
                one.length_mm: model.new_int_var(0, min(one.pieces, longest // one.length_mm), "")
                for one in problem.wanted
            }
        )
        model.add_at_most_one(opened[at].values())
        room = sum(stock * chosen for stock, chosen in opened[at].items())
        model.add(sum(length * count for length, count in held[at].items()) <= room)
        prices.append(sum(costs[stock] * chosen for stock, chosen in opened[at].items()))
        if at:
            # The reels may be put in any order, so in this one.
            model.add(prices[at - 1] >= prices[at])
        stock, pieces = start[at] if at < len(start) else (0, Counter())
        for length, chosen in opened[at].items():
            model.add_hint(chosen, length == stock)
        for length, count in held[at].items():
            model.add_hint(count, pieces[length])
    for one in problem.wanted:
        model.add(sum(reel[one.length_mm] for reel in held) == one.pieces)
    model.minimize(sum(prices))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    with _stopped(solver.stop_search, until=time.process_time() + limit_s):
        status = solver.solve(model)
    if status not in {cp_model.OPTIMAL, cp_model.FEASIBLE}:
        return Cut(reels=start, proven=False)
    reels = []
    for stocks, counts in zip(opened, held, strict=True):
        for stock, chosen in stocks.items():
            if solver.value(chosen):
                cut = {length: solver.value(count) for length, count in counts.items()}
                reels.append((stock, +Counter(cut)))
    return Cut(reels=reels, proven=status == cp_model.OPTIMAL)


@contextmanager
def _stopped(stop: Callable[[], Any], *, until: float) -> Iterator[None]:
    """Call ``stop`` again and again once the processor time of the process is past ``until``."""
    done = threading.Event()

    def watch() -> None:
        while not done.wait(0.05):
            if time.process_time() > until:
                stop()

    watcher = threading.Thread(target=watch)
    watcher.start()
    try:
        yield
    finally:
        done.set()
        watcher.join()


@dataclass(frozen=True, eq=False)
class _Pattern:
    stock: int
    cost: int
    counts: NDArray[np.int64]


def patterns(problem: StockProblem, *, limit_s: float) -> Cut:
    """Patterns found by column generation, then chosen among by a whole-number program, by HiGHS.

    Half of the time at most goes into finding them. First fit's reels are among them.
    """
    began = time.process_time()
    start = first_fit_decreasing(problem).reels
    lengths = np.array([one.length_mm for one in problem.wanted])
    wanted = np.array([one.pieces for one in problem.wanted])
    costs = {one.length_mm: one.cost for one in problem.stock}
    known = [
        _Pattern(stock, costs[stock], np.array([pieces[int(at)] for at in lengths]))
        for stock, pieces in start
    ]
    bound = _generate(lengths, wanted, costs, known, until=began + limit_s / 2)
    model = _program(wanted, known, whole=True)
    model.setOptionValue("mip_rel_gap", 0.0)

    def ask(event: Any) -> None:
        if time.process_time() > began + limit_s:
            event.interrupt()

    model.cbMipInterrupt.subscribe(ask)
    model.run()
    import highspy

    if model.getInfo().primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return Cut(reels=start, proven=False)
    rest = wanted.copy()
    reels: list[Reel] = []
    for pattern, times in zip(known, model.getSolution().col_value, strict=True):
        for _ in range(round(times)):
            counts = np.minimum(pattern.counts, rest)
            rest -= counts
            if counts.any():
                cut = +Counter(dict(zip(lengths.tolist(), counts.tolist(), strict=True)))
                reels.append((_cheapest_for(problem, cut), cut))
    if cost_of(problem, reels) > cost_of(problem, start):
        reels = start
    grain = int(np.gcd.reduce(list(costs.values())))
    least = -(-(bound - 1e-6) // grain) * grain
    return Cut(reels=reels, proven=cost_of(problem, reels) <= least)


def _generate(
    lengths: NDArray[np.int64],
    wanted: NDArray[np.int64],
    costs: dict[int, int],
    known: list[_Pattern],
    *,
    until: float,
) -> float:
    """Add to the patterns ``known`` until none is missing; return the bound, 0 out of time."""
    model = _program(wanted, known, whole=False)
    while time.process_time() < until:
        model.run()
        worth = np.maximum(np.array(model.getSolution().row_dual), 0.0)
        fresh = [
            _Pattern(stock, cost, counts)
            for (stock, cost), counts in zip(
                costs.items(), _dearest(lengths, wanted, worth, list(costs)), strict=True
            )
            if counts @ worth > cost + 1e-6
        ]
        if not fresh:
            return float(model.getInfo().objective_function_value)
        for pattern in fresh:
            known.append(pattern)
            at = np.nonzero(pattern.counts)[0]
            model.addCol(
                pattern.cost, 0.0, np.inf, len(at), at.astype(np.int32),
                pattern.counts[at].astype(float),
            )  # fmt: skip
    return 0.0


def _dearest(
    lengths: NDArray[np.int64],
    wanted: NDArray[np.int64],
    worth: NDArray[np.float64],
    stocks: list[int],
) -> list[NDArray[np.int64]]:
    """Return for each of ``stocks`` the counts (lengths,) worth most on it: a bounded knapsack."""
    room = max(stocks)
    best = np.zeros(room + 1)
    steps: list[tuple[int, int, NDArray[np.bool_]]] = []
    for at, length in enumerate(lengths.tolist()):
        left, part = min(int(wanted[at]), room // length), 1
        while left and worth[at] > 0:
            count = min(part, left)
            left, part = left - count, 2 * part
            weight = count * length
            tried = best[: room + 1 - weight] + count * worth[at]
            better = tried > best[weight:] + 1e-12
            best[weight:] = np.where(better, tried, best[weight:])
            steps.append((at, count, better))
    found = []
    for stock in stocks:
        counts, rest = np.zeros_like(wanted), stock
        for at, count, better in reversed(steps):
            weight = count * int(lengths[at])
            if rest >= weight and better[rest - weight]:
                counts[at] += count
                rest -= weight
        found.append(counts)
    return found


def _program(wanted: NDArray[np.int64], known: list[_Pattern], *, whole: bool) -> Any:
    """Return the cheapest use of the patterns that gives all that is wanted, or more of it."""
    import highspy

    model = highspy.Highs()
    model.setOptionValue("output_flag", False)
    model.setOptionValue("threads", 1)
    none = np.zeros(0, dtype=np.int32)
    for count in wanted.tolist():
        model.addRow(float(count), np.inf, 0, none, np.zeros(0))
    for pattern in known:
        at = np.nonzero(pattern.counts)[0]
        model.addCol(
            pattern.cost, 0.0, np.inf, len(at), at.astype(np.int32),
            pattern.counts[at].astype(float),
        )  # fmt: skip
    if whole:
        number = len(known)
        model.changeColsIntegrality(
            number,
            np.arange(number, dtype=np.int32),
            np.full(number, int(highspy.HighsVarType.kInteger), dtype=np.uint8),
        )
    return model
