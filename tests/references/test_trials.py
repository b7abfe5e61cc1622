"""Designed trials, surfaces, regression and scatter, held against published worked examples."""

from functools import cache

import numpy as np
import pytest
from scipy.stats import norm

from benchmarks.trials_truths import branin, branin_truth, camel, hartmann_3, hartmann_6
from reelwright.core.statistics.tolerance import one_sided_tolerance_factor
from reelwright.core.trials._kernels import tolerance_factors
from reelwright.core.trials.designs import TwoLevel, full_factorial
from reelwright.core.trials.factorial import FactorialAnalysis, analyse_factorial
from reelwright.core.trials.process import Shown, fit
from reelwright.core.trials.regression import Regression, least_squares
from reelwright.core.trials.repeats import one_way, pool
from reelwright.core.trials.response_surface import (
    Nature,
    Order,
    Stationary,
    Surface,
    fit_surface,
    stationary,
)
from reelwright.core.trials.space import latin_hypercube
from reelwright.core.trials.weld_energy import EnergyLaw, KnownGauge, fit_energy_law
from tests.references import trials_data as data
from tests.references.harness import (
    Basis,
    LeftOut,
    ReferenceCheck,
    absolute,
    at_most,
    reference_test,
    relative,
)
from tests.references.outside_files import outside_table

_HANDBOOK = "NIST/SEMATECH e-Handbook of Statistical Methods"
_BOOK = "Box, Hunter and Hunter, Statistics for Experimenters (1978)"
_STRD = "NIST Statistical Reference Datasets"


@cache
def _chemical() -> FactorialAnalysis:
    return analyse_factorial(full_factorial(4), [[value] for value in data.CHEMICAL], unit="%")


@cache
def _bicycle() -> FactorialAnalysis:
    design = TwoLevel(base_count=3, generators=data.BICYCLE_GENERATORS)
    return analyse_factorial(design, [[value] for value in data.BICYCLE], unit="s")


@cache
def _first() -> Surface:
    return fit_surface(data.FIRST_POINTS, data.FIRST_YIELDS, order=Order.LINEAR)


@cache
def _second() -> Surface:
    return fit_surface(data.SECOND_POINTS, data.SECOND_YIELDS, order=Order.QUADRATIC)


@cache
def _second_level() -> Stationary:
    return stationary(_second())


@cache
def _uniformity() -> Surface:
    return fit_surface(data.UNIFORMITY_POINTS, data.UNIFORMITY, order=Order.QUADRATIC)


@cache
def _tyre() -> Surface:
    return fit_surface(data.TYRE_POINTS, data.TYRE, order=Order.QUADRATIC)


@cache
def _longley() -> Regression:
    columns = np.hstack([np.ones((len(data.LONGLEY), 1)), data.LONGLEY[:, :-1]])
    return least_squares(columns, data.LONGLEY[:, -1])


@cache
def _law() -> EnergyLaw:
    known = ((1.31, 96.0), (2.08, 149.0), (3.31, 243.0), (5.26, 378.0))
    return fit_energy_law([KnownGauge(area_m2=a * 1e-6, energy_j=e) for a, e in known])


def _alternating(level: float) -> list[float]:
    """Return the set NumAcc3 (level 1e6) or NumAcc4 (1e7): x.2, then x.1 and x.3 in turn."""
    return [level + 0.2] + [level + 0.1, level + 0.3] * 500


@cache
def _best_of_thirty(seed: int) -> float:
    """Return the least of Branin in 8 + 22 evaluations by plain expected improvement."""
    dice = np.random.default_rng(seed)
    space = branin_truth().problem(()).space
    points = latin_hypercube(8, 2, dice)
    values = branin(space.lows + points * space.spans)
    for _ in range(22):
        # The usual logarithm-free scaling: to no mean and a spread of one.
        scaled = (values - values.mean()) / values.std()
        process = fit(
            Shown(
                points=points,
                means=scaled,
                counts=np.full(len(values), 1e6),
                columns=np.ones((len(values), 1)),
                within=0.0,
                degrees=0,
            ),
            np.zeros(1),
        )
        asked = np.vstack(
            [
                dice.random((2000, 2)),
                np.clip(points[np.argmin(values)] + 0.02 * dice.standard_normal((500, 2)), 0, 1),
            ]
        )
        mean, spread = process.at(asked, np.ones((len(asked), 1)))
        z = (scaled.min() - mean) / spread
        gain = spread * (z * norm.cdf(z) + norm.pdf(z))
        chosen = asked[int(np.argmax(gain))][None, :]
        points = np.vstack([points, chosen])
        values = np.r_[values, branin(space.lows + chosen * space.spans)]
    return float(values.min())


_SECOND_SOURCE = f"{_HANDBOOK}, 5.5.3.1.3 and 5.5.3.1.4; coefficients computed apart from ours"
_DIGITS = "as many digits as the source gives"

CHECKS = (
    *(
        ReferenceCheck(
            id=f"trials.chemical.{letters}",
            module="core.trials",
            quantity=f"effect {letters} in a 2⁴ design of a chemical process",
            source=f"{_BOOK}, p. 325",
            basis=Basis.SEEN,
            expected=expected,
            unit="%",
            within=absolute(1e-9, because="sums of whole numbers"),
            ours=lambda letters=letters: _chemical().effect(letters).effect,  # type: ignore[misc]
        )
        for letters, expected in (
            ("A", -8.0), ("B", 24.0), ("C", -2.25), ("D", -5.5), ("AB", 1.0), ("BD", 4.5),
        )
    ),
    *(
        ReferenceCheck(
            id=f"trials.bicycle.{letter}",
            module="core.trials",
            quantity=f"effect {letter} in a 2⁷⁻⁴ fraction: a bicycle on a hill",
            source=f"{_BOOK}, p. 391; runs typed from memory",
            basis=Basis.SEEN,
            expected=expected,
            unit="s",
            within=absolute(1e-9, because="sums of whole numbers"),
            ours=lambda letter=letter: _bicycle().effect(letter).effect,  # type: ignore[misc]
        )
        for letter, expected in zip("ABCDEFG", (3.5, 12.0, 1.0, 22.5, 0.5, 1.0, 2.5), strict=True)
    ),
    ReferenceCheck(
        id="trials.first_order.b2",
        module="core.trials",
        quantity="second slope of the first design of a yield",
        source=f"{_HANDBOOK}, 5.5.3.1.1; computed apart from ours",
        basis=Basis.COMPUTED,
        expected=11.1425,
        unit="1",
        within=absolute(5e-5, because=_DIGITS),
        ours=lambda: _first().coefficient(1),
    ),
    *(
        ReferenceCheck(
            id=f"trials.second_order.{name}",
            module="core.trials",
            quantity=f"{told} of the second design of a yield",
            source=_SECOND_SOURCE,
            basis=Basis.COMPUTED,
            expected=expected,
            unit="1",
            within=absolute(within, because=_DIGITS),
            ours=ours,
        )
        for name, told, expected, within, ours in (
            ("b0", "level", 71.9974, 1e-4, lambda: _second().coefficient()),
            ("b11", "first bend", -7.2515, 1e-4, lambda: _second().coefficient(0, 0)),
            ("b12", "pair", -4.845, 1e-4, lambda: _second().coefficient(0, 1)),
            (
                "r2",
                "share explained",
                0.8898,
                1e-4,
                lambda: _second().regression.determination_fraction,
            ),
            ("xs1", "stationary point, first", -0.92785, 1e-5, lambda: _second_level().point[0]),
            ("xs2", "stationary point, second", 0.3468, 1e-4, lambda: _second_level().point[1]),
            ("ys", "value at the stationary point", 77.5891, 1e-4, lambda: _second_level().value),
            (
                "eig2",
                "second curvature",
                -4.97319,
                1e-5,
                lambda: float(np.sort(np.abs(_second_level().curvatures))[0] * -1),
            ),
        )
    ),
    *(
        ReferenceCheck(
            id=f"trials.uniformity.{'b' + ''.join(str(p + 1) for p in places) or 'b0'}",
            module="core.trials",
            quantity=f"coefficient {places} of the uniformity of a layer",
            source=f"{_HANDBOOK}, 5.4.7.3; runs typed from memory",
            basis=Basis.COMPUTED,
            expected=expected,
            unit="1",
            within=absolute(1e-4, because=_DIGITS),
            ours=lambda places=places: _uniformity().coefficient(*places),  # type: ignore[misc]
        )
        for places, expected in (
            ((), 5.8661), ((0,), -1.9097), ((1,), -0.2241), ((0, 1), 1.6862), ((0, 0), 0.1337),
            ((1, 1), 0.0337),
        )
    ),
    ReferenceCheck(
        id="trials.uniformity.r2",
        module="core.trials",
        quantity="share explained, uniformity of a layer",
        source=f"{_HANDBOOK}, 5.4.7.3; runs typed from memory",
        basis=Basis.SEEN,
        expected=0.8716,
        unit="1",
        within=absolute(5.1e-5, because=_DIGITS),
        ours=lambda: _uniformity().regression.determination_fraction,
    ),
    *(
        ReferenceCheck(
            id=f"trials.tyre.{''.join(str(p + 1) for p in places) or '0'}",
            module="core.trials",
            quantity=f"coefficient {places} of the abrasion of a tyre tread",
            source=f"Derringer and Suich (1980), in {_HANDBOOK}, 5.5.3.2.2; runs from memory",
            basis=Basis.COMPUTED,
            expected=expected,
            unit="1",
            within=absolute(1e-3, because=_DIGITS),
            ours=lambda places=places: _tyre().coefficient(*places),  # type: ignore[misc]
        )
        for places, expected in (
            ((), 139.116), ((0,), 16.506), ((1,), 17.892), ((2,), 2.201), ((0, 1), 5.125),
            ((0, 2), -7.875), ((1, 2), -7.125), ((0, 0), -4.016), ((1, 1), -3.451),
            ((2, 2), -1.569),
        )
    ),
    *(
        ReferenceCheck(
            id=f"trials.longley.{place}",
            module="core.trials",
            quantity=f"coefficient {place} of a badly conditioned regression",
            source=f"{_STRD}, Longley, certified; runs typed from memory",
            basis=Basis.SEEN,
            expected=expected,
            unit="1",
            within=relative(1e-7, because="seven digits are asked of a program"),
            ours=lambda place=place: _longley().coefficients[place],  # type: ignore[misc]
        )
        for place, expected in (
            (0, -3482258.63459582), (1, 15.0618722713733), (2, -0.035819179292591),
            (4, -1.03322686717359),
        )
    ),
    ReferenceCheck(
        id="trials.longley.s",
        module="core.trials",
        quantity="what a badly conditioned regression leaves",
        source=f"{_STRD}, Longley, certified; runs typed from memory",
        basis=Basis.SEEN,
        expected=304.854073561965,
        unit="1",
        within=relative(1e-8, because="eight digits are asked of a program"),
        ours=lambda: _longley().deviation,
    ),
    *(
        ReferenceCheck(
            id=f"trials.scatter.{name}",
            module="core.trials",
            quantity=f"standard deviation of 1001 values near {level:.0e}, set {name}",
            source=f"{_STRD}, {name}, certified",
            basis=Basis.SEEN,
            expected=0.1,
            unit="1",
            within=relative(1e-8, because="eight digits are asked of a program"),
            ours=lambda level=level: pool([_alternating(level)]).deviation or 0.0,  # type: ignore[misc]
        )
        for name, level in (("NumAcc3", 1e6), ("NumAcc4", 1e7))
    ),
    *(
        ReferenceCheck(
            id=f"trials.factor.{size}.{coverage:g}.{confidence:g}",
            module="core.trials",
            quantity=f"factor of a mean worth {size} readings, {coverage:.0%} covered, "
            f"{confidence:.0%} sure",
            source=source,
            basis=basis,
            expected=expected,
            unit="1",
            within=absolute(within, because=_DIGITS),
            ours=lambda size=size, coverage=coverage, confidence=confidence: float(  # type: ignore[misc]
                tolerance_factors(
                    np.array([float(size)]),
                    coverage=coverage,
                    confidence=confidence,
                    degrees=size - 1,
                )[0]
            ),
        )
        for size, coverage, confidence, expected, within, source, basis in (
            (5, 0.99, 0.95, 5.7411, 1e-4, "non-central t, computed apart", Basis.COMPUTED),
            (10, 0.90, 0.95, 2.3546, 1e-4, "non-central t, computed apart", Basis.COMPUTED),
            (100, 0.95, 0.95, 1.9265, 1e-4, "non-central t, computed apart", Basis.COMPUTED),
            (43, 0.90, 0.99, 1.874, 1e-4, f"{_HANDBOOK}, 7.2.6.3", Basis.MEMORY),
        )
    ),
    *(
        ReferenceCheck(
            id=f"trials.function.{name}",
            module="benchmarks.trials_truths",
            quantity=f"least value of the test function {told}",
            source=source,
            basis=basis,
            expected=expected,
            unit="1",
            within=absolute(within, because=_DIGITS),
            ours=lambda function=function, at=at: float(function(np.array([at]))[0]),  # type: ignore[misc]
        )
        for name, told, function, at, expected, within, source, basis in (
            (
                "hartmann6",
                "Hartmann-6",
                hartmann_6,
                (0.20169, 0.150011, 0.476874, 0.275332, 0.311652, 0.6573),
                -3.32237,
                5.1e-6,
                "published with its place",
                Basis.SEEN,
            ),
            (
                "camel",
                "six-hump camel",
                camel,
                (0.0898, -0.7126),
                -1.0316,
                5.1e-5,
                "published with its place",
                Basis.SEEN,
            ),
            (
                "branin",
                "Branin",
                branin,
                (np.pi, 2.275),
                0.397887,
                5.1e-7,
                "Dixon and Szegö (1978)",
                Basis.MEMORY,
            ),
            (
                "hartmann3",
                "Hartmann-3",
                hartmann_3,
                (0.114614, 0.555649, 0.852547),
                -3.86278,
                5.1e-6,
                "Dixon and Szegö (1978)",
                Basis.MEMORY,
            ),
        )
    ),
    *(
        ReferenceCheck(
            id=f"trials.process.branin.{seed}",
            module="core.trials",
            quantity=f"best of 8 + 22 evaluations of Branin by expected improvement, seed {seed}",
            source="another Gaussian process (Matérn 5/2) reached 0.398 to 0.406; 0.45 is accepted",
            basis=Basis.COMPUTED,
            expected=0.45,
            unit="1",
            within=at_most(but_within=0.1159, because="the least there is is 0.397887"),
            ours=lambda seed=seed: _best_of_thirty(seed),  # type: ignore[misc]
        )
        for seed in (1, 2)
    ),
    ReferenceCheck(
        id="tolerance.k.38.0.9",
        module="core.statistics",
        quantity="one-sided factor of 38 laminate strengths, 90 % covered, 95 % sure",
        source="NIST example of a basis value, factor computed apart from ours",
        basis=Basis.COMPUTED,
        expected=1.71025,
        unit="1",
        within=absolute(5.1e-6, because=_DIGITS),
        ours=lambda: one_sided_tolerance_factor(sample_size=38, coverage=0.90, confidence=0.95),
    ),
    *(
        ReferenceCheck(
            id=f"trials.weld_energy.{name}",
            module="core.trials",
            quantity=told,
            source="worked problem “weld energy by gauge” of the trade, arithmetic written out",
            basis=Basis.COMPUTED,
            expected=expected,
            unit=unit,
            within=absolute(within, because=_DIGITS),
            ours=ours,
        )
        for name, told, expected, unit, within, ours in (
            ("a", "energy at 1 mm²", 73.060, "J", 5.1e-4, lambda: _law().coefficient_j),
            ("b", "exponent of the area", 0.9927, "1", 5.1e-5, lambda: _law().exponent_factor),
            (
                "e",
                "first energy for 4.17 mm²",
                301.48,
                "J",
                5.1e-3,
                lambda: _law().energy_j(area_m2=4.17e-6),
            ),
        )
    ),
)  # fmt: skip
test_trials = reference_test(CHECKS)

LEFT_OUT = (
    LeftOut(
        names=("strd-michelso-mean", "strd-mavro-r1", "strd-numacc4-r1"),
        quantity="means and autocorrelations of long series",
        reason="trials are no series in time; they belong to the charts of a running process",
    ),
    LeftOut(
        names=("strd-misra1a-b1", "strd-misra1a-b2", "strd-misra1a-sd1", "strd-misra1a-sd2",
               "strd-misra1a-rss"),
        quantity="a non-linear regression",
        reason="no engine here fits a curve of that kind: responses are fitted by quadratics and "
        "by Gaussian processes",
    ),
    LeftOut(
        names=("strd-atmwtag-F",),
        quantity="F of a one-way analysis with close values",
        reason="its 48 readings are not at hand; the harder SiRstv set is held against instead",
    ),
    LeftOut(
        names=("bbasis-vangel31 (153.987 ksi)",),
        quantity="lower tolerance limit of 38 laminate strengths",
        reason="its readings are not at hand; its factor is held against above",
    ),
    LeftOut(
        names=("rsm-5532 (desirability 0.583)",),
        quantity="one figure of merit for several responses of a tyre",
        reason="a window asks every response to hold its own limit; nothing here weighs one "
        "against another",
    ),
    LeftOut(
        names=("hb_5_5_6_taguchi", "bhh_weld_strength"),
        quantity="a made-up inner and outer array, and seven welds at five speeds",
        reason="no published coefficient is at hand for either",
    ),
)  # fmt: skip


@pytest.mark.reference
def test_a_ceramic_grinding_design_gives_its_published_effects() -> None:
    """The 2⁵ design of e-Handbook 5.4.7.1 gives the five main effects to three decimals."""
    rows = outside_table("hb_5_4_7_1_ceramic_2to5.csv")
    found = analyse_factorial(full_factorial(5), [[row["y"]] for row in rows], unit="MPa")
    expected = (10.573, 20.908, -39.787, -198.473, -64.859)
    assert [found.effect(letter).effect for letter in "ABCDE"] == pytest.approx(expected, abs=1e-3)


@pytest.mark.reference
def test_half_a_reactor_design_gives_its_published_effects() -> None:
    """The 2⁵⁻¹ design of Box, Hunter and Hunter, p. 379, gives the effects remembered of it."""
    rows = outside_table("bhh_reactor_2to5m1.csv")
    design = TwoLevel(base_count=4, generators=("E=ABCD",))
    assert design.resolution == "V"
    assert np.array_equal(design.points, [[row[f"x{n}"] for n in range(1, 6)] for row in rows])
    found = analyse_factorial(design, [[row["y"]] for row in rows], unit="%")
    expected = {"B": 20.5, "D": 12.25, "E": -6.25, "BD": 10.75, "DE": -9.5}
    assert {name: found.effect(name).effect for name in expected} == pytest.approx(expected)


@pytest.mark.reference
def test_the_first_stage_of_a_yield_gives_its_published_plane() -> None:
    """The plane of Box, Hunter and Hunter, p. 514, is 62.01 + 2.35 x₁ + 4.50 x₂."""
    rows = outside_table("bhh_yield_stage1.csv")
    points = np.array([[row["x1"], row["x2"]] for row in rows])
    plane = fit_surface(points, np.array([row["y"] for row in rows]), order=Order.LINEAR)
    assert plane.regression.coefficients == pytest.approx([62.01, 2.35, 4.50], abs=0.0051)


@pytest.mark.reference
def test_the_second_stage_of_a_yield_is_no_plane() -> None:
    """On p. 519 the pair is far larger than either slope, which is what ends the steep climb."""
    rows = outside_table("bhh_yield_stage2.csv")
    points = np.array([[row["x1"], row["x2"]] for row in rows])
    bent = fit_surface(points, np.array([row["y"] for row in rows]), order=Order.PAIRS)
    assert bent.coefficient(0, 1) == pytest.approx(-4.88, abs=0.0051)
    assert abs(bent.coefficient(0, 1)) > 2 * np.abs(bent.slope).max()


@pytest.mark.reference
def test_a_certified_line_comes_out_to_the_digits_asked() -> None:
    """StRD Norris: slope to 10 digits, intercept to 9, spread and F to 8."""
    rows = outside_table("strd_norris.csv")
    x, y = (np.array([row[name] for row in rows]) for name in "xy")
    found = least_squares(np.stack([np.ones_like(x), x], axis=1), y)
    assert found.coefficients[1] == pytest.approx(1.00211681802045, rel=1e-10)
    assert found.coefficients[0] == pytest.approx(-0.262323073774029, rel=1e-9)
    assert found.standard_errors[0] == pytest.approx(0.232818234301152, rel=1e-8)
    assert found.deviation == pytest.approx(0.884796396144373, rel=1e-8)
    assert found.ratio == pytest.approx(5436385.54079785, rel=1e-8)


@pytest.mark.reference
@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("strd_michelso.csv", 0.0790105478190518),
        ("strd_mavro.csv", 0.000429123453004053),
        ("strd_numacc3.csv", 0.1),
    ],
)
def test_certified_scatter_comes_out_to_eight_digits(name: str, expected: float) -> None:
    """The standard deviation of each certified set agrees to eight digits."""
    rows = outside_table(name)
    assert pool([[row["y"] for row in rows]]).deviation == pytest.approx(expected, rel=1e-8)


@pytest.mark.reference
def test_certified_scatter_between_groups_comes_out_to_nine_digits() -> None:
    """StRD SiRstv: what remains within the groups to nine digits, and F to eight."""
    rows = outside_table("strd_anova_sirstv.csv")
    names = list(rows[0])
    by, of = names if len({row[names[0]] for row in rows}) < len(rows) / 2 else names[::-1]
    groups = [[row[of] for row in rows if row[by] == place] for place in {r[by] for r in rows}]
    found = one_way(groups)
    assert found.within.deviation == pytest.approx(0.104076068334656, rel=1e-9)
    assert found.ratio == pytest.approx(1.18046237440255, rel=1e-8)


def test_the_second_design_is_a_maximum_within_its_runs() -> None:
    """The stationary point of the handbook's example is a maximum, and lies inside the runs."""
    found = _second_level()
    assert found.nature is Nature.MAXIMUM
    assert found.inside
