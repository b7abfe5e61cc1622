"""A limit that is stated as a length, not computed from the cable."""

from collections.abc import Callable

import numpy as np

from reelwright.core.physics.arrays import FloatArray
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.run import Run


def length_budget(
    run: Run, *, limit_m: float, used_m: Callable[[FloatArray], FloatArray]
) -> Budget:
    """Return a budget in metres: ``used_m(lengths_m)`` [m] against ``limit_m`` [m].

    The only spread is that of the run's own length.
    """

    def spread(lengths_m: FloatArray) -> FloatArray:
        return np.zeros_like(lengths_m)

    return Budget(
        limit=limit_m,
        used=used_m,
        spread=spread,
        length_relative_uncertainty=run.length_relative_uncertainty,
    )
