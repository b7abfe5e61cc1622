"""The box of all settings: steps of the machine on one side, the unit cube on the other."""

import math
from collections.abc import Sequence
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from reelwright.core.trials.settings import Setting

FloatArray = NDArray[np.float64]


class SettingSpace:
    """Turns settings into coordinates (1) of the unit cube and back, arrays ``(n, n_setting)``.

    The cube reaches from ``low`` of each setting to the last step the machine can be set to.
    """

    def __init__(self, settings: Sequence[Setting]) -> None:
        self.settings = tuple(settings)
        self.lows = np.array([one.low for one in self.settings])
        self.steps = np.array([one.step for one in self.settings])
        self.counts = np.array([one.last_step for one in self.settings])
        self.spans = self.steps * self.counts
        self.plays = np.array([one.play for one in self.settings]) / self.spans
        self.drifts = np.array([one.drift for one in self.settings]) / self.spans

    @property
    def dimensions(self) -> int:
        """How many settings there are."""
        return len(self.settings)

    def to_cube(self, values: FloatArray) -> FloatArray:
        """Return settings ``(n, n_setting)``, each in its unit, as coordinates (1)."""
        return np.asarray((values - self.lows) / self.spans, dtype=np.float64)

    def from_cube(self, coordinates: FloatArray) -> FloatArray:
        """Return coordinates (1) as settings, each in its unit, at the nearest step."""
        whole = np.clip(np.rint(coordinates * self.counts), 0, self.counts)
        return np.asarray(self.lows + whole * self.steps, dtype=np.float64)

    def snap(self, coordinates: FloatArray) -> FloatArray:
        """Return coordinates (1) moved to the nearest setting of the machine, within the cube."""
        whole = np.clip(np.rint(coordinates * self.counts), 0, self.counts)
        return np.asarray(whole / self.counts, dtype=np.float64)

    def values(self, coordinates: FloatArray) -> tuple[float, ...]:
        """Return one point, coordinates (1) of shape ``(n_setting,)``, as settings."""
        # Rounded far below any machine's step: 2.4000000000000004 bar is 2.4 bar.
        return tuple(round(float(value), 9) for value in self.from_cube(coordinates))

    @cached_property
    def lattice_size(self) -> int:
        """How many different settings the machine has in the whole box."""
        return math.prod(int(count) + 1 for count in self.counts)

    def scatter(self, size: int, dice: "np.random.Generator") -> FloatArray:
        """Return about ``size`` settings over the cube, the whole lattice where it is no larger.

        Coordinates (1) of shape ``(n, n_setting)`` at steps of the machine, none twice.
        """
        if self.lattice_size <= size:
            axes = [np.arange(count + 1) / count for count in self.counts]
            mesh = np.meshgrid(*axes, indexing="ij")
            return np.stack([axis.ravel() for axis in mesh], axis=1)
        return self.distinct(latin_hypercube(size, self.dimensions, dice))

    def around(
        self, centre: FloatArray, size: int, spread: float, dice: "np.random.Generator"
    ) -> FloatArray:
        """Return ``size`` settings about ``centre``, normal with ``spread`` (1), none twice."""
        moved = centre + spread * dice.standard_normal((size, self.dimensions))
        return self.distinct(np.clip(moved, 0, 1))

    def neighbours(self, centre: FloatArray, reaches: Sequence[int]) -> FloatArray:
        """Return the settings that lie each of ``reaches`` steps from ``centre`` on one axis."""
        offsets = [
            sign * reach * np.eye(self.dimensions)[axis] / self.counts[axis]
            for axis in range(self.dimensions)
            for reach in reaches
            for sign in (-1, 1)
        ]
        return self.distinct(np.clip(centre + np.array(offsets), 0, 1))

    def distinct(self, coordinates: FloatArray) -> FloatArray:
        """Return the different settings among ``coordinates`` (1), at steps of the machine."""
        whole = np.unique(np.rint(coordinates * self.counts).astype(np.int64), axis=0)
        return np.asarray(whole / self.counts, dtype=np.float64)


def latin_hypercube(size: int, dimensions: int, dice: "np.random.Generator") -> FloatArray:
    """Return ``(size, dimensions)`` coordinates (1): each axis cut in ``size`` parts, one in each.

    McKay, Beckman and Conover, Technometrics 21 (1979), 239-245.
    """
    columns = [dice.permutation(size) for _ in range(dimensions)]
    cells = np.stack(columns, axis=1).astype(np.float64)
    return np.asarray((cells + dice.random((size, dimensions))) / size, dtype=np.float64)
