"""A limit that length uses up: margin, chance and lengths, the same for every signal."""

from collections.abc import Callable
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np

from reelwright.core.parts.length import Length
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.signals.judgement import MarginCurve

_LONGEST_M = 100_000.0
_STEPS = np.linspace(0.0, 1.0, 129)
_BAND_95 = NormalDist().inv_cdf(0.975)


@dataclass(frozen=True, kw_only=True)
class Budget:
    """What is used at a length, against a limit, both in one unit.

    ``used(lengths_m)`` returns what is used, shape (n_length,), and must not fall with length;
    ``spread(lengths_m)`` its standard uncertainty with the length taken as exact.
    ``length_relative_uncertainty`` [1] is that of the length itself.
    """

    limit: float
    used: Callable[[FloatArray], FloatArray]
    spread: Callable[[FloatArray], FloatArray]
    length_relative_uncertainty: float

    def _at(self, length_m: float) -> FloatArray:
        return np.array([length_m])

    def used_at(self, length_m: float) -> float:
        """Return what a run of ``length_m`` [m] uses, in the budget's unit."""
        return float(self.used(self._at(length_m))[0])

    def margin_at(self, length_m: float) -> float:
        """Return what is left at ``length_m`` [m], in the budget's unit; negative when over."""
        return self.limit - self.used_at(length_m)

    def uncertainty(self, lengths_m: FloatArray) -> FloatArray:
        """Return the standard uncertainty of what is used, shape (n_length,), lengths in [m]."""
        # A hundredth of a percent is short enough for the slope and far above rounding.
        step = 1e-4
        slope = (self.used(lengths_m * (1 + step)) - self.used(lengths_m)) / step
        return np.hypot(self.spread(lengths_m), slope * self.length_relative_uncertainty)

    def curve(self, lengths_m: FloatArray) -> MarginCurve:
        """Return the margin with its 95 % band over ``lengths_m`` [m], shape (n_length,)."""
        margin = self.limit - self.used(lengths_m)
        half = _BAND_95 * self.uncertainty(lengths_m)
        return MarginCurve(margin=margin, low=margin - half, high=margin + half)

    def chance_within(self, length: Length) -> float:
        """Return the chance [1] that a run of ``length`` stays within the limit: Φ(margin/u)."""
        margin = self.margin_at(length.mean_m)
        spread = float(self.uncertainty(self._at(length.mean_m))[0])
        if spread == 0:
            return 1.0 if margin >= 0 else 0.0
        return NormalDist().cdf(margin / spread)

    def length_at_m(self, chance: float) -> float | None:
        """Return the length [m] at which the chance of staying within the limit is ``chance`` [1].

        0 where even the shortest run is over; None where 100 km is not.
        """
        deviations = NormalDist().inv_cdf(chance)

        def over(length_m: float) -> bool:
            at = self._at(length_m)
            return bool(self.limit - self.used(at)[0] < deviations * float(self.uncertainty(at)[0]))

        low, high = 1e-6, _LONGEST_M
        if over(low):
            return 0.0
        if not over(high):
            return None
        # Lengths span eleven decades: divide the ratio, not the difference; many at a time, since
        # a call for one length costs as much as one for all.
        while high / low > 1 + 1e-9:
            lengths_m = low * (high / low) ** _STEPS
            margin = self.limit - self.used(lengths_m)
            over_at = margin < deviations * self.uncertainty(lengths_m)
            # Both ends were judged before; rounding of the powers may not change that.
            over_at[0], over_at[-1] = False, True
            first = int(np.argmax(over_at))
            low, high = float(lengths_m[first - 1]), float(lengths_m[first])
        return low


def longest_within_m(budget: Budget, *, guard: float) -> float:
    """Return the longest length [m] that leaves ``guard`` (the budget's unit) to spare."""
    guarded = Budget(
        limit=budget.limit - guard,
        used=budget.used,
        spread=budget.spread,
        length_relative_uncertainty=budget.length_relative_uncertainty,
    )
    longest = guarded.length_at_m(0.5)
    return _LONGEST_M if longest is None else longest
