"""The search for the most believable parameters of a model, by scipy, loaded at first use."""

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]


def least(
    function: Callable[[FloatArray], tuple[float, FloatArray]],
    starts: Sequence[FloatArray],
    bounds: Sequence[tuple[float, float]],
) -> FloatArray:
    """Return the parameters (1) with the least value of ``function``, from the best start.

    ``function`` gives value and gradient; L-BFGS-B within ``bounds``.
    """
    from scipy.optimize import minimize

    best, lowest = starts[0], np.inf
    for start in starts:
        found = minimize(
            function, start, jac=True, method="L-BFGS-B", bounds=bounds, options={"maxiter": 60}
        )
        if found.fun < lowest:
            best, lowest = np.asarray(found.x, dtype=np.float64), float(found.fun)
    return best
