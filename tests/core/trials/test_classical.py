"""Classical designs as settings of the machine, surfaces through trials, numbers as typed."""

import math

import numpy as np
import pytest

from reelwright.core.errors import UnreadableQuantity
from reelwright.core.trials.classical import (
    Design,
    DesignKind,
    SurfaceReading,
    classical_design,
    read_surface,
)
from reelwright.core.trials.number_text import read_plain_number, read_plain_numbers
from reelwright.core.trials.response_surface import Order
from reelwright.core.verdicts import Reason
from tests.trials_world import ENERGY, PRESSURE, problem, pull, trial


def test_a_central_composite_has_its_axes_at_the_ends() -> None:
    """Corners lie at 1/√2 of the half range, the rotatable ratio of two settings."""
    design = classical_design(problem(), DesignKind.CENTRAL, seed=3)
    assert isinstance(design, Design)
    values = {run.number: run.values for run in design.runs}
    assert len(values) == 13
    middle, half = 300.0, 120.0
    assert values[1][0] == pytest.approx(middle - half / math.sqrt(2), abs=ENERGY.step / 2)
    assert {values[10][0], values[11][0]} == {180.0, 420.0}
    assert values[5][0] == middle


def test_the_order_of_runs_is_by_chance_and_always_the_same() -> None:
    """One seed gives one order, another seed another, and each run comes once."""
    one, same, other = (
        classical_design(problem(), DesignKind.CENTRAL, seed=seed) for seed in (1, 1, 2)
    )
    assert isinstance(one, Design)
    assert isinstance(other, Design)
    assert one == same
    assert one.runs != other.runs
    assert sorted(run.number for run in one.runs) == list(range(1, 14))


def test_a_fraction_needs_three_settings() -> None:
    """Of two there is nothing to leave out, and it says so."""
    found = classical_design(problem(), DesignKind.FRACTION, seed=1)
    assert isinstance(found, Reason)
    assert "take the full design" in found.sentence


def test_a_quadratic_hill_is_read_with_its_top() -> None:
    """Readings of a known quadratic give its coefficients and its top at 320 J and 2.6 bar."""
    dice = np.random.default_rng(5)
    trials = []
    for number, (energy, pressure) in enumerate(
        [(e, p) for e in (180, 300, 420) for p in (1.5, 2.7, 4.0)], start=1
    ):
        mean = 270 - 60 * ((energy - 320) / 120) ** 2 - 40 * ((pressure - 2.6) / 1.25) ** 2
        trials.append(trial(number, (energy, pressure), mean + 0.5 * dice.standard_normal(3)))
    found = read_surface(problem(*trials), pull())
    assert isinstance(found, SurfaceReading)
    assert found.order is Order.QUADRATIC
    changes = {term.name: term.change for term in found.terms}
    # The half ranges are 120 J and 1.25 bar, so the bends are those of the formula.
    assert changes["energy²"] == pytest.approx(-60, abs=1.5)
    assert changes["pressure²"] == pytest.approx(-40, abs=1.5)
    assert abs(changes["energy × pressure"]) < 1.0
    assert "its maximum lies at energy 320" in found.sentences[-1]
    assert PRESSURE.unit in found.sentences[-1]


def test_too_few_trials_give_no_surface() -> None:
    """Two different settings lay no plane over two settings, and nothing measured none at all."""
    two = problem(trial(1, (300, 2.7), (260, 262)), trial(2, (320, 2.7), (255, 259)))
    for asked in (two, problem()):
        assert isinstance(read_surface(asked, pull()), Reason)


@pytest.mark.parametrize(
    ("typed", "numbers"),
    [
        ("266 271; 259", (266.0, 271.0, 259.0)),
        ("1.853", (1.853,)),
        ("2,8 2,75", (2.8, 2.75)),
        ("266 N 271N", (266.0, 271.0)),
        ("−0.5 +2", (-0.5, 2.0)),
        (".5 ,5", (0.5, 0.5)),
        ("", ()),
    ],
)
def test_numbers_are_read_as_the_bench_types_them(typed: str, numbers: tuple[float, ...]) -> None:
    """Spaces or semicolons between, points and commas for decimals, the unit behind."""
    assert read_plain_numbers(typed, unit="N") == numbers


@pytest.mark.parametrize("typed", ["1,853", "12a", "1e5", "--2", "1.2.3", "9" * 21, "x", "1/2"])
def test_what_is_no_number_or_two_is_refused(typed: str) -> None:
    """A comma that could be a thousand mark is asked about, anything else is no number."""
    with pytest.raises(UnreadableQuantity):
        read_plain_number(typed)
