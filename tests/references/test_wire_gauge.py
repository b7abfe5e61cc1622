"""The wire gauge and annealed copper, held against the printed tables."""

from reelwright.core.quantities.constants import (
    COPPER_RESISTIVITY_20C_OHM_M,
    COPPER_TEMPERATURE_COEFFICIENT_20C_PER_K,
    INCH_M,
)
from reelwright.core.quantities.convert import (
    awg_area_m2,
    awg_diameter_m,
    ohm_per_1000ft_to_ohm_per_m,
)
from tests.references.harness import Basis, ReferenceCheck, absolute, reference_test, relative

_TABLE = (
    "HyperPhysics, Georgia State University, table “Common wire gauges”; the figures of the NBS "
    "copper wire tables"
)
_B258 = "American wire gauge formula in an encyclopaedia article that cites ASTM B258-02"
_HOUSE = "ASTM B258 formula, worked out on paper"

_DIAMETERS_IN = {
    10: (0.10189, 1e-5),
    12: (0.0808, 1e-4),
    14: (0.06408, 1e-5),
    16: (0.05082, 1e-5),
    18: (0.0403, 1e-4),
    20: (0.03196, 1e-5),
    21: (0.02846, 1e-5),
    22: (0.02535, 1e-5),
    26: (0.01594, 1e-5),
    28: (0.01264, 1e-5),
    30: (0.01002, 1e-5),
}
_RESISTANCES_OHM_PER_1000FT = {
    10: 0.9989, 11: 1.26, 12: 1.588, 13: 2.003, 14: 2.525, 15: 3.184, 16: 4.016, 17: 5.064,
    18: 6.385, 19: 8.051, 20: 10.15, 21: 12.8, 23: 20.36, 24: 25.67, 25: 32.37, 26: 40.81,
    27: 51.47, 29: 81.83,
}  # fmt: skip
_AREAS_MM2 = {10: 5.2612, 18: 0.8230, 22: 0.3255}
_METRIC_DIAMETERS_MM = {10: 2.5882, 16: 1.2908, 18: 1.0237}


def _resistance_ohm_per_1000ft(awg: int) -> float:
    ohm_per_m = COPPER_RESISTIVITY_20C_OHM_M / awg_area_m2(awg)
    return ohm_per_m / ohm_per_1000ft_to_ohm_per_m(1.0)


CHECKS = (
    ReferenceCheck(
        id="wire.ratio",
        module="core.quantities",
        quantity="ratio of the diameters of successive gauges",
        source=_B258,
        basis=Basis.SEEN,
        expected=1.1229322,
        unit="1",
        within=relative(5e-8, because="eight digits are printed"),
        ours=lambda: awg_diameter_m(20) / awg_diameter_m(21),
    ),
    ReferenceCheck(
        id="wire.diameter.4/0",
        module="core.quantities",
        quantity="diameter of 4/0 AWG",
        source=_B258,
        basis=Basis.SEEN,
        expected=0.46,
        unit="in",
        within=relative(1e-12, because="exact in the standard; ours rounds as a float does"),
        ours=lambda: awg_diameter_m(-3) / INCH_M,
    ),
    *(
        ReferenceCheck(
            id=f"wire.diameter.{awg}",
            module="core.quantities",
            quantity=f"diameter of solid wire, {awg} AWG",
            source=_TABLE,
            basis=Basis.SEEN,
            expected=inches,
            unit="in",
            within=absolute(digit, because="one in the last digit printed: the table truncates"),
            ours=lambda awg=awg: awg_diameter_m(awg) / INCH_M,  # type: ignore[misc]
        )
        for awg, (inches, digit) in _DIAMETERS_IN.items()
    ),
    *(
        ReferenceCheck(
            id=f"wire.resistance.{awg}",
            module="core.quantities",
            quantity=f"resistance of solid annealed copper at 20 °C, {awg} AWG",
            source=_TABLE,
            basis=Basis.SEEN,
            expected=ohm,
            unit="Ω/1000 ft",
            within=relative(0.0005, because="four digits are printed"),
            ours=lambda awg=awg: _resistance_ohm_per_1000ft(awg),  # type: ignore[misc]
        )
        for awg, ohm in _RESISTANCES_OHM_PER_1000FT.items()
    ),
    *(
        ReferenceCheck(
            id=f"wire.area.{awg}",
            module="core.quantities",
            quantity=f"cross-section of solid wire, {awg} AWG",
            source=_HOUSE,
            basis=Basis.COMPUTED,
            expected=mm2,
            unit="mm²",
            within=absolute(5.1e-5, because="four decimals are given"),
            ours=lambda awg=awg: awg_area_m2(awg) * 1e6,  # type: ignore[misc]
        )
        for awg, mm2 in _AREAS_MM2.items()
    ),
    *(
        ReferenceCheck(
            id=f"wire.diameter_mm.{awg}",
            module="core.quantities",
            quantity=f"diameter of solid wire, {awg} AWG",
            source=_HOUSE,
            basis=Basis.COMPUTED,
            expected=mm,
            unit="mm",
            within=absolute(5.1e-5, because="four decimals are given"),
            ours=lambda awg=awg: awg_diameter_m(awg) * 1e3,  # type: ignore[misc]
        )
        for awg, mm in _METRIC_DIAMETERS_MM.items()
    ),
    ReferenceCheck(
        id="copper.mass_resistivity",
        module="core.quantities",
        quantity="mass resistivity of annealed copper (with 8.89 g/cm³, from memory)",
        source=(
            "Encyclopaedia article “International Annealed Copper Standard”, citing the US "
            "Department of Commerce, 1 October 1914"
        ),
        basis=Basis.SEEN,
        expected=0.15328,
        unit="Ω·g/m²",
        within=relative(1e-4, because="five digits are printed"),
        ours=lambda: COPPER_RESISTIVITY_20C_OHM_M * 8.89e6,
    ),
    ReferenceCheck(
        id="copper.warm",
        module="core.quantities",
        quantity="resistance of copper at 75 °C over that at 20 °C",
        source="R = R20·(1 + α·(T − 20)), IEC 60028, worked out on paper",
        basis=Basis.COMPUTED,
        expected=1.21615,
        unit="1",
        within=absolute(5.1e-6, because="five decimals are given"),
        ours=lambda: 1 + COPPER_TEMPERATURE_COEFFICIENT_20C_PER_K * (75 - 20),
    ),
)
test_wire_gauge = reference_test(CHECKS)
