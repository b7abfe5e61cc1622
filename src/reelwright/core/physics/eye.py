"""An eye bit by bit: every bit of a pattern, sampled at every phase."""

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.patterns import Bits
from reelwright.core.physics.pulse import Cursors


def samples_of_pattern(cursors: Cursors, bits: Bits) -> FloatArray:
    """Return the levels [1] at the decision, shape (n_phase, n_bit), for a pattern that repeats.

    Bit k of the answer belongs to bit k of ``bits`` (0 or 1, sent as −1 and +1). Exact for the
    cursors given: the whole pattern is superposed at once, by the discrete convolution theorem.
    Raises BadValue for a pattern shorter than the cursors or with anything but 0 and 1.
    """
    count = cursors.height_ratio.shape[1]
    pattern = np.asarray(bits)
    if pattern.ndim != 1 or pattern.size < count or not np.isin(pattern, (0, 1)).all():
        raise BadValue(
            owner="samples_of_pattern",
            field="bits",
            value=pattern.shape,
            accepted=f"one axis of 0 and 1, {count} bits or more; repeat a shorter pattern",
        )
    sent = np.fft.rfft(2.0 * pattern - 1.0)
    heights = np.zeros((cursors.height_ratio.shape[0], pattern.size))
    # Column j is j − main bits late: rolled so that each sample stands at its own bit.
    heights[:, :count] = cursors.height_ratio
    heights = np.roll(heights, -cursors.main_index, axis=1)
    levels: FloatArray = np.fft.irfft(np.fft.rfft(heights, axis=1) * sent, pattern.size, axis=1)
    return levels


def opening_ratio(samples_ratio: FloatArray, bits: Bits) -> FloatArray:
    """Return the opening [1] of a sampled eye, shape (n_phase,), below zero where it is closed.

    Half of the lowest 1 less the highest 0: ``samples_ratio`` [1] of shape (n_phase, n_bit).
    """
    ones = np.asarray(bits) == 1
    if ones.all() or not ones.any():
        raise BadValue(owner="opening_ratio", field="bits", value="all alike", accepted="0 and 1")
    opening: FloatArray = (
        samples_ratio[:, ones].min(axis=1) - samples_ratio[:, ~ones].max(axis=1)
    ) / 2
    return opening
