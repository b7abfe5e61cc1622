"""What is cut from what, what it costs, and how far that is proven."""

from dataclasses import dataclass

from reelwright.core.quantities.guard import require_count


@dataclass(frozen=True, kw_only=True)
class CutPattern:
    """``times`` reels of one stock length, each cut alike.

    ``cuts`` are (cut length in mm, pieces), the longest first.
    """

    stock_length_mm: int
    cuts: tuple[tuple[int, int], ...]
    times: int

    def __post_init__(self) -> None:
        require_count(self, "times", at_least=1)

    @property
    def rest_mm(self) -> int:
        """What is left of each of them."""
        return self.stock_length_mm - sum(length_mm * pieces for length_mm, pieces in self.cuts)


@dataclass(frozen=True, kw_only=True)
class StockAnswer:
    """A way to cut all that is wanted. ``bound``: no way whatever costs less than that.

    ``cost`` and ``bound`` count what the costs of the problem count. ``steps`` counts the linear
    programs solved on the way.
    """

    patterns: tuple[CutPattern, ...]
    cost: int
    bound: int
    steps: int

    @property
    def proven_best(self) -> bool:
        """True where nothing can cost less."""
        return self.cost == self.bound
