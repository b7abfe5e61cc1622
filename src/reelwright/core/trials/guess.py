"""What physics says of a response before the first trial: the mean that the trials then correct."""

from dataclasses import dataclass

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_positive, require_text
from reelwright.core.trials.space import FloatArray, SettingSpace


@dataclass(frozen=True, kw_only=True)
class Level:
    """Nothing is known but that the response has some level."""

    def columns(self, space: SettingSpace, coordinates: FloatArray) -> FloatArray:
        """Return the basis ``(n, 1)`` at coordinates (1) ``(n, n_setting)``."""
        del space
        return np.ones((len(coordinates), 1))

    def expected(self, space: SettingSpace, *, falls: bool) -> FloatArray:
        """Return the expected coefficients ``(1,)`` in scales of the response."""
        del space, falls
        return np.zeros(1)


@dataclass(frozen=True, kw_only=True)
class Slope:
    """The response goes up or down with each setting, by an amount that is not known."""

    def columns(self, space: SettingSpace, coordinates: FloatArray) -> FloatArray:
        """Return the basis ``(n, 1 + n_setting)`` at coordinates (1) ``(n, n_setting)``."""
        del space
        return np.hstack([np.ones((len(coordinates), 1)), coordinates - 0.5])

    def expected(self, space: SettingSpace, *, falls: bool) -> FloatArray:
        """Return the expected coefficients ``(1 + n_setting,)``: no slope is expected of any."""
        del falls
        return np.zeros(1 + space.dimensions)


@dataclass(frozen=True, kw_only=True)
class Peak:
    """The response is best where one setting has a known value, and worse on either side.

    ``setting`` names it, ``best_at`` is that value in its unit (a first guess of energy, say), and
    ``ratio_factor`` the factor on it, above 1, at which the response has lost one scale of what is
    to be lost: the loss goes with the square of ln(setting/best_at).
    """

    setting: str
    best_at: float
    ratio_factor: float

    def __post_init__(self) -> None:
        require_text(self, "setting")
        require_positive(self, "best_at")
        require_positive(self, "ratio_factor")
        if self.ratio_factor <= 1:
            raise BadValue(
                owner="Peak", field="ratio_factor", value=self.ratio_factor, accepted="above 1"
            )

    def columns(self, space: SettingSpace, coordinates: FloatArray) -> FloatArray:
        """Return the basis ``(n, 2)`` at coordinates (1): a level, and minus the squared way off.

        Raises BadValue for a setting that is not there or may be zero.
        """
        places = [place for place, one in enumerate(space.settings) if one.name == self.setting]
        if len(places) != 1 or space.lows[places[0]] <= 0:
            raise BadValue(
                owner="Peak",
                field="setting",
                value=self.setting,
                accepted="the name of a setting that is always above zero",
            )
        values = space.lows[places[0]] + coordinates[:, places[0]] * space.spans[places[0]]
        off = np.log(values / self.best_at) / np.log(self.ratio_factor)
        # Far out the square would drown what the trials say; there it only goes on straight.
        loss = np.where(np.abs(off) <= 2, off**2, 4 * np.abs(off) - 4)
        return np.stack([np.ones(len(coordinates)), -loss], axis=1)

    def expected(self, space: SettingSpace, *, falls: bool) -> FloatArray:
        """Return the expected coefficients ``(2,)``; ``falls``: small is good, so the loss adds."""
        del space
        return np.array([0.0, -1.0 if falls else 1.0])


Guess = Level | Slope | Peak
