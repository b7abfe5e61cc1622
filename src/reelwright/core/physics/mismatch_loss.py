"""What a line of another impedance costs between two like ends, besides its own loss. Exact.

Between ends of Z and on a line of Zc both joints reflect ρ = (Zc − Z)/(Zc + Z), and what goes to
and fro adds up by its phase: |t| = (1 − ρ²)·A/|1 − ρ²·A²·e^(−2jθ)|, A the line's own loss one way.
Source: the sum of the waves, any text on lines; held against the two-port of the line.
"""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray


class MismatchLoss(NamedTuple):
    """Loss [dB] beyond the line's own, at the kindest and at the worst length in wavelengths."""

    least_db: FloatArray
    most_db: FloatArray


def mismatch_loss(*, line_ohm: float, ends_ohm: float, own_loss_db: npt.ArrayLike) -> MismatchLoss:
    """Return what the mismatch of a line costs, shape of ``own_loss_db`` [dB], one way.

    ``line_ohm`` [Ω] is the line's impedance, ``ends_ohm`` [Ω] that of both ends. A few centimetres
    of length or a few megahertz lie between the two figures, so that for a feed the worst counts.
    Raises BadValue for an impedance that is not above zero or a loss below zero.
    """
    own = np.asarray(own_loss_db, dtype=np.float64)
    if not (line_ohm > 0 and ends_ohm > 0):
        raise BadValue(
            owner="mismatch_loss",
            field="line_ohm",
            value=(line_ohm, ends_ohm),
            accepted="impedances above zero",
        )
    if not (own >= 0).all():
        raise BadValue(
            owner="mismatch_loss",
            field="own_loss_db",
            value=float(own.min()),
            accepted="zero or more",
        )
    square = ((line_ohm - ends_ohm) / (line_ohm + ends_ohm)) ** 2
    returned = square * 10 ** (-own / 10)
    return MismatchLoss(
        least_db=20 * np.log10((1 - returned) / (1 - square)),
        most_db=20 * np.log10((1 + returned) / (1 - square)),
    )
