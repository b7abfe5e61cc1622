"""Strips, and what public rules allow at the machines, against integrals, rules and practice."""

from functools import cache, partial

from mpmath import mp, mpf

from reelwright.core.ends.care import exposure
from reelwright.core.ends.strip.blades import Blade, plan_blades
from reelwright.core.ends.strip.spread import COMMON_STRIP_SPREAD
from reelwright.core.ends.strip.touch import offset_limit_m, reach_chance
from reelwright.core.verdicts import Reason
from reelwright.demo.set_ups import set_up_entries
from tests.ends_world import VID_70, coax_strip
from tests.references.harness import Basis, absolute, exact, reference_test, relative, rows_of

_row = rows_of(
    "core.ends.strip.touch",
    prefix="strip.",
    others={
        "noise": "core.ends.care.exposure",
        "fume": "core.ends.care.exposure",
        "ultrasound": "core.ends.care.exposure",
        "blade": "core.ends.strip.blades",
        "tolerance": "core.ends.strip.plan",
    },
)
_PRACTICE = "common practice, no published source"
_PRINTED = exact(because="a rule names the figure itself")
_NUMERIC = relative(1e-9, because="both are computed, one in 30 digits")


def _integrated(gap_mm: str, spread_mm: str, offset_mm: str) -> float:
    """P(x + 2r > g) by integrating the normal tail over the Rayleigh density of r, in 30 digits."""
    with mp.workdps(30):
        gap, spread, scale = mpf(gap_mm), mpf(spread_mm), mpf(offset_mm)

        def part(r: mpf) -> mpf:
            density = r / scale**2 * mp.exp(-(r**2) / (2 * scale**2))
            return density * mp.erfc((gap - 2 * r) / spread / mp.sqrt(2)) / 2

        pieces = [scale * step for step in (0, 0.5, 1, 2, 3, 4, 6, 9, 14)]
        return float(mp.quad(part, pieces))


def _closed(gap_mm: str, spread_mm: str, offset_mm: str) -> float:
    return reach_chance(
        gap_m=float(gap_mm) / 1e3,
        spread_m=float(spread_mm) / 1e3,
        offset_spread_m=float(offset_mm) / 1e3,
    )


@cache
def _blades() -> tuple[Blade, ...]:
    found = plan_blades(VID_70, coax_strip(4.25, 5.0, 7.7), COMMON_STRIP_SPREAD)
    assert not isinstance(found, Reason)
    return found


def _by_hand() -> float:
    soldered = next(entry for entry in set_up_entries() if entry.code == "T-12")
    return float(soldered.numbers.cores_bared_tolerance_mm or 0)


_REACHED = "chance that a layer off the axis reaches the blade"
_BY_INTEGRAL = "the integral over Rayleigh and normal, apart from this code in 30 digits"
_CASES = (
    ("0.20", "0.020", "0.022"),
    ("0.10", "0.020", "0.022"),
    ("0.05", "0.040", "0.005"),
    ("-0.02", "0.030", "0.017"),
    ("0.30", "0.010", "0.030"),
)
_NOISE = "29 CFR 1910.95, table G-16"

CHECKS = (
    *(
        _row(
            f"reach.{'.'.join(part.replace('0.', '') for part in case)}",
            f"{_REACHED}: gap {case[0]}, spread {case[1]}, offset {case[2]} mm",
            _BY_INTEGRAL,
            Basis.COMPUTED,
            _integrated(*case),
            "1",
            _NUMERIC,
            partial(_closed, *case),
        )
        for case in _CASES
    ),
    _row(
        "offset",
        "offset of a core in a wall of 1.8 mm whose thinnest is 0.8 of its thickest",
        "geometry: (1.8 − e)/(1.8 + e) = 0.8",
        Basis.COMPUTED,
        0.2,
        "mm",
        absolute(1e-9, because="arithmetic of the machine"),
        lambda: 1e3 * offset_limit_m(wall_m=1.8e-3, concentricity_ratio=0.8),
    ),
    *(
        _row(
            f"blade.{name}",
            f"where the blade closes on the 7 mm coax, {what}",
            f"{_PRACTICE}: {rule}",
            Basis.MEMORY,
            expected,
            "mm",
            absolute(0.0005, because="three decimals are given"),
            partial(lambda at, side: float(getattr(_blades()[at], side)), at, side),
        )
        for name, what, rule, expected, at, side in (
            (
                "conductor.low",
                "over the conductor, least",
                "d + 2 × 0.05",
                1.124,
                0,
                "closes_low_mm",
            ),
            (
                "conductor.high",
                "over the conductor, most",
                "d + 2 × 0.10",
                1.224,
                0,
                "closes_high_mm",
            ),
            ("foil.low", "through the foil, least", "D + 2 × 0", 4.570, 1, "closes_low_mm"),
            ("foil.high", "through the foil, most", "D + 2 × 0.02", 4.610, 1, "closes_high_mm"),
            ("jacket.low", "over the braid, least", "braid + 0.1", 5.400, 2, "closes_low_mm"),
            ("jacket.high", "over the braid, most", "braid + 0.2", 5.500, 2, "closes_high_mm"),
        )
    ),
    _row(
        "tolerance.hand",
        "length tolerance of a strip made by hand, in the demo workshop's soldered ends",
        f"{_PRACTICE}: 0.5 mm",
        Basis.MEMORY,
        0.5,
        "mm",
        exact(because="one figure is given"),
        _by_hand,
    ),
    *(
        _row(
            f"noise.{level}",
            f"hours a day allowed at {level} dBA",
            _NOISE,
            basis,
            hours,
            "h",
            _PRINTED,
            partial(exposure.allowed_noise_h, float(level)),
        )
        for level, hours, basis in (
            (90, 8.0, Basis.MEMORY),
            (95, 4.0, Basis.SEEN),
            (100, 2.0, Basis.SEEN),
            (105, 1.0, Basis.SEEN),
            (110, 0.5, Basis.SEEN),
        )
    ),
    *(
        _row(
            f"noise.formula.{level}",
            f"hours a day allowed at {level} dBA by the formula, where the table rounds",
            "29 CFR 1910.95, appendix A: 8/2^((L − 90)/5), worked out apart",
            Basis.COMPUTED,
            hours,
            "h",
            absolute(0.005, because="two decimals are given"),
            partial(exposure.allowed_noise_h, float(level)),
        )
        for level, hours in ((92, 6.06), (97, 3.03), (102, 1.52))
    ),
    _row(
        "noise.mean",
        "level over 8 h that a dose of 125 % stands for",
        "29 CFR 1910.95, appendix A",
        Basis.SEEN,
        91.6097,
        "dBA",
        absolute(1e-4, because="four decimals are given"),
        lambda: exposure.mean_noise_level_db(dose_share=1.25),
    ),
    _row(
        "ultrasound.ceiling",
        "ceiling of airborne ultrasound in the third octave at 20 kHz",
        "ACGIH, threshold limit value for airborne ultrasound",
        Basis.MEMORY,
        105.0,
        "dB",
        _PRINTED,
        lambda: exposure.ULTRASOUND_CEILING_DB,
    ),
    _row(
        "fume.copper",
        "copper fume over 8 h",
        "29 CFR 1910.1000, table Z-1",
        Basis.MEMORY,
        0.1,
        "mg/m³",
        relative(1e-12, because="a change of unit"),
        lambda: 1e6 * exposure.COPPER_FUME_KG_PER_M3,
    ),
    _row(
        "fume.lead",
        "lead over 8 h",
        "29 CFR 1910.1025",
        Basis.MEMORY,
        0.05,
        "mg/m³",
        relative(1e-12, because="a change of unit"),
        lambda: 1e6 * exposure.LEAD_KG_PER_M3,
    ),
)
test_strip = reference_test(CHECKS)
