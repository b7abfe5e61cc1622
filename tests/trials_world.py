"""A small bench to search a window on: a weld with two settings, and a way to make its trials."""

from collections.abc import Callable, Iterable, Sequence

import numpy as np

from reelwright.core.trials.guess import Guess, Level
from reelwright.core.trials.problem import Demand, TrialsProblem
from reelwright.core.trials.record import Readings, Seen, Trial
from reelwright.core.trials.response import Looks, Response
from reelwright.core.trials.settings import Setting

ENERGY = Setting(name="energy", unit="J", low=180, high=420, step=5, drift=4.0)
PRESSURE = Setting(name="pressure", unit="bar", low=1.5, high=4.0, step=0.1, drift=0.05)
DEMAND = Demand(
    coverage=0.95,
    confidence=0.9,
    unsafe_chance=0.1,
    expected_good_fraction=0.95,
    clear_drifts_ratio=2.0,
)


def pull(
    *, lower: float | None = 223.0, upper: float | None = None, guess: Guess | None = None
) -> Response:
    """Return the strength asked of a weld, in newtons."""
    return Response(
        name="pull",
        unit="N",
        lower_limit=lower,
        upper_limit=upper,
        unsafe_below=None,
        unsafe_above=None,
        guess=guess or Level(),
    )


BURNT = Looks(name="unburnt", least_share=0.6)


def trial(
    number: int,
    values: Sequence[float],
    pulls: Iterable[float] = (),
    *,
    failure: str | None = None,
    seen: Iterable[Seen] = (),
) -> Trial:
    """Return one trial with these pulls."""
    repeats = tuple(pulls)
    return Trial(
        number=number,
        values=tuple(values),
        readings=(Readings(response="pull", values=repeats),) if repeats else (),
        seen=tuple(seen),
        failure=failure,
    )


def problem(*trials: Trial, **changed: object) -> TrialsProblem:
    """Return the two-setting weld with these trials; ``changed`` replaces fields."""
    fields: dict[str, object] = {
        "settings": (ENERGY, PRESSURE),
        "responses": (pull(),),
        "looks": (),
        "trials": trials,
        "demand": DEMAND,
    }
    return TrialsProblem(**(fields | changed))  # type: ignore[arg-type]


def true_pull_n(energy_j: float, pressure_bar: float) -> float:
    """Return the strength of the small world's weld: a hill at 300 J and 2.7 bar, 270 N high."""
    return float(270 - 60 * ((energy_j - 300) / 60) ** 2 - 40 * ((pressure_bar - 2.7) / 0.8) ** 2)


def welded(
    number: int,
    values: Sequence[float],
    dice: np.random.Generator,
    *,
    repeats: int = 3,
    spread_n: float = 6.0,
    truth: Callable[..., float] = true_pull_n,
) -> Trial:
    """Return a trial made on the small world's bench."""
    mean = truth(*values)
    return trial(number, values, mean + spread_n * dice.standard_normal(repeats))
