"""Which lengths are wanted, and which lengths of cable may be bought or opened for them.

The one-dimensional cutting-stock problem: any number of each stock length, each whole and alike.
"""

from collections import Counter
from dataclasses import dataclass

from reelwright.core.errors import Fault, InputFaults
from reelwright.core.quantities.guard import require_count


@dataclass(frozen=True, kw_only=True)
class StockLength:
    """A reel that can be had in any number: its length, and what one of them costs.

    ``cost`` is a whole number of any one thing: cents, millimetres, or 1 to count the reels.
    """

    length_mm: int
    cost: int

    def __post_init__(self) -> None:
        require_count(self, "length_mm", "cost", at_least=1)


@dataclass(frozen=True, kw_only=True)
class WantedLength:
    """So many pieces of one cut length."""

    length_mm: int
    pieces: int

    def __post_init__(self) -> None:
        require_count(self, "length_mm", "pieces", at_least=1)


@dataclass(frozen=True, kw_only=True)
class StockProblem:
    """Pieces wanted and the stock lengths they may be cut from.

    Raises InputFaults with all that is wrong: nothing wanted, no stock, a length given twice, a
    piece longer than every stock length.
    """

    stock: tuple[StockLength, ...]
    wanted: tuple[WantedLength, ...]

    def __post_init__(self) -> None:
        faults = []
        for field, given in (("stock", self.stock), ("wanted", self.wanted)):
            if not given:
                faults.append(_fault(field, "nothing", "no length given", "one length or more"))
            for length_mm, count in sorted(Counter(one.length_mm for one in given).items()):
                if count > 1:
                    faults.append(_fault(field, length_mm, f"given {count} times", "each once"))
        longest_mm = max((one.length_mm for one in self.stock), default=0)
        faults += [
            _fault("wanted", one.length_mm, "longer than every stock length", f"≤ {longest_mm}")
            for one in self.wanted
            if self.stock and one.length_mm > longest_mm
        ]
        if faults:
            raise InputFaults(faults)


def _fault(field: str, value: object, problem: str, accepted: str) -> Fault:
    return Fault(
        file="stock lengths",
        row=None,
        field=f"{field}, length_mm",
        value=str(value),
        problem=problem,
        accepted=accepted,
    )
