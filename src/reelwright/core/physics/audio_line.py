"""An audio line between a source and an open far end, by its exact chain matrix.

At audio a cable is no line of 75 or 110 Ω: its impedance falls from kilohms at an angle of −45°,
since resistance and capacitance rule. What is lost is that of the chain matrix of R + jωL and
G + jωC at that very frequency, for all lengths at once.
"""

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray

_NEPER_DB = 20 / np.log(10)


def open_line_loss_db(
    *,
    source_ohm: complex,
    series_ohm_per_m: complex,
    shunt_siemens_per_m: complex,
    length_m: npt.ArrayLike,
) -> FloatArray:
    """Return what is lost [dB] at the open end of a line, shape of ``length_m`` [m].

    20 log10|cosh γL + (Zs/Zc)·sinh γL| against no cable at all, Zs the source [Ω], γ and Zc from
    R + jωL [Ω/m] and G + jωC [S/m] at the frequency asked for. A load as high as audio inputs have
    changes the level with and without the cable alike. Below zero where the inductance of the cable
    lifts the level: thousandths of a decibel at audio. Raises BadValue for a real part below zero,
    a line without R + jωL or G + jωC, and a length below zero.

    Source: chain matrix of a line, any text on lines.
    """
    length = np.asarray(length_m, dtype=np.float64)
    parts = (source_ohm, series_ohm_per_m, shunt_siemens_per_m)
    passive = all(np.isfinite(part) and np.real(part) >= 0 for part in parts)
    if not passive or series_ohm_per_m == 0 or shunt_siemens_per_m == 0:
        raise BadValue(
            owner="open_line_loss_db",
            field="source_ohm",
            value=parts,
            accepted="finite, real parts of zero or more, and a line that has both parts",
        )
    if not (np.isfinite(length) & (length >= 0)).all():
        raise BadValue(
            owner="open_line_loss_db",
            field="length_m",
            value=float(length.min()),
            accepted="finite, zero or more",
        )
    gamma = np.sqrt(complex(series_ohm_per_m) * complex(shunt_siemens_per_m))
    impedance = gamma / complex(shunt_siemens_per_m)
    through = gamma * length
    # exp(γL) is taken out of cosh and sinh, and what is left is told from 1 without a difference:
    # nothing overflows on 100 km and nothing cancels on 1 m.
    rest = (source_ohm / impedance - 1) * -np.expm1(-2 * through) / 2
    loss: FloatArray = _NEPER_DB * (
        through.real + 0.5 * np.log1p(2 * rest.real + np.abs(rest) ** 2)
    )
    return loss
