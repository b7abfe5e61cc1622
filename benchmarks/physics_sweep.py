"""Many cables at many lengths and frequencies, beside scikit-rf and the plain numpy way.

Part (e) of the measurements of physics: 50 coaxes × 20 lengths × 2,000 frequencies between ports of
75 Ω, γ and Zc given. scikit-rf builds one medium per cable and one network per length.
"""

import importlib.util
import time
import warnings
from typing import Any

import numpy as np

from benchmarks.physics_lines import CELSIUS, catalogue
from benchmarks.table import Table
from reelwright.core.physics.coax_line import coax_parameters
from reelwright.core.physics.line_parameters import LineParameters
from reelwright.core.physics.two_port import line

REFERENCE = 75.0
LENGTHS_M = np.linspace(1.0, 200.0, 20)
LIBRARY = importlib.util.find_spec("skrf") is not None


def measure(*, quick: bool) -> Table:
    """Measure the sweep; quick takes a tenth of the cables for scikit-rf, and counts them often."""
    frequency = np.linspace(1e6, 3e9, 2_000)
    cables = catalogue(50)
    parameters = coax_parameters(cables, frequency, temperatures_celsius=(CELSIUS,))
    _ = parameters.gamma, parameters.impedance_ohm
    job = "50 coaxes × 20 lengths × 2,000 frequencies, S11 and S21"
    ours_ms, ours = _timed(lambda: _ours(parameters), times=3 if quick else 15)
    geometry_ms, _whole = _timed(
        lambda: _ours(coax_parameters(cables, frequency, temperatures_celsius=(CELSIUS,))),
        times=3 if quick else 10,
    )
    plain_ms, plain = _timed(lambda: _plain(parameters), times=2)
    rows: list[tuple[Any, ...]] = [
        (job, "ours", ours_ms, 1.0, f"{_away(ours, plain):.0e} to the plain way"),
        (job, "ours, geometry and all", geometry_ms, geometry_ms / ours_ms, "the same"),
        (job, "cosh and sinh, numpy", plain_ms, plain_ms / ours_ms, "the same"),
    ]
    if LIBRARY:
        few = 5 if quick else 50
        library_ms, library = _timed(lambda: _library(parameters, few), times=1)
        library_ms *= 50 / few
        away = float(np.abs(library - ours[1][:few]).max())
        rows.append((job, "scikit-rf", library_ms, library_ms / ours_ms, f"{away:.0e} to ours"))
    notes = ["One thread, processor time, best of several runs; ratio: to ours without geometry."]
    if not LIBRARY:
        notes.append("scikit-rf is not installed here: its row is left out.")
    return Table(
        title="Sweep of many cables and lengths",
        columns=("job", "way", "time_ms", "ratio", "agreement"),
        rows=rows,
        notes=tuple(notes),
    )


def _ours(parameters: LineParameters) -> tuple[np.ndarray, np.ndarray]:
    run = line(parameters=parameters, length_m=LENGTHS_M[None, :], reference_ohm=REFERENCE)
    return run.s11, run.s21


def _plain(parameters: LineParameters) -> tuple[np.ndarray, np.ndarray]:
    through = parameters.gamma * LENGTHS_M[None, :, None]
    ratio = parameters.impedance_ohm / REFERENCE
    straight, cross = np.cosh(through), np.sinh(through)
    below = 2 * straight + (ratio + 1 / ratio) * cross
    return (ratio - 1 / ratio) * cross / below, 2 / below


def _library(parameters: LineParameters, few: int) -> np.ndarray:
    import skrf
    from skrf.media import DefinedGammaZ0

    axis = skrf.Frequency.from_f(parameters.frequency_hz, unit="Hz")
    through = np.empty((few, LENGTHS_M.size, parameters.frequency_hz.size), dtype=complex)
    for cable in range(few):
        medium = DefinedGammaZ0(
            frequency=axis,
            gamma=parameters.gamma[cable, 0],
            z0=parameters.impedance_ohm[cable, 0],
            z0_port=REFERENCE,
        )
        for place, length in enumerate(LENGTHS_M):
            through[cable, place] = medium.line(length, unit="m").s[:, 1, 0]
    return through


def _away(ours: tuple[np.ndarray, np.ndarray], other: tuple[np.ndarray, np.ndarray]) -> float:
    return float(max(np.abs(a - b).max() for a, b in zip(ours, other, strict=True)))


def _timed(job: Any, *, times: int) -> tuple[float, Any]:
    best = np.inf
    for _ in range(times):
        began = time.process_time()
        answer = job()
        best = min(best, time.process_time() - began)
    return best * 1e3, answer


warnings.filterwarnings("ignore", module="skrf")
