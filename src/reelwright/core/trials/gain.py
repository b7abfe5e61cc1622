"""How much a trial at a point is expected to teach: first the way into the window, then its size.

As long as nothing tried is likely to be in the window, the gain is the expected improvement of the
least margin over the best trial so far: the mean over draws of the posterior of
max(0, min over all demands of the margin − best). Here best stands a part of the way to the limit
ahead of that trial, so that a hill which ends below the limit is left alone. Margins count up to
one scale and no further, for a window is asked for and not a maximum. Once a trial is likely
inside, the gain is the chance that a point is inside and not yet proven to be, times what is still
open there: trials then go where they make the window surer and wider.
"""

import enum
from dataclasses import dataclass

import numpy as np

from reelwright.core.trials.belief import Belief, believe
from reelwright.core.trials.model import TrialsModel
from reelwright.core.trials.space import FloatArray

_DRAWS = 64
_LIKELY = 0.5
_ENOUGH = 1.0
_PART_OF_THE_WAY = 0.3


class Aim(enum.StrEnum):
    """What a trial is for."""

    START = "start"
    SEEK = "seek"
    WIDEN = "widen"
    CONFIRM = "confirm"


@dataclass(frozen=True, kw_only=True, eq=False)
class Gains:
    """The gain of each point of a belief, ``(n,)``, in scales of the response or a chance (1)."""

    aim: Aim
    values: FloatArray


class GainOf:
    """The gain under one model; ``dice`` makes the draws once, so that points are comparable."""

    def __init__(self, model: TrialsModel, dice: "np.random.Generator") -> None:
        tried = believe(model, model.tried)
        size = tried.margins.shape[1]
        half = dice.standard_normal((_DRAWS // 2, size))
        self._draws = np.vstack([half, -half])
        best = float(self._least(tried.margins).max()) if tried.margins.size else -np.inf
        # Only a real part of the way counts: a hill that ends below the limit is then left.
        self._best = best + _PART_OF_THE_WAY * max(0.0, -best) if np.isfinite(best) else best
        inside = tried.inside if len(tried.points) else np.zeros(1)
        self.aim = Aim.WIDEN if size and float(inside.max()) >= _LIKELY else Aim.SEEK

    @staticmethod
    def _least(margins: FloatArray) -> FloatArray:
        return np.asarray(np.minimum(margins, _ENOUGH).min(axis=-1), dtype=np.float64)

    def at(self, belief: Belief) -> Gains:
        """Return the gain of a trial at each point of ``belief``."""
        if not belief.margins.shape[1]:
            # Nothing was ever measured: a trial that comes out teaches most where it is likely to.
            return Gains(aim=self.aim, values=np.ones(len(belief.points)))
        if self.aim is Aim.WIDEN:
            open_still = (belief.spreads / (belief.spreads + 0.05)).max(axis=1)
            return Gains(aim=self.aim, values=belief.inside * ~belief.proven * open_still)
        drawn = belief.margins[:, None, :] + belief.spreads[:, None, :] * self._draws[None, :, :]
        better = np.maximum(0.0, self._least(drawn) - self._best)
        # Where no draw is better, the likelier place is still the better one.
        return Gains(aim=self.aim, values=better.mean(axis=1) + 1e-3 * belief.inside)
