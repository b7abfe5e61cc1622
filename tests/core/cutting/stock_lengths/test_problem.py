"""What a stock problem refuses, all of it at once."""

import pytest

from reelwright.core.cutting.stock_lengths import StockLength
from reelwright.core.errors import BadValue, InputFaults
from tests.core.cutting.stock_lengths.small import stock_problem


def test_every_fault_of_a_stock_problem_is_told_together():
    """Two pieces too long and nothing else wrong are two faults, each with its length."""
    with pytest.raises(InputFaults) as refused:
        stock_problem({100: 1}, {120: 1, 50: 3, 101: 2})
    assert [(fault.value, fault.accepted) for fault in refused.value.faults] == [
        ("120", "≤ 100"),
        ("101", "≤ 100"),
    ]


def test_no_stock_and_nothing_wanted_are_refused():
    """An empty problem names both lists that are empty."""
    with pytest.raises(InputFaults) as refused:
        stock_problem({}, {})
    assert [fault.field for fault in refused.value.faults] == [
        "stock, length_mm",
        "wanted, length_mm",
    ]


@pytest.mark.parametrize(("length_mm", "cost"), [(0, 1), (-5, 1), (10, 0), (10, -1)])
def test_a_reel_has_a_length_and_a_cost(length_mm: int, cost: int):
    """A length or a cost of zero or less is refused: such reels would be free or endless."""
    with pytest.raises(BadValue):
        StockLength(length_mm=length_mm, cost=cost)
