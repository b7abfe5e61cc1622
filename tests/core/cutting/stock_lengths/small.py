"""Small stock problems, and their cheapest cost by trying everything; no code of the engine."""

from functools import cache
from itertools import product

from hypothesis import strategies as st

from reelwright.core.cutting.stock_lengths import StockLength, StockProblem, WantedLength


def stock_problem(stock: dict[int, int], wanted: dict[int, int]) -> StockProblem:
    """Return the problem of stock {length: cost} and pieces {length: count}."""
    return StockProblem(
        stock=tuple(StockLength(length_mm=at, cost=cost) for at, cost in stock.items()),
        wanted=tuple(WantedLength(length_mm=at, pieces=count) for at, count in wanted.items()),
    )


@st.composite
def small_problems(draw: st.DrawFn) -> StockProblem:
    """One to three stock lengths, up to nine pieces of up to four lengths."""
    stock = draw(st.dictionaries(st.integers(6, 40), st.integers(1, 9), min_size=1, max_size=3))
    wanted = draw(
        st.dictionaries(st.integers(1, max(stock)), st.integers(1, 3), min_size=1, max_size=4)
    )
    return stock_problem(stock, wanted)


def least_cost(problem: StockProblem) -> int:
    """Return the least cost over every way to fill reel after reel."""
    lengths = [one.length_mm for one in problem.wanted]

    @cache
    def of(rest: tuple[int, ...]) -> int:
        if not any(rest):
            return 0
        first = next(at for at, count in enumerate(rest) if count)
        costs = []
        for taken in product(*(range(count + 1) for count in rest)):
            length = sum(count * each for count, each in zip(taken, lengths, strict=True))
            able = [one.cost for one in problem.stock if one.length_mm >= length]
            # Some reel holds the first piece, so it may as well be this one.
            if taken[first] and able:
                left = tuple(there - count for there, count in zip(rest, taken, strict=True))
                costs.append(min(able) + of(left))
        return min(costs)

    return of(tuple(one.pieces for one in problem.wanted))
