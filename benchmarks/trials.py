"""How many trials until a window is found, and how many of them did harm: four ways, one truth.

The engine is run until it has proven a window and tried its centre. Beside it, on the same
bench: a scrambled Sobol sequence, a Latin hypercube and plain random settings, ten times as often,
none of which looks at what came out. "Found" is the first trial that truly lies in the window.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import median

import numpy as np
from numpy.typing import NDArray

from benchmarks.table import Table
from benchmarks.trials_truths import DEMAND, Truth, branin_truth, hartmann_truth, weld_truth
from reelwright.core.trials.model import fit_model
from reelwright.core.trials.propose import propose
from reelwright.core.trials.record import Trial
from reelwright.core.trials.window import Window, find_window

COLUMNS = (
    "bench", "way", "seeds", "median_found", "worst_found", "not_found", "unsafe_percent",
    "most_unsafe_in_a_run", "runs_over_allowed", "median_proven", "proven_true",
)  # fmt: skip
MOST_LED = 40
MOST_BLIND = 512
_HYPERCUBE = 128
# They cost nothing, and their median moves by half from one twenty seeds to the next.
_BLIND_REPEATS = 10


@dataclass(frozen=True, kw_only=True)
class Run:
    """One search: at which trial it was found and proven, ``None`` where never; what did harm."""

    found: int | None
    unsafe: int
    trials: int
    proven: int | None
    proven_true: bool


def led(truth: Truth, seed: int) -> Run:
    """Search with the engine until a window is proven and its centre tried."""
    dice = np.random.default_rng([seed, 1])
    trials: list[Trial] = []
    found: int | None = None
    unsafe = 0
    for number in range(1, MOST_LED + 1):
        next_trials = propose(fit_model(truth.problem(trials)), count=1, seed=seed * 1000 + number)
        if not next_trials.chosen:
            break
        values = next_trials.chosen[0].values
        unsafe += bool(truth.unsafe(np.array([values]))[0])
        trials.append(truth.make(number, values, dice))
        if found is None and bool(truth.inside(np.array([values]))[0]):
            found = number
        window = find_window(fit_model(truth.problem(trials)), seed=seed)
        if isinstance(window, Window) and window.confirmed:
            true = bool(truth.inside(np.array([window.centre]))[0])
            return Run(found=found, unsafe=unsafe, trials=number, proven=number, proven_true=true)
    return Run(found=found, unsafe=unsafe, trials=len(trials), proven=None, proven_true=False)


def blind(truth: Truth, points: NDArray[np.float64]) -> Run:
    """Try ``points`` of the unit cube, in order, until one of them is in the window."""
    values = truth.problem(()).space.from_cube(points)
    inside = np.flatnonzero(truth.inside(values))
    made = int(inside[0]) + 1 if len(inside) else len(values)
    return Run(
        found=made if len(inside) else None,
        unsafe=int(truth.unsafe(values[:made]).sum()),
        trials=made,
        proven=None,
        proven_true=False,
    )


def _blind_ways(dimensions: int, seed: int) -> Iterator[tuple[str, NDArray[np.float64]]]:
    from scipy.stats import qmc

    yield "Sobol sequence", qmc.Sobol(dimensions, rng=seed).random(MOST_BLIND)
    # Designs of one stated size after each other: a hypercube has no next point.
    cubes = [
        qmc.LatinHypercube(dimensions, rng=seed * 100 + part).random(_HYPERCUBE)
        for part in range(MOST_BLIND // _HYPERCUBE)
    ]
    yield "Latin hypercube", np.vstack(cubes)
    yield "random", np.random.default_rng([seed, 2]).random((MOST_BLIND, dimensions))


def _row(truth: Truth, way: str, runs: Sequence[Run]) -> tuple[object, ...]:
    found = [run.found if run.found is not None else MOST_BLIND + 1 for run in runs]
    proven = [run.proven for run in runs if run.proven is not None]
    return (
        truth.name,
        way,
        len(runs),
        float(median(found)),
        max(found),
        sum(run.found is None for run in runs),
        100 * sum(run.unsafe for run in runs) / sum(run.trials for run in runs),
        max(run.unsafe for run in runs),
        sum(run.unsafe > DEMAND.unsafe_chance * run.trials for run in runs),
        float(median(proven)) if proven else "",
        f"{sum(run.proven_true for run in runs)} of {len(proven)}" if proven else "",
    )


def measure(*, quick: bool) -> Table:
    """Run every way on every bench."""
    seeds = range(4) if quick else range(20)
    benches = [branin_truth(), hartmann_truth(), weld_truth(guided=True)]
    if not quick:
        benches.append(weld_truth(guided=False))
    rows: list[tuple[object, ...]] = []
    for truth in benches:
        rows.append(_row(truth, "engine", [led(truth, seed) for seed in seeds]))
        ways: dict[str, list[Run]] = {}
        for seed in range(len(seeds) * _BLIND_REPEATS):
            for way, points in _blind_ways(len(truth.settings), seed):
                ways.setdefault(way, []).append(blind(truth, points))
        rows += [_row(truth, way, runs) for way, runs in ways.items()]
    return Table(
        title="Trials until a window is found",
        columns=COLUMNS,
        rows=rows,
        notes=(
            "A trial of the engine may harm with a chance of no more than 10 %. Harm: it fails "
            "outright, or the true response is past its limit of safety. unsafe_percent is over "
            "all trials of all seeds, up to the one that found the window (engine: proved it); "
            "runs_over_allowed had more harm than one in ten of their own trials.",
            "The window is where 95 % of parts truly hold every limit: "
            + "; ".join(f"{truth.name} {_share(truth):.1f} %" for truth in benches)
            + " of all settings. Three readings a trial.",
            f"Blind ways stop at {MOST_BLIND} trials, the engine at {MOST_LED}; not found counts "
            f"as {MOST_BLIND + 1}. proven: a window whose centre was tried; proven_true: its "
            "centre truly is in the window (90 % confidence is claimed).",
        ),
    )


def _share(truth: Truth) -> float:
    points = np.random.default_rng(0).random((100_000, len(truth.settings)))
    return 100 * float(truth.inside(truth.problem(()).space.from_cube(points)).mean())
