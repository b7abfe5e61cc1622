"""The dearest filling of every length up to the longest reel, in whole numbers.

Bounded knapsack by dynamic programming over the filled length (Martello and Toth, Knapsack
Problems, 1990, section 3.1), each piece count split into powers of two. One pass is a few vector
operations per length wanted, so it needs no compiled code.
"""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from reelwright.core.cutting.stock_lengths.case import Counts

Values = NDArray[np.int64]


def parts_of(count: int) -> Iterator[int]:
    """Yield numbers whose sums are every number up to ``count``: 1, 2, 4 …, and what is left."""
    part = 1
    while count > 0:
        yield min(part, count)
        count -= part
        part *= 2


class Knapsack:
    """Fillings of lengths up to ``longest_mm`` with pieces of ``lengths_mm`` (lengths,)."""

    def __init__(self, lengths_mm: Counts, longest_mm: int) -> None:
        self._lengths = [int(length) for length in lengths_mm]
        self._longest = longest_mm
        self._spare = np.empty(longest_mm + 1, dtype=np.int64)
        self._parts: list[tuple[int, int, int]] = []
        self._taken: list[NDArray[np.bool_]] = []

    def best(self, values: Values, at_most: Counts) -> Values:
        """Return the greatest value (longest + 1,) of a filling of each length or less.

        ``values`` (lengths,) of one piece each, ``at_most`` (lengths,) pieces of each.
        """
        longest = self._longest
        best = np.zeros(longest + 1, dtype=np.int64)
        self._parts, self._taken = [], []
        for at, (value, most) in enumerate(zip(values.tolist(), at_most.tolist(), strict=True)):
            if value <= 0 or most <= 0:
                continue
            length = self._lengths[at]
            for count in parts_of(min(most, longest // length)):
                weight = length * count
                tried = np.add(
                    best[: longest + 1 - weight], value * count, out=self._spare[weight:]
                )
                taken = tried > best[weight:]
                np.copyto(best[weight:], tried, where=taken)
                self._taken.append(taken)
                self._parts.append((at, count, weight))
        return best

    def filling(self, length_mm: int) -> Counts:
        """Return the counts (lengths,) of the filling that ``best`` found last for a length."""
        counts = np.zeros(len(self._lengths), dtype=np.int64)
        for (at, count, weight), taken in zip(
            reversed(self._parts), reversed(self._taken), strict=True
        ):
            if length_mm >= weight and taken[length_mm - weight]:
                counts[at] += count
                length_mm -= weight
        return counts
