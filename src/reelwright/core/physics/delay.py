"""Delay over a length, and lengths cut so that several legs have the same delay."""

from collections.abc import Mapping
from dataclasses import dataclass

from reelwright.core.errors import BadValue


@dataclass(frozen=True, kw_only=True)
class DelayMatch:
    """One target delay [s] and the length [m] of each leg that gives it."""

    target_s: float
    length_m: Mapping[str, float]


def skew_s(delays_s: Mapping[str, float]) -> float:
    """Return the skew [s]: the latest delay [s] less the earliest. Raises BadValue for no legs."""
    if not delays_s:
        raise BadValue(owner="skew_s", field="delays_s", value={}, accepted="one leg or more")
    return max(delays_s.values()) - min(delays_s.values())


def match_delays(*, nominal_m: float, delay_s_per_m: Mapping[str, float]) -> DelayMatch:
    """Return the lengths [m] that give every leg one delay, moved as little as can be.

    The target lies midway between the earliest and the latest delay of equal lengths, so that the
    largest cut and the largest addition are nearly alike. ``nominal_m`` [m] is the length asked;
    ``delay_s_per_m`` [s/m] by leg. Raises BadValue for no legs or a length that is not above zero.
    """
    if nominal_m <= 0 or not delay_s_per_m:
        raise BadValue(
            owner="match_delays",
            field="nominal_m",
            value=nominal_m,
            accepted="a length above zero and one leg or more",
        )
    delays = [nominal_m * delay for delay in delay_s_per_m.values()]
    target = (min(delays) + max(delays)) / 2
    return DelayMatch(
        target_s=target,
        length_m={leg: target / delay for leg, delay in delay_s_per_m.items()},
    )
