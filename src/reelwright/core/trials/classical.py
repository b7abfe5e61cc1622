"""Classical designs over the settings of a search, and what made trials say read the same way.

For those who prefer them: the runs of a two-level or central composite design as settings of the
machine, and a straight, paired or quadratic surface through whatever trials there are.
"""

import enum
from dataclasses import dataclass

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.quantities.show import show_chance, show_digits
from reelwright.core.quantities.words import counted
from reelwright.core.trials._kernels import chance_of_larger_t
from reelwright.core.trials.designs import (
    CentralComposite,
    TwoLevel,
    full_factorial,
    rotatable_ratio,
)
from reelwright.core.trials.problem import TrialsProblem
from reelwright.core.trials.regression import Regression
from reelwright.core.trials.response import Response
from reelwright.core.trials.response_surface import Order, Surface, fit_surface, stationary
from reelwright.core.trials.space import FloatArray
from reelwright.core.verdicts import Reason

_GENERATORS = {3: "C=AB", 4: "D=ABC", 5: "E=ABCD"}
_CENTRE_RUNS = 5


class DesignKind(enum.StrEnum):
    """Which classical design."""

    FULL = "full"
    FRACTION = "fraction"
    CENTRAL = "central"


@dataclass(frozen=True, kw_only=True)
class Run:
    """One run: its ``number`` in standard order, its settings, each in its unit."""

    number: int
    values: tuple[float, ...]


@dataclass(frozen=True, kw_only=True)
class Design:
    """The runs in the order to make them in, and ``sentence``: what they can tell and what not."""

    kind: DesignKind
    runs: tuple[Run, ...]
    sentence: str


@dataclass(frozen=True, kw_only=True)
class Term:
    """One term: ``change`` of the response, in ``unit``, from the middle to the end of a range.

    ``error`` is its standard error, ``chance`` (1) how often noise alone would show as much.
    """

    name: str
    unit: str
    change: float
    error: float
    chance: float


@dataclass(frozen=True, kw_only=True)
class SurfaceReading:
    """One response as a surface: what was fitted, its terms, and sentences on what they say."""

    response: str
    order: Order
    level: str
    terms: tuple[Term, ...]
    sentences: tuple[str, ...]


def classical_design(problem: TrialsProblem, kind: DesignKind, *, seed: int) -> Design | Reason:
    """Return the runs of a design between the ends of the settings, or why there is none.

    Two-level runs stand at the ends themselves; a central composite has its axial runs there and
    its corners within, so that it is rotatable. Runs come in a random order, one ``seed`` always
    the same, so that what drifts during the day is not taken for an effect.
    """
    size = problem.space.dimensions
    if kind is DesignKind.FRACTION and size not in _GENERATORS:
        return Reason(
            code="too few settings",
            sentence=(
                f"with {counted(size, 'setting')} there is nothing to leave out: take the full "
                f"design"
            ),
        )
    if kind is DesignKind.CENTRAL and size < 2:
        return Reason(
            code="too few settings", sentence="a central composite design has two settings or more"
        )
    corners = full_factorial(size)
    if kind is DesignKind.FRACTION or (kind is DesignKind.CENTRAL and size == 5):
        corners = TwoLevel(base_count=size - 1, generators=(_GENERATORS[size],))
    coded = corners.points
    told = _told(corners)
    if kind is DesignKind.CENTRAL:
        ratio = rotatable_ratio(corners)
        design = CentralComposite(corners=corners, centre_count=_CENTRE_RUNS, axial_ratio=ratio)
        coded = design.points / ratio
        told = (
            f"Bends of the response are told too; {_CENTRE_RUNS} of the runs repeat the middle and "
            f"show the noise"
        )
    values = [problem.space.values((point + 1) / 2) for point in coded]
    order = np.random.default_rng(seed).permutation(len(values))
    return Design(
        kind=kind,
        runs=tuple(Run(number=int(place) + 1, values=values[place]) for place in order),
        sentence=(
            f"{counted(len(values), 'run')}. {told}. Nobody has judged whether the ends of the "
            f"ranges are safe: look at each run before it is made"
        ),
    )


def _told(corners: TwoLevel) -> str:
    if corners.resolution is None:
        return "Every setting and all settings that act together can be told apart"
    mixed = {"III": "a setting is mixed up with pairs", "IV": "pairs are mixed up with pairs"}
    return (
        f"Half of the full design, resolution {corners.resolution}: "
        f"{mixed.get(corners.resolution, 'settings and pairs can be told apart')}"
    )


def read_surface(problem: TrialsProblem, response: Response) -> SurfaceReading | Reason:
    """Return the fullest surface that the trials determine, or why there is none.

    Every reading counts; coded coordinates run from −1 to +1 over each range.
    """
    points, readings = [], []
    for trial in problem.trials:
        for value in trial.values_of(response.name):
            points.append(trial.values)
            readings.append(value)
    if not points:
        return Reason(code="never observed", sentence=f"{response.name} was never measured")
    coded = 2 * problem.space.to_cube(np.array(points, dtype=np.float64)) - 1
    values = np.array(readings, dtype=np.float64)
    for order in (Order.QUADRATIC, Order.PAIRS, Order.LINEAR):
        surface = _fitted(coded, values, order)
        if surface is not None:
            return _reading(problem, response, surface, order)
    return Reason(
        code="too few trials",
        sentence=(
            f"{response.name} was measured in too few different trials to lay even a straight "
            f"surface over {counted(problem.space.dimensions, 'setting')}"
        ),
    )


def _fitted(coded: FloatArray, values: FloatArray, order: Order) -> Surface | None:
    try:
        surface = fit_surface(coded, values, order=order)
    except BadValue:
        return None
    if surface.regression.degrees < 1 or surface.regression.sum_left <= 0:
        return None
    # Not more terms than there are different settings: repeats say nothing of the shape.
    different = len(np.unique(np.round(coded, 9), axis=0))
    return surface if different >= len(surface.terms) else None


def _reading(
    problem: TrialsProblem, response: Response, surface: Surface, order: Order
) -> SurfaceReading:
    found = surface.regression
    errors = found.standard_errors
    terms = [
        Term(
            name=_name(problem, term),
            unit=response.unit,
            change=float(found.coefficients[place]),
            error=float(errors[place]),
            chance=chance_of_larger_t(
                ratio=float(found.coefficients[place] / errors[place]), degrees=found.degrees
            ),
        )
        for place, term in enumerate(surface.terms)
        if term
    ]
    return SurfaceReading(
        response=response.name,
        order=order,
        level=response.show(surface.coefficient()),
        terms=tuple(sorted(terms, key=lambda one: one.chance)),
        sentences=tuple(_sentences(problem, response, surface, found, order)),
    )


def _name(problem: TrialsProblem, term: tuple[int, ...]) -> str:
    names = [problem.settings[place].name for place in term]
    if len(names) == 2 and names[0] == names[1]:
        return f"{names[0]}²"
    return " × ".join(names)


def _sentences(
    problem: TrialsProblem,
    response: Response,
    surface: Surface,
    found: Regression,
    order: Order,
) -> list[str]:
    told = [
        f"A surface {_WORDS[order]} explains "
        f"{show_chance(max(0.0, found.determination_fraction))} of the scatter of "
        f"{response.name} and leaves {response.show(found.deviation)}"
    ]
    lack = surface.lack_of_fit
    if lack is not None and lack.chance < 0.05:
        told.append(
            f"it misses more than repeats scatter (F {show_digits(lack.ratio)}, by chance "
            f"{show_chance(lack.chance)}): do not trust it"
        )
    if order is Order.QUADRATIC:
        told.append(_stationary(problem, response, surface))
    return told


_WORDS = {
    Order.LINEAR: "straight in every setting",
    Order.PAIRS: "straight in every setting, with pairs",
    Order.QUADRATIC: "with bends and pairs",
}


def _stationary(problem: TrialsProblem, response: Response, surface: Surface) -> str:
    try:
        level = stationary(surface)
    except BadValue:
        return "it is level in one direction, so it has no single top or bottom"
    space = problem.space
    at = space.lows + (level.point + 1) / 2 * space.spans
    where = problem.show(tuple(float(value) for value in at))
    if not level.inside:
        return f"its {level.nature} lies at {where}, outside the trials, and is a guess"
    return f"its {level.nature} lies at {where}: {response.show(level.value)}"
