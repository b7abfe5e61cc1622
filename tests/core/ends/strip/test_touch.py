"""The chance that a blade meets a layer off its axis: identities, limits, simulation."""

import math
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.strip.touch import offset_limit_m, reach_chance
from reelwright.core.errors import BadValue

GAPS = st.floats(-0.5e-3, 0.5e-3)
SPREADS = st.floats(1e-6, 0.2e-3)


def simulated(gap_m: float, spread_m: float, offset_spread_m: float, *, draws: int) -> float:
    """Turn the blade around a layer that lies anywhere, ``draws`` times."""
    random = Random(7)
    met = 0
    for _ in range(draws):
        size = random.gauss(-gap_m, spread_m)
        x, y = random.gauss(0, offset_spread_m), random.gauss(0, offset_spread_m)
        met += size + 2 * math.hypot(x, y) > 0
    return met / draws


@pytest.mark.parametrize(
    ("gap_m", "spread_m", "offset_spread_m"),
    [
        (0.20e-3, 0.020e-3, 0.022e-3),
        (0.10e-3, 0.020e-3, 0.022e-3),
        (0.05e-3, 0.040e-3, 0.005e-3),
        (-0.02e-3, 0.030e-3, 0.017e-3),
    ],
)
def test_the_formula_is_what_a_simulation_finds(
    gap_m: float, spread_m: float, offset_spread_m: float
) -> None:
    """Two hundred thousand seeded ends agree within four standard errors of the simulation."""
    draws = 200_000
    chance = reach_chance(gap_m=gap_m, spread_m=spread_m, offset_spread_m=offset_spread_m)
    error = math.sqrt(chance * (1 - chance) / draws)
    found = simulated(gap_m, spread_m, offset_spread_m, draws=draws)
    assert found == pytest.approx(chance, abs=4 * error)


@given(gap_m=GAPS, spread_m=SPREADS)
def test_without_an_offset_it_is_the_formula_of_the_trade(gap_m: float, spread_m: float) -> None:
    """Φ((d − blade)/σ): the normal tail alone, with and without the help of a tiny offset."""
    bare = 0.5 * math.erfc(gap_m / spread_m / math.sqrt(2))
    assert reach_chance(gap_m=gap_m, spread_m=spread_m, offset_spread_m=0) == pytest.approx(
        bare, abs=1e-12
    )
    nearly = reach_chance(gap_m=gap_m, spread_m=spread_m, offset_spread_m=spread_m * 1e-5)
    assert nearly == pytest.approx(bare, abs=1e-4)


@given(gap_m=GAPS, offset_m=SPREADS)
def test_without_a_spread_it_is_the_offset_alone(gap_m: float, offset_m: float) -> None:
    """A blade that never strays meets the layer as often as the offset exceeds half the gap."""
    alone = reach_chance(gap_m=gap_m, spread_m=0, offset_spread_m=offset_m)
    wanted = 1.0 if gap_m <= 0 else math.exp(-(gap_m**2) / (8 * offset_m**2))
    assert alone == pytest.approx(wanted, abs=1e-12)
    nearly = reach_chance(gap_m=gap_m, spread_m=offset_m * 1e-6, offset_spread_m=offset_m)
    assert nearly == pytest.approx(wanted, abs=1e-4)


@given(gap_m=GAPS, more_m=st.floats(0, 0.3e-3), spread_m=SPREADS, offset_m=SPREADS)
def test_a_wider_gap_is_never_met_more_often(
    gap_m: float, more_m: float, spread_m: float, offset_m: float
) -> None:
    """The chance lies between 0 and 1 and never rises with the gap."""
    near = reach_chance(gap_m=gap_m, spread_m=spread_m, offset_spread_m=offset_m)
    far = reach_chance(gap_m=gap_m + more_m, spread_m=spread_m, offset_spread_m=offset_m)
    assert 0 <= far <= near + 1e-12 <= 1 + 1e-12


@given(gap_m=GAPS, spread_m=SPREADS, offset_m=SPREADS, more=st.floats(1.0, 5.0))
def test_a_layer_further_off_the_axis_is_met_more_often(
    gap_m: float, spread_m: float, offset_m: float, more: float
) -> None:
    """An offset only ever reaches outwards, so that more of it never helps."""
    near = reach_chance(gap_m=gap_m, spread_m=spread_m, offset_spread_m=offset_m)
    far = reach_chance(gap_m=gap_m, spread_m=spread_m, offset_spread_m=offset_m * more)
    assert far >= near - 1e-12


def test_a_wall_of_known_concentricity_has_its_offset() -> None:
    """A wall of 1.8 mm at 0.8 is 1.6 and 2.0 mm thick: the core lies 0.2 mm beside the axis."""
    assert offset_limit_m(wall_m=1.8e-3, concentricity_ratio=0.8) == pytest.approx(0.2e-3)
    assert offset_limit_m(wall_m=1.8e-3, concentricity_ratio=1.0) == 0


def test_what_cannot_be_is_refused() -> None:
    """Negative spreads, a wall below zero and a concentricity of nothing are refused."""
    with pytest.raises(BadValue):
        reach_chance(gap_m=0.1, spread_m=-1e-6, offset_spread_m=0)
    with pytest.raises(BadValue):
        reach_chance(gap_m=0.1, spread_m=0, offset_spread_m=math.inf)
    with pytest.raises(BadValue):
        offset_limit_m(wall_m=-1e-3, concentricity_ratio=0.9)
    with pytest.raises(BadValue):
        offset_limit_m(wall_m=1e-3, concentricity_ratio=0)
