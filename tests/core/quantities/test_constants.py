"""Constants need a source; conversions agree with each other; the gauge formula has its range."""

import pytest

from reelwright.core.errors import BadValue
from reelwright.core.quantities import constants, convert
from reelwright.core.quantities.constants import Constant
from reelwright.core.quantities.measured import Measured


def test_a_constant_without_a_source_cannot_exist() -> None:
    """No source, an empty source and a value that is no number are all refused."""
    good = {"value": 1.0, "unit": "m", "standard_uncertainty": None, "source": "a book, page 1"}
    assert Constant(**good).value == 1.0  # type: ignore[arg-type]
    for field, bad in (("source", " "), ("unit", ""), ("value", float("nan"))):
        with pytest.raises(BadValue) as refusal:
            Constant(**{**good, field: bad})  # type: ignore[arg-type]
        assert refusal.value.field == field
    del good["source"]
    with pytest.raises(TypeError):
        Constant(**good)  # type: ignore[arg-type]


def test_light_and_the_two_constants_of_the_vacuum_agree() -> None:
    """1/√(μ0·ε0) is the speed of light within the uncertainty of the two."""
    product = constants.VACUUM_PERMEABILITY_H_PER_M * constants.VACUUM_PERMITTIVITY_F_PER_M
    assert product**-0.5 == pytest.approx(constants.SPEED_OF_LIGHT_M_PER_S, rel=3e-10)


def test_the_table_of_lengths_agrees_with_the_constants() -> None:
    """Foot, inch and yard are the same number in both places, to the last digit."""
    assert float(convert.LENGTH_IN_M["ft"]) == constants.FOOT_M
    assert float(convert.LENGTH_IN_M["in"]) == constants.INCH_M
    assert float(convert.LENGTH_IN_M["yd"]) == constants.YARD_M


@pytest.mark.parametrize("awg", [-4, 57, 14.0, True])
def test_no_such_gauge(awg: int) -> None:
    """Gauges outside 4/0 to 56, and gauges that are not whole, are refused."""
    with pytest.raises(BadValue):
        convert.awg_diameter_m(awg)


def test_a_wire_thins_with_its_number() -> None:
    """Six gauges up halves the diameter to within 1 %, ten divide the area by ten within 3 %."""
    half = convert.awg_diameter_m(20) / convert.awg_diameter_m(14)
    tenth = convert.awg_area_m2(24) / convert.awg_area_m2(14)
    assert half == pytest.approx(0.5, rel=0.01)
    assert tenth == pytest.approx(0.1, rel=0.03)


def test_a_measured_value_refuses_a_negative_spread() -> None:
    """A spread below zero cannot be built; an unknown one can."""
    assert Measured(value=1.0, standard_uncertainty=None, unit="dB").standard_uncertainty is None
    with pytest.raises(BadValue):
        Measured(value=1.0, standard_uncertainty=-0.1, unit="dB")
