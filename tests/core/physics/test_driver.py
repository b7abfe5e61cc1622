"""A loudspeaker's impedance and what a cable does to its response; the pair that feeds it."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.materials.insulation import PVC
from reelwright.core.materials.metals import COPPER
from reelwright.core.parts.cable import Cable, LotMeasure
from reelwright.core.parts.layers import LayerRole
from reelwright.core.physics.conductor import solid_wire
from reelwright.core.physics.driver import Driver, audio_frequencies_hz, response_error_db
from reelwright.core.physics.loudspeaker import level_loss_db
from reelwright.core.physics.loudspeaker_pair import loudspeaker_pair, loudspeaker_pair_ohm_per_m
from reelwright.core.physics.pair_line import PairGeometry
from reelwright.demo.other_cables import other_entries
from tests import signal_world as world

WOOFER = Driver(
    coil_ohm=6.0, coil_henry=0.5e-3, resonance_hz=60.0, mechanical_q=5.0, electrical_q=0.5
)
DEMO = {entry.cable.code: entry.cable for entry in other_entries()}
SPK_14 = DEMO["SPK-14"]


def test_the_impedance_at_its_marks() -> None:
    """Re(1 + Qms/Qes) at resonance, Re far below it, jωLe far above."""
    assert complex(WOOFER.impedance_ohm(60.0)) == pytest.approx(66.0 + 2j * np.pi * 60 * 0.5e-3)
    assert abs(complex(WOOFER.impedance_ohm(0.01))) == pytest.approx(6.0, rel=1e-3)
    high = complex(WOOFER.impedance_ohm(1e6))
    assert high == pytest.approx(6.0 + 2j * np.pi * 1e6 * 0.5e-3, rel=1e-3)


def test_a_cable_of_2_5_mm_changes_the_response_by_0_18_db() -> None:
    """10 m of 2 × 2.5 mm² at 3.2 mm take 0.198 dB at the most and 0.018 dB at the least."""
    # Worked out apart from this code in high precision.
    pair = PairGeometry(
        conductor=solid_wire(COPPER, diameter_m=math.sqrt(2.5e-6 * 4 / math.pi)),
        conductors=2,
        spacing_m=3.2e-3,
        insulation=PVC,
        field_fraction=0.6,
        twists_per_m=0.0,
        screen=None,
    )
    frequency = audio_frequencies_hz()
    series = pair.parameters(frequency, temperature_celsius=20.0).series_impedance_ohm_per_m
    error = response_error_db(cable_ohm=10 * series, load_ohm=WOOFER.impedance_ohm(frequency))
    assert error.min() == pytest.approx(-0.198, abs=0.0005)
    assert error.max() == pytest.approx(-0.018, abs=0.0005)
    assert np.ptp(error) == pytest.approx(0.180, abs=0.0005)


@given(
    loop_ohm=st.floats(min_value=0.001, max_value=2.0),
    load_ohm=st.floats(min_value=2, max_value=16),
)
def test_into_a_resistor_the_error_is_the_level_lost(loop_ohm: float, load_ohm: float) -> None:
    """Without reactances the exact response and the nominal level are one."""
    error = response_error_db(cable_ohm=loop_ohm, load_ohm=load_ohm)
    assert float(error) == pytest.approx(
        -float(level_loss_db(loop_ohm=loop_ohm, nominal_ohm=load_ohm))
    )


@given(factor=st.floats(min_value=0.1, max_value=10))
def test_a_scaled_driver_has_its_impedances_in_proportion(factor: float) -> None:
    """Twice the ohms everywhere, the same curve: so its lowest scales as well."""
    frequency = audio_frequencies_hz()
    np.testing.assert_allclose(
        WOOFER.scaled(factor).impedance_ohm(frequency), factor * WOOFER.impedance_ohm(frequency)
    )
    assert WOOFER.scaled(factor).lowest_ohm == pytest.approx(factor * WOOFER.lowest_ohm)


def test_the_pair_of_a_sheet_has_its_stated_resistance() -> None:
    """At 20 Hz the loop is twice the conductor stated; at 20 kHz skin and neighbour raise it."""
    for cable in DEMO.values():
        series = loudspeaker_pair_ohm_per_m(cable, None, 20.0)
        if series is None:
            assert not cable.code.startswith("SPK")
            continue
        stated = 2 * (cable.sheet.resistance_conductor_ohm_per_m or 0.0)
        assert series[0].real == pytest.approx(stated, rel=1e-5)
        assert (np.diff(series.real) > 0).all()
        assert (np.diff(series.imag / audio_frequencies_hz()) < 0).all()


def test_thicker_conductors_feel_the_top_of_the_band_more() -> None:
    """Of the demo's pairs the thickest gains most resistance up to 20 kHz."""
    gains = []
    for code in ("SPK-16", "SPK-14", "SPK-12", "SPK-10"):
        series = loudspeaker_pair_ohm_per_m(DEMO[code], None, 20.0)
        assert series is not None
        gains.append(series[-1].real / series[0].real)
    assert gains == sorted(gains)
    assert 1.05 < gains[0] < gains[-1] < 3


def test_the_lot_and_the_heat_are_in_the_pair() -> None:
    """A lot of 10 % more resistance has it, and copper at 40 °C has 7.9 % more."""
    lot = dataclasses.replace(
        world.lot(SPK_14, 0.6),
        resistance_conductor_ohm_per_m=LotMeasure(value=8.286e-3 * 1.1, relative_uncertainty=0.005),
    )
    cold, measured, warm = (
        loudspeaker_pair_ohm_per_m(SPK_14, *of) for of in ((None, 20.0), (lot, 20.0), (None, 40.0))
    )
    assert cold is not None
    assert measured is not None
    assert warm is not None
    assert measured[0].real == pytest.approx(1.1 * cold[0].real, rel=1e-5)
    assert warm[0].real == pytest.approx(1.0786 * cold[0].real, rel=1e-5)


def _with_layers(cable: Cable, **outside_m: float) -> Cable:
    return dataclasses.replace(
        cable,
        layers=tuple(
            dataclasses.replace(
                layer, outside_diameter_m=outside_m.get(layer.role, layer.outside_diameter_m)
            )
            for layer in cable.layers
        ),
    )


def test_a_sheet_that_states_too_little_or_nonsense_gives_no_pair() -> None:
    """Without a core, with wires that touch, with a bundle too thin for its ohms, or no pair."""
    bare = dataclasses.replace(
        SPK_14, layers=tuple(one for one in SPK_14.layers if one.role is not LayerRole.CORE)
    )
    touching = _with_layers(SPK_14, core=1.9e-3)
    thin = _with_layers(SPK_14, conductor=1.0e-3)
    for cable in (bare, touching, thin, DEMO["AUD-BP"], world.SPK_14):
        assert loudspeaker_pair(cable, None) is None
    assert loudspeaker_pair_ohm_per_m(SPK_14, None, 130.0) is None


def test_nonsense_is_refused() -> None:
    """No driver without a coil, no frequency of zero, no load of zero."""
    with pytest.raises(BadValue, match="coil_ohm"):
        dataclasses.replace(WOOFER, coil_ohm=0.0)
    with pytest.raises(BadValue):
        WOOFER.impedance_ohm([0.0, 20.0])
    with pytest.raises(BadValue):
        response_error_db(cable_ohm=0.1, load_ohm=0.0)
