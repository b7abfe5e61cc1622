"""The cheapest reels to cut all that is wanted from: found, and proven where that can be done.

1. A first answer at once, and what the lengths alone say of the bound.
2. Column generation: the bound of the patterns, seldom below the optimum by one reel or more.
3. Dives aim at that bound. Between them, if few fillings can be in an answer of that cost, they are
   listed and chosen among exactly: an answer, or the proof that there is none and the bound rises.
"""

import numpy as np

from reelwright.core.cutting.stock_lengths._solver import Master, choose
from reelwright.core.cutting.stock_lengths.answer import StockAnswer
from reelwright.core.cutting.stock_lengths.case import Case, Pattern
from reelwright.core.cutting.stock_lengths.dive import Dive
from reelwright.core.cutting.stock_lengths.duals import Duals
from reelwright.core.cutting.stock_lengths.fill import longest_first
from reelwright.core.cutting.stock_lengths.generation import generate
from reelwright.core.cutting.stock_lengths.knapsack import Knapsack
from reelwright.core.cutting.stock_lengths.near_best import fillings_within
from reelwright.core.cutting.stock_lengths.problem import StockProblem
from reelwright.core.cutting.stop import Progress, Stop, never

DIVES_FIRST = 2
DIVES = 40
"""Dives towards one cost, the first two before any listing. Common: the first one succeeds."""

LISTED = 6000
"""Up to so many fillings are chosen among exactly."""

NODES_BETWEEN = 300
"""Branchings allowed while there are dives left to try; afterwards there is no limit."""


def cheapest(problem: StockProblem, *, stop: Stop = never) -> StockAnswer:
    """Return the cheapest way found to cut all that is wanted, and the bound it is held against.

    ``stop`` is asked between steps; the best answer so far is then returned. With a rule that
    knows no clock the same problem, in whatever order it is given, has the same answer.
    """
    return _Search(Case.of(problem), stop).answer()


class _Search:
    def __init__(self, case: Case, stop: Stop) -> None:
        self._case = case
        self._stop = stop
        self._master = Master(case)
        self._knapsack = Knapsack(case.lengths_mm, int(case.stock_mm.max()))
        self._best = case.trimmed(longest_first(case, case.wanted))
        self._bound = case.up_to_grain(_bound_of_lengths(case))

    def answer(self) -> StockAnswer:
        if not self._done():
            self._generate()
        return StockAnswer(
            patterns=self._case.shown(self._best),
            cost=self._case.cost_of(self._best),
            bound=self._bound,
            steps=self._master.steps,
        )

    def _generate(self) -> None:
        case = self._case
        self._master.add(self._best)
        self._master.add([*_full_of_one(case), *_single(case)])
        made = generate(
            case, self._master, self._knapsack, case.wanted, enough=case.cost_of(self._best)
        )
        self._bound = max(self._bound, made.duals.bound(case, case.wanted))
        while not self._done() and self._raised(made.duals):
            pass

    def _raised(self, duals: Duals) -> bool:
        """Try for an answer at the bound; True where it is proven that there is none."""
        for dive in range(DIVES_FIRST):
            if self._dived(dive):
                return False
        listed = fillings_within(
            self._case, self._case.wanted, duals, cost=self._bound, at_most=LISTED
        )
        if listed is not None:
            chosen = self._chosen(listed, nodes=NODES_BETWEEN)
            if chosen is not None:
                return chosen
        for dive in range(DIVES_FIRST, DIVES):
            if self._dived(dive):
                return False
        return listed is not None and bool(self._chosen(listed, nodes=None))

    def _dived(self, number: int) -> bool:
        chance = np.random.default_rng(number) if number else None
        dive = Dive(
            self._case, self._master, self._knapsack, self._bound, chance, self._done
        ).patterns()
        if dive is not None:
            self._take(dive)
        return self._done()

    def _chosen(self, listed: list[Pattern], *, nodes: int | None) -> bool | None:
        """True: no answer at the bound, which rises. False: there is one. None: not known."""
        chosen = choose(
            self._case,
            self._case.wanted,
            listed,
            cost=self._bound,
            nodes=nodes,
            stop=self._done,
        )
        if chosen.none_there:
            self._bound += self._case.grain
            return True
        if chosen.patterns is None:
            return None
        self._take(chosen.patterns)
        return False

    def _take(self, patterns: list[Pattern]) -> None:
        patterns = self._case.trimmed(patterns)
        if self._case.cost_of(patterns) < self._case.cost_of(self._best):
            self._best = patterns

    def _done(self) -> bool:
        cost = self._case.cost_of(self._best)
        if cost <= self._bound:
            return True
        return self._stop(Progress(best=cost, bound=self._bound, steps=self._master.steps))


def _bound_of_lengths(case: Case) -> int:
    """Return what so many millimetres cost at least, at the cheapest stock a metre."""
    needed = int(np.dot(case.wanted, case.lengths_mm))
    pairs = zip(case.costs.tolist(), case.stock_mm.tolist(), strict=True)
    least: int = min(-(-needed * cost // length) for cost, length in pairs)
    return least


def _full_of_one(case: Case) -> list[Pattern]:
    """Return reels filled with pieces of one length each."""
    patterns = []
    for stock, room in enumerate(case.stock_mm.tolist()):
        for at, length in enumerate(case.lengths_mm.tolist()):
            count = min(int(case.wanted[at]), room // length)
            if count:
                patterns.append(_of_one(case, stock, at, count))
    return patterns


def _single(case: Case) -> list[Pattern]:
    """Return a reel for each piece: whatever is left to cut, these fit."""
    return [
        _of_one(case, case.cheapest_for(int(length)), at, 1)
        for at, length in enumerate(case.lengths_mm)
    ]


def _of_one(case: Case, stock: int, at: int, count: int) -> Pattern:
    counts = np.zeros_like(case.wanted)
    counts[at] = count
    return Pattern(stock, counts)
