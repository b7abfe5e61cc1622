"""A first answer at once: reel after reel filled with the longest pieces that still fit."""

import numpy as np

from reelwright.core.cutting.stock_lengths.case import Case, Counts, Pattern


def longest_first(case: Case, wanted: Counts) -> list[Pattern]:
    """Return patterns that cut all of ``wanted`` (lengths,); the stock that costs least a metre.

    With one stock length this is first-fit decreasing (Johnson 1973), reel by reel.
    """
    rest = wanted.copy()
    patterns = []
    while rest.any():
        tried = [_filled(case, rest, stock) for stock in range(len(case.stock_mm))]
        able = [pattern for pattern in tried if pattern.counts.any()]
        best = min(able, key=lambda one: case.costs[one.stock] / (one.counts @ case.lengths_mm))
        wanted_of = best.counts > 0
        times = int((rest[wanted_of] // best.counts[wanted_of]).min())
        patterns += [best] * times
        rest -= best.counts * times
    return patterns


def _filled(case: Case, rest: Counts, stock: int) -> Pattern:
    room = int(case.stock_mm[stock])
    counts = np.zeros_like(rest)
    for at in np.nonzero(rest)[0]:
        count = min(int(rest[at]), room // int(case.lengths_mm[at]))
        counts[at] = count
        room -= count * int(case.lengths_mm[at])
    return Pattern(stock, counts)
