"""Capability: identities, what more values are worth, and refusals."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.statistics.capability import Capability, capability, cpk_spread


def made(
    *, mean: float, deviation: float = 1.0, low: float = -4.0, high: float = 4.0
) -> Capability:
    """Return the capability of thirty values with that mean and standard deviation."""
    half = deviation * math.sqrt(29 / 30)
    values = [mean - half] * 15 + [mean + half] * 15
    return capability(values, low=low, high=high, unit="mm")


def test_a_centred_process_has_cp_and_cpk_alike() -> None:
    """In the middle both are a third of the distance to a limit, in standard deviations."""
    found = made(mean=0.0)
    assert found.cp == pytest.approx(4 / 3)
    assert found.cpk == pytest.approx(4 / 3)
    assert found.outside_chance == pytest.approx(2 * 3.1671e-5, rel=1e-4)


@given(mean=st.floats(-3.9, 3.9))
def test_off_centre_costs_cpk_and_never_cp(mean: float) -> None:
    """Moved off the middle, Cp stays, Cpk falls by the move over three deviations."""
    found = made(mean=mean)
    assert found.cp == pytest.approx(4 / 3)
    assert found.cpk == pytest.approx((4 - abs(mean)) / 3)
    assert found.cpk_least(confidence=0.95) < found.cpk


@given(cpk=st.floats(0.1, 3.0), size=st.integers(2, 500))
def test_more_values_narrow_what_is_known(cpk: float, size: int) -> None:
    """One value more never widens the standard error."""
    assert cpk_spread(cpk_ratio=cpk, sample_size=size + 1) < cpk_spread(
        cpk_ratio=cpk, sample_size=size
    )


@pytest.mark.parametrize(
    ("values", "low", "high"),
    [
        ([4.25], 4.15, 4.35),
        ([4.25, 4.25, 4.25], 4.15, 4.35),
        ([4.25, math.nan], 4.15, 4.35),
        ([4.24, 4.26], 4.35, 4.15),
    ],
    ids=["one value", "all alike", "no number", "limits swapped"],
)
def test_what_proves_nothing_is_refused(values: list[float], low: float, high: float) -> None:
    """Fewer than two, values that never differ, no numbers and swapped limits are refused."""
    with pytest.raises(BadValue):
        capability(values, low=low, high=high, unit="mm")
