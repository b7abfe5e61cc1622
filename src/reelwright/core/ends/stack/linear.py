"""A stack whose result is a weighted sum: worst case, root-sum-square, capability."""

import math
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from reelwright.core.ends.stack.contributor import Contributor
from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_finite
from reelwright.core.statistics.normal import chance_above, chance_below

Outcome = Callable[[NDArray[np.float64]], NDArray[np.float64]]
"""From values of shape (contributor, draw) to results of shape (draw,)."""


@dataclass(frozen=True, kw_only=True)
class Window:
    """Between which values the result must lie, both included."""

    low: float
    high: float

    def __post_init__(self) -> None:
        require_finite(self, "low", "high")
        if self.low >= self.high:
            raise BadValue(
                owner="Window", field="low", value=self.low, accepted=f"less than {self.high}"
            )

    @property
    def middle(self) -> float:
        """Half way between the two limits."""
        return (self.low + self.high) / 2

    @property
    def width(self) -> float:
        """From one limit to the other."""
        return self.high - self.low


def require_contributors(contributors: Sequence[Contributor]) -> None:
    """Raise BadValue unless there is one with a spread and none stands twice under one name."""
    if not any(each.tolerance for each in contributors):
        raise BadValue(
            owner="stack",
            field="contributors",
            value=tuple(each.name for each in contributors),
            accepted="one or more with a tolerance above zero: else there is nothing to add up",
        )
    twice = [name for name, n in Counter(each.name for each in contributors).items() if n > 1]
    if twice:
        raise BadValue(owner="stack", field="name", value=twice, accepted="each name once")


@dataclass(frozen=True, kw_only=True)
class LinearStack:
    """Independent contributors whose weighted sum is the result, all in one unit.

    Worst case Σ|s|T and root-sum-square √Σ(sT)² about the mean Σs(nominal + shift): the shifts are
    added before, never under the root. F. Scholz, Tolerance Stack Analysis Methods, Boeing
    ISSTECH-95-030 (1995), from memory.
    """

    contributors: tuple[Contributor, ...]

    def __post_init__(self) -> None:
        require_contributors(self.contributors)

    def _each(self, name: str) -> NDArray[np.float64]:
        return np.array([getattr(each, name) for each in self.contributors], dtype=np.float64)

    @property
    def nominal(self) -> float:
        """The result when every dimension is as drawn."""
        return float(self._each("sensitivity") @ self._each("nominal"))

    @property
    def mean(self) -> float:
        """The result to expect, with every shift in it."""
        return float(self._each("sensitivity") @ self._each("mean"))

    @property
    def worst_case(self) -> float:
        """Half width about the mean when every dimension is at its bad end."""
        return float(self._each("reach").sum())

    @property
    def root_sum_square(self) -> float:
        """√Σ(sT)², half width about the mean; three standard deviations where all are normal."""
        return float(math.hypot(*self._each("reach")))

    @property
    def deviation(self) -> float:
        """The standard deviation of the result, each tolerance read as its contributor says."""
        return float(math.hypot(*self._each("spread")))

    @property
    def tolerance_shares(self) -> tuple[float, ...]:
        """(sT)²/Σ(sT)² of each contributor [1]; they add up to one."""
        squares = self._each("reach") ** 2
        return tuple(float(each) for each in squares / squares.sum())

    @property
    def spread_shares(self) -> tuple[float, ...]:
        """The part of the result's variance that each contributor brings [1]."""
        squares = self._each("spread") ** 2
        return tuple(float(each) for each in squares / squares.sum())

    def cp(self, window: Window) -> float:
        """Width of the window over six standard deviations [1]."""
        return window.width / (6 * self.deviation)

    def cpk(self, window: Window) -> float:
        """Mean to the nearer limit over three standard deviations [1]; negative: outside."""
        nearer = min(window.high - self.mean, self.mean - window.low)
        return nearer / (3 * self.deviation)

    def below_share(self, window: Window) -> float:
        """The share [1] under the lower limit, the result taken as normal."""
        return chance_below(limit=window.low, mean=self.mean, deviation=self.deviation)

    def above_share(self, window: Window) -> float:
        """The share [1] over the upper limit, the result taken as normal."""
        return chance_above(limit=window.high, mean=self.mean, deviation=self.deviation)

    def outside_share(self, window: Window) -> float:
        """The share [1] beyond either limit, the result taken as normal."""
        return self.below_share(window) + self.above_share(window)


def linearise(contributors: Sequence[Contributor], outcome: Outcome) -> LinearStack:
    """Return the stack that a result has near its means, which need not be a sum.

    Each sensitivity is a central difference over a hundredth of the contributor's own tolerance
    (of its mean, or 1, where it has none), multiplied by the one stated. The nominal and the mean
    of this stack are those of the sum, not the result's: ``simulate`` tells where a curved result
    lies.
    """
    require_contributors(contributors)
    means = np.array([each.mean for each in contributors], dtype=np.float64)
    steps = np.array(
        [each.tolerance / 100 or abs(each.mean) / 1e6 or 1e-6 for each in contributors]
    )
    ahead = outcome(means[:, None] + np.diag(steps))
    behind = outcome(means[:, None] - np.diag(steps))
    slopes = (ahead - behind) / (2 * steps)
    return LinearStack(
        contributors=tuple(
            replace(each, sensitivity=each.sensitivity * float(slope))
            for each, slope in zip(contributors, slopes, strict=True)
        )
    )
