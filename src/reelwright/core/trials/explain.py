"""One plain sentence for each proposal: what it is for, what is expected, how safe it is."""

import numpy as np

from reelwright.core.quantities.show import show_chance
from reelwright.core.trials.belief import Belief, believe
from reelwright.core.trials.gain import Aim
from reelwright.core.trials.guess import Peak
from reelwright.core.trials.model import TrialsModel
from reelwright.core.trials.problem import TrialsProblem


def explain_start(problem: TrialsProblem, values: tuple[float, ...]) -> str:
    """Return why the first trial is there; ``values`` are its settings, each in its unit."""
    guessed = [one.guess.setting for one in problem.responses if isinstance(one.guess, Peak)]
    if guessed:
        place = [one.name for one in problem.settings].index(guessed[0])
        setting = problem.settings[place]
        told = f"the first guess for {setting.name} is {setting.show(values[place])}"
        rest = "; everything else in the middle of its range" if len(values) > 1 else ""
        return f"Begin at {problem.show(values)}: {told}{rest}."
    return f"Begin at {problem.show(values)}: the middle of the range, for nothing is known yet."


def explain(model: TrialsModel, values: tuple[float, ...], aim: Aim, belief: Belief) -> str:
    """Return why ``values`` (settings, each in its unit) come next; ``belief`` is of that point."""
    safe = show_chance(float(belief.safe[0]))
    inside = show_chance(float(belief.inside[0]))
    if not belief.names:
        return (
            f"Try {model.problem.show(values)}: nothing was measured yet, and this comes out with "
            f"a chance of {safe}."
        )
    if aim is Aim.CONFIRM:
        why = f"the middle of what is proven so far, not tried yet; in the window with {inside}"
    elif aim is Aim.WIDEN:
        why = f"in the window with a chance of {inside}, and not yet proven to be"
    else:
        worst = int(np.argmin(belief.margins[0]))
        response = belief.names[worst]
        here = float(belief.margins[0, worst])
        tried = believe(model, model.tried).margins
        best = float(tried.min(axis=1).max()) if tried.size else -np.inf
        if here >= 0:
            why = f"every response is expected within its limit, {response} by the least"
        elif here > best + 0.05:
            why = f"{response} is expected nearer to its limit than in any trial so far"
        else:
            why = f"little is known of {response} there, and it may be better than any trial so far"
        why += f"; in the window with a chance of {inside}"
    return f"Try {model.problem.show(values)}: {why}; safe with {safe}{_moved(model, values)}."


def _moved(model: TrialsModel, values: tuple[float, ...]) -> str:
    """Return how the trial differs from the nearest one made, where that is told briefly."""
    trials = model.problem.trials
    if not trials:
        return ""
    spans = model.space.spans
    apart = [
        float(np.linalg.norm((np.array(values) - np.array(trial.values)) / spans))
        for trial in trials
    ]
    nearest = trials[int(np.argmin(apart))]
    changes = [
        f"{one.name} {one.show(abs(new - old))} {'higher' if new > old else 'lower'}"
        for one, new, old in zip(model.problem.settings, values, nearest.values, strict=True)
        if abs(new - old) > one.step / 2
    ]
    if not changes:
        return f"; as trial {nearest.number} again"
    if len(changes) > 2:
        return ""
    return f"; against trial {nearest.number}: {', '.join(changes)}"
