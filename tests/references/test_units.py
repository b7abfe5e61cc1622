"""Units, constants and the lengths of worked problems, held against what is printed elsewhere."""

from reelwright.core.quantities import constants, convert
from reelwright.core.quantities.force_text import read_force
from reelwright.core.quantities.length_text import LengthContext, read_length
from reelwright.core.quantities.scaled_text import read_loss_per_length, read_temperature
from tests.references.harness import (
    Basis,
    ReferenceCheck,
    absolute,
    exact,
    reference_test,
    relative,
)


def _length_mm(typed: str) -> float:
    length_m = read_length(typed, context=LengthContext()).length_m
    assert length_m is not None
    return length_m * 1000


def _loss_db_per_100m(typed: str) -> float:
    loss_db_per_m = read_loss_per_length(typed).value
    assert loss_db_per_m is not None
    return loss_db_per_m * 100


def _force_n(typed: str) -> float:
    force_n = read_force(typed).value
    assert force_n is not None
    return force_n


def _temperature_celsius(typed: str) -> float:
    temperature_celsius = read_temperature(typed).value
    assert temperature_celsius is not None
    return temperature_celsius


CHECKS = (
    ReferenceCheck(
        id="units.feet.33_4",
        module="core.quantities",
        quantity="33 ft 4 in in millimetres",
        source="worked problem “setting the measuring wheel” of the trade",
        basis=Basis.COMPUTED,
        expected=10160.0,
        unit="mm",
        within=exact(because="the foot is exact"),
        ours=lambda: _length_mm("33 ft 4 in"),
    ),
    ReferenceCheck(
        id="units.pound_force.read",
        module="core.quantities",
        quantity="“1 lbf” as typed, in N",
        source="NIST SP 811, appendix B.8: 1 lbf = 4.448222 N",
        basis=Basis.MEMORY,
        expected=4.448222,
        unit="N",
        within=absolute(5.1e-7, because="seven digits are printed"),
        ours=lambda: _force_n("1 lbf"),
    ),
    ReferenceCheck(
        id="units.kilogram_force.read",
        module="core.quantities",
        quantity="“1 kgf” as typed, in N",
        source="NIST SP 811, appendix B.8: 1 kgf = 9.80665 N",
        basis=Basis.MEMORY,
        expected=9.80665,
        unit="N",
        within=exact(because="standard gravity is exact"),
        ours=lambda: _force_n("1 kgf"),
    ),
    ReferenceCheck(
        id="units.db_per_foot",
        module="core.quantities",
        quantity="1 dB/100 ft in dB/100 m",
        source="NIST SP 811, appendix B.8: 1 m = 3.280840 ft",
        basis=Basis.MEMORY,
        expected=3.280840,
        unit="dB/100 m",
        within=absolute(5.1e-7, because="seven digits are printed"),
        ours=lambda: convert.db_per_100ft_to_db_per_m(1.0) * 100,
    ),
    ReferenceCheck(
        id="units.db_per_foot.read",
        module="core.quantities",
        quantity="“1 dB/100 ft” as typed, in dB/100 m",
        source="NIST SP 811, appendix B.8: 1 m = 3.280840 ft",
        basis=Basis.MEMORY,
        expected=3.280840,
        unit="dB/100 m",
        within=absolute(5.1e-7, because="seven digits are printed"),
        ours=lambda: _loss_db_per_100m("1 dB/100 ft"),
    ),
    ReferenceCheck(
        id="units.yard",
        module="core.quantities",
        quantity="one yard in millimetres",
        source="International yard and pound agreement, 1 July 1959",
        basis=Basis.MEMORY,
        expected=914.4,
        unit="mm",
        within=exact(because="exact by agreement"),
        ours=lambda: _length_mm("1 yd"),
    ),
    ReferenceCheck(
        id="units.fahrenheit",
        module="core.quantities",
        quantity="212 °F in °C",
        source="definition of the two scales: water boils at 212 °F and 100 °C",
        basis=Basis.MEMORY,
        expected=100.0,
        unit="°C",
        within=exact(because="exact by definition"),
        ours=lambda: _temperature_celsius("212 °F"),
    ),
    *(
        ReferenceCheck(
            id=f"constants.{name}",
            module="core.quantities",
            quantity=quantity,
            source="CODATA 2022 as tabulated by scipy 1.17, scipy.constants.physical_constants",
            basis=Basis.SEEN,
            expected=expected,
            unit=unit,
            within=exact(because="the same recommended value"),
            ours=lambda value=constant.value: value,  # type: ignore[misc]
        )
        for name, quantity, expected, unit, constant in (
            ("light", "speed of light", 299792458.0, "m/s", constants.SPEED_OF_LIGHT),
            ("mu0", "μ0", 1.25663706127e-06, "H/m", constants.VACUUM_PERMEABILITY),
            ("eps0", "ε0", 8.8541878188e-12, "F/m", constants.VACUUM_PERMITTIVITY),
        )
    ),
    ReferenceCheck(
        id="constants.vacuum_impedance",
        module="core.quantities",
        quantity="μ0·c, the impedance of the vacuum",
        source="CODATA 2022 as tabulated by scipy 1.17, characteristic impedance of vacuum",
        basis=Basis.SEEN,
        expected=376.730313412,
        unit="Ω",
        within=relative(3.2e-10, because="two standard uncertainties of the source"),
        ours=lambda: constants.VACUUM_PERMEABILITY_H_PER_M * constants.SPEED_OF_LIGHT_M_PER_S,
    ),
    ReferenceCheck(
        id="constants.copper_conductivity",
        module="core.quantities",
        quantity="conductivity of annealed copper, 100 % IACS",
        source="IEC 60028: 58 MS/m",
        basis=Basis.MEMORY,
        expected=58.0,
        unit="MS/m",
        within=relative(1e-14, because="exact by agreement; ours rounds as a float does"),
        ours=lambda: 1e-6 / constants.COPPER_RESISTIVITY_20C_OHM_M,
    ),
)
test_units = reference_test(CHECKS)
