"""Any number of whole reels of a few lengths: the cheapest that give all the pieces wanted."""

from reelwright.core.cutting.stock_lengths.answer import CutPattern, StockAnswer
from reelwright.core.cutting.stock_lengths.problem import StockLength, StockProblem, WantedLength
from reelwright.core.cutting.stock_lengths.search import cheapest

__all__ = [
    "CutPattern",
    "StockAnswer",
    "StockLength",
    "StockProblem",
    "WantedLength",
    "cheapest",
]
