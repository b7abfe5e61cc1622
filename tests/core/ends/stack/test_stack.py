"""Tolerance stacks: limits, identities, and the draws beside the sums."""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.stack import (
    Contributor,
    Keeper,
    LinearStack,
    Reading,
    Window,
    improvements,
    linearise,
    simulate,
    worth_working_on,
)
from reelwright.core.ends.stack.improve import RE_CENTRE
from reelwright.core.errors import BadValue
from reelwright.core.verdicts import Basis, Source

MADE_UP = Source(text="made up for this test", basis=Basis.COMPUTED)


def part(
    name: str,
    tolerance: float,
    *,
    nominal: float = 0.0,
    sensitivity: float = 1.0,
    shift: float = 0.0,
    reading: Reading = Reading.NORMAL,
    keeper: Keeper = Keeper.SHOP,
) -> Contributor:
    """One contributor."""
    return Contributor(
        name=name,
        nominal=nominal,
        sensitivity=sensitivity,
        tolerance=tolerance,
        shift=shift,
        reading=reading,
        keeper=keeper,
        source=MADE_UP,
    )


def named(tolerances: Sequence[float], *, reading: Reading = Reading.NORMAL) -> LinearStack:
    """A stack of these tolerances, all of one reading."""
    return LinearStack(
        contributors=tuple(
            part(f"part {place}", each, reading=reading) for place, each in enumerate(tolerances)
        )
    )


PIN = LinearStack(
    contributors=(
        part("seat", 0.05, nominal=5.60, keeper=Keeper.MAKER),
        part("pin", 0.05, keeper=Keeper.MAKER),
        part("seating", 0.08),
        part("creep", 0.12),
    )
)
MATING = Window(low=5.45, high=5.79)
TOLERANCES = st.lists(st.floats(min_value=1e-3, max_value=10), min_size=1, max_size=8)
READINGS = pytest.mark.parametrize("reading", list(Reading), ids=lambda each: each.name.lower())


@given(TOLERANCES)
def test_root_sum_square_never_exceeds_the_worst_case(tolerances: list[float]) -> None:
    """And both are the same where there is one contributor alone."""
    stack = named(tolerances)
    assert stack.root_sum_square <= stack.worst_case * (1 + 1e-12)
    if len(tolerances) == 1:
        assert stack.root_sum_square == pytest.approx(stack.worst_case)


@given(TOLERANCES, st.floats(min_value=0.01, max_value=100))
def test_all_widths_scale_with_the_tolerances(tolerances: list[float], factor: float) -> None:
    """Twice the tolerances, twice the widths, the same shares."""
    one, other = named(tolerances), named([each * factor for each in tolerances])
    for width in ("worst_case", "root_sum_square", "deviation"):
        assert getattr(other, width) == pytest.approx(factor * getattr(one, width))
    assert other.spread_shares == pytest.approx(one.spread_shares)


@given(TOLERANCES, st.randoms())
def test_the_order_of_contributors_changes_nothing(tolerances: list[float], dice: object) -> None:
    """A sum has no order; neither has the list of what is worth working on."""
    mixed = list(tolerances)
    dice.shuffle(mixed)  # type: ignore[attr-defined]
    one, other = named(tolerances), named(mixed)
    window = Window(low=-7.0, high=11.0)
    assert other.deviation == pytest.approx(one.deviation)
    assert other.cpk(window) == pytest.approx(one.cpk(window))
    gains = [[each.gain_ratio for each in improvements(stack, window)] for stack in (one, other)]
    assert gains[0] == pytest.approx(gains[1])


@given(TOLERANCES, st.sampled_from(list(Reading)))
def test_shares_add_up_to_one(tolerances: list[float], reading: Reading) -> None:
    """Of the tolerances and of the spread; of one reading alone both are the same."""
    stack = named(tolerances, reading=reading)
    assert sum(stack.tolerance_shares) == pytest.approx(1)
    assert sum(stack.spread_shares) == pytest.approx(1)
    assert stack.spread_shares == pytest.approx(stack.tolerance_shares)


@READINGS
def test_draws_agree_with_the_sums_within_their_own_uncertainty(reading: Reading) -> None:
    """Mean and standard deviation of half a million draws lie within four uncertainties."""
    stack = LinearStack(
        contributors=(
            part("a", 0.3, nominal=2.0, shift=0.1, reading=reading),
            part("b", 0.2, nominal=5.0, sensitivity=-1.5, reading=reading),
        )
    )
    window = Window(low=-5.6, high=-5.0)
    drawn = simulate(stack.contributors, window=window, draw_count=500_000, seed=7)
    assert drawn.nominal == pytest.approx(stack.mean)
    assert drawn.mean == pytest.approx(stack.mean, abs=4 * drawn.mean_uncertainty)
    assert drawn.deviation == pytest.approx(stack.deviation, abs=4 * drawn.deviation_uncertainty)
    assert stack.mean - stack.worst_case <= drawn.lowest or reading is Reading.NORMAL


@given(st.integers(min_value=0, max_value=10_000))
def test_the_share_outside_agrees_with_the_normal_one(seed: int) -> None:
    """Normal contributors: 20 000 draws lie within five uncertainties of the normal share."""
    drawn = simulate(PIN.contributors, window=MATING, draw_count=20_000, seed=seed)
    assert drawn.outside_share is not None
    assert drawn.outside_share_uncertainty is not None
    away = drawn.outside_share - PIN.outside_share(MATING)
    assert abs(away) <= 5 * drawn.outside_share_uncertainty


def test_the_draws_know_what_they_do_not_know() -> None:
    """No draw outside leaves about one in n open; four times the draws halve an uncertainty."""
    wide = Window(low=0.0, high=10.0)
    drawn = simulate(PIN.contributors, window=wide, draw_count=10_000, seed=1)
    assert drawn.outside_share == 0
    assert drawn.outside_share_uncertainty == pytest.approx(1e-4, rel=0.01)
    more = simulate(PIN.contributors, window=MATING, draw_count=40_000, seed=1)
    few = simulate(PIN.contributors, window=MATING, draw_count=10_000, seed=1)
    assert more.mean_uncertainty == pytest.approx(few.mean_uncertainty / 2, rel=0.05)
    assert more.deviation_uncertainty == pytest.approx(few.deviation_uncertainty / 2, rel=0.05)


def test_the_histogram_is_the_draws() -> None:
    """Nearly all lie within 4.5 deviations; its own mean and deviation are those of the draws."""
    drawn = simulate(PIN.contributors, window=MATING, draw_count=100_000, seed=2)
    shares = np.array(drawn.histogram)
    edges = np.linspace(drawn.histogram_low, drawn.histogram_high, len(shares) + 1)
    middles = (edges[1:] + edges[:-1]) / 2
    assert 0.9999 < shares.sum() <= 1
    mean = float(shares @ middles) / shares.sum()
    assert mean == pytest.approx(drawn.mean, abs=0.01 * drawn.deviation)
    spread = math.sqrt(float(shares @ (middles - mean) ** 2) / shares.sum())
    assert spread == pytest.approx(drawn.deviation, rel=0.01)


def test_the_same_seed_gives_the_same_answer_and_another_seed_another() -> None:
    """Chance is an argument."""
    one, same, other = (
        simulate(PIN.contributors, window=MATING, draw_count=1000, seed=seed) for seed in (3, 3, 4)
    )
    assert one == same
    assert one.mean != other.mean


def test_a_curved_result_keeps_its_shift() -> None:
    """The mean of x² about zero is its variance, not the square of the mean: never re-centred."""
    drawn = simulate(
        (part("x", 3.0),),
        window=None,
        draw_count=200_000,
        seed=5,
        outcome=lambda values: np.asarray(values[0] ** 2),
    )
    assert drawn.nominal == 0
    assert drawn.mean == pytest.approx(1.0, abs=4 * drawn.mean_uncertainty)
    assert drawn.outside_share is None


def test_a_straight_result_has_its_own_sensitivities() -> None:
    """The differences find the weights of a weighted sum again, whatever the tolerances."""
    stack = linearise(
        (part("a", 0.5, nominal=3.0), part("b", 0.0, nominal=2.0), part("c", 1e-4)),
        lambda values: 2.0 * values[0] - 0.5 * values[1] + values[2],
    )
    assert [each.sensitivity for each in stack.contributors] == pytest.approx([2.0, -0.5, 1.0])


@READINGS
def test_a_tolerance_is_read_as_its_contributor_says(reading: Reading) -> None:
    """Standard deviations are those of the three distributions, by integration of each."""
    grid = np.linspace(-1, 1, 200_001)
    density = {
        Reading.NORMAL: np.exp(-((3 * grid) ** 2) / 2),
        Reading.UNIFORM: np.ones_like(grid),
        Reading.TRIANGULAR: 1 - np.abs(grid),
    }[reading]
    variance = np.sum(grid**2 * density) / np.sum(density)
    # A normal one is cut off here at three deviations, which takes 1.4 % off its own.
    within = 0.015 if reading is Reading.NORMAL else 1e-5
    assert part("x", 1.0, reading=reading).deviation == pytest.approx(
        math.sqrt(variance), rel=within
    )


def test_a_shift_is_added_before_the_root() -> None:
    """A mean shift moves the mean and leaves every width as it was."""
    moved = LinearStack(
        contributors=(replace(PIN.contributors[0], shift=0.08), *PIN.contributors[1:])
    )
    assert moved.mean - PIN.mean == pytest.approx(0.08)
    assert moved.nominal == PIN.nominal
    assert moved.deviation == PIN.deviation


def test_half_and_half_outside_is_a_cpk_of_nothing() -> None:
    """A mean on a limit: Cpk 0, half of all outside there; beyond it, Cpk is negative."""
    on_edge = Window(low=5.60, high=9.0)
    assert PIN.cpk(on_edge) == pytest.approx(0, abs=1e-12)
    assert PIN.outside_share(on_edge) == pytest.approx(0.5)
    assert PIN.cpk(Window(low=5.7, high=9.0)) < 0
    assert PIN.below_share(MATING) + PIN.above_share(MATING) == PIN.outside_share(MATING)


def test_the_largest_of_the_workshops_own_is_worth_working_on() -> None:
    """The creep leads, the sentence tells both steps; the best is told first in the list."""
    told = worth_working_on(PIN, MATING, show=lambda value: f"{value:.2f} mm")
    assert told == (
        "creep: halved, it brings Cpk from 0.93 to 1.22, with the mean moved by +0.02 mm as well "
        "to 1.39"
    )
    assert improvements(PIN, MATING)[0].name == "creep"


def test_a_mean_far_off_is_moved_before_anything_is_tightened() -> None:
    """With the mean at a limit no tolerance helps as much as moving it."""
    told = worth_working_on(PIN, Window(low=5.58, high=5.98), show=lambda value: f"{value:.2f} mm")
    assert told.startswith("re-centring: the mean moved by +0.18 mm brings Cpk from 0.12 to")
    assert improvements(PIN, Window(low=5.58, high=5.98))[0].name == RE_CENTRE


def test_what_only_the_maker_can_change_is_named_as_the_makers() -> None:
    """A maker's tolerance that would give most does not hide what the workshop can do."""
    stack = LinearStack(
        contributors=(
            part("bore", 0.2, nominal=5.62, keeper=Keeper.MAKER),
            part("seating", 0.05),
        )
    )
    told = worth_working_on(stack, MATING, show=lambda value: f"{value:.2f} mm")
    assert told.startswith("seating: halved")
    assert "bore would give more" in told
    assert told.endswith("is the maker's to change")


@pytest.mark.parametrize(
    "contributors",
    [(), (part("a", 0.0),), (part("a", 0.1), part("a", 0.2))],
    ids=["none", "no tolerance", "twice the name"],
)
def test_what_is_no_stack_is_refused(contributors: tuple[Contributor, ...]) -> None:
    """Nothing to add up, or two that cannot be told apart."""
    with pytest.raises(BadValue):
        LinearStack(contributors=contributors)
    with pytest.raises(BadValue):
        simulate(contributors, window=None, draw_count=1000, seed=1)


def test_what_is_no_contributor_is_refused() -> None:
    """A negative tolerance, a sensitivity of nothing, no name, a window that is shut."""
    for wrong in ({"tolerance": -0.1}, {"sensitivity": 0.0}, {"name": " "}):
        with pytest.raises(BadValue):
            replace(PIN.contributors[0], **wrong)  # type: ignore[arg-type]
    with pytest.raises(BadValue):
        Window(low=5.79, high=5.45)
    with pytest.raises(BadValue):
        simulate(PIN.contributors, window=None, draw_count=99, seed=1)
