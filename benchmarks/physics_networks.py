"""Cascade, trace and eye, each beside the plain way and, where it is installed, scikit-rf.

(b) 1,000 random sections at 10,000 frequencies, the full two-port; (c) the trace of one cable;
(d) the eye at 1e-12 over 64 phases and 255 neighbours.
"""

import importlib.util
import time
import tracemalloc
import warnings
from collections.abc import Callable
from functools import partial
from math import erfc, sqrt
from typing import Any

import numpy as np

from benchmarks.table import Table
from reelwright.core.physics.layers import layered_line
from reelwright.core.physics.line_parameters import LineParameters, from_series_and_shunt
from reelwright.core.physics.reflectometer import trace
from reelwright.core.physics.sections import sectioned_line
from reelwright.core.physics.statistical_eye import level_at
from reelwright.core.physics.step import TimeGrid, gaussian_edge, step_of_samples
from reelwright.core.physics.two_port import line

REFERENCE = 75.0
CHANCE = 1e-12
SEED = 20
LIBRARY = importlib.util.find_spec("skrf") is not None


def measure(*, quick: bool) -> Table:
    """Measure all three parts; quick takes a tenth of each axis for the slow ways."""
    rows: list[tuple[Any, ...]] = []
    rows += _cascade(quick=quick)
    rows += _trace(quick=quick)
    rows += _eye(quick=quick)
    notes = [
        f"One thread, processor time, best of several runs, seed {SEED}; ratio: to the first way.",
        "Memory: the peak that one run allocates, numpy's included.",
    ]
    if not LIBRARY:
        notes.append("scikit-rf is not installed here: its rows are left out.")
    if quick:
        notes.append(
            "Quick: the slow ways ran on a tenth of the sections, the frequencies and the phases, "
            "and count as often."
        )
    return Table(
        title="Networks: cascade, trace, eye",
        columns=("job", "way", "time_ms", "ratio", "memory_mib", "agreement"),
        rows=rows,
        notes=tuple(notes),
    )


def _coax(frequency: np.ndarray, ratio: float = 1.0) -> LineParameters:
    turning = 2j * np.pi * frequency
    return from_series_and_shunt(
        frequency_hz=frequency,
        series_ohm_per_m=(np.sqrt(0.05**2 + turning * 4e-10) + turning * 0.3e-6) * ratio,
        shunt_siemens_per_m=turning * 54e-12 / ratio,
    )


def _timed(job: Callable[[], Any], *, runs: int) -> tuple[Any, float, float]:
    """The answer, the least processor time [ms] and the peak of memory [MiB] of a job.

    Processor time: on one thread it is the time of a quiet machine, also on a busy one.
    """
    best = np.inf
    for _ in range(runs):
        began = time.process_time()
        answer = job()
        best = min(best, time.process_time() - began)
    tracemalloc.start()
    job()
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return answer, best * 1e3, peak / 2**20


def _cascade(*, quick: bool) -> list[tuple[Any, ...]]:
    frequency = np.linspace(1e6, 3e9, 10_000)
    ratio = 1 + 0.01 * np.random.default_rng(SEED).standard_normal(1000)
    parameters = _coax(frequency)
    _ = parameters.gamma, parameters.impedance_ohm
    ours, ours_ms, ours_mib = _timed(
        lambda: layered_line(
            parameters=parameters,
            section_m=0.05,
            relative_impedance_ratio=ratio,
            reference_ohm=REFERENCE,
        ),
        runs=10,
    )
    worst = max(
        abs(ours.s11[at] - _in_many_digits(parameters, ratio, at)) for at in (0, 3333, 6666, 9999)
    )
    job = "cascade of 1,000 sections, 10,000 frequencies"
    rows: list[tuple[Any, ...]] = [
        (job, "layer polynomials", ours_ms, 1.0, ours_mib, f"{worst:.1e} to forty digits")
    ]
    thin = 10 if quick else 1
    few, ratio = _coax(frequency[::thin]), ratio[: 1000 // thin]
    times = thin * thin
    same = layered_line(
        parameters=few, section_m=0.05, relative_impedance_ratio=ratio, reference_ohm=REFERENCE
    ).s11
    ways: list[tuple[str, Callable[[], Any]]] = [
        ("sections one by one (unequal lengths)", partial(_sections, few, ratio)),
        ("2×2 products, numpy", partial(_products, few, ratio)),
    ]
    if LIBRARY:
        ways.append(("scikit-rf, two-ports and cascade", partial(_library_cascade, few, ratio)))
    for name, way in ways:
        theirs, theirs_ms, theirs_mib = _timed(way, runs=1)
        away = np.abs(theirs - same).max()
        row_ms = theirs_ms * times
        rows.append((job, name, row_ms, row_ms / ours_ms, theirs_mib, f"{away:.1e} to ours"))
    if LIBRARY:
        parts = _library_parts(few, ratio)
        _, alone_ms, alone_mib = _timed(partial(_library_join, parts), runs=1)
        alone_ms *= times
        rows.append(
            (job, "scikit-rf, cascade alone", alone_ms, alone_ms / ours_ms, alone_mib, "the same")
        )
    return rows


def _in_many_digits(parameters: LineParameters, ratio: np.ndarray, at: int) -> complex:
    """S11 by 2×2 products of waves in forty digits, γ and Zc taken as they are."""
    import mpmath

    with mpmath.workdps(40):
        one = mpmath.mpc(complex(parameters.impedance_ohm[at]))
        around = [mpmath.mpf(REFERENCE), *(one * mpmath.mpf(float(each)) for each in ratio)]
        around.append(mpmath.mpf(REFERENCE))
        q = mpmath.exp(-2 * mpmath.mpc(complex(parameters.gamma[at])) * mpmath.mpf(0.05))
        seen = mpmath.mpc(0)
        for place in range(len(around) - 2, -1, -1):
            step = (around[place + 1] - around[place]) / (around[place + 1] + around[place])
            seen = (step + seen) / (1 + step * seen)
            if place:
                seen *= q
        return complex(seen)


def _sections(parameters: LineParameters, ratio: np.ndarray) -> np.ndarray:
    return sectioned_line(
        frequency_hz=parameters.frequency_hz,
        gamma=parameters.gamma,
        impedance_ohm=parameters.impedance_ohm * ratio[:, None],
        length_m=np.full(ratio.size, 0.05),
        reference_ohm=REFERENCE,
    ).s11


def _products(parameters: LineParameters, ratio: np.ndarray) -> np.ndarray:
    through = parameters.gamma * 0.05
    straight, cross = np.cosh(through), np.sinh(through)
    whole = np.broadcast_to(np.eye(2, dtype=complex), (through.size, 2, 2))
    for each in ratio:
        impedance = parameters.impedance_ohm * each
        one = np.empty((through.size, 2, 2), dtype=complex)
        one[:, 0, 0] = one[:, 1, 1] = straight
        one[:, 0, 1], one[:, 1, 0] = impedance * cross, cross / impedance
        whole = whole @ one
    a, b, c, d = (whole[:, row, column] for row in (0, 1) for column in (0, 1))
    b, c = b / REFERENCE, c * REFERENCE
    s11: np.ndarray = (a + b - c - d) / (a + b + c + d)
    return s11


def _library_parts(parameters: LineParameters, ratio: np.ndarray) -> list[Any]:
    import skrf
    from skrf.media import DefinedGammaZ0

    axis = skrf.Frequency.from_f(parameters.frequency_hz, unit="Hz")
    parts = []
    for each in ratio:
        medium = DefinedGammaZ0(
            frequency=axis,
            gamma=parameters.gamma,
            z0=parameters.impedance_ohm * each,
            z0_port=REFERENCE,
        )
        parts.append(medium.line(0.05, unit="m"))
    return parts


def _library_join(parts: list[Any]) -> np.ndarray:
    whole = parts[0]
    for part in parts[1:]:
        whole = whole**part
    s11: np.ndarray = whole.s[:, 0, 0]
    return s11


def _library_cascade(parameters: LineParameters, ratio: np.ndarray) -> np.ndarray:
    return _library_join(_library_parts(parameters, ratio))


def _trace(*, quick: bool) -> list[tuple[Any, ...]]:
    """20 m of 60 Ω cable, 4,096 frequencies of 1 MHz; and the same at whatever is asked."""
    step_hz, count, rise = 1e6, 4096, 1e-9
    frequency = step_hz * np.arange(1, count + 1)

    def reflection(asked_hz: np.ndarray) -> np.ndarray:
        run = line(parameters=_coax(asked_hz, 0.8), length_m=20.0, reference_ohm=REFERENCE)
        return run.s11

    samples = reflection(frequency) * gaussian_edge(frequency, rise_s=rise)
    at_rest = 0.8 / 150.8
    before = 64
    one_window, ours_ms, ours_mib = _timed(
        lambda: step_of_samples(
            samples, at_rest_ratio=at_rest, frequency_step_hz=step_hz, before_count=before
        ),
        runs=50,
    )
    step_s = 1 / (2 * count * step_hz)
    grid = TimeGrid(start_s=-before * step_s, step_s=step_s, sample_count=2048)
    full, full_ms, full_mib = _timed(
        lambda: (
            trace(
                reflection,
                at_rest_reflection=at_rest,
                rise_s=rise,
                grid=grid,
                reference_ohm=REFERENCE,
            ).seen_reflection
        ),
        runs=3 if quick else 20,
    )
    folded = np.abs(one_window[:2048] - full).max()
    job = "trace of 20 m, 1 ns"
    rows: list[tuple[Any, ...]] = [
        (job, "ours, samples of one window", ours_ms, 1.0, ours_mib, f"{folded:.1e} to the next"),
        (job, "ours, line and whole tail", full_ms, full_ms / ours_ms, full_mib, "see the tests"),
    ]
    if LIBRARY:
        import skrf

        network = skrf.Network(
            frequency=skrf.Frequency.from_f(np.append(0.0, frequency), unit="Hz"),
            s=np.append(at_rest, samples)[:, None, None],
            z0=REFERENCE,
        )
        (time_s, theirs), theirs_ms, theirs_mib = _timed(
            lambda: network.step_response(window="boxcar", pad=0), runs=20
        )
        shown = np.interp(grid.time_s, time_s, np.asarray(theirs).reshape(-1))
        flat = (grid.time_s > 5e-9) & (grid.time_s < 150e-9)
        away = np.abs(shown - one_window[:2048])[flat].max()
        rows.append(
            (job, "scikit-rf, same samples", theirs_ms, theirs_ms / ours_ms, theirs_mib,
             f"{away:.1e} to the first")
        )  # fmt: skip
    return rows


def _eye(*, quick: bool) -> list[tuple[Any, ...]]:
    """A tail as of a cable, heights of 0.3/k^1.5 with a spread from phase to phase."""
    chance = np.random.default_rng(SEED)
    others = 0.3 / np.arange(1, 256) ** 1.5 * (1 + 0.2 * chance.random((64, 255)))
    rows: list[tuple[Any, ...]] = []
    for noise in (0.1, 0.05, 0.02):
        job = f"eye at 1e-12, 64 phases, 255 neighbours, noise {noise:g}"
        few = others[:, :16]
        counted = _counted(few[0], noise, float(level_at(CHANCE, others_ratio=few,
                                                         noise_ratio=noise)[0]))  # fmt: skip
        ours, ours_ms, ours_mib = _timed(
            partial(level_at, CHANCE, others_ratio=others, noise_ratio=noise), runs=20
        )
        rows.append(
            (job, "saddle-point contour", ours_ms, 1.0, ours_mib,
             f"rate {abs(counted / CHANCE - 1):.1e} to 2^16 patterns")
        )  # fmt: skip
        phases = 8 if quick else 64
        theirs, theirs_ms, theirs_mib = _timed(
            lambda noise=noise, phases=phases: [_by_density(row, noise) for row in others[:phases]],
            runs=1,
        )
        theirs_ms *= 64 / phases
        away = np.abs(np.array(theirs) / ours[:phases] - 1).max()
        rows.append(
            (job, "density on 2,049 bins, numpy", theirs_ms, theirs_ms / ours_ms, theirs_mib,
             f"level {away:.1e} to ours")
        )  # fmt: skip
    return rows


def _counted(heights: np.ndarray, noise: float, level: float) -> float:
    sums = np.zeros(1)
    for height in heights:
        sums = np.concatenate([sums + height, sums - height])
    return float(np.mean([erfc((level - each) / noise / sqrt(2)) / 2 for each in sums]))


def _by_density(heights: np.ndarray, noise: float) -> float:
    """The level by shifting a density on a grid to both sides for every cursor, as is usual."""
    reach = np.abs(heights).sum() + 8 * noise
    axis = np.linspace(-reach, reach, 2049)
    pitch = axis[1] - axis[0]
    density = np.exp(-((axis / noise) ** 2) / 2)
    density /= density.sum()
    for height in np.abs(heights):
        places = axis / pitch
        left = np.interp(places - height / pitch, places, density, left=0, right=0)
        right = np.interp(places + height / pitch, places, density, left=0, right=0)
        density = (left + right) / 2
    above = np.cumsum(density[::-1])[::-1]
    return float(np.interp(np.log(CHANCE), np.log(np.maximum(above[::-1], 1e-300)), axis[::-1]))


warnings.filterwarnings("ignore", module="skrf")
