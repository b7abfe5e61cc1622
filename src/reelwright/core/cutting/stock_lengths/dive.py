"""From fractions to whole reels: fix the patterns that are used most, price again, and go on.

A dive aims at a stated cost and gives up as soon as that cannot be reached any more. What is left
to cut shrinks on the way; once few fillings can still be in such an answer they are listed, and
chosen among exactly. (Diving heuristic with restarts: Sadykov et al. 2019.)
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from reelwright.core.cutting.stock_lengths._solver import FloatArray, Master, choose
from reelwright.core.cutting.stock_lengths.case import Case, Counts, Pattern
from reelwright.core.cutting.stock_lengths.generation import generate
from reelwright.core.cutting.stock_lengths.knapsack import Knapsack
from reelwright.core.cutting.stock_lengths.near_best import fillings_within

LISTED = 300
"""Up to so many fillings are chosen among exactly within a dive."""

NODES = 60
"""Branchings allowed for that."""

SHRUNK = 0.8
"""Listing is tried again when so much of the pieces is left."""

WHOLE = 1e-6


@dataclass(frozen=True, eq=False)
class Dive:
    """One dive of a case towards ``cost``; ``chance`` shuffles which pattern is fixed next."""

    case: Case
    master: Master
    knapsack: Knapsack
    cost: int
    chance: "np.random.Generator | None"
    stop: Callable[[], bool]

    def patterns(self) -> list[Pattern] | None:
        """Return patterns that give all that is wanted for ``cost`` or less, None if none found."""
        try:
            return self._down()
        finally:
            self.master.want(self.case.wanted)

    def _down(self) -> list[Pattern] | None:
        rest = self.case.wanted.copy()
        fixed: list[Pattern] = []
        left = self.cost
        listed_at = float("inf")
        while rest.any():
            if self.stop():
                return None
            self.master.want(rest)
            made = generate(self.case, self.master, self.knapsack, rest, enough=left + 1)
            if made.duals.bound(self.case, rest) > left:
                return None
            if rest.sum() < SHRUNK * listed_at:
                listed_at = float(rest.sum())
                listed = fillings_within(self.case, rest, made.duals, cost=left, at_most=LISTED)
                if listed is not None:
                    ending = choose(self.case, rest, listed, cost=left, nodes=NODES, stop=self.stop)
                    if ending.none_there:
                        return None
                    if ending.patterns is not None:
                        return fixed + ending.patterns
            for pattern in self._next(made.point.uses, rest):
                fixed.append(pattern)
                rest = rest - pattern.counts
                left -= int(self.case.costs[pattern.stock])
        return fixed

    def _next(self, uses: FloatArray, rest: Counts) -> list[Pattern]:
        """Return the patterns to fix: all whole uses, or the one nearest to a whole reel."""
        fits = (self.master.counts <= rest).all(axis=1)
        uses = np.where(fits, uses, 0.0)
        whole = np.floor(uses + WHOLE).astype(int)
        taken: list[Pattern] = []
        for at in np.nonzero(whole)[0].tolist():
            pattern = self.master.patterns[at]
            there = pattern.counts > 0
            times = min(int(whole[at]), int((rest[there] // pattern.counts[there]).min()))
            taken += [pattern] * times
            rest = rest - pattern.counts * times
        if taken:
            return taken
        nearness = uses - whole
        if self.chance is not None:
            nearness = nearness * self.chance.uniform(0.7, 1.0, len(nearness))
        # Where only exchanges are in use, any pattern that fits serves.
        at = int(np.argmax(nearness)) if nearness.max() > WHOLE else int(np.argmax(fits))
        return [self.master.patterns[at]]
