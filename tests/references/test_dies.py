"""Dies, presses and welds: hexagons, packing, force, two-sided factors, energy, against others."""

from reelwright.core.ends.dies.cavity_choice import INCH_SERIES_IN
from reelwright.core.ends.dies.press import COMMON_BENCH_PRESS_N, cylinder_force_n
from reelwright.core.ends.weld.energy import BUNDLE_FILL_SHARE
from reelwright.core.quantities.constants import INCH_M
from reelwright.core.statistics.tolerance_interval import two_sided_tolerance_factor
from reelwright.core.trials.weld_energy import KnownGauge, guess_energy
from tests.references.harness import (
    Basis,
    LeftOut,
    absolute,
    reference_test,
    relative,
    rows_of,
)

_PRINTED = "all printed digits"
_DIE_SETS = "widths of the usual die sets for coax, trade practice (use from memory)"
_FACTORS = "two-sided factors worked out apart from this code; 95 % confidence"
_P30 = ((1.31, 96.0), (2.08, 149.0), (3.31, 243.0), (5.26, 378.0))


def _series_mm(inch: float) -> float:
    """Our usual width that is nearest to one of the list, in mm."""
    return min(INCH_SERIES_IN, key=lambda size: abs(size - inch)) * INCH_M * 1e3


def _factor(sample_size: int, coverage: float, confidence: float) -> float:
    return two_sided_tolerance_factor(
        sample_size=sample_size, coverage=coverage, confidence=confidence
    )


def _energy_j(area_mm2: float) -> float:
    known = [KnownGauge(area_m2=area * 1e-6, energy_j=energy) for area, energy in _P30]
    found = guess_energy(known, area_m2=area_mm2 * 1e-6, confidence=0.95).energy_j
    assert found is not None
    return found


_press = rows_of("core.ends.dies.press", prefix="ends.press.")
_choice = rows_of("core.ends.dies.cavity_choice", prefix="ends.hex.die.")
_weld = rows_of("core.ends.weld.energy", prefix="ends.weld.")
_energy = rows_of("core.trials.weld_energy", prefix="trials.weld_energy.")
_interval = rows_of("core.statistics.tolerance_interval", prefix="tolerance.two_sided.")

CHECKS = (
    *(
        _choice(
            f"{inch}", f"width of the usual hexagon for {use}", _DIE_SETS, Basis.MEMORY,
            expected_mm, "mm", absolute(0.05, because="the tolerance of such dies"),
            lambda inch=inch: _series_mm(inch),
        )
        for inch, use, expected_mm in (
            (0.068, "a small centre contact", 1.7272),
            (0.100, "a larger centre contact", 2.54),
            (0.178, "the ferrule of a 2.8 mm coax", 4.5212),
            (0.255, "the ferrule of a 6 mm coax", 6.477),
            (0.429, "the ferrule of a 10 mm coax", 10.8966),
        )
    ),
    _weld(
        "bundle.19", "fill of 19 equal strands in a circle of five diameters", "geometry: 19/25",
        Basis.COMPUTED, 0.76, "1", absolute(1e-12, because="exact"), lambda: BUNDLE_FILL_SHARE,
    ),
    _press(
        "cylinder", "force of a plain cylinder of 100 mm at 6 bar", "F = p·A", Basis.COMPUTED,
        4712.4, "N", absolute(0.1, because=_PRINTED),
        lambda: cylinder_force_n(bore_m=0.1, pressure_pa=6e5, ratio=1.0, efficiency=1.0),
    ),
    _press(
        "bench", "force of a usual pneumatic bench press",
        "trade practice, about three tonnes (no published source); 1 tf = 9806.65 N",
        Basis.MEMORY, 3 * 9806.65, "N", relative(0.01, because="said as about three tonnes"),
        lambda: COMMON_BENCH_PRESS_N,
    ),
    *(
        _interval(
            f"{sample_size}.{coverage}", f"factor of {sample_size} values, {coverage:.0%} covered",
            _FACTORS, Basis.COMPUTED, expected, "1", absolute(5.1e-5, because="four decimals"),
            lambda n=sample_size, p=coverage: _factor(n, p, 0.95),
        )
        for sample_size, expecteds in (
            (5, (4.2906, 5.0769, 6.598)),
            (6, (3.7326, 4.4222, 5.7577)),
            (8, (3.156, 3.7455, 4.8892)),
            (10, (2.8563, 3.3934, 4.4369)),
            (12, (2.6703, 3.1747, 4.1555)),
            (15, (2.4922, 2.9649, 3.8853)),
            (20, (2.3188, 2.7603, 3.621)),
            (30, (2.1451, 2.5549, 3.3546)),
            (50, (1.999, 2.3816, 3.1288)),
            (100, (1.8748, 2.2339, 2.9355)),
        )
        for coverage, expected in zip((0.90, 0.95, 0.99), expecteds, strict=True)
    ),
    _interval(
        "43", "exact factor of 43 values, 90 % covered, 99 % sure",
        "exact value worked out apart from this code; NIST/SEMATECH e-Handbook 7.2.6.3 prints "
        "2.217 by Howe's approximation", Basis.COMPUTED, 2.2228, "1",
        absolute(5.1e-5, because="four decimals"), lambda: _factor(43, 0.90, 0.99),
    ),
    _energy(
        "splice.10", "best energy of a copper wire splice of 10 mm², from four smaller gauges",
        "abstract, Modares Mechanical Engineering, article 27866", Basis.SEEN, 930.0, "J",
        relative(0.38, because=(
            "another joint on another machine: only the order of magnitude; 50 to 110 J/mm² is "
            "met in practice, which is 80 ± 38 %"
        )),
        lambda: _energy_j(10.0),
    ),
)  # fmt: skip
test_dies = reference_test(CHECKS)

LEFT_OUT = (
    LeftOut(
        names=("pull-usw-10mm2-max", "pull-usw-95mm2"),
        quantity="strength of the best ultrasonic welds, from abstracts of papers",
        reason="the runs behind them are not published, so nothing of ours leads to them",
    ),
)
