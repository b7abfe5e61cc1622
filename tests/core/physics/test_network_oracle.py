"""Lines, rows of them and traces against scikit-rf, an independent library for networks.

Where it is not installed each of these tests is skipped by name.
"""

import importlib.util
from typing import Any

import numpy as np
import pytest

from reelwright.core.physics.joint import LumpedJoint
from reelwright.core.physics.layers import layered_line
from reelwright.core.physics.reflectometer import trace
from reelwright.core.physics.sections import sectioned_line
from reelwright.core.physics.step import TimeGrid, gaussian_edge
from reelwright.core.physics.two_port import TwoPort, cascade, line
from tests.core.physics.network_world import small_coax

pytestmark = [
    pytest.mark.skipif(
        importlib.util.find_spec("skrf") is None, reason="scikit-rf is not installed"
    ),
    # The library's own warnings say nothing of ours.
    pytest.mark.filterwarnings("ignore"),
]
REFERENCE = 75.0


def _network(frequency: np.ndarray, ratio: float, length_m: float) -> Any:
    import skrf
    from skrf.media import DefinedGammaZ0

    parameters = small_coax(frequency, ratio=ratio)
    medium = DefinedGammaZ0(
        frequency=skrf.Frequency.from_f(frequency, unit="Hz"),
        gamma=parameters.gamma,
        z0=parameters.impedance_ohm,
        z0_port=REFERENCE,
    )
    network = medium.line(length_m, unit="m")
    # Ports on the reference, as ours are.
    if not np.allclose(network.z0, REFERENCE):
        network.renormalize(REFERENCE)
    return network


def _away(ours: TwoPort, theirs: Any) -> float:
    scattering = theirs.s
    pairs = (
        (ours.s11, scattering[:, 0, 0]),
        (ours.s21, scattering[:, 1, 0]),
        (ours.s21, scattering[:, 0, 1]),
        (ours.s22, scattering[:, 1, 1]),
    )
    return max(float(np.abs(mine - other).max()) for mine, other in pairs)


@pytest.mark.parametrize("length_m", [0.01, 1.0, 100.0])
@pytest.mark.parametrize("ratio", [0.5, 1.0, 1.3])
def test_a_line_is_what_the_library_says(length_m: float, ratio: float) -> None:
    """All four parameters of a length of coax agree to 1e-12."""
    frequency = np.linspace(1e6, 3e9, 301)
    ours = line(
        parameters=small_coax(frequency, ratio=ratio), length_m=length_m, reference_ohm=REFERENCE
    )
    assert _away(ours, _network(frequency, ratio, length_m)) < 1e-12


def test_a_row_with_joints_is_what_the_library_says() -> None:
    """Joint, cable, worse cable and joint in a row agree to 1e-12."""
    import skrf
    from skrf.media import DefinedGammaZ0

    frequency = np.linspace(1e6, 3e9, 301)
    joint = LumpedJoint(contact_ohm=0.02, inductance_h=0.4e-9, capacitance_f=0.3e-12).two_port(
        frequency_hz=frequency, reference_ohm=REFERENCE
    )
    ours = cascade(
        joint,
        line(parameters=small_coax(frequency), length_m=12.0, reference_ohm=REFERENCE),
        line(parameters=small_coax(frequency, ratio=1.2), length_m=3.0, reference_ohm=REFERENCE),
        joint,
    )
    flat = DefinedGammaZ0(
        frequency=skrf.Frequency.from_f(frequency, unit="Hz"), gamma=1j, z0=REFERENCE
    )
    half = flat.resistor(0.01) ** flat.inductor(0.2e-9)
    theirs = (
        half
        ** flat.shunt_capacitor(0.3e-12)
        ** half
        ** _network(frequency, 1.0, 12.0)
        ** _network(frequency, 1.2, 3.0)
        ** half
        ** flat.shunt_capacitor(0.3e-12)
        ** half
    )
    assert _away(ours, theirs) < 1e-12


def test_random_sections_are_what_the_library_says() -> None:
    """Sixty random sections agree to 1e-12 between our two ways, to 1e-11 with the library."""
    frequency = np.linspace(1e6, 3e9, 201)
    ratio = 1 + 0.05 * np.random.default_rng(4).standard_normal(60)
    parameters = small_coax(frequency)
    theirs = _network(frequency, ratio[0], 0.05)
    for each in ratio[1:]:
        theirs = theirs ** _network(frequency, each, 0.05)
    layers = layered_line(
        parameters=parameters, section_m=0.05, relative_impedance_ratio=ratio,
        reference_ohm=REFERENCE,
    )  # fmt: skip
    sections = sectioned_line(
        frequency_hz=frequency,
        gamma=parameters.gamma,
        impedance_ohm=parameters.impedance_ohm * ratio[:, None],
        length_m=np.full(60, 0.05),
        reference_ohm=REFERENCE,
    )
    assert np.abs(layers.s11 - sections.s11).max() < 1e-12
    assert np.abs(layers.s21 - sections.s21).max() < 1e-12
    # The library puts each section on the reference by itself, and rounds sixty times.
    assert _away(layers, theirs) < 1e-11


def test_a_trace_of_a_mismatched_line_is_what_the_library_shows() -> None:
    """The trace of 5 m of 60 Ω cable agrees to 5e-6 at the very times of the library."""
    import skrf

    # It transforms one window, in which the slow tail is folded: so it gets a long one; and it sums
    # its pulse by trapezoids, off by (step/rise)²/2 of a step: so it gets a slow edge.
    frequency = 1e5 * np.arange(80_001)
    rise = 4e-9
    scattering = _network(np.maximum(frequency, 1.0), 0.8, 5.0).s
    scattering[0] = scattering[0].real
    shaped = skrf.Network(
        frequency=skrf.Frequency.from_f(frequency, unit="Hz"),
        s=scattering * gaussian_edge(frequency, rise_s=rise)[:, None, None],
        z0=REFERENCE,
    )
    time_s, theirs = shaped.s11.step_response(window="boxcar", pad=0)
    first = int(np.searchsorted(time_s, -50e-9))
    ours = trace(
        lambda asked_hz: (
            line(
                parameters=small_coax(asked_hz, ratio=0.8), length_m=5.0, reference_ohm=REFERENCE
            ).s11
        ),
        at_rest_reflection=0.2 / 150.2,
        rise_s=rise,
        grid=TimeGrid(start_s=time_s[first], step_s=time_s[1] - time_s[0], sample_count=2048),
        reference_ohm=REFERENCE,
    )
    shown = theirs[first : first + 2048]
    assert np.abs(shown - ours.seen_reflection).max() < 5e-6
    assert np.ptp(shown) > 0.1
