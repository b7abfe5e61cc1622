"""Conversion into SI: exact factors as rows of a table, and the American wire gauge.

The factors are fractions, so that a chain of conversions rounds once, at its end.
"""

import math
from fractions import Fraction
from types import MappingProxyType

from reelwright.core.errors import BadValue

_FOOT_M = Fraction(3048, 10000)

LENGTH_IN_M = MappingProxyType(
    {
        "km": Fraction(1000),
        "m": Fraction(1),
        "dm": Fraction(1, 10),
        "cm": Fraction(1, 100),
        "mm": Fraction(1, 1000),
        "yd": _FOOT_M * 3,
        "ft": _FOOT_M,
        "in": _FOOT_M / 12,
    }
)
"""Metres in one of each unit of length, exactly."""

SMALLEST_AWG = 56
LARGEST_AWG = -3
"""Gauge numbers fall as wires grow: 0 is 1/0, −1 is 2/0, −3 is 4/0."""


def _per_length(value: float, *, times: Fraction, unit: str) -> float:
    """Return value per ``times`` units as value per metre."""
    return value / float(times * LENGTH_IN_M[unit])


def db_per_100ft_to_db_per_m(loss_db_per_100ft: float) -> float:
    """Return the loss in dB/m of a loss given in dB/100 ft."""
    return _per_length(loss_db_per_100ft, times=Fraction(100), unit="ft")


def ohm_per_1000ft_to_ohm_per_m(resistance_ohm_per_1000ft: float) -> float:
    """Return the resistance in ohm/m of a resistance given in ohm/1000 ft."""
    return _per_length(resistance_ohm_per_1000ft, times=Fraction(1000), unit="ft")


def ft_to_m(length_ft: float) -> float:
    """Return the length in m of a length given in ft."""
    return float(Fraction(length_ft) * LENGTH_IN_M["ft"])


def m_to_ft(length_m: float) -> float:
    """Return the length in ft of a length given in m."""
    return float(Fraction(length_m) / LENGTH_IN_M["ft"])


def awg_diameter_m(awg: int) -> float:
    """Return the diameter in m of solid wire of American wire gauge ``awg`` (1; 0 is 1/0, −3 4/0).

    d = 0.127 mm × 92^((36 − n)/39), ASTM B258. Raises BadValue outside 4/0 to 56.
    """
    if isinstance(awg, bool) or not isinstance(awg, int) or not LARGEST_AWG <= awg <= SMALLEST_AWG:
        raise BadValue(
            owner="awg_diameter_m",
            field="awg",
            value=awg,
            accepted="a whole number, −3 (which is 4/0) to 56",
        )
    return float(0.127e-3 * 92 ** ((36 - awg) / 39))


def awg_area_m2(awg: int) -> float:
    """Return the cross-section in m² of solid wire of American wire gauge ``awg``. ASTM B258."""
    return math.pi / 4 * awg_diameter_m(awg) ** 2
