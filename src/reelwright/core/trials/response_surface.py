"""A quadratic through designed runs: its fit, its stationary point and what kind that is.

Coded coordinates. y = b₀ + Σ bᵢxᵢ + Σ bᵢᵢxᵢ² + Σ bᵢⱼxᵢxⱼ = b₀ + xᵀb + xᵀBx with B symmetric, half
of each cross term on either side; the stationary point is −½B⁻¹b and the eigenvalues of B say what
it is (NIST/SEMATECH e-Handbook of Statistical Methods, 5.5.3.1).
"""

import enum
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.trials._kernels import chance_of_larger_f
from reelwright.core.trials.regression import Regression, least_squares
from reelwright.core.trials.repeats import pool
from reelwright.core.trials.space import FloatArray


class Order(enum.Enum):
    """How much of the quadratic is fitted."""

    LINEAR = "linear"
    PAIRS = "linear with pairs"
    QUADRATIC = "quadratic"


class Nature(enum.StrEnum):
    """What a stationary point is."""

    MAXIMUM = "maximum"
    MINIMUM = "minimum"
    SADDLE = "saddle"
    RIDGE = "ridge"


def terms(setting_count: int, order: Order) -> tuple[tuple[int, ...], ...]:
    """Return the terms by the places of their settings: (), (0,), …, (0, 1), …, (0, 0), …"""
    found: list[tuple[int, ...]] = [(), *((place,) for place in range(setting_count))]
    if order is not Order.LINEAR:
        found += list(combinations(range(setting_count), 2))
    if order is Order.QUADRATIC:
        found += [(place, place) for place in range(setting_count)]
    return tuple(found)


def _columns(points: FloatArray, chosen: Sequence[tuple[int, ...]]) -> FloatArray:
    return np.stack(
        [np.prod(points[:, list(term)], axis=1) if term else np.ones(len(points))
         for term in chosen], axis=1,
    )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class LackOfFit:
    """Whether the model misses more than repeats scatter: F with its degrees and chance."""

    ratio: float
    degrees: int
    pure_degrees: int
    chance: float


@dataclass(frozen=True, kw_only=True, eq=False)
class Stationary:
    """The point where the surface is level, coded ``(n_setting,)``.

    ``value`` is the response there, in its unit. ``curvatures`` are the eigenvalues of B, largest
    first, with their ``directions`` in columns. ``inside``: within the runs it was fitted to;
    outside, the quadratic is a guess.
    """

    point: FloatArray
    value: float
    curvatures: FloatArray
    directions: FloatArray
    nature: Nature
    inside: bool


@dataclass(frozen=True, kw_only=True, eq=False)
class Surface:
    """A fitted surface: ``points`` coded ``(n_run, n_setting)`` and its regression."""

    points: FloatArray
    values: FloatArray
    terms: tuple[tuple[int, ...], ...]
    regression: Regression

    def coefficient(self, *places: int) -> float:
        """Return the coefficient of the product of the settings at ``places``; none: the level."""
        wanted = tuple(sorted(places))
        if wanted not in self.terms:
            raise BadValue(
                owner="Surface", field="places", value=places, accepted="a term that was fitted"
            )
        return float(self.regression.coefficients[self.terms.index(wanted)])

    def at(self, points: FloatArray) -> FloatArray:
        """Return the surface (unit of the response) at coded ``points`` ``(n, n_setting)``."""
        found = _columns(points, self.terms) @ self.regression.coefficients
        return np.asarray(found, dtype=np.float64)

    @property
    def lack_of_fit(self) -> LackOfFit | None:
        """Return it, or ``None`` where nothing was repeated or nothing is left to judge by."""
        rows = [tuple(row) for row in np.round(self.points, 9)]
        pure = pool(
            [value for row, value in zip(rows, self.values, strict=True) if row == place]
            for place in dict.fromkeys(rows)
        )
        degrees = self.regression.degrees - pure.degrees
        if pure.degrees == 0 or pure.sum_of_squares == 0 or degrees <= 0:
            return None
        missed = max(0.0, self.regression.sum_left - pure.sum_of_squares) / degrees
        ratio = missed / (pure.sum_of_squares / pure.degrees)
        return LackOfFit(
            ratio=ratio,
            degrees=degrees,
            pure_degrees=pure.degrees,
            chance=chance_of_larger_f(ratio=ratio, degrees=degrees, degrees_below=pure.degrees),
        )

    @property
    def slope(self) -> FloatArray:
        """The first-order coefficients b, ``(n_setting,)``."""
        return np.array([self.coefficient(place) for place in range(self.points.shape[1])])

    @property
    def bend(self) -> FloatArray:
        """The symmetric matrix B of the second-order coefficients; zero where none was fitted."""
        size = self.points.shape[1]
        matrix = np.zeros((size, size))
        for term in self.terms:
            if len(term) == 2:
                one, two = term
                share = self.coefficient(one, two) / (1 if one == two else 2)
                matrix[one, two] = matrix[two, one] = share
        return matrix


def fit_surface(points: FloatArray, values: FloatArray, *, order: Order) -> Surface:
    """Fit a surface to ``values`` ``(n_run,)`` at coded ``points`` ``(n_run, n_setting)``.

    Raises BadValue where the runs do not determine it: too few, or no middle and axial runs for
    a quadratic.
    """
    chosen = terms(points.shape[1], order)
    return Surface(
        points=points,
        values=values,
        terms=chosen,
        regression=least_squares(_columns(points, chosen), values),
    )


def stationary(surface: Surface) -> Stationary:
    """Return the stationary point of a quadratic surface; raise BadValue where it has none."""
    curvatures, directions = np.linalg.eigh(surface.bend)
    largest = float(np.abs(curvatures).max())
    if largest == 0 or float(np.abs(curvatures).min()) < 1e-9 * largest:
        raise BadValue(
            owner="stationary",
            field="surface",
            value="level in one direction",
            accepted="a quadratic that bends in every direction",
        )
    point = np.asarray(-0.5 * np.linalg.solve(surface.bend, surface.slope), dtype=np.float64)
    return Stationary(
        point=point,
        value=float(surface.at(point[None, :])[0]),
        curvatures=curvatures[::-1],
        directions=directions[:, ::-1],
        nature=_nature(curvatures, largest),
        inside=bool(
            np.linalg.norm(point) <= np.linalg.norm(surface.points, axis=1).max() * (1 + 1e-9)
        ),
    )


def _nature(curvatures: FloatArray, largest: float) -> Nature:
    # A direction with a thirtieth of the bend of another is level for all that a bench can tell.
    if float(np.abs(curvatures).min()) < largest / 30:
        return Nature.RIDGE
    if bool(np.all(curvatures < 0)):
        return Nature.MAXIMUM
    return Nature.MINIMUM if bool(np.all(curvatures > 0)) else Nature.SADDLE


def steepest_path(surface: Surface, *, step_ratio: float, steps: int, upwards: bool) -> FloatArray:
    """Return coded points ``(steps + 1, n_setting)`` from the middle along the slope.

    ``step_ratio`` is the length of one step in coded units; the first point is the middle.
    e-Handbook 5.5.3.1.1. Raises BadValue for a surface without slope.
    """
    slope = surface.slope
    size = float(np.linalg.norm(slope))
    # Level to the rounding of the fit is level.
    if size <= 1e-12 * float(np.abs(surface.values).max()):
        raise BadValue(
            owner="steepest_path", field="surface", value="level", accepted="a surface with slope"
        )
    along = slope / size * (1 if upwards else -1)
    return np.asarray(np.outer(np.arange(steps + 1) * step_ratio, along), dtype=np.float64)
