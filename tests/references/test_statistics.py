"""Tolerance factors, starts and normal chances, held against tables and worked problems."""

from mpmath import mp, mpf

from reelwright.core.quantities.measured import Measured
from reelwright.core.statistics.combine import combine
from reelwright.core.statistics.normal import chance_above, guarded_upper_limit
from reelwright.core.statistics.tolerance import lower_tolerance_limit, one_sided_tolerance_factor
from reelwright.core.statistics.yields import chance_of_at_least, starts_needed
from tests.references.harness import (
    Basis,
    ReferenceCheck,
    absolute,
    exact,
    reference_test,
    relative,
)

_K_TABLE = {
    5: (3.4066, 4.2027, 5.7411),
    6: (3.0063, 3.7077, 5.0620),
    8: (2.5819, 3.1873, 4.3539),
    10: (2.3546, 2.9110, 3.9811),
    12: (2.2101, 2.7363, 3.7471),
    15: (2.0684, 2.5660, 3.5201),
    20: (1.9260, 2.3960, 3.2952),
    30: (1.7773, 2.2198, 3.0639),
    50: (1.6456, 2.0650, 2.8624),
    100: (1.5267, 1.9265, 2.6840),
}
_COVERAGES = (0.90, 0.95, 0.99)


def _k(size: int, coverage: float) -> float:
    return one_sided_tolerance_factor(sample_size=size, coverage=coverage, confidence=0.95)


def _confidence_by_integration(size: int, coverage: float) -> float:
    """Return the confidence that our k really gives: chi-square outside, normal inside."""
    k, root, degrees = mpf(_k(size, coverage)), mp.sqrt(size), mpf(size - 1)
    z = mp.sqrt(2) * mp.erfinv(2 * mpf(coverage) - 1)
    scale = 2 ** (degrees / 2) * mp.gamma(degrees / 2)

    def covered(v: mpf) -> mpf:
        density = v ** (degrees / 2 - 1) * mp.exp(-v / 2) / scale
        return mp.ncdf(root * (k * mp.sqrt(v / degrees) - z)) * density

    spread = mp.sqrt(2 * degrees)
    pieces = [0, degrees / 2, degrees, degrees + 4 * spread, degrees + 12 * spread]
    with mp.workdps(25):
        return float(mp.quad(covered, [*pieces, degrees + 48 * spread]))


def _worked(name: str) -> str:
    return f"worked problem “{name}” of the trade, arithmetic written out"


CHECKS = (
    *(
        ReferenceCheck(
            id=f"tolerance.k.{size}.{coverage:g}",
            module="core.statistics",
            quantity=f"one-sided factor, n = {size}, {coverage:.0%} covered, 95 % sure",
            source="non-central t quantiles, computed apart from the project",
            basis=Basis.COMPUTED,
            expected=expected,
            unit="1",
            within=absolute(5.1e-5, because="four decimals are given"),
            ours=lambda size=size, coverage=coverage: _k(size, coverage),  # type: ignore[misc]
        )
        for size, row in _K_TABLE.items()
        for coverage, expected in zip(_COVERAGES, row, strict=True)
    ),
    *(
        ReferenceCheck(
            id=f"tolerance.integral.{size}.{coverage:g}",
            module="core.statistics",
            quantity=f"confidence that our factor gives, n = {size}, {coverage:.0%} covered",
            source="the defining double integral, by mpmath with 25 digits, no non-central t used",
            basis=Basis.COMPUTED,
            expected=0.95,
            unit="1",
            within=absolute(1e-8, because="the quantile is solved to about that"),
            ours=lambda size=size, coverage=coverage: _confidence_by_integration(  # type: ignore[misc]
                size, coverage
            ),
        )
        for size, coverage in ((5, 0.99), (10, 0.9), (10, 0.99), (30, 0.95))
    ),
    ReferenceCheck(
        id="tolerance.b_basis.10",
        module="core.statistics",
        quantity="B-basis factor, n = 10 (90 % covered, 95 % sure)",
        source="MIL-HDBK-17, table of one-sided factors",
        basis=Basis.MEMORY,
        expected=2.355,
        unit="1",
        within=absolute(0.0006, because="three decimals are printed"),
        ours=lambda: _k(10, 0.90),
    ),
    ReferenceCheck(
        id="tolerance.a_basis.10",
        module="core.statistics",
        quantity="A-basis factor, n = 10 (99 % covered, 95 % sure)",
        source="MIL-HDBK-17, table of one-sided factors",
        basis=Basis.MEMORY,
        expected=3.981,
        unit="1",
        within=absolute(0.0006, because="three decimals are printed"),
        ours=lambda: _k(10, 0.99),
    ),
    ReferenceCheck(
        id="tolerance.pulls",
        module="core.statistics",
        quantity="lower limit of ten pulls, mean 248 N, s 13.5 N, 99 % covered, 95 % sure",
        source=_worked("ten first-article pulls"),
        basis=Basis.COMPUTED,
        expected=194.3,
        unit="N",
        within=absolute(0.051, because="one decimal is given"),
        ours=lambda: lower_tolerance_limit(
            mean=248.0, deviation=13.5, sample_size=10, coverage=0.99, confidence=0.95
        ),
    ),
    *(
        ReferenceCheck(
            id=f"starts.{good}",
            module="core.statistics",
            quantity=f"pieces to start for {good} good ones, yield 97 %, 95 % sure",
            source=_worked("start quantity"),
            basis=Basis.COMPUTED,
            expected=starts,
            unit="pieces",
            within=exact(because="a count"),
            ours=lambda good=good: float(  # type: ignore[misc]
                starts_needed(good=good, yield_fraction=0.97, confidence=0.95)
            ),
        )
        for good, starts in ((4, 5), (12, 14), (30, 33))
    ),
    ReferenceCheck(
        id="starts.chance.30.31",
        module="core.statistics",
        quantity="chance of 30 or more good ones of 31, yield 97 %",
        source="0.97³¹ + 31·0.03·0.97³⁰, worked out on paper",
        basis=Basis.COMPUTED,
        expected=0.7619,
        unit="1",
        within=absolute(5.1e-5, because="four decimals are given"),
        ours=lambda: chance_of_at_least(good=30, starts=31, yield_fraction=0.97),
    ),
    *(
        ReferenceCheck(
            id=f"starts.no_failures.{starts}",
            module="core.statistics",
            quantity=f"chance that {starts} pieces, each bad with {bad:.0%}, are all good",
            source="rule of the zero-failure sample: n = ln 0.05/ln(1 − p) gives 59, 149, 299",
            basis=Basis.COMPUTED,
            expected=0.05,
            unit="1",
            within=relative(0.035, because="n is rounded up to a whole piece, at most 5 % of p"),
            ours=lambda starts=starts, bad=bad: chance_of_at_least(  # type: ignore[misc]
                good=starts, starts=starts, yield_fraction=1 - bad
            ),
        )
        for starts, bad in ((59, 0.05), (149, 0.02), (299, 0.01))
    ),
    ReferenceCheck(
        id="normal.over_limit",
        module="core.statistics",
        quantity="chance that 19.80 dB ± 0.25 dB is over 20.00 dB",
        source=_worked("a reading near its limit"),
        basis=Basis.COMPUTED,
        expected=0.2119,
        unit="1",
        within=absolute(5.1e-5, because="four decimals are given"),
        ours=lambda: chance_above(limit=20.0, mean=19.8, deviation=0.25),
    ),
    ReferenceCheck(
        id="normal.guarded",
        module="core.statistics",
        quantity="limit of 20 dB drawn in for u = 0.25 dB, one-sided 95 %",
        source=_worked("a reading near its limit"),
        basis=Basis.COMPUTED,
        expected=19.589,
        unit="dB",
        within=absolute(0.00051, because="three decimals are given"),
        ours=lambda: guarded_upper_limit(limit=20.0, deviation=0.25, confidence=0.95),
    ),
    ReferenceCheck(
        id="normal.table.1.96",
        module="core.statistics",
        quantity="chance that a standard normal value exceeds 1.96",
        source="table of the normal distribution in any statistics book",
        basis=Basis.MEMORY,
        expected=0.0250,
        unit="1",
        within=absolute(5.1e-5, because="four decimals are printed"),
        ours=lambda: chance_above(limit=1.96, mean=0.0, deviation=1.0),
    ),
    ReferenceCheck(
        id="combine.chi_square",
        module="core.statistics",
        quantity="chance that chi-square with 2 degrees of freedom exceeds 5.991",
        source="table of the chi-square distribution in any statistics book",
        basis=Basis.MEMORY,
        expected=0.05,
        unit="1",
        within=absolute(5e-5, because="the limit is printed with four digits"),
        ours=lambda: (
            combine(
                [
                    # Equal spreads, so that chi-square is 2·a² about the middle value: 5.991.
                    Measured(
                        value=10.0 + away * (5.991 / 2) ** 0.5, standard_uncertainty=1.0, unit="m"
                    )
                    for away in (-1, 0, 1)
                ]
            ).chance_of_disagreement
        ),
    ),
)
test_statistics = reference_test(CHECKS)
