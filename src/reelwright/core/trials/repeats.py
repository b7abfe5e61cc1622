"""What the repeats of the trials say of the noise, apart from any model."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import fmean

from reelwright.core.errors import BadValue
from reelwright.core.trials._kernels import chance_of_larger_f


@dataclass(frozen=True, kw_only=True)
class Repeats:
    """The pooled scatter within the trials: ``sum_of_squares`` with ``degrees`` of freedom."""

    sum_of_squares: float
    degrees: int

    @property
    def deviation(self) -> float | None:
        """The pooled standard deviation of one reading; ``None`` where nothing was repeated."""
        return math.sqrt(self.sum_of_squares / self.degrees) if self.degrees else None


def pool(groups: Iterable[Sequence[float]]) -> Repeats:
    """Return the scatter within ``groups`` of repeats, which may be of unequal size."""
    squares, degrees = [], 0
    for group in groups:
        if len(group) > 1:
            # Twice over: the mean of large numbers carries its own rounding.
            mean = fmean(group)
            mean += fmean(value - mean for value in group)
            squares += [(value - mean) ** 2 for value in group]
            degrees += len(group) - 1
    return Repeats(sum_of_squares=math.fsum(squares), degrees=degrees)


@dataclass(frozen=True, kw_only=True)
class OneWay:
    """Scatter between groups against scatter within them (one-way analysis of variance)."""

    between: Repeats
    within: Repeats

    @property
    def ratio(self) -> float:
        """F: the mean square between the groups over that within them."""
        between = self.between.sum_of_squares / self.between.degrees
        return between / (self.within.sum_of_squares / self.within.degrees)

    @property
    def chance(self) -> float:
        """How often groups that do not differ would show so large an F or a larger one."""
        return chance_of_larger_f(
            ratio=self.ratio,
            degrees=self.between.degrees,
            degrees_below=self.within.degrees,
        )


def one_way(groups: Sequence[Sequence[float]]) -> OneWay:
    """Return the analysis of two or more groups; raise BadValue where nothing was repeated.

    NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.3.
    """
    within = pool(groups)
    if len(groups) < 2 or within.degrees == 0 or within.sum_of_squares == 0:
        raise BadValue(
            owner="one_way",
            field="groups",
            value=tuple(tuple(group) for group in groups),
            accepted="two groups or more, with repeats that differ",
        )
    # All from one zero: the sums of squares would otherwise lose the digits that differ.
    zero = groups[0][0]
    sizes = [len(group) for group in groups]
    means = [fmean(value - zero for value in group) for group in groups]
    whole = math.fsum(n * m for n, m in zip(sizes, means, strict=True)) / sum(sizes)
    between = math.fsum(n * (m - whole) ** 2 for n, m in zip(sizes, means, strict=True))
    return OneWay(between=Repeats(sum_of_squares=between, degrees=len(groups) - 1), within=within)
