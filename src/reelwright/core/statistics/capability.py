"""How well a process keeps between two limits: Cp and Cpk of measured values."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist, fmean, stdev

from reelwright.core.errors import BadValue
from reelwright.core.statistics._guard import require_chance, require_whole
from reelwright.core.statistics.normal import chance_above, chance_below

CAPABLE_RATIO = 1.33
"""Cpk from which a process counts as capable: four standard deviations to the nearer limit. Common
practice, no published source for the bound itself."""


@dataclass(frozen=True, kw_only=True)
class Capability:
    """What measured values say of a process between ``low`` and ``high``, all in ``unit``.

    ``cp`` and ``cpk`` [1]; ``outside_chance`` [1] is the share beyond either limit, were the values
    normal with this mean and standard ``deviation``.
    """

    sample_size: int
    mean: float
    deviation: float
    low: float
    high: float
    unit: str

    @property
    def cp(self) -> float:
        """Width of the tolerance over six standard deviations [1]."""
        return (self.high - self.low) / (6 * self.deviation)

    @property
    def cpk(self) -> float:
        """Distance to the nearer limit over three standard deviations [1]; negative: outside."""
        return min(self.high - self.mean, self.mean - self.low) / (3 * self.deviation)

    @property
    def outside_chance(self) -> float:
        """The share [1] that lies beyond a limit, of a normal population."""
        above = chance_above(limit=self.high, mean=self.mean, deviation=self.deviation)
        below = chance_below(limit=self.low, mean=self.mean, deviation=self.deviation)
        return above + below

    def cpk_least(self, *, confidence: float) -> float:
        """Return the Cpk [1] that the process has at least, with one-sided ``confidence`` [1].

        See ``cpk_spread``; normal approximation.
        """
        require_chance("Capability.cpk_least", confidence=confidence)
        z = NormalDist().inv_cdf(confidence)
        return self.cpk - z * cpk_spread(cpk_ratio=self.cpk, sample_size=self.sample_size)

    def cpk_most(self, *, confidence: float) -> float:
        """Return the Cpk [1] that the process has at most, with one-sided ``confidence`` [1].

        As ``cpk_least``, on the other side.
        """
        require_chance("Capability.cpk_most", confidence=confidence)
        z = NormalDist().inv_cdf(confidence)
        return self.cpk + z * cpk_spread(cpk_ratio=self.cpk, sample_size=self.sample_size)


def cpk_spread(*, cpk_ratio: float, sample_size: int) -> float:
    """Return the standard error [1] of a Cpk of ``sample_size`` values.

    √(1/(9n) + Cpk²/(2(n − 1))): Bissell 1990, as given in the NIST/SEMATECH e-Handbook of
    Statistical Methods, 6.1.6. Raises BadValue for fewer than two values.
    """
    require_whole("cpk_spread", at_least=2, sample_size=sample_size)
    return math.sqrt(1 / (9 * sample_size) + cpk_ratio**2 / (2 * (sample_size - 1)))


def capability(values: Sequence[float], *, low: float, high: float, unit: str) -> Capability:
    """Return the capability of measured ``values`` between ``low`` and ``high``, all in ``unit``.

    Cp = (high − low)/6s, Cpk = min(high − mean, mean − low)/3s with the sample standard deviation
    (NIST/SEMATECH e-Handbook, 6.1.6). Raises BadValue for fewer than two values, for values that
    are no numbers or all alike (an instrument too coarse to tell), and for limits in wrong order.
    """
    if len(values) < 2 or not all(math.isfinite(value) for value in values):
        raise BadValue(
            owner="capability",
            field="values",
            value=tuple(values),
            accepted="two or more finite numbers: one value tells nothing of a spread",
        )
    if not (math.isfinite(low) and math.isfinite(high) and low < high):
        raise BadValue(
            owner="capability", field="low", value=low, accepted=f"a number below {high}"
        )
    deviation = stdev(values)
    if deviation == 0:
        raise BadValue(
            owner="capability",
            field="values",
            value=tuple(values),
            accepted="values that differ: alike ones were read too coarsely to tell the spread",
        )
    return Capability(
        sample_size=len(values),
        mean=fmean(values),
        deviation=deviation,
        low=low,
        high=high,
        unit=unit,
    )
