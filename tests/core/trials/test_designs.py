"""Classical designs: their algebra, what they estimate, and where a surface is level."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.trials.designs import (
    CentralComposite,
    TwoLevel,
    column,
    decode,
    full_factorial,
    rotatable_ratio,
)
from reelwright.core.trials.factorial import analyse_factorial, pseudo_standard_error
from reelwright.core.trials.regression import least_squares
from reelwright.core.trials.response_surface import (
    Nature,
    Order,
    fit_surface,
    stationary,
    steepest_path,
)

HALF = TwoLevel(base_count=4, generators=("E=ABCD",))
QUARTER = TwoLevel(base_count=3, generators=("D=AB", "E=-AC"))


@pytest.mark.parametrize("design", [full_factorial(3), HALF, QUARTER])
def test_columns_of_a_design_are_independent(design: TwoLevel) -> None:
    """Every setting is as often high as low, and so with every other setting."""
    points = design.points
    assert np.array_equal(points.T @ points, len(points) * np.eye(points.shape[1]))
    assert not points.sum(axis=0).any()


@pytest.mark.parametrize("design", [HALF, QUARTER])
def test_the_defining_words_are_constant_and_aliases_are_alike(design: TwoLevel) -> None:
    """A defining word is one sign in all runs, and an alias is the same column with its sign."""
    for word in design.defining:
        assert np.all(column(design.points, word.letters) == word.sign)
    for name in design.contrasts:
        for alias in design.aliases(name):
            same = alias.sign * column(design.points, alias.letters)
            assert np.array_equal(column(design.points, name), same)


def test_resolution_is_read_off_the_shortest_word() -> None:
    """E=ABCD is of resolution V, D=AB of III, a full design has none."""
    assert HALF.resolution == "V"
    assert QUARTER.resolution == "III"
    assert full_factorial(3).resolution is None
    assert [str(word) for word in QUARTER.defining] == ["ABD", "−ACE", "−BCDE"]


@pytest.mark.parametrize(
    "generators", [("D=AB", "E=AB"), ("E=AB",), ("D=AZ",), ("D=A",), ("D=AAB",), ("nonsense",)]
)
def test_generators_that_make_no_design_are_refused(generators: tuple[str, ...]) -> None:
    """Equal generators, wrong letters, one letter, a doubled letter, no generator at all."""
    with pytest.raises(BadValue):
        TwoLevel(base_count=3, generators=generators)


@given(
    level=st.floats(-100, 100),
    halves=st.lists(st.floats(-50, 50), min_size=4, max_size=4),
    pair=st.floats(-50, 50),
)
def test_effects_that_were_put_in_come_out(level: float, halves: list[float], pair: float) -> None:
    """Readings made from main effects and one pair give back each as twice its half."""
    design = full_factorial(4)
    values = level + design.points @ np.array(halves) + pair * column(design.points, "BD")
    found = analyse_factorial(design, [[float(value)] for value in values], unit="N")
    assert found.mean == pytest.approx(level, abs=1e-9)
    for letter, half in zip("ABCD", halves, strict=True):
        assert found.effect(letter).effect == pytest.approx(2 * half, abs=1e-9)
    assert found.effect("DB").effect == pytest.approx(2 * pair, abs=1e-9)
    assert found.effect("AC").effect == pytest.approx(0, abs=1e-9)


def test_the_analysis_of_variance_adds_up() -> None:
    """Sums of squares of the effects and of the repeats are the scatter about the mean."""
    dice = np.random.default_rng(3)
    readings = dice.normal(100, 5, (8, 3)) + 10 * full_factorial(3).points[:, :1]
    found = analyse_factorial(full_factorial(3), readings.tolist(), unit="N")
    within = (found.noise or 0) ** 2 * found.noise_degrees
    effects = sum(one.sum_of_squares for one in found.effects)
    assert effects + within == pytest.approx(((readings - readings.mean()) ** 2).sum())
    assert found.effects[0].letters == "A"
    assert found.effects[0].chance is not None
    assert found.effects[0].chance < 1e-4


def test_without_repeats_the_small_effects_are_the_yardstick() -> None:
    """Fifteen effects, two of them large: the pseudo error is that of the thirteen others."""
    effects = [1.0, -1.0] * 6 + [1.0, 40.0, -30.0]
    assert pseudo_standard_error(effects) == pytest.approx(1.5)
    dice = np.random.default_rng(5)
    values = dice.normal(0, 1, 16) + 8 * full_factorial(4).points[:, 2]
    found = analyse_factorial(full_factorial(4), [[float(v)] for v in values], unit="N")
    assert found.noise is None
    assert [one.letters for one in found.effects if (one.chance or 1) < 0.001] == ["C"]


def test_unequal_repeats_are_for_the_other_engines() -> None:
    """A run without readings, and runs with unequal repeats, are refused here."""
    for readings in ([[1.0]] * 3, [[1.0], [1.0], [1.0], []], [[1.0], [1.0], [1.0], [1.0, 2.0]]):
        with pytest.raises(BadValue):
            analyse_factorial(full_factorial(2), readings, unit="N")


quadratics = st.tuples(
    st.lists(st.floats(-5, 5), min_size=2, max_size=2),
    st.floats(0.5, 5),
    st.floats(0.5, 5),
    st.floats(0, np.pi),
    st.sampled_from([(1, 1), (-1, -1), (1, -1)]),
)


@given(quadratics)
@settings(max_examples=60)
def test_a_quadratic_is_found_with_its_level_point_and_nature(drawn: object) -> None:
    """A turned bowl, hill or saddle comes back with centre, curvatures and name."""
    (centre, one, two, angle, signs) = drawn  # type: ignore[misc]
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    bend = turn @ np.diag([one * signs[0], two * signs[1]]) @ turn.T
    corners = full_factorial(2)
    points = CentralComposite(
        corners=corners, centre_count=3, axial_ratio=rotatable_ratio(corners)
    ).points
    away = points - np.array(centre)
    values = 7.0 + np.einsum("ni,ij,nj->n", away, bend, away)
    found = stationary(fit_surface(points, values, order=Order.QUADRATIC))
    assert found.point == pytest.approx(np.array(centre), abs=1e-6)
    assert found.value == pytest.approx(7.0, abs=1e-6)
    assert sorted(found.curvatures) == pytest.approx(
        sorted([one * signs[0], two * signs[1]]), abs=1e-6
    )
    expected = {2: Nature.MINIMUM, -2: Nature.MAXIMUM, 0: Nature.SADDLE}[sum(signs)]
    assert found.nature is expected
    assert found.inside == (np.hypot(*centre) <= np.sqrt(2) * (1 + 1e-9))


def test_a_rotatable_design_is_as_sure_in_every_direction() -> None:
    """The spread of a prediction at one distance is the same whichever way one goes."""
    corners = full_factorial(2)
    points = CentralComposite(
        corners=corners, centre_count=5, axial_ratio=rotatable_ratio(corners)
    ).points
    surface = fit_surface(points, np.arange(13.0), order=Order.QUADRATIC)
    angles = np.linspace(0, np.pi, 9)
    asked = 1.2 * np.stack([np.cos(angles), np.sin(angles)], axis=1)
    a, b = asked.T
    rows = np.stack([np.ones_like(a), a, b, a * b, a * a, b * b], axis=1)
    spreads = np.einsum("ni,ij,nj->n", rows, surface.regression.unscaled, rows)
    assert spreads == pytest.approx(np.full(9, spreads[0]))


def test_a_plane_that_misses_a_hill_says_so() -> None:
    """Runs on a hill, the middle repeated: the plane lacks fit, the quadratic does not."""
    corners = full_factorial(2)
    points = CentralComposite(corners=corners, centre_count=5, axial_ratio=1.414).points
    dice = np.random.default_rng(11)
    values = 80 - 6 * (points**2).sum(axis=1) + dice.normal(0, 0.5, len(points))
    plane = fit_surface(points, values, order=Order.LINEAR).lack_of_fit
    hill = fit_surface(points, values, order=Order.QUADRATIC).lack_of_fit
    assert plane is not None
    assert plane.chance < 1e-3
    assert hill is not None
    assert hill.chance > 0.01


def test_the_steepest_path_climbs_fastest() -> None:
    """On a plane no other direction of the same length climbs more, and down is the way back."""
    points = full_factorial(2).points
    plane = fit_surface(
        np.vstack([points, [[0, 0]]]), np.array([1, 4, 9, 12, 6.5]), order=Order.LINEAR
    )
    path = steepest_path(plane, step_ratio=0.5, steps=3, upwards=True)
    assert path[0] == pytest.approx([0, 0])
    climbed = plane.at(path[1:2])[0]
    angles = np.linspace(0, 2 * np.pi, 37)
    others = plane.at(0.5 * np.stack([np.cos(angles), np.sin(angles)], axis=1))
    assert climbed >= others.max() - 1e-12
    down = steepest_path(plane, step_ratio=0.5, steps=3, upwards=False)
    assert down == pytest.approx(-path)


def test_coded_points_become_settings() -> None:
    """Middle 300 J and half span 60 J turn −1, 0, +1 into 240, 300 and 360 J."""
    coded = np.array([[-1.0], [0.0], [1.0]])
    assert decode(coded, middles=[300], half_spans=[60]).ravel() == pytest.approx([240, 300, 360])


@pytest.mark.parametrize(
    "columns",
    [np.ones((2, 3)), np.ones((4, 2)), np.array([[1, 1, 2], [1, 2, 4], [1, 3, 6], [1, 5, 10.0]])],
)
def test_runs_that_determine_nothing_are_refused(columns: np.ndarray) -> None:
    """Fewer runs than terms, a second constant, a column that is twice another: refused."""
    with pytest.raises(BadValue):
        least_squares(columns, np.arange(float(len(columns))))


def test_a_level_surface_has_no_stationary_point() -> None:
    """A plane has neither curvature nor a stationary point, and a constant no steepest path."""
    points = full_factorial(2).points
    with pytest.raises(BadValue):
        stationary(fit_surface(points, np.array([1.0, 2, 3, 4]), order=Order.LINEAR))
    with pytest.raises(BadValue):
        steepest_path(
            fit_surface(points, np.ones(4), order=Order.LINEAR),
            step_ratio=1.0, steps=1, upwards=True,
        )  # fmt: skip
