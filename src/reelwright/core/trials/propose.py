"""The next trial or trials: where the expected gain times the chance of being safe is largest.

Only settings that the machine has are proposed, only where the chance of harm is no more than
stated; and the gain counts by how much of that allowance is left unused,
gain·P(safe)·(1 − P(harm)/allowed), so that risk is taken only for what is worth it. Where a window
is proven whose centre nobody tried yet, that centre comes first: a claim is confirmed before it is
widened. The second and third of a batch are chosen as if those before had come out as expected.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.trials.belief import Belief, believe
from reelwright.core.trials.candidates import candidates
from reelwright.core.trials.explain import explain, explain_start
from reelwright.core.trials.gain import Aim, GainOf
from reelwright.core.trials.guess import Peak
from reelwright.core.trials.model import TrialsModel, imagine
from reelwright.core.trials.problem import TrialsProblem
from reelwright.core.trials.space import FloatArray, SettingSpace
from reelwright.core.trials.window import NoWindow, Window, unconfirmed_centre
from reelwright.core.verdicts import Reason

MOST_AT_ONCE = 3
_REFINEMENTS = 4


@dataclass(frozen=True, kw_only=True)
class Proposal:
    """One trial to make. ``values`` are settings in the problem's order, each in its unit.

    ``expected_gain_score`` (1) orders proposals of one model; ``inside_chance`` and ``safe_chance``
    (1) are what the model believes of it, ``None`` for the first trial, of which nothing is known.
    ``sentence`` says why, for the bench.
    """

    values: tuple[float, ...]
    aim: Aim
    expected_gain_score: float
    inside_chance: float | None
    safe_chance: float
    sentence: str


@dataclass(frozen=True, kw_only=True)
class Proposals:
    """As many trials as were asked for, or fewer, and then ``reason`` says why, else ``None``."""

    chosen: tuple[Proposal, ...]
    reason: Reason | None


def propose(
    model: TrialsModel, *, count: int, seed: int, window: Window | NoWindow | None = None
) -> Proposals:
    """Return the next ``count`` (1 to 3) trials; one ``seed`` always gives the same.

    ``window``: what ``find_window`` says of ``model`` and ``seed``, where it was asked already.

    Raises BadValue for another count. Where no setting is safe enough, none is proposed and the
    reason says which would be nearest to it.
    """
    if isinstance(count, bool) or not 1 <= count <= MOST_AT_ONCE:
        raise BadValue(owner="propose", field="count", value=count, accepted=f"1 to {MOST_AT_ONCE}")
    dice = np.random.default_rng(seed)
    chosen: list[Proposal] = []
    if not model.problem.trials:
        chosen.append(_first(model))
        model = imagine(model, _coordinates(model, chosen[-1]), repeats=_usual_repeats(model))
    elif (centre := unconfirmed_centre(model, seed=seed, window=window)) is not None:
        chosen.append(_of_point(model, centre, Aim.CONFIRM, score=1.0))
        model = imagine(model, centre, repeats=_usual_repeats(model))
    while len(chosen) < count:
        taken = np.array([_coordinates(model, one) for one in chosen])
        best = _best(model, taken.reshape(len(chosen), model.space.dimensions), dice)
        if isinstance(best, Reason):
            return Proposals(chosen=tuple(chosen), reason=best)
        chosen.append(best)
        model = imagine(model, _coordinates(model, best), repeats=_usual_repeats(model))
    return Proposals(chosen=tuple(chosen), reason=None)


def first_point(problem: TrialsProblem) -> tuple[float, ...]:
    """Return where the first trial goes: the physical first guess, else the middle of the range."""
    space = problem.space
    middle = np.full(space.dimensions, 0.5)
    for response in problem.responses:
        guess = response.guess
        if isinstance(guess, Peak):
            place = [one.name for one in problem.settings].index(guess.setting)
            middle[place] = np.clip((guess.best_at - space.lows[place]) / space.spans[place], 0, 1)
    return space.values(space.snap(middle))


def _coordinates(model: TrialsModel, proposal: Proposal) -> FloatArray:
    return np.asarray(model.space.to_cube(np.array([proposal.values]))[0], dtype=np.float64)


def _usual_repeats(model: TrialsModel) -> int:
    sizes = [len(one.values) for trial in model.problem.trials for one in trial.readings]
    return max(1, round(float(np.median(sizes)))) if sizes else 1


def _first(model: TrialsModel) -> Proposal:
    values = first_point(model.problem)
    return Proposal(
        values=values,
        aim=Aim.START,
        expected_gain_score=1.0,
        inside_chance=None,
        safe_chance=model.problem.demand.expected_good_fraction,
        sentence=explain_start(model.problem, values),
    )


def _best(model: TrialsModel, taken: FloatArray, dice: "np.random.Generator") -> Proposal | Reason:
    limit = 1 - model.problem.demand.unsafe_chance
    gain = GainOf(model, dice)
    found = believe(model, _without(candidates(model, dice), taken, model.space))
    if not bool((found.safe >= limit).any()):
        return _nothing_safe(model, found)
    scores = _scores(gain, found, limit)
    place = int(np.argmax(scores))
    point, score = found.points[place], float(scores[place])
    for _ in range(_REFINEMENTS):
        near = _without(model.space.neighbours(point, (1, 2, 5)), taken, model.space)
        if not len(near):
            break
        belief = believe(model, near)
        scores = _scores(gain, belief, limit)
        place = int(np.argmax(scores))
        if scores[place] <= score:
            break
        point, score = near[place], float(scores[place])
    return _of_point(model, point, gain.aim, score=score)


def _of_point(model: TrialsModel, point: FloatArray, aim: Aim, *, score: float) -> Proposal:
    belief = believe(model, point[None, :])
    values = model.space.values(point)
    return Proposal(
        values=values,
        aim=aim,
        expected_gain_score=score,
        inside_chance=float(belief.inside[0]),
        safe_chance=float(belief.safe[0]),
        sentence=explain(model, values, aim, belief),
    )


def _scores(gain: GainOf, belief: Belief, limit: float) -> FloatArray:
    unspent = np.maximum(0.0, 1 - (1 - belief.safe) / (1 - limit))
    scores = gain.at(belief).values * belief.safe * unspent
    return np.asarray(np.where(belief.safe >= limit, scores, -np.inf), dtype=np.float64)


def _without(points: FloatArray, taken: Sequence[FloatArray] | FloatArray,
             space: SettingSpace) -> FloatArray:  # fmt: skip
    if not len(taken):
        return points
    apart = np.abs(points[:, None, :] - np.asarray(taken)[None, :, :]).max(axis=2).min(axis=1)
    return np.asarray(points[apart > 0.5 / float(space.counts.max())], dtype=np.float64)


def _nothing_safe(model: TrialsModel, found: Belief) -> Reason:
    place = int(np.argmax(found.safe))
    allowed = model.problem.demand.unsafe_chance
    return Reason(
        code="nothing safe",
        sentence=(
            f"no setting is safe enough to try: the safest, "
            f"{model.problem.show(model.space.values(found.points[place]))}, harms with a chance "
            f"of {1 - found.safe[place]:.0%}, and {allowed:.0%} is allowed"
        ),
    )
