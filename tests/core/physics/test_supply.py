"""A supply over a loop: what arrives, where it falls over, what is refused."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.supply import (
    largest_loop_for_power_ohm,
    largest_loop_ohm,
    largest_power_w,
    volts_at_far_end,
    volts_for_power,
)

VOLTS = st.floats(min_value=1, max_value=100)
OHMS = st.floats(min_value=1e-3, max_value=1e3)
WATTS = st.floats(min_value=1e-3, max_value=100)
AMPERES = st.floats(min_value=1e-3, max_value=10)


def test_a_steady_current_loses_its_own_volts() -> None:
    """13 V through 5 Ω at 200 mA leave 12 V, and through 100 Ω at 200 mA nothing to speak of."""
    assert volts_at_far_end(source_v=13, loop_ohm=5, current_a=0.2) == pytest.approx(12.0)
    assert volts_at_far_end(source_v=13, loop_ohm=100, current_a=0.2) < 0


@given(source_v=VOLTS, loop_ohm=OHMS, power_w=WATTS)
def test_a_steady_power_closes_the_circuit_or_gets_nothing(
    source_v: float, loop_ohm: float, power_w: float
) -> None:
    """The volts at a load of steady power, its current and the loop add up to the source."""
    volts = volts_for_power(source_v=source_v, loop_ohm=loop_ohm, power_w=power_w)
    if volts is None:
        assert power_w > largest_power_w(source_v=source_v, loop_ohm=loop_ohm) * (1 - 1e-12)
        return
    assert volts >= source_v / 2
    assert volts + loop_ohm * power_w / volts == pytest.approx(source_v, rel=1e-9)


@given(source_v=VOLTS, loop_ohm=OHMS)
def test_no_load_takes_more_than_the_matched_one(source_v: float, loop_ohm: float) -> None:
    """Any resistor behind the loop takes at most what the one of the loop's own ohms takes."""
    most = largest_power_w(source_v=source_v, loop_ohm=loop_ohm)
    taken = [
        (source_v / (loop_ohm + load)) ** 2 * load
        for load in (loop_ohm * share for share in (0.1, 0.5, 1.0, 2.0, 10.0))
    ]
    assert max(taken) == pytest.approx(most)
    assert volts_for_power(source_v=source_v, loop_ohm=loop_ohm, power_w=1.001 * most) is None


@given(source_v=VOLTS, share=st.floats(min_value=0.05, max_value=0.95), current_a=AMPERES)
def test_the_largest_loop_leaves_just_what_is_needed(
    source_v: float, share: float, current_a: float
) -> None:
    """Behind the largest loop for a current exactly the needed volts arrive."""
    loop = largest_loop_ohm(source_v=source_v, needed_v=share * source_v, current_a=current_a)
    left = volts_at_far_end(source_v=source_v, loop_ohm=loop, current_a=current_a)
    assert left == pytest.approx(share * source_v)


@given(source_v=VOLTS, share=st.floats(min_value=0.05, max_value=0.95), power_w=WATTS)
def test_the_largest_loop_for_a_power_is_where_it_stops_working(
    source_v: float, share: float, power_w: float
) -> None:
    """A little less loop leaves the needed volts, a little more leaves fewer or none at all."""
    needed = share * source_v
    loop = largest_loop_for_power_ohm(source_v=source_v, needed_v=needed, power_w=power_w)
    inside = volts_for_power(source_v=source_v, loop_ohm=0.9999 * loop, power_w=power_w)
    outside = volts_for_power(source_v=source_v, loop_ohm=1.0001 * loop, power_w=power_w)
    assert inside is not None
    assert inside >= needed
    assert outside is None or outside < needed


def test_a_source_that_has_less_than_needed_allows_no_loop() -> None:
    """Where the source itself has less than needed, the largest loop comes out below zero."""
    assert largest_loop_ohm(source_v=11, needed_v=12, current_a=0.1) < 0
    assert largest_loop_for_power_ohm(source_v=11, needed_v=12, power_w=1) < 0
    assert math.isinf(largest_power_w(source_v=12, loop_ohm=0))


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
def test_nonsense_is_refused_by_its_field(bad: float) -> None:
    """A source of no volts, an endless loop, a current below zero are named and refused."""
    with pytest.raises(BadValue, match=r"source_v.*above zero"):
        volts_at_far_end(source_v=bad, loop_ohm=1, current_a=1)
    with pytest.raises(BadValue, match="needed_v"):
        largest_loop_for_power_ohm(source_v=12, needed_v=bad, power_w=1)
    if bad == 0:
        assert volts_for_power(source_v=12, loop_ohm=0, power_w=0) == 12
        return
    with pytest.raises(BadValue, match=r"loop_ohm.*zero or more"):
        volts_for_power(source_v=12, loop_ohm=bad, power_w=1)
    with pytest.raises(BadValue, match="current_a"):
        volts_at_far_end(source_v=12, loop_ohm=1, current_a=bad)
