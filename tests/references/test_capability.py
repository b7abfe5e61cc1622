"""Capability, held against the handbook's worked case and an interval worked out apart."""

import math
from functools import cache, partial

from reelwright.core.statistics.capability import Capability, capability, cpk_spread
from tests.references.harness import Basis, absolute, reference_test, rows_of

_row = rows_of("core.statistics.capability", prefix="capability.")
_HANDBOOK = "NIST/SEMATECH e-Handbook of Statistical Methods, 6.1.6"
_DIGITS = absolute(5e-5, because="four decimals are printed")
_APART = absolute(1e-4, because="four decimals are given")


@cache
def _worked() -> Capability:
    # Two values whose mean is exactly 16 and whose standard deviation is exactly 2.
    return capability([16 - math.sqrt(2), 16 + math.sqrt(2)], low=8, high=20, unit="1")


def _bound(sign: int) -> float:
    return 1.33 + sign * 1.959964 * cpk_spread(cpk_ratio=1.33, sample_size=50)


def _upper_side() -> float:
    """Cpk where the lower limit is far away: the handbook's cpu."""
    return capability([16 - math.sqrt(2), 16 + math.sqrt(2)], low=-1e6, high=20, unit="1").cpk


def _lower_side() -> float:
    """Cpk where the upper limit is far away: the handbook's cpl."""
    return capability([16 - math.sqrt(2), 16 + math.sqrt(2)], low=8, high=1e6, unit="1").cpk


_CASE = "of mean 16 and s 2 between 8 and 20"
CHECKS = (
    _row("cp", f"Cp {_CASE}", _HANDBOOK, Basis.SEEN, 1.0, "1", _DIGITS, lambda: _worked().cp),
    _row("cpk", f"Cpk {_CASE}", _HANDBOOK, Basis.SEEN, 0.6667, "1", _DIGITS, lambda: _worked().cpk),
    _row("cpu", f"upper side {_CASE}", _HANDBOOK, Basis.SEEN, 0.6667, "1", _DIGITS, _upper_side),
    _row("cpl", f"lower side {_CASE}", _HANDBOOK, Basis.SEEN, 1.3333, "1", _DIGITS, _lower_side),
    *(
        _row(
            f"cpk.interval.{side}",
            f"95 % interval of Cpk 1.33 from 50 values, {side} end",
            f"{_HANDBOOK}, Bissell's formula worked out apart from this code",
            Basis.COMPUTED,
            expected,
            "1",
            _APART,
            partial(_bound, sign),
        )
        for side, sign, expected in (("lower", -1, 1.0509), ("upper", 1, 1.6091))
    ),
)
test_capability = reference_test(CHECKS)
