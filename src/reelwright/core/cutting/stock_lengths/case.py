"""The problem as arrays, the longest first."""

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from reelwright.core.cutting.stock_lengths.answer import CutPattern
from reelwright.core.cutting.stock_lengths.problem import StockProblem

Counts = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Pattern:
    """What is cut from one reel of stock number ``stock``: ``counts`` (lengths,)."""

    stock: int
    counts: Counts

    @cached_property
    def key(self) -> tuple[int, bytes]:
        """Equal for equal patterns."""
        return (self.stock, self.counts.tobytes())


@dataclass(frozen=True, eq=False)
class Case:
    """``lengths_mm`` and ``wanted`` (lengths,), ``stock_mm`` and ``costs`` (stock,)."""

    lengths_mm: Counts
    wanted: Counts
    stock_mm: Counts
    costs: Counts

    @classmethod
    def of(cls, problem: StockProblem) -> "Case":
        """Return the arrays of a problem."""
        wanted = sorted(problem.wanted, key=lambda one: -one.length_mm)
        stock = sorted(problem.stock, key=lambda one: -one.length_mm)
        return cls(
            np.array([one.length_mm for one in wanted], dtype=np.int64),
            np.array([one.pieces for one in wanted], dtype=np.int64),
            np.array([one.length_mm for one in stock], dtype=np.int64),
            np.array([one.cost for one in stock], dtype=np.int64),
        )

    @cached_property
    def grain(self) -> int:
        """Every cost is a whole multiple of it."""
        return math.gcd(*self.costs.tolist())

    def cost_of(self, patterns: list[Pattern]) -> int:
        """Return what the reels of these patterns cost."""
        return sum(int(self.costs[pattern.stock]) for pattern in patterns)

    def up_to_grain(self, cost: int) -> int:
        """Return the least cost there can be that is not below ``cost``."""
        return -(-cost // self.grain) * self.grain

    def trimmed(self, patterns: list[Pattern]) -> list[Pattern]:
        """Return the patterns without the pieces that nobody wants.

        A pattern that loses pieces may then fit a cheaper stock length, and takes it; one that
        loses all is left out.
        """
        rest = self.wanted.copy()
        kept = []
        for pattern in patterns:
            counts = np.minimum(pattern.counts, rest)
            if counts.any():
                rest -= counts
                kept.append(Pattern(self.cheapest_for(int(counts @ self.lengths_mm)), counts))
        if rest.any():
            raise ValueError("the patterns do not give all that is wanted")
        return kept

    def cheapest_for(self, length_mm: int) -> int:
        """Return the number of the cheapest stock that holds so much."""
        able = np.nonzero(self.stock_mm >= length_mm)[0]
        return int(able[np.argmin(self.costs[able])])

    def shown(self, patterns: list[Pattern]) -> tuple[CutPattern, ...]:
        """Return the patterns as people read them, the longest reel and fullest first."""
        times: dict[tuple[int, bytes], int] = {}
        of_key = {}
        for pattern in patterns:
            times[pattern.key] = times.get(pattern.key, 0) + 1
            of_key[pattern.key] = pattern
        shown = [
            CutPattern(
                stock_length_mm=int(self.stock_mm[of_key[key].stock]),
                cuts=tuple(
                    (int(length_mm), int(count))
                    for length_mm, count in zip(self.lengths_mm, of_key[key].counts, strict=True)
                    if count
                ),
                times=count,
            )
            for key, count in times.items()
        ]
        return tuple(
            sorted(shown, key=lambda one: (-one.stock_length_mm, one.rest_mm, one.cuts, one.times))
        )
