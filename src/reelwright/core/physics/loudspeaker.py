"""A loudspeaker on a pair, taken as its nominal resistance."""

import numpy as np
import numpy.typing as npt

from reelwright.core.physics.arrays import FloatArray


def level_loss_db(*, loop_ohm: npt.ArrayLike, nominal_ohm: float) -> FloatArray:
    """Return the level lost [dB] in the loop, shape of ``loop_ohm`` [Ω]: 20 log10(1 + R/Z).

    ``nominal_ohm`` [Ω] is the loudspeaker's nominal impedance; a real one dips below it.
    """
    loss: FloatArray = 20 * np.log10(1 + np.asarray(loop_ohm, dtype=np.float64) / nominal_ohm)
    return loss


def longest_run_m(*, conductor_ohm_per_m: float, nominal_ohm: float, fraction: float) -> float:
    """Return the longest run [m] whose loop is at most ``fraction`` [1] of the nominal load [Ω].

    f·Z/(2·r) with r the resistance of one conductor [Ω/m].
    """
    return fraction * nominal_ohm / (2 * conductor_ohm_per_m)


def damping_factor(*, loop_ohm: float, amplifier_ohm: float, nominal_ohm: float) -> float:
    """Return the damping factor [1] at the loudspeaker: Z/(R_loop + R_amplifier), all in [Ω]."""
    return nominal_ohm / (loop_ohm + amplifier_ohm)
