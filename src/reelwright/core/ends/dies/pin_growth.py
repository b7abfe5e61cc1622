"""How much longer pins were after their crimp, and what that says of the next pin."""

import math
from dataclasses import dataclass
from statistics import fmean, stdev

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_positive
from reelwright.core.quantities.show import show_in, show_length_mm, show_number
from reelwright.core.quantities.words import counted
from reelwright.core.statistics.normal import chance_below
from reelwright.core.statistics.tolerance_interval import two_sided_tolerance_factor
from reelwright.core.verdicts import Basis, Source

PINS_TO_MEASURE = 5
"""Fewer say too little of their spread: k of five is 7.6 already. Common practice, no published
source."""

COVERAGE = 1 - 2 * chance_below(limit=-3.0, mean=0.0, deviation=1.0)
"""The part of all pins [1] that the interval holds: 99.73 %, what ± three standard deviations of a
normal population hold, for so the stack reads a tolerance."""

CONFIDENCE = 0.95
"""How sure [1] it is that the interval holds that part."""


@dataclass(frozen=True, kw_only=True)
class MeasuredGrowth:
    """How much longer pins [m] were after the crimp than before it, one figure for each pin.

    ``gauge_uncertainty_m``: the standard uncertainty [m] of one reading; None: not recorded. Raises
    BadValue for no pin at all, or for a growth that is not finite.
    """

    growths_m: tuple[float, ...]
    gauge_uncertainty_m: float | None

    def __post_init__(self) -> None:
        if not self.growths_m or not all(map(math.isfinite, self.growths_m)):
            raise BadValue(
                owner="MeasuredGrowth",
                field="growths_m",
                value=self.growths_m,
                accepted="the finite growth of one pin or more",
            )
        if self.gauge_uncertainty_m is not None:
            require_positive(self, "gauge_uncertainty_m")

    @property
    def pins_count(self) -> int:
        """How many pins were measured."""
        return len(self.growths_m)

    @property
    def mean_m(self) -> float:
        """The mean growth [m]."""
        return fmean(self.growths_m)

    @property
    def deviation_m(self) -> float:
        """The standard deviation of the growths [m]; 0 for a single pin."""
        return stdev(self.growths_m) if len(self.growths_m) > 1 else 0.0

    @property
    def lacking(self) -> str:
        """Why these pins do not yet stand for all, in words; empty where they do."""
        if self.pins_count < PINS_TO_MEASURE:
            return f"measured {self.pins_count} of {PINS_TO_MEASURE}, the reckoned range stands"
        if self._spread_m == 0:
            return (
                f"{counted(self.pins_count, 'measured pin')} grew alike to the last digit and the "
                "gauge's uncertainty is not recorded, the reckoned range stands"
            )
        return ""

    @property
    def factor(self) -> float:
        """k [1] of the two-sided tolerance interval mean ± k·s, exact. Two pins or more."""
        return two_sided_tolerance_factor(
            sample_size=self.pins_count, coverage=COVERAGE, confidence=CONFIDENCE
        )

    @property
    def tolerance_m(self) -> float:
        """Half the interval [m]: k·s, s never taken below the gauge's own √2·u of a difference."""
        return self.factor * self._spread_m

    @property
    def told(self) -> str:
        """The interval in words, with what it claims. Two pins or more."""
        spread = f"s {show_in(self._spread_m * 1e3, 'mm', decimals=4)}"
        if self._spread_m > self.deviation_m:
            spread += " of the gauge alone"
        return (
            f"{counted(self.pins_count, 'measured pin')} grew by {self.interval} ({spread}, "
            f"k {show_number(self.factor, decimals=2)}: "
            f"{show_in(COVERAGE * 100, '%', decimals=2)} of all pins lie within, with "
            f"{show_in(CONFIDENCE * 100, '%', decimals=0)} confidence)"
        )

    @property
    def interval(self) -> str:
        """Mean and tolerance as they are read: "0.062 mm ± 0.024 mm". Two pins or more."""
        # In millimetres first: half a micrometre is rounded as where the readings stand.
        mean = show_length_mm(round(self.mean_m * 1e3, 6), decimals=3)
        return f"{mean} ± {show_length_mm(self.tolerance_m * 1e3, decimals=3)}"

    @property
    def source(self) -> Source:
        """Who says so."""
        return Source(
            text=f"{counted(self.pins_count, 'pin')} measured before and after the crimp",
            basis=Basis.OWN_SHOP,
        )

    @property
    def _spread_m(self) -> float:
        # A growth is the difference of two readings; a gauge's common error cancels in it.
        least_m = math.sqrt(2) * (self.gauge_uncertainty_m or 0.0)
        return max(self.deviation_m, least_m)
