"""Coaxes from geometry against scikit-rf, an independent library for lines.

Where it is not installed each of these tests is skipped by name.
"""

import importlib.util

import numpy as np
import pytest

from reelwright.core.materials.insulation import PE
from tests.core.physics.line_world import coax

pytestmark = [
    pytest.mark.skipif(
        importlib.util.find_spec("skrf") is None, reason="scikit-rf is not installed"
    ),
    # The library's own warnings say nothing of ours.
    pytest.mark.filterwarnings("ignore"),
]
FREQUENCY = np.geomspace(1e3, 2e10, 400)


@pytest.mark.parametrize("wall_m", [25e-6, 50e-6, 150e-6, 1e-3])
def test_the_series_impedance_of_a_coax_is_the_librarys(wall_m: float) -> None:
    """R and ωL of solid copper in a tube agree to 2e-13 from 1 kHz to 20 GHz, thin walls too."""
    import skrf
    from skrf.media import Coaxial

    ours = coax(0.91e-3, 2.95e-3, wall_m=wall_m, insulation=PE).parameters(
        FREQUENCY, temperature_celsius=20.0
    )
    theirs = Coaxial(
        frequency=skrf.Frequency.from_f(FREQUENCY, unit="Hz"),
        Dint=0.91e-3,
        Dout=2.95e-3,
        epsilon_r=2.26,
        tan_delta=2.5e-4,
        sigma=58e6,
        tout=wall_m,
    )
    series = theirs.gamma * theirs.z0_characteristic
    assert np.abs(series.real / ours.resistance_ohm_per_m - 1).max() < 2e-13
    assert np.abs(series / ours.series_impedance_ohm_per_m - 1).max() < 2e-13


def test_propagation_from_four_parameters_is_the_librarys() -> None:
    """From the same R, L, G, C both make the same propagation and impedance, to 1e-14."""
    import skrf
    from skrf.media import DistributedCircuit

    ours = coax().parameters(FREQUENCY, temperature_celsius=20.0)
    theirs = DistributedCircuit(
        frequency=skrf.Frequency.from_f(FREQUENCY, unit="Hz"),
        R=ours.resistance_ohm_per_m,
        L=ours.inductance_h_per_m,
        G=ours.conductance_siemens_per_m,
        C=ours.capacitance_f_per_m,
    )
    np.testing.assert_allclose(theirs.gamma, ours.gamma, rtol=1e-14)
    np.testing.assert_allclose(theirs.z0_characteristic, ours.impedance_ohm, rtol=1e-14)
