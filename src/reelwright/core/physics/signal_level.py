"""Levels of radio and television: decibels over a microvolt, over a millivolt, over a milliwatt.

Source: IEC 60050-702 (decibel, absolute levels), from memory; each follows from its definition.
"""

import math

from reelwright.core.errors import BadValue

_DBUV_OF_ONE_MILLIVOLT = 60.0


def dbuv_of_dbmv(level_dbmv: float) -> float:
    """Return a level over 1 mV [dBmV] as one over 1 µV [dBµV]: 60 dB more, by definition."""
    return level_dbmv + _DBUV_OF_ONE_MILLIVOLT


def dbmv_of_dbuv(level_dbuv: float) -> float:
    """Return a level over 1 µV [dBµV] as one over 1 mV [dBmV]."""
    return level_dbuv - _DBUV_OF_ONE_MILLIVOLT


def dbm_of_dbuv(level_dbuv: float, *, impedance_ohm: float) -> float:
    """Return the power [dBm] that a level [dBµV] across ``impedance_ohm`` [Ω] brings: V²/Z/1 mW.

    Raises BadValue for an impedance that is not above zero.
    """
    if not (math.isfinite(impedance_ohm) and impedance_ohm > 0):
        raise BadValue(
            owner="dbm_of_dbuv",
            field="impedance_ohm",
            value=impedance_ohm,
            accepted="a finite number above zero",
        )
    # 1 µV is 1e-6 V, 1 mW is 1e-3 W: V²/Z over 1 mW is 1e-9/Z for 0 dBµV.
    return level_dbuv - 90.0 - 10 * math.log10(impedance_ohm)
