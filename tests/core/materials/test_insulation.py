"""Clad and plated wire, foams by mixing, and dielectrics that answer only when asked."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.materials.causal import CausalDielectric
from reelwright.core.materials.clad_wire import (
    CLAD_ALUMINIUM_10,
    CLAD_GRADES,
    CLAD_STEEL_21,
    SILVER_PLATED,
    TINNED,
    CladGrade,
    grade_of_conductivity,
)
from reelwright.core.materials.insulation import (
    FOAM_PE,
    INSULATIONS,
    PE,
    PVC,
    foam_of,
    gas_fraction,
    mixed_permittivity,
)
from reelwright.core.materials.metals import COPPER, METALS, STEEL, Metal
from reelwright.core.verdicts import Source


def test_nothing_stands_without_its_source() -> None:
    """Every metal, grade, coat and insulation names where its numbers come from."""
    rows = (*METALS, *CLAD_GRADES, TINNED, SILVER_PLATED, *INSULATIONS)
    assert all(row.source.text.strip() for row in rows)
    with pytest.raises(BadValue, match="text"):
        Source(text=" ", basis=COPPER.source.basis)


def test_foam_of_polyethylene_is_as_worked_out_apart() -> None:
    """Taken to permittivity 1.45 there are 57.8 % of gas and 0.4895 of the solid's loss tangent."""
    assert 1 - gas_fraction(solid_permittivity=2.26, foam_permittivity=1.45) == pytest.approx(
        0.4222, abs=5e-5
    )
    assert FOAM_PE.loss_tangent / PE.loss_tangent == pytest.approx(0.4895, abs=5e-5)
    assert FOAM_PE.dielectric.velocity_factor == pytest.approx(0.8305, abs=5e-5)


@given(gas=st.floats(0, 0.9))
def test_a_foam_lies_between_gas_and_solid(gas: float) -> None:
    """Mixing never leaves the range between 1 and the solid, and never adds loss."""
    mixed = mixed_permittivity(solid_permittivity=2.26 * (1 - 2.5e-4j), gas_fraction=gas)
    assert 1 <= mixed.real <= 2.26 + 1e-12
    assert 0 <= -mixed.imag / mixed.real <= 2.5e-4 + 1e-12


def test_polyethylene_gets_thinner_and_faster_when_warm() -> None:
    """Permittivity falls by about 0.05 % a kelvin, as the density does."""
    fall = PE.permittivity_at(21.0) / PE.permittivity_at(20.0) - 1
    assert PE.permittivity_at(20.0) == pytest.approx(2.26)
    assert fall == pytest.approx(-4.75e-4, rel=0.02)


def test_an_unknown_law_is_said_to_be_unknown() -> None:
    """Polar PVC has no temperature law here, and a temperature outside the law is refused."""
    assert PVC.permittivity_at(20.0) == pytest.approx(3.5)
    with pytest.raises(BadValue, match="no law is known"):
        PVC.permittivity_at(35.0)
    with pytest.raises(BadValue, match="temperature_celsius"):
        PE.permittivity_at(200.0)


@given(
    permittivity=st.floats(1.3, 4.0),
    tangent=st.floats(1e-5, 2e-3),
    reference=st.floats(1e6, 1e10),
)
def test_a_causal_dielectric_goes_through_its_stated_value(
    permittivity: float, tangent: float, reference: float
) -> None:
    """At the reference frequency permittivity and loss tangent are those stated."""
    law = CausalDielectric(
        relative_permittivity=permittivity, loss_tangent=tangent, reference_hz=reference
    )
    at = complex(law.permittivity(reference))
    assert at.real == pytest.approx(permittivity, rel=1e-12)
    assert -at.imag / at.real == pytest.approx(tangent, rel=1e-9)


def test_permittivity_and_loss_belong_together() -> None:
    """The real part follows from the loss by the integral of Kramers and Kronig."""
    law = CausalDielectric(relative_permittivity=2.26, loss_tangent=0.02, reference_hz=1e9)
    # ε′(f) − ε∞ = 2/π ∫ x·ε″/(x² − f²) dx; over ln x, the pole straddled evenly.
    step = 0.01
    ratio = np.exp((np.arange(-6000, 6000) + 0.5) * step)
    for frequency in (1e6, 1e9):
        loss = -law.permittivity(frequency * ratio).imag
        found = 2 / np.pi * np.sum(ratio**2 * loss / (ratio**2 - 1)) * step
        stated = float(law.permittivity(frequency).real) - law.high_frequency_permittivity
        assert found == pytest.approx(stated, rel=1e-4)


def test_loss_does_not_arrive_before_the_signal() -> None:
    """Through 10 m at a loss tangent of 0.02 a constant tangent has energy before the delay of
    the highest frequencies, and the causal law has none but rounding.
    """
    count, step = 2**15, 20e9 / 2**14
    frequency = np.arange(1, count // 2 + 1) * step
    causal = CausalDielectric(relative_permittivity=2.26, loss_tangent=0.02, reference_hz=1e9)
    constant = np.full(frequency.shape, 2.26 * (1 - 0.02j))
    early = []
    for permittivity, fastest in (
        (causal.permittivity(frequency), float(causal.permittivity(1e12).real)),
        (constant, 2.26),
    ):
        slow = 1j * 2 * np.pi * frequency / 299_792_458.0 * 10.0
        # A smooth pulse; the delay of the fastest part is taken out.
        through = np.exp(-slow * (np.sqrt(permittivity) - np.sqrt(fastest)))
        shape = np.exp(-((frequency / 3e9) ** 2))
        pulse = np.fft.irfft(np.concatenate([[1.0], through * shape]), count)
        ahead = pulse[-count // 4 :]
        width = int(1.0e-9 * count * step)
        early.append(float((ahead[: -width // 2] ** 2).sum() / (pulse**2).sum()))
    assert early[0] < 1e-9
    assert early[1] > 1e3 * early[0]


def test_a_dielectric_too_lossy_for_its_permittivity_is_refused() -> None:
    """A loss that would leave less than vacuum at the highest frequencies is refused."""
    with pytest.raises(BadValue, match="loss_tangent"):
        CausalDielectric(relative_permittivity=1.5, loss_tangent=0.2, reference_hz=1e6)


def test_clad_wire_conducts_by_its_copper() -> None:
    """The 21 % grade has cladding of 3.7 % of the diameter; 10 % by volume is 2.6 %."""
    assert CLAD_STEEL_21.cladding_thickness_m(1.024e-3) == pytest.approx(37.7e-6, rel=0.002)
    assert CLAD_ALUMINIUM_10.cladding_thickness_m(1.0) == pytest.approx(0.02566, rel=0.001)


def test_an_impossible_grade_is_refused() -> None:
    """A grade poorer than its core, better than its cladding or all cladding is refused."""
    for share in (0.05, 1.2):
        with pytest.raises(BadValue, match="copper_share"):
            grade_of_conductivity(
                name="x", core=STEEL, cladding=COPPER, copper_share=share, source=COPPER.source
            )
    with pytest.raises(BadValue, match="cladding_fraction"):
        CladGrade(
            name="x", core=STEEL, cladding=COPPER, cladding_fraction=1.0, source=COPPER.source
        )


def test_a_metal_out_of_its_own_band_or_temperature_is_refused() -> None:
    """A permeability outside its band and 400 °C are refused by their fields."""
    row = {**vars(STEEL), "relative_permeability": 900.0}
    with pytest.raises(BadValue, match="relative_permeability"):
        Metal(**row)
    with pytest.raises(BadValue, match="temperature_celsius"):
        COPPER.resistivity_at_ohm_m(400.0)


def test_a_foam_heavier_than_its_solid_is_refused() -> None:
    """No gas raises the permittivity of a solid."""
    with pytest.raises(BadValue, match="foam_permittivity"):
        foam_of(PE, name="x", relative_permittivity=2.3)
    with pytest.raises(BadValue, match="gas_fraction"):
        mixed_permittivity(solid_permittivity=2.26, gas_fraction=1.0)
