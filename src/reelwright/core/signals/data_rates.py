"""Data rates over four twisted pairs, and the category of cabling each one asks for."""

from dataclasses import dataclass

from reelwright.core.quantities.guard import require_count, require_positive, require_text
from reelwright.core.signals.category.cable import Category
from reelwright.core.verdicts import Basis, Source

SURE_ON_SIX_M = 37.0
"""10 Gb/s goes this far [m] over category 6, whatever lies beside it."""

MOST_ON_SIX_M = 55.0
"""10 Gb/s goes this far [m] over category 6 where the cables beside it let it."""

EVEN_ON_SIX_M = (SURE_ON_SIX_M + MOST_ON_SIX_M) / 2
"""Halfway [m] the neighbours are taken to let it with even odds, nothing better being known."""

RATE_SOURCE = Source(
    text=(
        "IEEE 802.3: 100 m over category 5 (100BASE-TX), 5e (1000BASE-T, 2.5GBASE-T), 6 "
        "(5GBASE-T), 6A (10GBASE-T); the last over category 6 to 37 m, to 55 m with quiet "
        "neighbours"
    ),
    basis=Basis.FROM_MEMORY,
)
"""Where category and reach come from."""


@dataclass(frozen=True, kw_only=True)
class DataRate:
    """``rate_bit_per_s`` [bit/s] over ``pairs`` pairs, named as its standard names it.

    ``category`` is the least whose whole channel of 100 m carries it.
    """

    rate_bit_per_s: int
    standard: str
    category: Category
    pairs: int

    def __post_init__(self) -> None:
        require_positive(self, "rate_bit_per_s")
        require_text(self, "standard")
        require_count(self, "pairs", at_least=1)

    @property
    def words(self) -> str:
        """The rate as it is said: "2.5 Gb/s"."""
        if self.rate_bit_per_s < 1_000_000_000:
            return f"{self.rate_bit_per_s / 1e6:g} Mb/s"
        return f"{self.rate_bit_per_s / 1e9:g} Gb/s"


def _rate(rate_bit_per_s: int, standard: str, category: Category, pairs: int) -> DataRate:
    return DataRate(
        rate_bit_per_s=rate_bit_per_s, standard=standard, category=category, pairs=pairs
    )


# Category 5 is no longer made; 5e, with the same loss, stands in for it.
DATA_RATES = (
    _rate(100_000_000, "100BASE-TX", Category.FIVE_E, 2),
    _rate(1_000_000_000, "1000BASE-T", Category.FIVE_E, 4),
    _rate(2_500_000_000, "2.5GBASE-T", Category.FIVE_E, 4),
    _rate(5_000_000_000, "5GBASE-T", Category.SIX, 4),
    _rate(10_000_000_000, "10GBASE-T", Category.SIX_A, 4),
)
"""Every rate that can be judged, the slowest first."""
