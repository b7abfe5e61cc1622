"""Every filling that an answer of a stated cost can contain.

With dual values of bound B, a reel of cost c filled with pieces worth v has a *reduced cost*
c − v ≥ 0. In an answer of cost K the reduced costs sum up to K − B at most, so no filling beyond
that can be in it: what remains is often a few hundred, few enough to be chosen among exactly.
(Reduced-cost variable fixing, here by listing instead of removing: Baldacci et al. 2008.)
"""

import numpy as np
from numpy.typing import NDArray

from reelwright.core.cutting.stock_lengths.case import Case, Counts, Pattern
from reelwright.core.cutting.stock_lengths.duals import Duals
from reelwright.core.cutting.stock_lengths.knapsack import parts_of


def fillings_within(
    case: Case, wanted: Counts, duals: Duals, *, cost: int, at_most: int
) -> list[Pattern] | None:
    """Return all fillings of which an answer of ``cost`` can consist; None if over ``at_most``.

    ``wanted`` (lengths,) bounds the counts. Only fillings that no wanted piece could be added to
    are listed: an answer may cut more than is wanted, which is then left out.
    """
    slack = cost * duals.unit - duals.total(wanted)
    found: list[Pattern] = []
    ends = _worth_of_the_rest(case, wanted, duals)
    for stock, cost_of_stock in enumerate(case.costs.tolist()):
        room = int(case.stock_mm[stock])
        counts = _listed(
            case,
            wanted,
            duals,
            ends,
            room=room,
            least=cost_of_stock * duals.unit - slack,
            at_most=at_most,
        )
        if counts is None or len(found) + len(counts) > at_most:
            return None
        found += [Pattern(stock, row) for row in counts]
    return found


def _worth_of_the_rest(case: Case, wanted: Counts, duals: Duals) -> Counts:
    """Return (lengths + 1, longest + 1): the best value of pieces from each number on."""
    longest = int(case.stock_mm.max())
    table = np.zeros((len(wanted) + 1, longest + 1), dtype=np.int64)
    for at in range(len(wanted) - 1, -1, -1):
        best = table[at]
        best[:] = table[at + 1]
        length, value = int(case.lengths_mm[at]), int(duals.values[at])
        if value <= 0:
            continue
        for count in parts_of(min(int(wanted[at]), longest // length)):
            weight = length * count
            np.maximum(
                best[weight:], best[: longest + 1 - weight] + value * count, out=best[weight:]
            )
    return table


def _listed(
    case: Case,
    wanted: Counts,
    duals: Duals,
    ends: Counts,
    *,
    room: int,
    least: int,
    at_most: int,
) -> Counts | None:
    """Return (fillings, lengths): those worth ``least`` or more, length by length, all at once."""
    if ends[0][room] < least:
        return np.zeros((0, len(wanted)), dtype=np.int64)
    rest = np.array([room], dtype=np.int64)
    worth = np.zeros(1, dtype=np.int64)
    came_from: list[NDArray[np.int64]] = []
    taken: list[NDArray[np.int64]] = []
    for at in range(len(wanted)):
        length, value = int(case.lengths_mm[at]), int(duals.values[at])
        most = int(min(wanted[at], room // length))
        here = np.arange(len(rest))
        steps = []
        for count in range(most + 1):
            if count:
                able = rest[here] >= length * count
                here = here[able]
            if not len(here):
                break
            left = rest[here] - length * count
            value_then = worth[here] + value * count
            good = value_then + ends[at + 1][left] >= least
            steps.append((here[good], left[good], value_then[good], count))
        came_from.append(np.concatenate([step[0] for step in steps]))
        rest = np.concatenate([step[1] for step in steps])
        worth = np.concatenate([step[2] for step in steps])
        taken.append(np.repeat([step[3] for step in steps], [len(step[0]) for step in steps]))
        # Partial fillings outnumber the whole ones; the factor keeps a hopeless list short.
        if len(rest) > 4 * at_most:
            return None
    counts = np.zeros((len(rest), len(wanted)), dtype=np.int64)
    at_row = np.arange(len(rest))
    for at in range(len(wanted) - 1, -1, -1):
        counts[:, at] = taken[at][at_row]
        at_row = came_from[at][at_row]
    could_add = np.where(counts < wanted, case.lengths_mm, np.iinfo(np.int64).max).min(axis=1)
    whole: Counts = counts[could_add > rest]
    return whole
