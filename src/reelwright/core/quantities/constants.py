"""Constants of nature and of agreement. None can be built without the source it was taken from."""

from dataclasses import dataclass

from reelwright.core.quantities.guard import require_finite, require_given, require_text


@dataclass(frozen=True, kw_only=True)
class Constant:
    """A value in ``unit`` with its standard uncertainty.

    ``standard_uncertainty`` is in ``unit``; zero where exact, ``None`` where the source gives none.
    Raises BadValue without a source or a unit, or where value or uncertainty is no finite number.
    """

    value: float
    unit: str
    standard_uncertainty: float | None
    source: str

    def __post_init__(self) -> None:
        require_finite(self, "value")
        require_text(self, "unit", "source")
        require_given(self, "standard_uncertainty", positive=False)


SPEED_OF_LIGHT = Constant(
    value=299_792_458.0,
    unit="m/s",
    standard_uncertainty=0.0,
    source="SI Brochure, 9th edition (BIPM 2019), section 2.2: exact by definition of the metre",
)
VACUUM_PERMEABILITY = Constant(
    value=1.256_637_061_27e-6,
    unit="H/m",
    standard_uncertainty=0.000_000_000_20e-6,
    source="CODATA 2022 recommended values, vacuum magnetic permeability",
)
VACUUM_PERMITTIVITY = Constant(
    value=8.854_187_8188e-12,
    unit="F/m",
    standard_uncertainty=0.000_000_0014e-12,
    source="CODATA 2022 recommended values, vacuum electric permittivity",
)
FOOT = Constant(
    value=0.3048,
    unit="m",
    standard_uncertainty=0.0,
    source="International agreement of 1 July 1959: 1 yd = 0.9144 m exactly (from memory)",
)
INCH = Constant(
    value=0.0254,
    unit="m",
    standard_uncertainty=0.0,
    source="International agreement of 1 July 1959: 1 yd = 36 in = 0.9144 m (from memory)",
)
YARD = Constant(
    value=0.9144,
    unit="m",
    standard_uncertainty=0.0,
    source="International agreement of 1 July 1959: 1 yd = 0.9144 m exactly (from memory)",
)
COPPER_RESISTIVITY_20C = Constant(
    value=1e-6 / 58,
    unit="Ω·m",
    standard_uncertainty=0.0,
    source="IEC 60028: annealed copper, 1/58 Ω·mm²/m at 20 °C by agreement (from memory)",
)
COPPER_TEMPERATURE_COEFFICIENT_20C = Constant(
    value=0.00393,
    unit="1/K",
    standard_uncertainty=None,
    source="IEC 60028: temperature coefficient of annealed copper at 20 °C (from memory)",
)

SPEED_OF_LIGHT_M_PER_S = SPEED_OF_LIGHT.value
VACUUM_PERMEABILITY_H_PER_M = VACUUM_PERMEABILITY.value
VACUUM_PERMITTIVITY_F_PER_M = VACUUM_PERMITTIVITY.value
FOOT_M = FOOT.value
INCH_M = INCH.value
YARD_M = YARD.value
COPPER_RESISTIVITY_20C_OHM_M = COPPER_RESISTIVITY_20C.value
COPPER_TEMPERATURE_COEFFICIENT_20C_PER_K = COPPER_TEMPERATURE_COEFFICIENT_20C.value
