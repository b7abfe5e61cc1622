"""What the trials so far say everywhere: of each response, each look, and of failing outright."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from statistics import fmean

import numpy as np

from reelwright.core.trials.chances import ChanceProcess, fit_chances
from reelwright.core.trials.problem import TrialsProblem
from reelwright.core.trials.process import Process, Shown, condition, fit
from reelwright.core.trials.record import Trial
from reelwright.core.trials.response import Looks, Response
from reelwright.core.trials.space import FloatArray, SettingSpace


@dataclass(frozen=True, kw_only=True, eq=False)
class ResponseModel:
    """One response: its process, and the centre and scale (in its unit) it was brought to."""

    response: Response
    space: SettingSpace
    process: Process
    centre: float
    scale: float
    degrees: int

    @property
    def noise(self) -> float:
        """The standard deviation of one reading at one setting, in the response's unit."""
        return self.process.noise * self.scale

    def at(self, coordinates: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return mean and standard deviation ``(n,)`` of the response's mean, in its unit."""
        columns = self.response.guess.columns(self.space, coordinates)
        mean, spread = self.process.at(coordinates, columns)
        return self.centre + self.scale * mean, self.scale * spread


@dataclass(frozen=True, kw_only=True, eq=False)
class LooksModel:
    """One look: what the trials say of the chance (1) that a part is ok."""

    looks: Looks
    process: ChanceProcess


@dataclass(frozen=True, kw_only=True, eq=False)
class TrialsModel:
    """All of it. A response or look that was never observed has no model and is in ``unknown``."""

    problem: TrialsProblem
    space: SettingSpace
    responses: tuple[ResponseModel, ...]
    looks: tuple[LooksModel, ...]
    outcome: ChanceProcess
    unknown: tuple[str, ...]

    @property
    def tried(self) -> FloatArray:
        """The coordinates (1) of the trials that did not fail outright, ``(n, n_setting)``."""
        return coordinates_of(self.problem.survived, self.space)

    @property
    def made(self) -> FloatArray:
        """The coordinates (1) of all trials, ``(n, n_setting)``."""
        return coordinates_of(self.problem.trials, self.space)


def coordinates_of(trials: Sequence[Trial], space: SettingSpace) -> FloatArray:
    """Return the coordinates (1) of ``trials``, ``(n, n_setting)``."""
    values = np.array([trial.values for trial in trials], dtype=np.float64)
    return space.to_cube(values.reshape(len(trials), space.dimensions))


def fit_model(problem: TrialsProblem) -> TrialsModel:
    """Return what the trials of ``problem`` say; the same trials always say the same."""
    space = problem.space
    responses, looks, unknown = [], [], []
    for response in problem.responses:
        if any(trial.values_of(response.name) for trial in problem.trials):
            responses.append(_fit_response(problem, response, space))
        else:
            unknown.append(response.name)
    for one in problem.looks:
        seen = [(trial, shown) for trial in problem.trials if (shown := trial.seen_of(one.name))]
        if not seen:
            unknown.append(one.name)
            continue
        looks.append(
            LooksModel(
                looks=one,
                process=fit_chances(
                    coordinates_of([trial for trial, _ in seen], space),
                    np.array([float(shown.good) for _, shown in seen]),
                    np.array([float(shown.seen_count) for _, shown in seen]),
                    # Nothing is claimed of looks before anybody looked.
                    expected_fraction=0.5,
                ),
            )
        )
    outcome = fit_chances(
        coordinates_of(problem.trials, space),
        np.array([float(trial.failure is None) for trial in problem.trials]),
        np.ones(len(problem.trials)),
        expected_fraction=problem.demand.expected_good_fraction,
    )
    return TrialsModel(
        problem=problem,
        space=space,
        responses=tuple(responses),
        looks=tuple(looks),
        outcome=outcome,
        unknown=tuple(unknown),
    )


def _fit_response(problem: TrialsProblem, response: Response, space: SettingSpace) -> ResponseModel:
    trials = [trial for trial in problem.trials if trial.values_of(response.name)]
    readings = [trial.values_of(response.name) for trial in trials]
    means = np.array([fmean(values) for values in readings])
    repeats = problem.repeats_of(response)
    centre = float(means.mean())
    noise = repeats.deviation or 0.0
    # Trials close together differ by little. How far things may go elsewhere, the limits tell: a
    # limit of safety is stated because somebody thinks it can be reached.
    ways = (*response.limits, *response.dangers)
    way = max(abs(limit - centre) for limit, _ in ways) / 2
    scale = max(float(means.std()), way, 2 * noise, 1e-12)
    points = coordinates_of(trials, space)
    shown = Shown(
        points=points,
        means=(means - centre) / scale,
        counts=np.array([float(len(values)) for values in readings]),
        columns=response.guess.columns(space, points),
        within=repeats.sum_of_squares / scale**2,
        degrees=repeats.degrees,
    )
    falls = response.lower_limit is None
    return ResponseModel(
        response=response,
        space=space,
        process=fit(shown, response.guess.expected(space, falls=falls)),
        centre=centre,
        scale=scale,
        degrees=repeats.degrees,
    )


def imagine(model: TrialsModel, coordinates: FloatArray, *, repeats: int) -> TrialsModel:
    """Return the model as if one more trial at ``coordinates`` (1) had come out as expected.

    For the second and third of a batch: what the first will teach is no longer worth asking. The
    parameters stay; ``repeats`` is how many readings the trial is imagined with.
    """
    point = coordinates[None, :]
    responses = []
    for one in model.responses:
        old = one.process
        columns = one.response.guess.columns(model.space, point)
        mean, _ = old.at(point, columns)
        shown = replace(
            old.shown,
            points=np.vstack([old.shown.points, point]),
            means=np.r_[old.shown.means, mean],
            counts=np.r_[old.shown.counts, float(repeats)],
            columns=np.vstack([old.shown.columns, columns]),
        )
        process = condition(
            shown, old.expected, amplitude=old.amplitude, lengths=old.lengths, noise=old.noise
        )
        responses.append(replace(one, process=process))
    return replace(model, responses=tuple(responses))
