"""The response to one bit, cut into cursors: all that an eye is made of.

Bits are sent as +1 and −1; a line without loss gives an eye that is open by 1.
"""

from dataclasses import dataclass

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.step import Band, Spectrum, TimeGrid, step_response
from reelwright.core.quantities.guard import require_positive


@dataclass(frozen=True, kw_only=True, eq=False)
class Cursors:
    """What one bit gives at its own sampling instant and at those of its neighbours.

    ``phase_ratio`` [1], shape (n_phase,), is the sampling instant in bits from the middle of the
    eye (where the pulse peaks), −½ to ½; ``height_ratio`` [1], shape (n_phase, n_cursor), the pulse
    one bit apart; ``main_index`` the column of the bit itself; ``left_out_ratio`` [1], shape
    (n_phase,), how much of the pulse's sum lies behind the last cursor; ``bit_s`` [s].
    """

    phase_ratio: FloatArray
    height_ratio: FloatArray
    main_index: int
    left_out_ratio: FloatArray
    bit_s: float

    def __post_init__(self) -> None:
        require_positive(self, "bit_s")
        height = self.height_ratio
        if height.ndim != 2 or height.shape[0] != self.phase_ratio.size or not height.size:
            raise _refuse("height_ratio", height.shape, "(n_phase, n_cursor)")
        if self.left_out_ratio.shape != self.phase_ratio.shape:
            raise _refuse("left_out_ratio", self.left_out_ratio.shape, "one for each phase")
        if not np.isfinite(height).all():
            raise _refuse("height_ratio", "not finite", "finite numbers")
        if not 0 <= self.main_index < height.shape[1]:
            raise _refuse("main_index", self.main_index, f"0 to {height.shape[1] - 1}")

    @property
    def main_ratio(self) -> FloatArray:
        """Height of the bit itself [1], shape (n_phase,)."""
        return self.height_ratio[:, self.main_index]

    @property
    def others_ratio(self) -> FloatArray:
        """Heights left by its neighbours [1], shape (n_phase, n_cursor − 1)."""
        return np.delete(self.height_ratio, self.main_index, axis=1)

    @property
    def worst_opening_ratio(self) -> FloatArray:
        """Opening [1] for the worst pattern there is, without noise, shape (n_phase,).

        The bit less all others in size, and less what was left out; below zero the eye is closed.
        Peak distortion: Lucky 1965 (from memory).
        """
        others = np.abs(self.others_ratio).sum(axis=1)
        opening: FloatArray = self.main_ratio - others - np.abs(self.left_out_ratio)
        return opening


def cursors(
    channel: Spectrum,
    *,
    at_rest_ratio: float,
    delay_s: float,
    bit_s: float,
    phase_count: int,
    before_count: int,
    after_count: int,
    band: Band | None = None,
) -> Cursors:
    """Return the cursors of a channel from source to decision.

    ``channel`` is V/V [1] at the frequencies asked for and must have become small at half of
    ``phase_count`` times the bit rate; ``at_rest_ratio`` [1] its value at 0 Hz; ``delay_s`` [s] the
    delay of its front, where the window of ``before_count`` + 1 + ``after_count`` bits is laid;
    ``bit_s`` [s] the length of a bit; ``band`` where the channel is known.
    Raises BadValue for counts that leave nothing.
    """
    if phase_count < 4 or before_count < 1 or after_count < 1:
        raise _refuse(
            "phase_count", (phase_count, before_count, after_count), "4 phases, 1 bit on each side"
        )
    step_s = bit_s / phase_count
    size = (before_count + after_count + 2) * phase_count
    grid = TimeGrid(start_s=delay_s - before_count * bit_s, step_s=step_s, sample_count=size)
    rising = step_response(channel, at_rest_ratio=at_rest_ratio, grid=grid, band=band)
    pulse = rising.copy()
    pulse[phase_count:] -= rising[:-phase_count]
    peak = int(np.argmax(pulse))
    first = (peak - phase_count // 2) % phase_count
    columns = (size - first) // phase_count
    last = first + columns * phase_count
    return Cursors(
        phase_ratio=np.arange(phase_count) / phase_count - (phase_count // 2) / phase_count,
        height_ratio=np.ascontiguousarray(pulse[first:last].reshape(columns, phase_count).T),
        main_index=(peak - first) // phase_count,
        left_out_ratio=at_rest_ratio - rising[last - phase_count : last],
        bit_s=bit_s,
    )


def _refuse(field: str, value: object, accepted: str) -> BadValue:
    return BadValue(owner="Cursors", field=field, value=value, accepted=accepted)
