"""Settings worth looking at: all over the box, and close about the best trials."""

import numpy as np

from reelwright.core.trials.belief import believe
from reelwright.core.trials.model import TrialsModel
from reelwright.core.trials.space import FloatArray

_SCATTERED = 2048
_NEAR = 256


def candidates(model: TrialsModel, dice: "np.random.Generator") -> FloatArray:
    """Return settings (1) worth looking at: all over the box, and close about what was tried."""
    space = model.space
    parts = [space.scatter(_SCATTERED, dice)]
    tried = model.tried
    if len(tried):
        belief = believe(model, tried)
        least = belief.worst_bound if belief.bounds.size else belief.safe
        for place in np.argsort(-least)[:3]:
            parts += [
                space.around(tried[place], _NEAR, spread, dice) for spread in (0.03, 0.1, 0.2)
            ]
    return space.distinct(np.vstack(parts))
