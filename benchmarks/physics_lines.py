"""Lines from geometry beside the plain way, scipy's Bessel functions at every point.

Part (a) of the measurements of physics: R, L, G, C and loss of 200 cables × 2,000 frequencies, one
coax at 10,000 frequencies, and a pair with exact proximity. Everything runs in this one process,
each way several times in turn; the shortest counts, in processor time.
"""

import importlib.util
import time
import tracemalloc
from collections.abc import Callable
from typing import Any

import numpy as np

from benchmarks.table import Table
from reelwright.core.materials.clad_wire import CLAD_STEEL_21
from reelwright.core.materials.insulation import FOAM_PE, PVC
from reelwright.core.materials.metals import COPPER
from reelwright.core.physics.coax_line import CoaxGeometry, coax_parameters
from reelwright.core.physics.conductor import clad_wire, rod_of, solid_wire
from reelwright.core.physics.line_parameters import LineParameters
from reelwright.core.physics.pair_line import PairGeometry
from reelwright.core.physics.ring_field import ring_field
from reelwright.core.physics.screen import SMOOTH, solid_screen
from reelwright.core.quantities.constants import VACUUM_PERMEABILITY_H_PER_M

CELSIUS = 20.0


def catalogue(count: int) -> tuple[CoaxGeometry, ...]:
    """Coaxes of rising size, every second with a centre of copper on steel."""
    coaxes = []
    for place, size in enumerate(np.linspace(0.4e-3, 2e-3, count)):
        diameter = float(size)
        centre = (
            clad_wire(CLAD_STEEL_21, diameter_m=diameter)
            if place % 2
            else solid_wire(COPPER, diameter_m=diameter)
        )
        screen = solid_screen(
            COPPER,
            inside_diameter_m=4.5 * diameter,
            wall_m=50e-6,
            loss_factor=1.0,
            factor_origin=SMOOTH,
        )
        coaxes.append(CoaxGeometry(conductor=centre, insulation=FOAM_PE, screen=screen))
    return tuple(coaxes)


def _plain(coax: CoaxGeometry, frequency: np.ndarray) -> np.ndarray:
    """Series impedance of one coax as the textbook writes it, Bessel functions of scipy."""
    from scipy.special import ive, kve

    def wave(rho: float, permeability: float) -> np.ndarray:
        depth = np.sqrt(rho / (np.pi * frequency * VACUUM_PERMEABILITY_H_PER_M * permeability))
        return (1 + 1j) / depth

    rod = rod_of(coax.conductor, CELSIUS)
    copper = wave(rod.resistivity_ohm_m, rod.permeability)
    edge = copper * rod.radius_m
    scale = copper * rod.resistivity_ohm_m / (2 * np.pi * rod.radius_m)
    if coax.conductor.cladding is None:
        centre = scale * ive(0, edge) / ive(1, edge)
    else:
        steel = wave(rod.core_resistivity_ohm_m, rod.core_permeability)
        core = steel * rod.core_radius_m
        surface = steel * rod.core_resistivity_ohm_m / (copper * rod.resistivity_ohm_m)
        surface = surface * ive(0, core) / ive(1, core)
        inner = copper * rod.core_radius_m
        decay = np.exp(-2 * (edge - inner).real - 1j * (edge - inner).imag)
        mixed = (surface * ive(1, inner) - ive(0, inner)) * decay
        mixed = mixed / (kve(0, inner) + surface * kve(1, inner))
        centre = scale * (ive(0, edge) + mixed * kve(0, edge))
        centre = centre / (ive(1, edge) - mixed * kve(1, edge))
    outside, rho = coax.screen.tube(CELSIUS)
    metal = wave(rho, 1.0)
    near, far = metal * coax.screen.inside_radius_m, metal * outside
    left = np.exp(-2 * (far - near).real - 1j * (far - near).imag)
    under = ive(1, far) * kve(1, near) - ive(1, near) * kve(1, far) * left
    screen = metal * rho / (2 * np.pi * coax.screen.inside_radius_m)
    screen = screen * (ive(0, near) * kve(1, far) * left + kve(0, near) * ive(1, far)) / under
    outer = 1j * VACUUM_PERMEABILITY_H_PER_M * frequency * coax.ratio_log
    return centre + screen + outer


def _plain_pair(pair: PairGeometry, frequency: np.ndarray) -> np.ndarray:
    """The same harmonics, solved at every frequency."""
    rod = rod_of(pair.conductor, CELSIUS)
    ratio = rod.radius_m * np.sqrt(
        np.pi * frequency * VACUUM_PERMEABILITY_H_PER_M / rod.resistivity_ohm_m
    )
    wire = pair.conductor.internal_impedance_ohm_per_m(frequency, temperature_celsius=CELSIUS)
    field = ring_field(pair.ring, depth_ratio=ratio, screen=None)
    return 2 * (wire + 1j * VACUUM_PERMEABILITY_H_PER_M * frequency * field)


def _library(coax: CoaxGeometry, frequency: np.ndarray) -> Any:
    import skrf
    from skrf.media import Coaxial

    outside, _ = coax.screen.tube(CELSIUS)
    medium = Coaxial(
        frequency=skrf.Frequency.from_f(frequency, unit="Hz"),
        Dint=coax.conductor.electrical_diameter_m,
        Dout=coax.screen.inside_diameter_m,
        epsilon_r=1.45,
        tan_delta=coax.insulation.loss_tangent,
        sigma=58e6,
        tout=outside - coax.screen.inside_radius_m,
    )
    return medium.gamma * medium.z0_characteristic


def _shortest_ms(run: Callable[[], Any], times: int) -> float:
    took = []
    for _ in range(times):
        began = time.process_time()
        run()
        took.append(time.process_time() - began)
    return 1000 * min(took)


def _peak_mib(run: Callable[[], Any]) -> float:
    tracemalloc.start()
    try:
        run()
        return tracemalloc.get_traced_memory()[1] / 2**20
    finally:
        tracemalloc.stop()


def _away(ours: np.ndarray, other: np.ndarray) -> str:
    return f"{np.abs(ours / other - 1).max():.0e}"


def _row(  # noqa: PLR0917 - one row of the table
    job: str,
    other: str,
    ours: Callable[[], Any],
    theirs: Callable[[], Any],
    agreement: str,
    times: int,
) -> tuple[Any, ...]:
    ours()
    # Few runs of the slow one between many of the fast one: both see the same machine.
    fast = _shortest_ms(ours, times)
    slow = _shortest_ms(theirs, max(2, times // 5))
    fast = min(fast, _shortest_ms(ours, times))
    return (job, other, fast, slow, slow / fast, _peak_mib(ours), _peak_mib(theirs), agreement)


def measure(*, quick: bool) -> Table:
    """Measure each job beside the plain way, and beside scikit-rf where it is installed."""
    times = 5 if quick else 25
    cables = catalogue(40 if quick else 200)
    sweep = np.geomspace(1e5, 1.2e10, 2_000)
    dense = np.geomspace(1e3, 2e10, 10_000)
    audio = np.geomspace(20.0, 1e9, 10_000)
    one = cables[100 if len(cables) > 100 else 20]
    pair = PairGeometry(
        conductor=solid_wire(COPPER, diameter_m=0.51e-3),
        conductors=2,
        spacing_m=1.1 * 0.51e-3,
        insulation=PVC,
        field_fraction=0.7,
        twists_per_m=0.0,
        screen=None,
    )

    def every() -> LineParameters:
        found = coax_parameters(cables, sweep, temperatures_celsius=(CELSIUS,))
        _ = found.loss_db_per_m
        return found

    def single() -> LineParameters:
        found = one.parameters(dense, temperature_celsius=CELSIUS)
        _ = found.gamma
        return found

    def close() -> LineParameters:
        return pair.parameters(audio, temperature_celsius=CELSIUS)

    plain = np.stack([_plain(coax, sweep) for coax in cables])
    rows = [
        _row(
            f"R, L, G, C and loss of {len(cables)} coaxes × 2,000 frequencies",
            "scipy Bessel, series impedance only",
            every,
            lambda: [_plain(coax, sweep) for coax in cables],
            _away(every().series_impedance_ohm_per_m[:, 0], plain),
            times,
        ),
        _row(
            "R, L, G, C and loss of one coax × 10,000 frequencies",
            "scipy Bessel, series impedance only",
            single,
            lambda: _plain(one, dense),
            _away(single().series_impedance_ohm_per_m, _plain(one, dense)),
            times,
        ),
        _row(
            "pair with exact proximity, D/a = 2.2, × 10,000 frequencies",
            "the same harmonics at every frequency",
            close,
            lambda: _plain_pair(pair, audio),
            _away(close().series_impedance_ohm_per_m, _plain_pair(pair, audio)),
            times,
        ),
    ]
    notes = [
        "Memory is the peak of what Python and numpy allocate; every second of the many coaxes has "
        "a centre of copper on steel; agreement is the largest relative difference of the complex "
        "series impedance.",
        "The tables of Bessel ratios are made once per process and are not in these times.",
    ]
    if importlib.util.find_spec("skrf") is None:
        notes.append("scikit-rf is not installed: not measured beside it.")
    else:
        rows.append(
            _row(
                "R, L, G, C and loss of one coax × 10,000 frequencies",
                "scikit-rf, coaxial medium",
                single,
                lambda: _library(one, dense),
                _away(single().series_impedance_ohm_per_m, _library(one, dense)),
                times,
            )
        )
    return Table(
        title="Lines from geometry beside the plain way",
        columns=(
            "job",
            "beside",
            "ours, ms",
            "other, ms",
            "ratio",
            "ours, MiB",
            "other, MiB",
            "agreement",
        ),
        rows=rows,
        notes=tuple(notes),
    )
