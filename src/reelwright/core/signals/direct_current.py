"""Resistance of a two-conductor run, as its signals need it."""

from collections.abc import Callable

import numpy as np

from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.lot_values import Stated, known_value
from reelwright.core.physics.resistance import temperature_factor
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Reason


def warm_conductor_ohm_per_m(run: Run) -> float | Reason:
    """Return one conductor's resistance [Ω/m] at the run's temperature, or why it is not known."""
    cold = known_value(run.cable, run.lot, Stated.CONDUCTOR_RESISTANCE)
    if cold is None:
        return Reason(
            code="resistance-missing",
            sentence=f"the resistance of {run.cable.code} is not stated",
        )
    return cold.value * temperature_factor(run.temperature_celsius)


def warm_screen_ohm_per_m(run: Run) -> float | None:
    """Return the screen's resistance [Ω/m] at the run's temperature; None where it is not known."""
    cold = known_value(run.cable, run.lot, Stated.SCREEN_RESISTANCE)
    return None if cold is None else cold.value * temperature_factor(run.temperature_celsius)


def relative_spread(run: Run, what: Stated) -> float:
    """Return the relative standard uncertainty [1] of a value; 0 where it is not known at all."""
    known = known_value(run.cable, run.lot, what)
    return 0.0 if known is None else known.relative_uncertainty


def spread_per_length(
    used: Callable[[FloatArray], FloatArray], *, spread: float
) -> Callable[[FloatArray], FloatArray]:
    """Return the spread of ``used`` where its uncertain input multiplies the length.

    A thousandth more of the input then does what a thousandth more of the length does; ``spread``
    [1] is the input's relative standard uncertainty.
    """

    def carried(lengths_m: FloatArray) -> FloatArray:
        return spread_by_change(
            used(lengths_m), used(1.001 * lengths_m), relative_change=0.001, spread=spread
        )

    return carried


def spread_by_change(
    used_nominal: FloatArray, used_with_more: FloatArray, *, relative_change: float, spread: float
) -> FloatArray:
    """Return a standard uncertainty carried through a formula, shape of ``used_nominal``.

    The slope is taken from ``used_with_more``, computed with the input raised by
    ``relative_change`` [1]; ``spread`` [1] is the input's relative standard uncertainty.
    """
    carried: FloatArray = np.abs(used_with_more - used_nominal) / relative_change * spread
    return carried
